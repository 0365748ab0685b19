"""The hazards that a file declares, and the hazards that its blocks name."""

from collections.abc import Iterable, Mapping

from guide.files.source import Path_, Source
from guide.procedure import schema
from guide.procedure.braces import check_quantities
from guide.procedure.hazards import USUAL, Hazard, declared
from guide.text import LIMIT, has_limit, meant, names_in, short


def take_hazards(
    found: dict[str, Hazard],
    places: dict[str, tuple[Source, Path_]],
    source: Source,
    shapes: Mapping[str, schema.HazardShape],
) -> None:
    """Take a file's hazards over; what is wrong with one is noted in place."""
    for name, shape in shapes.items():
        path: Path_ = ("hazards", name)
        first, first_path = places.setdefault(name, (source, path))
        if name in USUAL:
            message = f"“{name}” is a hazard known everywhere; give yours another name."
            source.fault(path, "name-reserved", message, key=True)
        elif (first, first_path) != (source, path):
            line = first.mark(first_path, key=True)[0]
            message = f"“{name}” is already declared in {first.shown} on line {line}; keep one."
            source.fault(path, "hazard-twice", message, key=True)
        else:
            found[name] = declared(_cautions(source, shape, path))


def _cautions(source: Source, shape: schema.HazardShape, path: Path_) -> Iterable[tuple[str, str]]:
    for number, caution in enumerate(shape.caution):
        for word, text in caution.model_dump(exclude_none=True).items():
            check_quantities(source, text, (*path, "caution", number, word))
            for name in [*names_in(text), *([LIMIT] if has_limit(text) else [])]:
                message = f"“{{{short(name)}}}” is not filled in here; write the words themselves."
                source.fault((*path, "caution", number, word), "brace-stray", message)
            yield word, text


def need_hazards(
    source: Source, known: Mapping[str, Hazard], names: Iterable[str], path: Path_
) -> None:
    """Note each hazard of a block that is not declared."""
    for number, name in enumerate(names):
        if name not in USUAL and name not in known:
            every = [*USUAL, *known]
            hint = meant(
                name, every, f"name one of {', '.join(every)}, or declare it under hazards."
            )
            message = f"There is no hazard “{short(name)}”; {hint}"
            source.fault((*path, "hazards", number), "hazard-unknown", message)
