"""The closed form of the arm against SciPy's root finder, on a thousand random closers and leaves."""

import math
import random
from collections.abc import Iterator

import pytest

from guide.trade.arm.geometry import RESERVE_DEG, Arm, Geometry
from tests.trade.arm.two_links import Links

MOUNTS = ("regular", "top-jamb", "parallel")
SEED = 20_113


def random_geometry(rng: random.Random) -> Geometry:
    """A closer, a leaf and a pivot, wider than any that is made."""
    pinion = rng.uniform(3, 12)
    return Geometry(
        mount=rng.choice(MOUNTS),
        pinion_along=pinion,
        pinion_out=rng.uniform(0.5, 2),
        shoe_along=pinion + rng.uniform(-4, 7),
        shoe_out=rng.uniform(0.25, 6),
        main_arm=rng.uniform(6, 14),
        forearm=rng.uniform(6, 14),
        thickness=rng.uniform(1, 3),
        edge_offset=rng.uniform(-3, 2.5),
        face_offset=rng.uniform(-1, 1.5),
        stop_depth=rng.uniform(0, 3),
        frame_proud=rng.uniform(-0.5, 1),
    )


def links(g: Geometry) -> Links:
    """The same closer in the other solver's terms, built from the raw lengths."""
    push = g.face_offset - g.thickness
    pinion_y = {
        "regular": g.face_offset + g.pinion_out,
        "top-jamb": push - g.stop_depth - g.pinion_out,
        "parallel": push - g.pinion_out,
    }[g.mount]
    shoe_y = g.face_offset + g.frame_proud if g.mount == "regular" else push
    shoe_y += g.shoe_out if g.mount == "regular" else -g.shoe_out
    return Links(
        (g.pinion_along, pinion_y),
        (g.shoe_along, shoe_y),
        g.main_arm,
        g.forearm,
        pinion_moves=g.mount != "top-jamb",
        elbow_left=g.mount != "top-jamb",
    )


def closers(count: int, seed: int) -> Iterator[tuple[Geometry, Links, random.Random]]:
    """`count` random closers that go together on the closed door."""
    rng = random.Random(seed)
    while count:
        geometry = random_geometry(rng)
        if links(geometry).fits(0.0):
            count -= 1
            yield geometry, links(geometry), rng


def apart(one: float, other: float) -> float:
    """Two angles in degrees, whole turns aside."""
    return abs((one - other + 180) % 360 - 180)


def test_elbow_angle_and_ratio_on_800_random_closers() -> None:
    worst = {"elbow": 0.0, "angle": 0.0, "ratio": 0.0}
    counted = 0
    for geometry, other, rng in closers(800, SEED):
        arm = Arm(geometry)
        lock = arm.lock()
        end = 180.0 if lock is None else min(180.0, lock.deg)
        deg = rng.uniform(0, end)
        theta = math.radians(deg)
        at = arm.at(deg)
        assert at is not None
        if end - deg < 0.1 and end < 180:
            continue  # in the lock itself the equations have a double root
        elbow = other.elbow(theta)
        worst["elbow"] = max(worst["elbow"], math.dist(at.elbow, (elbow[0], elbow[1])))
        worst["angle"] = max(worst["angle"], apart(at.arm_deg, math.degrees(other.arm(theta))))
        if lock is None or lock.deg - deg >= RESERVE_DEG:
            counted += 1
            sense = -1.0 if other.rate(0.0) < 0 else 1.0
            rate = sense * other.rate(theta)
            assert at.ratio is not None
            worst["ratio"] = max(worst["ratio"], abs(at.ratio - rate) / max(abs(rate), 0.01))
    assert counted > 480
    assert worst["elbow"] < 1e-9, worst
    assert worst["angle"] < 1e-9, worst
    assert worst["ratio"] < 1e-7, worst


def test_first_lock_on_random_closers() -> None:
    for geometry, other, _ in closers(150, SEED + 1):
        lock, expected = Arm(geometry).lock(), other.lock()
        if expected is None:
            assert lock is None
        else:
            assert lock is not None
            assert lock.deg == pytest.approx(expected, abs=1e-9)


def test_the_turn_is_followed_without_jumps() -> None:
    """The other solver knows the bearing only within a whole turn, so it is followed in small steps."""
    for geometry, other, _ in closers(24, SEED + 2):
        arm = Arm(geometry)
        lock = arm.lock()
        end = 180 if lock is None else min(180, int(lock.deg - 1))
        followed, last = 0.0, other.arm(0.0)
        for deg in range(1, end + 1):
            now = other.arm(math.radians(deg))
            followed += (now - last + math.pi) % (2 * math.pi) - math.pi
            last = now
        at = arm.at(end)
        assert at is not None
        sense = -1.0 if other.rate(0.0) < 0 else 1.0
        assert at.turn_deg == pytest.approx(sense * math.degrees(followed), abs=1e-8)
