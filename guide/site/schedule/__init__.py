"""Door schedules as architects export them, read as the facts that a procedure asks.

A file becomes tables of cells (`csv_table`, `workbook`, `ifc_model`), a table's columns get their meaning from their
headings (`headings`, `columns`) or from a map that somebody saved (`map_file`), and each row becomes a door (`doors`).
Every filled cell ends as a fact, a question or “not understood”, and is shown beside the place where it was found.
"""
