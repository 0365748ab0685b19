"""Body and shoe in each other's column: papers have the two in either order.

With its forearm square to the frame an arm reaches from the pinion toward the latch, so the shoe is always further from
the hinge than the body. On a parallel arm it need not be.
"""

from collections.abc import Iterator

from guide.trade.sheet.parts import OpeningRange, SheetMount
from guide.trade.sheet.sheet import Sheet
from guide.trade.sheet_check.finding import SheetFinding, at_mount, named


def check_order(sheet: Sheet) -> Iterator[SheetFinding]:
    """A finding for every row whose shoe does not lie further along than its body."""
    for mount in sheet.mounts:
        for number, found in enumerate(mount.ranges):
            if not changed_places(mount, found):
                continue
            # Once the body is put right with the number that stood at the shoe, the shoe is left to put right.
            key = "shoe_along" if found.shoe_along == found.body_along else "body_along"
            yield SheetFinding(
                "changed-places",
                at_mount(sheet.mounts, mount, "ranges", number, key),
                f"{named(mount, found)}: the body would be {found.body_along} along and the shoe"
                f" {found.shoe_along}, and this arm reaches from the body toward the latch. Papers have the two"
                " columns in either order; look again at both.",
            )


def changed_places(mount: SheetMount, found: OpeningRange) -> bool:
    """Whether body and shoe of a row have changed places, on a mount where that cannot be."""
    return mount.mount != "parallel" and found.shoe_along <= found.body_along
