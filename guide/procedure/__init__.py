"""The language trainers write: read, checked, and compiled to one graph.

`library` finds files, `marks` reads YAML as marked text, `schema` gives it shape, `load` gathers a
file with what it includes, `compiler` makes the graph, `checker` says what is wrong with it, and
`cache` keeps compiled graphs so that a run starts without parsing.
"""
