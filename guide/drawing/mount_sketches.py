"""The three mounts as small sketches from above, to be told apart at a glance; nothing in them is to scale.

The leaf and the frame lie across, the arm stands out toward the side that the closer is on.
"""

REGULAR = """\
             ╱┃
            ╱ ┃
▓▓   ███████  ┃   ▓▓
▓▓▒▒▒▒▒▒▒▒▒▒▒▒▒▒▒▒▓▓"""
TOP_JAMB = """\
▓▓▒▒▒▒▒▒▒▒▒▒▒▒▒▒▒▒▓▓
▓▓   ███████  ┃   ▓▓
            ╲ ┃
             ╲┃"""
PARALLEL = """\
▓▓▒▒▒▒▒▒▒▒▒▒▒▒▒▒▒▒▓▓
▓▓   ███████━━━┓  ▓▓
▓▓      ▪━━━━━━┛  ▓▓"""
SKETCHES = {"regular": REGULAR, "top-jamb": TOP_JAMB, "parallel": PARALLEL}
WIDTH = 20
"""Columns of a sketch."""
_MIRRORED = str.maketrans("╱╲┓┛┏┗", "╲╱┏┗┓┛")
_ASCII = str.maketrans("▓▒█╱╲┃━┓┛┏┗▪", "%=#/\\|-++++o")


def sketch_of(mount: str, *, hinges_right: bool = False, ascii_only: bool = False) -> list[str]:
    """The sketch of a mount (one of `guide.trade.mounts.MOUNTS`), line by line; its hinges at the left, or mirrored."""
    lines = [f"{line:{WIDTH}}" for line in SKETCHES[mount].split("\n")]
    if hinges_right:
        lines = [line[::-1].translate(_MIRRORED) for line in lines]
    return [line.translate(_ASCII) if ascii_only else line for line in lines]
