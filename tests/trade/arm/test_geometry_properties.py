"""What must hold of every closer: mirrored doors, energy, reach, and no number that is none."""

import math
from dataclasses import replace

import pytest
from hypothesis import assume, example, given
from hypothesis import strategies as st

from guide.trade.arm.clearance import arm_meets, body_meets_wall, over_centre, rack_ends
from guide.trade.arm.geometry import Arm, Geometry
from guide.trade.arm.moments import handle_force, moments
from guide.trade.arm.spring import Spring, spring_of
from tests.trade.arm.test_geometry_vectors import CLOSERS


def lengths(low: float, high: float) -> st.SearchStrategy[float]:
    return st.floats(low, high, allow_nan=False)


# The whole domain of the inputs of `linkage`.
ANY_CLOSER = st.builds(
    Geometry,
    mount=st.sampled_from(["regular", "top-jamb", "parallel"]),
    pinion_along=lengths(0, 60),
    pinion_out=lengths(0, 12),
    shoe_along=lengths(0, 60),
    shoe_out=lengths(0, 12),
    main_arm=lengths(1, 60),
    forearm=lengths(1, 60),
    thickness=lengths(0, 6),
    edge_offset=lengths(-12, 12),
    face_offset=lengths(-12, 12),
    stop_depth=lengths(0, 12),
    frame_proud=lengths(-6, 6),
)

SHIPPED = st.sampled_from(sorted(CLOSERS))


@given(ANY_CLOSER, st.floats(0, 180))
@example(replace(CLOSERS["parallel to 100"], shoe_along=9.5, main_arm=9, forearm=9), 0.0)
def test_every_number_in_the_domain_is_a_number(geometry: Geometry, deg: float) -> None:
    arm = Arm(geometry)
    lock = arm.lock()
    assert lock is None or 0 < lock.deg <= 360
    at = arm.at(deg)
    if at is None:
        return
    numbers = [*at.pinion, *at.elbow, *at.shoe, at.arm_deg, at.turn_deg, at.ratio]
    assert all(math.isfinite(number) for number in numbers if number is not None)
    assert math.dist(at.elbow, at.pinion) == pytest.approx(geometry.main_arm, abs=1e-6)
    assert math.dist(at.elbow, at.shoe) == pytest.approx(geometry.forearm, abs=1e-6)


@given(SHIPPED, st.floats(0, 100))
def test_the_other_hand_is_the_mirror_image(name: str, deg: float) -> None:
    at = Arm(CLOSERS[name]).at(deg)
    assert at is not None
    other = at.mirrored()
    assert other.mirrored().elbow == at.elbow
    for one, mirror in ((at.elbow, other.elbow), (at.pinion, other.pinion), (at.shoe, other.shoe)):
        assert mirror == (-one[0], one[1])
    assert math.dist(other.elbow, other.pinion) == pytest.approx(9.5)
    assert (other.turn_deg, other.ratio) == (at.turn_deg, at.ratio)
    # The mirrored arm points where its own elbow is, seen from the mirrored leaf or frame.
    leaf = -deg if CLOSERS[name].body_on_door else 0.0
    bearing = math.degrees(
        math.atan2(other.elbow[1] - other.pinion[1], other.elbow[0] - other.pinion[0])
    )
    assert (other.arm_deg - (bearing - leaf) + 180) % 360 - 180 == pytest.approx(0, abs=1e-9)


@given(SHIPPED, st.floats(1, 7), st.floats(10, 100))
def test_without_friction_energy_in_is_energy_out(name: str, size: float, end: float) -> None:
    """The work of the closing moment over the leaf's angle is what the spring took up (Simpson's rule)."""
    frictionless = replace(spring_of(size), efficiency=1.0)
    steps = 400
    degrees = [end * step / steps for step in range(steps + 1)]
    arm = Arm(CLOSERS[name])
    curve = moments(arm, frictionless, degrees)
    assert len(curve) == steps + 1
    weights = [1, *[4, 2] * (steps // 2 - 1), 4, 1]
    done = sum(w * row.closing for w, row in zip(weights, curve, strict=True))
    done *= math.radians(end) / steps / 3
    at = arm.at(end)
    assert at is not None
    assert at.turn_deg is not None
    assert done == pytest.approx(frictionless.work(0, math.radians(at.turn_deg)), rel=1e-5)
    assert [row.opening for row in curve] == [row.closing for row in curve]


@given(SHIPPED, st.integers(1, 7))
def test_friction_takes_the_same_share_everywhere(name: str, size: int) -> None:
    spring = spring_of(size)
    for row in moments(Arm(CLOSERS[name]), spring):
        assert row.closing / row.opening == pytest.approx(spring.efficiency)


@given(st.sampled_from(["regular to 100", "regular to 130", "parallel to 100"]), st.data())
def test_a_longer_forearm_locks_later(name: str, data: st.DataObject) -> None:
    """While the arm is stretched at its lock, any length more lets the leaf open further."""
    more = data.draw(st.floats(0.05, 1))
    short, long = CLOSERS[name], replace(CLOSERS[name], forearm=CLOSERS[name].forearm + more)
    first, second = Arm(short).lock(), Arm(long).lock()
    assert first is not None
    assume(second is not None and second.how == "stretched")
    assert second is not None
    assert second.deg > first.deg


@given(SHIPPED, st.floats(1, 6.5), st.floats(0.6, 1.3))
def test_a_stronger_spring_and_a_nearer_handle_push_harder(
    name: str, size: float, lever: float
) -> None:
    weak = moments(Arm(CLOSERS[name]), spring_of(size))
    strong = moments(Arm(CLOSERS[name]), spring_of(size + 0.5))
    light, heavy = handle_force(weak, lever), handle_force(strong, lever)
    nearer = handle_force(weak, lever - 0.1)
    assert light is not None
    assert heavy is not None
    assert nearer is not None
    assert heavy > light
    assert nearer > light


def test_past_centre_the_spring_opens_the_door() -> None:
    """A parallel arm with its shoe 3 1/2 in short of the pinion: the forearm's line passes the hinge."""
    wrong = replace(CLOSERS["parallel to 100"], shoe_along=6.0, forearm=8.0)
    centre = over_centre(Arm(wrong))
    assert centre is not None
    past = moments(Arm(wrong), Spring(10, 3, 0.6), [centre + 2])[0]
    assert past.closing < past.opening < 0


def test_clearances_of_the_invented_closers() -> None:
    """Worked once by another program from the same rules, to a degree."""
    walls = [("regular to 100", 160), ("regular to 130", 157), ("regular to 180", 144)]
    for name, deg in walls:
        assert body_meets_wall(CLOSERS[name]) == pytest.approx(deg, abs=0.6)
        back = body_meets_wall(CLOSERS[name], wall_back=1.0)
        assert back is not None
        assert back > deg + 12
    assert body_meets_wall(CLOSERS["parallel to 100"]) is None
    assert arm_meets(Arm(CLOSERS["top jamb to 130, stop 1 1/2"])) == pytest.approx(167, abs=0.6)
    assert arm_meets(Arm(CLOSERS["regular to 180"])) == pytest.approx(172.5, abs=0.6)
    assert rack_ends(Arm(CLOSERS["regular to 180"])) is None
    assert rack_ends(Arm(CLOSERS["regular to 180"]), preset_deg=45) == pytest.approx(126, abs=1)
