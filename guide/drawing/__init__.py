"""Drawings of one opening, made from the same geometry that the computations use.

`plan` and `elevation` make a `scene.Scene`; `text` and `svg` show one. `for_step` is the way in for the
run screen. Nothing here computes where a closer goes: that is `guide.trade`.
"""
