"""The language trainers write, compiled to one graph.

`schema` gives a file its shape, `load` gathers it with what it includes, `declare` reads its facts, `conditions` its
conditions, and `compiler` makes the graph. What is wrong with it is found in `guide/checker`.
"""
