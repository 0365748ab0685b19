"""`rule-notes`: what a country's rules say of parts of a door that no reading is compared with, in words for a step.

A note in braces is a measure, shown in the units of the answer. Where no rule of the country is known, the note is
common practice and quotes none.
"""

from collections.abc import Mapping

from guide.measures import with_quantities
from guide.trade.answer import Answer, Result
from guide.trade.computation import Computation, Given, Input, Output, given
from guide.trade.inputs import CODES, RULES_INPUT, USUAL_CODE
from guide.trade.rules.rules import GOVERNS

UNITED_STATES = {
    # NFPA 80, definition of a closing device; IBC, as reported in 2021; US Army TM 5-805-8 12c and 12d
    "holder": "Only a listed holder that releases by fusible link or detector may hold it;"
    " the building code mostly wants smoke detection.",
    # NFPA 80 6.4, the same in 1962 and 1968; US Army TM 5-805-8, hinges
    "hinges": "Two hinges serve a leaf {at most 60 in} high, and one more each further {30 in} (NFPA 80 6.4).",
    # 2010 ADA Standards 404.2.8.2
    "spring_hinges": "Alone they must take {at least 1.5 s} from 70 degrees (ADA 404.2.8.2).",
    # 2010 ADA Standards 404.2.5 and its exception; table 404.2.4.1
    "floor": "Threshold {at most 1/2 in} (ADA 404.2.5), existing and bevelled {at most 3/4 in}. Push side, front"
    " approach, with closer and latch, {at least 12 in} clear beside the latch (ADA table 404.2.4.1).",
    # 2010 ADA Standards 404.2.3 and its guide
    "clear": "Open at 90 degrees it must leave {at least 32 in} clear, face to stop; where the opening is deeper than"
    " {24 in}, {at least 36 in} (ADA 404.2.3).",
    # 2010 ADA Standards 307.4, exception
    "head": "From the floor to closers and stops {at least 78 in} (ADA 307.4).",
    # NFPA 80 4.1.3, larger ones from 2016
    "holes": "Round holes of {at most 1 in} for surface hardware may be drilled on site; larger ones only where both"
    " listings allow it (NFPA 80 4.1.3). Anything more is asked of the listing laboratory first.",
    # NFPA 80 5.5.7 of 2013, and later text
    "filling": "NFPA 80 up to 2013 has the first two ways; later editions add listed filler. The listing governs.",
    # IBC 1010.1.3, editions of 2009 to 2021
    "motion": "{At most 30 lbf} sets a door in motion, and {at most 15 lbf} opens it fully (IBC 1010.1.3).",
    # NFPA 80 5.2.3; Centers for Medicare and Medicaid Services, as reported in 2022
    "mending": "In health care that is federally paid, within 60 days.",
    # common practice
    "cold": "Its sheet says from which cold to which heat its oil serves.",
    # 2010 ADA Standards 404.2.9 with its advisory, and IBC 1010.1.3: at the hardware
    "gauge": "Gauge at the handle.",
    # common practice; NFPA 80 asks for any open position
    "tried_from": "From a hand's width, from 90 degrees and from fully open, without a push.",
}
"""Read in public copies and summaries."""
ELSEWHERE = {
    "holder": "Only a holder that lets go on the fire alarm may hold it.",
    "hinges": "Three hinges are usual; a fire door has those that its papers name.",
    "spring_hinges": "Alone they often let the leaf slam.",
    "floor": "A threshold must trip nobody, and there must be room beside the handle.",
    "clear": "Open at 90 degrees it must be as wide as the rules of the building want.",
    "head": "Heads meet what hangs lower than {78 in}.",
    "holes": "Only holes that the door's evidence and the closer's sheet both name may be drilled."
    " Anything more is asked first of the door's maker.",
    "filling": "The door's papers say how it is repaired; its maker says it where they do not.",
    "mending": "As the door's own papers say.",
    "cold": "Its sheet says from which cold to which heat its oil serves.",
    "gauge": "Gauge at the handle.",
    "tried_from": "From a hand's width, from 90 degrees and from fully open, without a push.",
    "motion": "Few people can push a door that takes more than {133 N}.",
}
"""Common practice."""
IN_EUROPE = {
    # EN 1155, read in a guide of 2015
    "holder": "Only a holder that lets go on the fire alarm may hold it (EN 1155).",
    # EN 1154 7.2.2
    "cold": "Between the cold and the heat it is tested in, a closer takes 3 s to 25 s to close (EN 1154 7.2.2).",
}
IN_BRITAIN = {
    # BS 8300-2:2018; Ireland's TGD M of 2010, 1.3.3.2(a)
    "gauge": "Gauge within {60 mm} of the leading edge (BS 8300-2:2018).",
    # Home Office, fire door guidance to the Fire Safety (England) Regulations 2022
    "tried_from": "From about 15 degrees, from 90 degrees and from fully open, without a push.",
}
_NOTES = {
    "us": UNITED_STATES,
    "uk": ELSEWHERE | IN_EUROPE | IN_BRITAIN,
    "eu": ELSEWHERE | IN_EUROPE,
}


def _rule_notes(inputs: Mapping[str, Given]) -> Answer:
    code = given(inputs, "rules", str) or USUAL_CODE
    units = given(inputs, "units", str) or "inch"
    notes = {
        name: with_quantities(note, units) for name, note in _NOTES.get(code, ELSEWHERE).items()
    }
    value: dict[str, Result] = dict(notes)
    return Answer(value, (*notes.values(), f"Rules: {CODES[code]}."), (GOVERNS,))


COMPUTATION = Computation(
    name="rule-notes",
    about="What the country's rules say of holders, hinges, floor, clear width and holes, in words.",
    inputs=(
        RULES_INPUT,
        Input("units", "choice", False, "units of the answer", ("inch", "metric")),
    ),
    output=Output("mapping", tuple(UNITED_STATES)),
    compute=_rule_notes,
    source="2010 ADA Standards; NFPA 80; International Building Code; EN 1155; else common practice",
    example="rules=uk",
)
