"""The plan says and shows which side, which way round, where the shoe goes; the other hand is its mirror."""

import math
from itertools import product

import pytest

from guide.drawing.for_step import plan_of, scene_for
from guide.drawing.plan import plan
from guide.drawing.scene import Area, Circle, Label, Point, Polyline, Scene, bounds
from guide.drawing.text import render_text
from guide.trade.arm.geometry import Arm
from tests.drawing.doors import BOTH, MOUNTS, school_door


def shapes_of(scene: Scene, role: str) -> list[tuple[Point, ...]]:
    return [
        (one.centre,) if isinstance(one, Circle) else one.points
        for one in scene.shapes
        if isinstance(one, Area | Polyline | Circle) and one.role == role
    ]


@pytest.mark.parametrize(
    ("mount", "knuckles", "side", "hinges", "body", "shoe"),
    [
        ("regular", "left", "pull", "left", "on the leaf", "on the frame head"),
        ("regular", "right", "pull", "right", "on the leaf", "on the frame head"),
        # Walking through to the push side puts the hinges on the other hand.
        ("top-jamb", "left", "push", "right", "on the frame head", "on the leaf"),
        ("parallel", "right", "push", "left", "on the leaf", "under the soffit"),
    ],
)
def test_the_sentence_tells_an_apprentice_where_to_stand_and_what_goes_where(
    mount: str, knuckles: str, side: str, hinges: str, body: str, shoe: str
) -> None:
    says = plan(plan_of(school_door(mount, knuckles)), 0.0).says
    assert f"you stand on the {side} side with the hinges on your {hinges}" in says
    assert f"the body is {body}" in says
    assert f"the shoe is {shoe}" in says


def test_the_valves_point_the_other_way_on_a_parallel_arm() -> None:
    """The body is turned round there so that opening still winds its spring (generic-a's own sheet)."""
    regular = plan(plan_of(school_door("regular", "left")), 0.0)
    parallel = plan(plan_of(school_door("parallel", "right")), 0.0)
    assert "valves toward the hinge on your left" in regular.says
    assert "valves toward the latch on your right" in parallel.says
    for scene, nearer_hinge in ((regular, True), (parallel, False)):
        ((body,), (valves,)) = shapes_of(scene, "body"), shapes_of(scene, "valves")
        middle = sum(x for x, _ in body) / len(body)
        assert all(x < middle for x, _ in valves) == nearer_hinge


@pytest.mark.parametrize(("mount", "knuckles"), [*product(MOUNTS, BOTH)])
@pytest.mark.parametrize("deg", [0.0, 37.0, 90.0])
def test_arm_and_leaf_are_where_the_linkage_has_them(mount: str, knuckles: str, deg: float) -> None:
    of = plan_of(school_door(mount, knuckles))
    at = Arm(of.geometry).at(deg)
    assert at is not None
    scene = plan(of, deg)
    right = (mount == "regular") == (knuckles == "left")
    x_way, y_way = (1 if right else -1), (-1 if mount == "regular" else 1)
    main, fore = (points for points in shapes_of(scene, "arm") if len(points) == 2)
    for (x, y), drawn in (
        (at.pinion, main[0]),
        (at.elbow, main[1]),
        (at.elbow, fore[0]),
        (at.shoe, fore[1]),
    ):
        assert drawn == pytest.approx((x_way * x, y_way * y))
    (leaf,) = shapes_of(scene, "leaf")
    latch_edge = math.dist(leaf[1], (0.0, 0.0))
    assert latch_edge == pytest.approx(math.hypot(36 + 1 / 16, 5 / 16))


@pytest.mark.parametrize("mount", MOUNTS)
def test_the_other_hand_is_the_mirror_image(mount: str) -> None:
    left, right = (plan(plan_of(school_door(mount, hand)), 55.0) for hand in BOTH)
    for role in ("frame", "leaf", "body", "valves", "shoe", "arm", "hinge"):
        mirrored = [tuple((-x, y) for x, y in points) for points in shapes_of(right, role)]
        for one, other in zip(shapes_of(left, role), mirrored, strict=True):
            assert [*map(pytest.approx, other)] == [*one]


def test_a_swung_leaf_keeps_its_place_in_the_picture() -> None:
    door = school_door("regular", "left")
    for columns, rows in ((76, 20), (48, 9)):
        ways = [
            scene_for(door, columns, rows, angle=float(deg), swinging=True) for deg in range(101)
        ]
        assert len({bounds(scene) for scene in ways}) == 1
        heads = {render_text(scene, columns, rows, steady=True)[0] for scene in ways if scene.above}
        assert len(heads) == 1  # the line over the picture is centred on it


def test_every_part_has_its_word() -> None:
    scene = plan(plan_of(school_door("parallel", "left")), 30.0)
    words = {label.texts[0] for label in scene.shapes if isinstance(label, Label)}
    assert {"body on the leaf", "shoe under the soffit", "main arm", "forearm", "valves"} <= words
