"""What is asked to copy a maker's sheet: the words of each field, in the order of the paper.

The fields themselves, their kinds and which may be left out come from the sheet's classes (`codec.fields_of`); this
table has the words, and what follows from another answer so that it need not be asked.
"""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import Any, TypeAlias

from guide.plain.sheet_sides import (
    Sides,
    of_the_body,
    of_the_door,
    only,
    out_or_up_and_down,
    up_and_down,
)
from guide.trade.mounts import BODY_INTO, MOUNTS, SHOE_INTO
from guide.trade.sheet.codec import Field, fields_of
from guide.trade.sheet.parts import (
    CARRIES,
    HELD_IN_A_HOLE,
    NO_PRESET,
    PACKED_KINDS,
    SCREWS,
    Accessory,
    ChartRow,
    Hole,
    OpeningRange,
    PackedScrew,
    Screw,
    SheetArm,
    SheetBody,
    SheetMount,
    SheetShoe,
    SpringSetting,
    end_names,
)
from guide.trade.sheet.sheet import Sheet
from guide.translation import _

Around: TypeAlias = "tuple[Mapping[str, Any], ...]"
"""What is answered so far: of the part that is being copied, then of the part around it, and so on to the sheet."""


def _always(around: Around) -> bool:
    return True


def _not_known(around: Around) -> str | None:
    return None


def _nothing_else(around: Around) -> Mapping[str, Any]:
    return {}


@dataclass(frozen=True, slots=True)
class Words:
    """How one field is asked."""

    ask: str
    """What it is, as a line begins with it; of a list, what is counted."""
    where: str
    """Where on the paper it is found, and what it means, for “?”."""
    inch: str = ""
    """An example, from a sheet in inches."""
    metric: str = ""
    """The same from a metric one; empty if the other serves."""
    entry: str = ""
    """Of a part or a list, what one of them is called."""
    most: int = 60
    """Of a list, the most entries that any paper has."""
    once: bool = False
    """Whether no other entry of the list can have the same."""
    wanted: Callable[[Around], bool] = _always
    """Whether it is asked, after what is answered already."""
    follows: Callable[[Around], str | None] = _not_known
    """Its text if another answer decides it; None if it must be asked."""
    by: Callable[[Around], Mapping[str, Any]] = _nothing_else
    """What is asked otherwise, by what is answered already: fields of these words."""
    sides: Sides | None = None
    """Of a number that is on one side of a line or the other, the sides."""

    def here(self, around: Around) -> "Words":
        """The words for that place."""
        otherwise = self.by(around)
        return replace(self, **otherwise) if otherwise else self


def _in_first_line(table: str, key: str) -> Callable[[Around], bool]:
    """Whether the column is on the paper, by the first line of its table; asked in the first line itself."""

    def wanted(around: Around) -> bool:
        lines = [line for line in around[1][table] if "accessible" not in line]
        return not lines or key in lines[0]

    return wanted


_SPRING_SIZES = _in_first_line("spring_settings", "size")
_SPRING_WIDTHS = _in_first_line("spring_settings", "max_width")


def _spring_width(around: Around) -> bool:
    return "size" not in around[0] and _SPRING_WIDTHS(around)


def _spring_accessible(around: Around) -> bool:
    return not {"size", "max_width"} & around[0].keys()


def _has_sizes(around: Around) -> bool:
    return bool(around[0].get("adjustable") == "yes")


def _not_parallel(around: Around) -> bool:
    return bool(around[1].get("mount") != "parallel")


def _moves(around: Around) -> bool:
    return bool(around[0].get("kind") != "extra-screws")


def _carries(around: Around) -> str | None:
    return CARRIES[around[0]["kind"]]


def _into(around: Around) -> str | None:
    """What the holes of an accessory go into, but for a bracket under a soffit, which may go to the frame's face."""
    part = around[0]
    where = BODY_INTO if part["carries"] == "body" else SHOE_INTO
    mounts = [part["mount"]] if "mount" in part else [one["mount"] for one in around[1]["mounts"]]
    found = {where[one] for one in mounts}
    if len(found) > 1 or (part["kind"] == "bracket" and "soffit" in found):
        return None
    return found.pop()


def _part(around: Around) -> str:
    """What the hole that is copied is in: "body", "shoe", or of an accessory "body plate" or "shoe plate"."""
    owner = around[1]
    if "carries" in owner:
        return f"{owner['carries']} plate"
    return "body" if "pinion_out" in owner else "shoe"


