"""The language trainers write, compiled to one graph.

`schema` validates a file, `load` reads it with all that it includes, `declarations` reads its facts, `conditions` its
conditions, and `compiler` makes the control-flow graph. `guide/checker` finds what is wrong with a procedure.
"""
