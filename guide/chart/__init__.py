"""A procedure as a chart: one set of boxes and arrows, written as Mermaid, Graphviz DOT or SVG."""

from guide.chart.dot import dot
from guide.chart.mermaid import mermaid
from guide.chart.picture import Arrow, Box, Picture, picture_of
from guide.chart.svg import svg

WRITERS = {"mermaid": mermaid, "dot": dot, "svg": svg}
"""The function that writes a chart, by the name of the format."""

__all__ = ["WRITERS", "Arrow", "Box", "Picture", "picture_of"]
