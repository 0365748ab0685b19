"""Rules of a closer's sheet."""

from typing import ClassVar

from guide.procedure.checker.manual import Rule
from guide.procedure.findings import ERROR


class SheetWrong(Rule):
    """A sheet says something that cannot be so.

    Its numbers put the holes; rows out of order or a size no closer has mean that it was copied wrongly.

    Do: hold the line against the maker's own sheet.

    Fails:

        sheet: harbour
        about: Invented, for practice.
        units: inch
        sizes: 1 to 6
        adjustable: yes
        mounts:
          - mount: regular
            along_from: hinge edge
            datum: top of the leaf
            valves_toward: hinge
            arm_rests: square to the frame
            ranges:
              - {up_to: 120 deg, body_along: 6 in, body_datum: 2 in, shoe_along: 12 in, shoe_datum: 1 in}
              - {up_to: 100 deg, body_along: 5 in, body_datum: 2 in, shoe_along: 11 in, shoe_datum: 1 in}

    Passes:

        sheet: harbour
        about: Invented, for practice.
        units: inch
        sizes: 1 to 6
        adjustable: yes
        mounts:
          - mount: regular
            along_from: hinge edge
            datum: top of the leaf
            valves_toward: hinge
            arm_rests: square to the frame
            ranges:
              - {up_to: 100 deg, body_along: 6 in, body_datum: 2 in, shoe_along: 12 in, shoe_datum: 1 in}
              - {up_to: 120 deg, body_along: 5 in, body_datum: 2 in, shoe_along: 11 in, shoe_datum: 1 in}
    """

    code: ClassVar[str] = "sheet-wrong"
    level: ClassVar[str] = ERROR


class TurnsWrong(Rule):
    """A number of turns cannot be read.

    Past a spring's or a valve's last turn it breaks or sprays oil, so the number must be plain.

    Do: write 4, 2.5 or 2 1/2.

    Fails:

        sheet: harbour
        about: Invented, for practice.
        units: inch
        sizes: 1 to 6
        adjustable: yes
        turns_per_size: 21/2   # here
        mounts:
          - mount: regular
            along_from: hinge edge
            datum: top of the leaf
            valves_toward: hinge
            arm_rests: square to the frame
            ranges:
              - {up_to: 120 deg, body_along: 6 in, body_datum: 2 in, shoe_along: 12 in, shoe_datum: 1 in}

    Passes:

        sheet: harbour
        about: Invented, for practice.
        units: inch
        sizes: 1 to 6
        adjustable: yes
        turns_per_size: 2 1/2
        mounts:
          - mount: regular
            along_from: hinge edge
            datum: top of the leaf
            valves_toward: hinge
            arm_rests: square to the frame
            ranges:
              - {up_to: 120 deg, body_along: 6 in, body_datum: 2 in, shoe_along: 12 in, shoe_datum: 1 in}
    """

    code: ClassVar[str] = "turns-wrong"
    level: ClassVar[str] = ERROR


class SheetGeometry(Rule):
    """A sheet's numbers do not make a closer that works.

    The arm cannot be joined or does not reach, a hole lies off the part or the leaf, a pattern does not turn
    over for the other hand, or the power falls away: most often a digit was dropped or two were swapped. The
    finding stands at the number most likely mistyped.

    Do: hold that number against the maker's own sheet.

    Fails:

        sheet: harbour
        about: Invented, for practice.
        units: inch
        sizes: 1 to 6
        adjustable: yes
        body:
          pinion_out: 1 1/8 in
          valve_end: 3 1/2 in
          other_end: 5 1/2 in
          projects: 2 1/8 in
          height: 1 1/2 in
          thread: 1/4-20
          holes:
            - {name: valve end, along: 2 3/4 in, down: 0 in}
            - {name: far end, along: -54 3/4 in, down: 0 in}   # here
        mounts:
          - mount: regular
            along_from: hinge pin centre
            datum: top of the leaf
            valves_toward: hinge
            arm_rests: square to the frame
            ranges:
              - {up_to: 100 deg, body_along: 7 1/2 in, body_datum: 1 1/2 in, shoe_along: 13 in, shoe_datum: 3/4 in}

    Passes:

        sheet: harbour
        about: Invented, for practice.
        units: inch
        sizes: 1 to 6
        adjustable: yes
        body:
          pinion_out: 1 1/8 in
          valve_end: 3 1/2 in
          other_end: 5 1/2 in
          projects: 2 1/8 in
          height: 1 1/2 in
          thread: 1/4-20
          holes:
            - {name: valve end, along: 2 3/4 in, down: 0 in}
            - {name: far end, along: -4 3/4 in, down: 0 in}
        mounts:
          - mount: regular
            along_from: hinge pin centre
            datum: top of the leaf
            valves_toward: hinge
            arm_rests: square to the frame
            ranges:
              - {up_to: 100 deg, body_along: 7 1/2 in, body_datum: 1 1/2 in, shoe_along: 13 in, shoe_datum: 3/4 in}
    """

    code: ClassVar[str] = "sheet-geometry"
    level: ClassVar[str] = ERROR


RULES = (SheetGeometry, SheetWrong, TurnsWrong)
