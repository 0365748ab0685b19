"""The one number for the form of all that is stored of a procedure, a sheet or a run; and the program's version."""

STORED_FORM = 10
"""Raise it by 1 with every change to what is stored, but for a key that may be left out or a kind of event that older
runs have not got: a key or word of a compiled graph or of a sheet (`to_json`), the
kind or body of an event (`guide/run/events.py`), a line of the log
(`guide/run/log/form.py`). Entries of the cache are then made again. A run of another form is left untouched and named
as made by another version: there is no migration."""

VERSION = "0.1.0"
"""Of the program, which a run names too. The package metadata are made from this; to read them is dear at a start."""
