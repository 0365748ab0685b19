"""What was meant where a value was heard wrong: the value that an ear takes for it."""

from guide.measures import Quantity
from guide.procedure.facts import Fact, Value
from guide.run.listening import takes
from guide.words.spoken import Language, Meaning, Unsayable, neighbours


def likely_meant(fact: Fact, heard: Value, system: str, language: Language) -> Value | None:
    """The likeliest value of the fact that is heard as `heard`: fifteen for fifty; None where there is none."""
    if isinstance(heard, str):
        return None
    try:
        near = neighbours(heard, language)
    except Unsayable:
        return None
    refusal = takes(fact, system)
    for value in near:
        if isinstance(value, Quantity | int):
            kind = "measure" if isinstance(value, Quantity) else "count"
            if not refusal(Meaning(kind, value)):
                return value
    return None