def _ends(around: Around) -> tuple[str, ...]:
    """The names of the body's ends on the paper, the valves' first; none if it has no names."""
    sheet = around[-1]
    body = around[1] if "ends" in around[1] else sheet.get("body", {})
    return end_names(body.get("ends", ""))


def _hole_name(around: Around) -> Mapping[str, Any]:
    body = _part(around).startswith("body")
    return {"inch": "valve end upper" if body else "hinge side"}


_ON_THE_PLATE = " If the paper has it from the line without the plate, allow for how far the plate brings the body."


def _hole_along(around: Around) -> Mapping[str, Any]:
    part = _part(around)
    if not part.startswith("body"):
        sides = of_the_door()
        return {
            "ask": f"Along from the shoe's pivot, {sides.plus} or {sides.minus.removeprefix('toward ')}",
            "where": "From the middle of the shoe, where the arm sits. Say the side in words.",
            "inch": "1 1/4 hinge",
            "metric": "32 hinge",
            "sides": sides,
        }
    ends = _ends(around)
    sides = of_the_body(ends)
    either = f"{sides.plus} or {sides.minus}" if ends else "toward the valves or away from them"
    return {
        "ask": f"Along from the pinion, {either}",
        "where": "From the middle of the shaft that the arm sits on. Say the side in words.",
        "inch": f"4 3/4 {sides.minus if ends else 'away'}",
        "metric": f"70 {sides.minus if ends else 'away'}",
        "sides": sides,
    }


def _hole_down(around: Around) -> Mapping[str, Any]:
    part = _part(around)
    if part == "body":
        line, sides = "pinion line", up_and_down("below the pinion line", "above the pinion line")
        where = "The line along the body through the pinion, midway between upper and lower screws."
    elif part == "body plate":
        line = "body's pinion line as the plate carries it"
        sides = up_and_down("below that line", "above that line")
        where = f"The pinion line of the body where the plate puts it.{_ON_THE_PLATE}"
    else:
        line, sides = "line of the shoe's screws", out_or_up_and_down()
        where = "From the line through the shoe's screws. Under a soffit: toward the leaf, or away from it."
    return {
        "ask": f"Above or below the {line}",
        "where": f"{where} Say the side in words; 0 on the line.",
        "inch": "3/4 above",
        "metric": "18 above",
        "sides": sides,
    }


_HEIGHT = {
    "leaf": ("below", "below", "down", "lower", "under"),
    "frame face": ("above", "above", "up", "over"),
}


def _height(part: str) -> Callable[[Around], Mapping[str, Any]]:
    """How the height of body or shoe is asked on the mount: from its datum, on the side where the part is."""

    def by(around: Around) -> Mapping[str, Any]:
        mount = around[1]
        into = (BODY_INTO if part == "body" else SHOE_INTO)[mount["mount"]]
        if into == "soffit":
            face = "the push face of the leaf"
            where = f"from {face} out to the shoe's pivot, under the head."
            sides = only(f"out from {face}", "out", "outward", "push", "face", "leaf")
            return {
                "ask": f"Shoe, out from {face}",
                "where": _TABLE + where,
                "sides": sides,
                "inch": "3 1/4 in",
                "metric": "83 mm",
            }
        side, *words = _HEIGHT[into]
        datum = mount["datum"]
        line = (
            "pinion line (midway between its upper and lower screws)"
            if part == "body"
            else "line of its screws"
        )
        also = ("leaf", "top", "underside", "stop", "soffit", "shoe", "body")
        return {
            "ask": f"{part.capitalize()}, {side} the {datum}",
            "where": f"{_TABLE}from the {datum} to the {part}'s {line}, {side} it.",
            "sides": only(f"{side} the {datum}", *words, *also),
        }

    return by


def _shift_along(around: Around) -> Mapping[str, Any]:
    return {"sides": of_the_door()}


def _shift_down(around: Around) -> Mapping[str, Any]:
    return {"sides": up_and_down("down", "up"), "inch": "3/4 down", "metric": "20 down"}


def _drop_plate(around: Around) -> bool:
    return bool(around[0].get("kind") == "drop-plate")


def _needed_below(around: Around) -> Mapping[str, Any]:
    part = around[0]
    mounts = [part["mount"]] if "mount" in part else [one["mount"] for one in around[-1]["mounts"]]
    if {BODY_INTO[one] for one in mounts} == {"frame face"}:
        return {"ask": "Needed where the face of the frame's head is lower than"}
    return {}


