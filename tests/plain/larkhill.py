"""An invented paper and what somebody types who has only the paper: the lines, in the order in which they are asked."""

PAPER = """\
INSTALLATION SHEET 7-3, CLOSER LARKHILL 30 (invented). All dimensions in inches.
Adjustable spring, sizes 2 to 5, set to 3.
BODY: the pinion 5 3/4 from end A (valves), 3 1/2 from end B (spring nut), 1 1/8 out; 2 1/4 off the door, 2 3/8 high.
End A holes: 5 1/8 from the pinion toward end A, one 3/4 above the pinion line, one 3/4 below.
End B holes: 2 7/8 toward end B, likewise.
SHOE: 2 holes, 1 1/4 each side of its centre.
BOX: body 4 machine 1/4-20 x 1, 4 wood No. 14 x 1 1/2, bolts 1/4-20 x 2 with 3/8 sleeves; shoe 2 machine 1/4-20 x 3/4,
  2 wood No. 14 x 1 1/2.
REGULAR ARM, from the top of the leaf, valves toward the latch, forearm square to the frame.
  100 deg: L 7 1/2, body 1 1/2 below, S 12 7/8, shoe 3/4 above, forearm 8 1/8.
  140 deg: 6 3/4, 1 1/2, 11 1/2, 3/4, 8 5/8.
PARALLEL ARM, from the underside of the stop, valves toward the hinge, main arm along the closed door,
  pinion turned 45 deg.
  100 deg: L 9 1/2, body 2 below, S 9 1/2, shoe 3 1/4 out, forearm 9 3/4.
  140 deg: 8, 2, 8, 3 1/4, 9 3/4.
Main arm 9 1/2; forearm 8 to 12 1/4 (regular), 9 3/4 (parallel).
SPRING: 4 turns a size, 12 in all; size 2: -4, 3: 0, 4: +4, 5: +8.
SIZE BY WIDTH: regular 33 37 43 49; parallel 29 33 37 43.
VALVES: sweep, latch, backcheck, at end A, clockwise slower, 3 turns, each has a stop.
DROP PLATE 30-D (regular; for a top rail under 3 1/2 or glass behind the body): 1/4 thick, lowers the body 3/4.
  Holes: 4 1/4 toward end A and 2 toward end B; each 1 3/4 and 7/8 above the body line.
"""

HEAD = ["Larkhill 30, sheet 7-3, an invented closer.", "inch", "2 to 5", "yes"]
BODY_SIZES = ["yes", "1 1/8", "5 3/4", "3 1/2", "2 1/4", "A and B", "2 3/8", "1/4-20"]
END_A = [
    *("A upper", "5 1/8 toward A", "3/4 above", ""),
    *("A lower", "5 1/8 toward end A", "3/4 below the pinion line", ""),
]
END_B = [
    *("B upper", "2 7/8 toward B", "above 3/4", ""),
    *("B lower", "2 7/8", "2", "3/4", "below", ""),
]
BODY_SCREWS = [
    *("3", "1", "4", "1/4-20", "1"),
    *("wood", "4", "No. 14", "1 1/2"),
    *("bolt", "", "1/4-20", "2", "3/8"),
]
BODY = [*BODY_SIZES, "4", *END_A, *END_B, *BODY_SCREWS]
SHOE = [
    *("yes", "1/4-20", "2"),
    *("hinge side", "1 1/4 hinge", "0", ""),
    *("latch side", "1 1/4 toward the latch", "0", ""),
    *("2", "machine", "2", "1/4-20", "3/4", "wood", "2", "No. 14", "1 1/2"),
]
REGULAR = [
    *("regular", "top of the leaf", "hinge edge", "latch"),
    *("Forearm square to the frame, door closed.", ""),
    *("2", "100", "7 1/2", "1 1/2 below", "12 7/8", "3/4 above", "8 1/8"),
    *("140", "6 3/4", "1 1/2", "11 1/2", "+3/4", "8 5/8"),
    *("yes", "9 1/2", "8 to 12 1/4", "1", ""),
]
PARALLEL = [
    *("parallel", "underside of the stop", "hinge edge", "hinge"),
    "Main arm lies along the closed door.",
    "Before the main arm goes on, turn the pinion 45 deg the way opening the door turns it.",
    *("2", "100", "9 1/2", "2 below", "9 1/2", "3 1/4 out", "9 3/4"),
    *("140", "8", "2", "8", "3 1/4", "9 3/4"),
    *("yes", "9 1/2", "9 3/4", "2"),
]
SPRING = ["4", "3", "4", "2", "-4", "", "3", "0", "4", "+4", "5", "+8"]
CHART = [
    "8",
    *(
        line
        for mount, widths in (("regular", (33, 37, 43, 49)), ("parallel", (29, 33, 37, 43)))
        for size, width in enumerate(widths, start=2)
        for line in (str(width), str(size), mount)
    ),
]
VALVES = [
    "4",
    *(
        line
        for name in ("sweep", "latch", "backcheck")
        for line in (name, "end A", "clockwise", "3", "yes")
    ),
    *("spring", "end B, a nut", "read the label", "12", ""),
]
PLATE = [
    *("1", "drop plate 30-D", "drop-plate", "regular"),
    "For a top rail under 3 1/2 or glass behind the body.",
    *("3 1/2", "yes", "", "3/4 down", "1/4", ""),
]
PLATE_HOLES = [
    "4",
    *("A upper", "4 1/4 toward A", "1 3/4 above", ""),
    *("A lower", "4 1/4 toward A", "7/8 above", ""),
    *("B upper", "2 toward B", "1 3/4 above", ""),
    *("B lower", "2 toward B", "7/8 above", ""),
]
LINES = [
    *(*HEAD, *BODY, *SHOE, "2", *REGULAR, *PARALLEL, *SPRING, *CHART, *VALVES, "", *PLATE),
    *PLATE_HOLES,
]
"""The name of the sheet, larkhill, is on the command line."""
