"""The number and place of a door, given in one line."""

ASKS = "Door number, and its place after a comma?"
EXAMPLE = "For the record, such as: 114, bakery back door. It may be left empty."


def named(line: str) -> dict[str, str]:
    """`door` and `place` of a line such as `114, bakery back door`; without a comma all of it is the door."""
    door, _, place = line.partition(",")
    return {"door": " ".join(door.split()), "place": " ".join(place.split())}
