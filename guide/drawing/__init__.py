"""Drawings of one opening, made from the same geometry that the computations use.

`plan` and `elevation` make a `scene.Scene`; `text` and `svg` render one. Callers start at `for_step`.
Nothing here calculates where a closer goes: that is `guide.trade`.
"""