_DEGREES = re.compile(r"(\d+(?:\.\d+)?)\s*(?:deg\b|degrees?\b|°)", re.ASCII)


def _preset(around: Around) -> str | None:
    """The angle in the sentence on the preset, so that it need not be typed twice; None if it has none or several."""
    found = set(_DEGREES.findall(around[1].get("preset", "")))
    return f"{found.pop()} deg" if len(found) == 1 else None


def _has_preset(around: Around) -> bool:
    return bool(around[1].get("preset", NO_PRESET) != NO_PRESET)


def _of_a_kind_before(around: Around) -> bool:
    """Whether the box has screws of that kind already, of another length."""
    before = around[1].get("packed", ())
    return any(one is not around[0] and one.get("kind") == around[0].get("kind") for one in before)


_OUT = _("In the drawing of the side, ")
_FRONT = _("In the drawing of the front, ")
_TABLE = _("In the table of dimensions of this mount, in the row for this opening angle: ")
_SCREWS_LIST = _("In the list of the screws that come in the box: ")

WORDS: Mapping[type[Any], Mapping[str, Words]] = {
    Sheet: {
        "sheet": Words(
            _("Name of the sheet"),
            _(
                "Your own name for it, as the maker's number in small letters; the file is called so."
            ),
            "back-door-4000",
        ),
        "about": Words(
            _("What closer it is"),
            _(
                "The title of the paper: model, date and number of the edition, and where you keep it."
            ),
            "Model 4000, paper of May 2021, copied for the school.",
        ),
        "units": Words(
            _("Units of the paper"), _("Inches or millimetres, as the drawings have them.")
        ),
        "sizes": Words(
            _("Sizes (EN), weakest to strongest"),
            _(
                "On the title or beside the chart: weakest and strongest, or one number if it is fixed."
            ),
            "1 to 6",
        ),
        "adjustable": Words(
            _("Is the spring set with a screw or a nut"),
            _("Beside the sizes: “adjustable”, or a section on the spring's screw or nut."),
            "yes",
        ),
        "body": Words(
            _("Does the paper give the body's dimensions and holes"),
            _("A drawing of the body alone, with its screw holes."),
            "yes",
            entry=_("Body"),
        ),
        "shoe": Words(
            _("Does the paper give the shoe's holes"),
            _("A drawing of the shoe at the end of the arm, with its screw holes."),
            "yes",
            entry=_("Shoe"),
        ),
        "mounts": Words(
            _("Ways of mounting on the paper"),
            _("Each has a drawing and a table of its own: regular arm, top jamb, parallel arm."),
            "3",
            entry=_("Mount"),
            most=len(MOUNTS),
        ),
        "turns_per_size": Words(
            _("Full turns of the spring's screw or nut for one size"),
            _(
                "In the section on the spring. A table of turns, if there is one, is asked for below."
            ),
            "5",
            wanted=_has_sizes,
        ),
        "factory_size": Words(
            _("Size (EN) as it leaves the factory"),
            _("In the section on the spring, or on the label of the box: “preset to size …”."),
            "3",
        ),
        "spring_settings": Words(
            _("Numbers of turns in the table of spring turns"),
            _(
                "In the section on the spring: turns from the factory's setting by size, by width of the"
                " leaf, and perhaps for accessible doors. Count every number of turns in it."
            ),
            "6",
            entry=_("Spring turns, line"),
            wanted=_has_sizes,
        ),
        "chart": Words(
            _("Widths in the size chart, counted over all mounts"),
            _(
                "The table of leaf widths and sizes. Count every width in it: two lines of four widths each are 8."
            ),
            "4",
            entry=_("Size chart, width"),
        ),
        "screws": Words(
            _("Adjusting screws on the paper"),
            _(
                "In the section on adjusting: the valves, and the spring's screw or nut. Count them."
            ),
            "4",
            entry=_("Adjusting screw"),
            most=len(SCREWS),
        ),
        "through_bolts": Words(
            _("Where the maker wants through-bolts"),
            _("In the notes on fastening, a sentence."),
            "On doors with no reinforcement.",
        ),
        "accessories": Words(
            _("Plates, brackets and packers on the paper"),
            _(
                "The list of parts that are ordered besides: drop plate, soffit plate, brackets, packers."
            ),
            "2",
            entry=_("Accessory"),
        ),
    },
    SpringSetting: {
        "size": Words(
            _("Size (EN)"),
            _("The line's first column, if the table goes by size."),
            "4",
            wanted=_SPRING_SIZES,
        ),
        "max_width": Words(
            _("Widest leaf"),
            _("The line's first column, if the table goes by width of the leaf."),
            "42 in",
            "1100 mm",
            wanted=_spring_width,
        ),
        "accessible": Words(
            _("Is it for an accessible door, that must open with little force"),
            _("A line of its own: “accessible”, “barrier-free” or “reduced opening force”."),
            "yes",
            wanted=_spring_accessible,
        ),
        "turns": Words(
            _(
                "Full turns from the factory's setting, plus or minus as on the paper (stronger is plus)"
            ),
            _("The line's last column; clockwise or not is asked with the screw or nut."),
            "-2 1/2",
        ),
        "mount": Words(
            _("Mount it is for"),
            _(
                "In the heading of the table. Leave it out if one table is for all mounts; then it is not asked again."
            ),
            wanted=_in_first_line("spring_settings", "mount"),
        ),
    },
    SheetBody: {
        "pinion_out": Words(
            _("From the face it is screwed to, to the pinion's axis"),
            _OUT + _("from the door to the middle of the shaft that the arm sits on."),
            "1 1/8 in",
            "29 mm",
        ),
        "valve_end": Words(
            _("From the pinion to the end with the valves"),
            _FRONT
            + _(
                "to the end of the body or its cover. If it has the whole length alone, take the other side off."
            ),
            "3 1/2 in",
            "90 mm",
        ),
        "other_end": Words(
            _("From the pinion to the other end"),
            _FRONT
            + _(
                "to the end of the body or its cover. If it has the whole length alone, take the other side off."
            ),
            "5 1/2 in",
            "140 mm",
        ),
        "projects": Words(
            _("How far it stands out from the face"),
            _OUT + _("with its cover."),
            "2 1/8 in",
            "55 mm",
        ),
        "ends": Words(
            _("What the paper calls the two ends, that with the valves first"),
            _FRONT
            + _("such as “end A” and “end B”; the holes can then be typed “5 1/8 toward A”."),
            "A and B",
        ),
        "height": Words(
            _("Height, from its top to its underside"),
            _FRONT + _("with its cover."),
            "2 1/2 in",
            "60 mm",
        ),
        "thread": Words(
            _("Thread of its machine screws"),
            _("In the list of screws or beside the holes."),
            "1/4-20",
            "M6x1",
        ),
        "holes": Words(
            _("Screw holes in the body"),
            _("In the drawing of the body; count each circle, also those for extra screws."),
            "4",
            entry=_("hole"),
        ),
        "packed": Words(
            _("Kinds of screw in the box for the body"),
            _SCREWS_LIST + _("machine, wood, self-drilling, through-bolt, rivet nut."),
            "2",
            entry=_("screws in the box, kind"),
            most=len(PACKED_KINDS),
        ),
    },
    SheetShoe: {
        "thread": Words(
            _("Thread of its machine screws"),
            _("In the list of screws or beside the holes."),
            "1/4-20",
            "M6x1",
        ),
        "holes": Words(
            _("Screw holes in the shoe"), _("In the drawing of the shoe."), "2", entry=_("hole")
        ),
        "packed": Words(
            _("Kinds of screw in the box for the shoe"),
            _SCREWS_LIST + _("machine, wood, self-drilling, through-bolt, rivet nut."),
            "2",
            entry=_("screws in the box, kind"),
            most=len(PACKED_KINDS),
        ),
    },
    Hole: {
        "name": Words(
            _("Name for it, a few words"),
            _("Your own, by its place; the drawings show it."),
            "valve end upper",
            by=_hole_name,
        ),
        "along": Words(
            _("Along from the pinion or the shoe's pivot"),
            _("From the pinion, or from the shoe's pivot."),
            "4 3/4 in",
            "70 mm",
            by=_hole_along,
        ),
        "down": Words(
            _("Above or below the line of the pinion or of the shoe's screws"),
            _("From the line through the pinion, or through the shoe's screws."),
            "3/4 in",
            "18 mm",
            by=_hole_down,
        ),
        "kind": Words(_("What goes into it"), _("A note beside the hole; usually a screw.")),
    },
    PackedScrew: {
        "kind": Words(
            _("Kind"),
            _SCREWS_LIST
            + _("what it goes into tells the kind. One kind in two lengths is two entries."),
        ),
        "count": Words(
            _("How many are in the box"), _SCREWS_LIST + _("the number of pieces."), "4"
        ),
        "size": Words(
            _("Thread or number"), _SCREWS_LIST + _("before the length."), "No. 14", "M6x1"
        ),
        "length": Words(
            _("Length"),
            _SCREWS_LIST
            + _("the number after the ×. The size of a hole beside it is asked by itself."),
            "2 1/2 in",
            "60 mm",
        ),
        "hole": Words(
            _("Hole for the sleeve or the rivet nut"),
            _("Beside the bolt or nut, or in the drill table."),
            "3/8 in",
            "9 mm",
            wanted=lambda around: around[0].get("kind") in HELD_IN_A_HOLE,
        ),
        "into": Words(
            _("What these go into, beside those of the same kind before"),
            _SCREWS_LIST + _("leaf or door, frame, soffit."),
            wanted=_of_a_kind_before,
        ),
    },
    SheetMount: {
        "mount": Words(
            _("Which it is"),
            _(
                "The heading. Regular arm: body on the leaf, pull side. Top jamb: body on the frame, push"
                " side. Parallel arm: body on the leaf, push side, shoe under the head."
            ),
            once=True,
        ),
        "datum": Words(
            _("From where up and down is measured"),
            _("In the drawing, the line from which the heights start."),
        ),
        "along_from": Words(
            _("From where along the door is measured"),
            _("In the drawing, the line from which the distances along start."),
        ),
        "valves_toward": Words(
            _("Edge that the valves point to"), _("In the drawing, the end with the valves.")
        ),
        "arm_rests": Words(
            _("How the arm lies when the door is closed, a sentence"),
            _("In the steps for fitting the arm."),
            "The forearm stands square to the frame.",
        ),
        "preset": Words(
            _("How the arm is preset before it is joined, a sentence"),
            _("In the steps for fitting the arm: “turn the shaft … before …”."),
            "Turn the pinion 15 degrees, the way opening turns it.",
        ),
        "ranges": Words(
            _("Rows in its table of opening angles"),
            _("The table of dimensions by opening angle. Count its rows."),
            "3",
            entry=_("row"),
        ),
        "arm": Words(
            _("Does the paper give the arm's lengths"),
            _("In the drawing of the arm, or in the list of parts."),
            "yes",
            entry=_("arm"),
        ),
    },
    SheetArm: {
        "main": Words(
            _("Main arm, from pinion to elbow"),
            _("Between the centres."),
            "9 1/2 in",
            "241 mm",
        ),
        "forearm": Words(
            _("Forearm, from elbow to shoe, shortest to longest"),
            _("Between the centres; one length if it does not adjust."),
            "8 in to 12 1/4 in",
            "200 mm to 310 mm",
        ),
        "rests": Words(
            _("How it rests with the door closed"),
            _(
                "In the drawing from above. Regular arm and top jamb usually the first way, parallel the second."
            ),
        ),
        "shoe_out": Words(
            _("From the face under the shoe to the shoe's pivot"),
            _(
                "In the drawing from above. Without it, it is worked out from the rows that have a forearm."
            ),
            "3/4 in",
            "19 mm",
            wanted=_not_parallel,
        ),
        "preset_turn": Words(
            _("Angle that the pinion is turned before the arm goes on"),
            _("In the steps for fitting the arm; nothing if there is no preset."),
            "15 deg",
            wanted=_has_preset,
            follows=_preset,
        ),
    },
    OpeningRange: {
        "up_to": Words(_("Opens up to"), _TABLE + _("its largest angle."), "100 deg"),
        "body_along": Words(
            _("Body, along the door"),
            _TABLE + _("from the line along to the pinion."),
            "7 1/2 in",
            "189 mm",
        ),
        "body_datum": Words(
            _("Body, from the datum"),
            _TABLE + _("from the line up and down to the body's pinion line."),
            "1 1/2 in",
            "40 mm",
            by=_height("body"),
        ),
        "shoe_along": Words(
            _("Shoe, along the door"),
            _TABLE + _("from the line along to the shoe's pivot."),
            "13 in",
            "329 mm",
        ),
        "shoe_datum": Words(
            _("Shoe, from the datum or the push face"),
            _TABLE + _("from the line up and down to the shoe's screws, or out from the leaf."),
            "3/4 in",
            "20 mm",
            by=_height("shoe"),
        ),
        "forearm": Words(
            _("Forearm as set"),
            _TABLE + _("elbow to shoe, if the paper has it."),
            "8 1/8 in",
            "206 mm",
        ),
    },
    Screw: {
        "name": Words(
            _("Which it is"),
            _(
                "In the section on adjusting. “Closing speed” or “main speed” is the sweep, “latching action” the"
                " latch, “cushion” the backcheck, “power” the spring."
            ),
            once=True,
        ),
        "where": Words(
            _("Where it is on the body"), _("In the drawing of the body."), "valve end of the body"
        ),
        "slower": Words(
            _("Turn that makes it slower or firmer, or the spring weaker"),
            _("An arrow at the screw. If the paper does not say, read the label."),
        ),
        "turns": Words(_("Full turns from end to end"), _("Beside the screw."), "4"),
        "has_stop": Words(
            _("Does it stop before it comes out"), _("A warning beside the screw."), "yes"
        ),
    },
    ChartRow: {
        "max_width": Words(
            _("Widest leaf"), _("One width of the chart, this much included."), "42 in", "1100 mm"
        ),
        "size": Words(_("Size (EN)"), _("The size that the chart gives this width."), "4"),
        "mount": Words(
            _("Mount it is for"),
            _(
                "In the heading of the chart. Leave it out if it is for all mounts; then it is not asked again."
            ),
            wanted=_in_first_line("chart", "mount"),
        ),
    },
    Accessory: {
        "name": Words(_("Name"), _("In the list of accessories."), "drop plate"),
        "kind": Words(
            _("Kind"),
            _(
                "A drop plate brings the body down; a soffit plate is for a narrow head; a bracket carries"
                " the shoe past a bar; a packer brings the shoe level."
            ),
        ),
        "mount": Words(_("Mount it goes with"), _("Beside its name, or in its drawing.")),
        "carries": Words(_("What it carries"), _("In its drawing."), follows=_carries),
        "into": Words(_("What its own holes go into"), _("In its drawing."), follows=_into),
        "when": Words(
            _("When it is wanted, a sentence"),
            _("Beside its name."),
            "Where the top rail is lower than 3 in.",
            "Where the top rail is lower than 90 mm.",
        ),
        "needed_below": Words(
            _("Needed where the top rail is lower than"),
            _(
                "Beside its name, such as “for a top rail under …”. Leave it out if the paper has no number: then the"
                " fitter is asked at each door whether the plate goes on."
            ),
            "3 in",
            "90 mm",
            wanted=_drop_plate,
            by=_needed_below,
        ),
        "needed_with_glass": Words(
            _("Is it needed where glass is behind the body"),
            _("Beside its name. Leave it out if the paper says nothing of glass."),
            "yes",
            wanted=_drop_plate,
        ),
        "shift_along": Words(
            _("How far it brings the part along the door"),
            _("In its drawing, from where the part is without it. Say toward which edge."),
            "1/2 in",
            "12 mm",
            wanted=_moves,
            by=_shift_along,
        ),
        "shift_down": Words(
            _("How far it brings the part down or up (lowers or raises it)"),
            _(
                "In its drawing, from where the part is without it; under a soffit down is away from the leaf."
            ),
            "3/4 in",
            "20 mm",
            wanted=_moves,
            by=_shift_down,
        ),
        "thickness": Words(
            _("How far it brings the part off the face"),
            _("In its drawing, its thickness."),
            "1/4 in",
            "6 mm",
            wanted=_moves,
        ),
        "thread": Words(
            _("Thread of its own screws"), _("In the list of screws."), "1/4-20", "M6x1"
        ),
        "holes": Words(
            _("Its own screw holes"),
            _("In its drawing; not those for the part that it carries."),
            "4",
            entry=_("hole"),
            wanted=lambda around: around[0].get("kind") != "packer",
        ),
    },
}
"""Class and field, in the order in which a paper has them."""


_ASKED: dict[type[Any], tuple[tuple[Field, Words], ...]] = {}


def asked(owner: type[Any]) -> tuple[tuple[Field, Words], ...]:
    """The fields of a class in the order of the paper, with their words. KeyError if one has none."""
    if owner not in _ASKED:
        words = WORDS[owner]
        order = {key: place for place, key in enumerate(words)}
        fields = sorted(fields_of(owner), key=lambda field: order[field.key])
        _ASKED[owner] = tuple((field, words[field.key]) for field in fields)
    return _ASKED[owner]
