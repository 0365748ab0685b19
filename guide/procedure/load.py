"""A procedure file with all that it includes: files read, facts declared, findings collected."""

from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path, PurePosixPath

from guide.files.findings import BadFile, Finding, resolved, shown_path
from guide.files.library import SHIPPED, shipped_part
from guide.files.marks import Map
from guide.files.source import Path_, Source, read_source
from guide.procedure import schema
from guide.procedure.declarations import check_using, declare
from guide.procedure.facts import Fact
from guide.procedure.formula import settle_kinds
from guide.procedure.hazard_file import take_hazards
from guide.procedure.hazards import Hazard
from guide.text import meant, short

MOST_FILES = 200
"""Files that one procedure may gather, facts files included."""


@dataclass(slots=True)
class Loaded:
    """A procedure and all it gathers."""

    root: Source
    sources: dict[Path, Source] = field(default_factory=dict)
    """Every file read, by its resolved path, the root first."""
    facts: dict[str, Fact] = field(default_factory=dict)
    declared: dict[str, tuple[Source, Path_]] = field(default_factory=dict)
    """Where each fact was declared."""
    hazards: dict[str, Hazard] = field(default_factory=dict)
    """The hazards that its files declare."""
    hazard_places: dict[str, tuple[Source, Path_]] = field(default_factory=dict)
    facts_only: bool = False
    """Whether the file holds shared facts and no steps."""
    whole: bool = True
    """Whether every file that is named could be read; else facts and ends may be missing for that."""
    crowded: bool = False
    """Whether there were more files than are gathered."""

    _resolved: dict[tuple[Path, str], Path | None] = field(default_factory=dict)
    """What each file calls another; a part may be included thousands of times."""

    def included(self, source: Source, name: str) -> Source | None:
        """The file that `source` calls `name`, if it could be read."""
        called = source.path, name
        if called not in self._resolved:
            self._resolved[called] = resolve(source, name)
        path = self._resolved[called]
        return self.sources.get(path) if path is not None else None

    def gather(self) -> list[Finding]:
        """Every finding so far, in reading order."""
        found = [f for source in self.sources.values() for f in source.findings]
        return sorted(set(found), key=Finding.place)


def load(path: Path, text: str | None = None) -> Loaded:
    """Read a procedure and all it gathers; never raises for what a file holds.

    `text` replaces the root file's text, for checking what an editor has not saved.
    """
    root_path = resolved(path)
    try:
        root = read_source(path, schema.ProcedureShape, "A procedure", text)
    except BadFile as error:
        unread = Source(path, shown_path(path), "", findings=error.findings)
        return Loaded(unread, {root_path: unread})
    loaded = Loaded(root, {root_path: root})
    if _facts_alone(root):
        _take_facts_alone(loaded, path, text)
    else:
        _take(loaded, root, (root_path,))
    settle_kinds(loaded.facts)
    for name, (source, place) in loaded.declared.items():
        check_using(source, loaded.facts, loaded.facts[name], place)
    _circles(loaded)
    return loaded


def _take_facts_alone(loaded: Loaded, path: Path, text: str | None) -> None:
    """A file of shared facts, read by itself."""
    loaded.facts_only = True
    loaded.root = read_source(path, schema.FactsFileShape, "A facts file", text)
    loaded.sources = {resolved(path): loaded.root}
    if loaded.root.shape is not None:
        _declare_all(loaded, loaded.root, loaded.root.shape)


def resolve(source: Source, name: str) -> Path | None:
    """The path of an included file; None where the name leaves the file's folder, or that of the shipped files."""
    if name.startswith(SHIPPED):
        part = shipped_part(name)
        return resolved(part) if part is not None else None
    pure = PurePosixPath(name)
    if pure.is_absolute() or ".." in pure.parts or "\\" in name or "\x00" in name or ":" in name:
        return None
    folder = resolved(source.path).parent
    found = resolved(folder / name)
    return found if found.is_relative_to(folder) else None


def _take(loaded: Loaded, source: Source, chain: tuple[Path, ...]) -> None:
    """Declare a procedure's facts and read what it includes."""
    shape: schema.ProcedureShape | None = source.shape
    if shape is None:
        return
    for place, name in enumerate(shape.facts_in):
        inner = _read(loaded, source, name, ("facts_in", place), schema.FactsFileShape)
        if inner is not None and inner.shape is not None:
            _declare_all(loaded, inner, inner.shape)
    _declare_all(loaded, source, shape)
    for name, path in includes_in(shape.steps, ("steps",)):
        target = resolve(source, name)
        if target is not None and target in chain:
            source.fault(
                (*path, "file"),
                "include-circle",
                f"“{short(name)}” {_circle(target, chain)}; break the circle.",
            )
            continue
        fresh = target not in loaded.sources
        inner = _read(loaded, source, name, (*path, "file"), schema.ProcedureShape)
        if inner is not None and target is not None and fresh:
            _take(loaded, inner, (*chain, target))


def _circle(target: Path, chain: tuple[Path, ...]) -> str:
    between = [path.name for path in chain[chain.index(target) + 1 :]]
    by_way = f", by way of {', '.join(between)}" if between else ""
    return f"includes itself{by_way}"


def _facts_alone(source: Source) -> bool:
    """Whether a file looks like shared facts: it has some, and nothing of a procedure."""
    keys = source.tree.entries.keys() if isinstance(source.tree, Map) else set()
    return "facts" in keys and not keys & {"procedure", "steps"}


def _read(
    loaded: Loaded,
    source: Source,
    name: str,
    path: Path_,
    model: type[schema.ProcedureShape] | type[schema.FactsFileShape],
) -> Source | None:
    """The file `source` names at `path`; what keeps it from being read is noted there."""
    target = resolve(source, name)
    if target is None:
        source.fault(
            path,
            "file-outside",
            f"“{short(name)}” is not in this file's folder; put it there and write its name alone, "
            f"or {SHIPPED} and the name of a shipped part.",
        )
    elif target in loaded.sources:
        inner = loaded.sources[target]
        if inner.shape is None or isinstance(inner.shape, model):
            return inner
        _other_kind(source, name, path, model)
    elif len(loaded.sources) >= MOST_FILES:
        if not loaded.crowded:
            source.fault(
                path, "too-large", f"More than {MOST_FILES} files are gathered; use fewer."
            )
        loaded.crowded = True
    elif not _is_file(target):
        shipped = name.startswith(SHIPPED)
        beside = sorted(target.parent.glob("*.yaml"))
        names = [f"{SHIPPED}{path.stem}" if shipped else path.name for path in beside]
        hint = meant(name, names, "look at the spelling.")
        where = "among the shipped ones" if shipped else "beside this"
        source.fault(path, "file-unknown", f"There is no file “{short(name)}” {where}; {hint}")
    else:
        return _read_file(loaded, source, name, path, target, model)
    loaded.whole = False
    return None


def _read_file(
    loaded: Loaded,
    source: Source,
    name: str,
    path: Path_,
    target: Path,
    model: type[schema.ProcedureShape] | type[schema.FactsFileShape],
) -> Source | None:
    wants_facts = model is schema.FactsFileShape
    try:
        inner = read_source(target, model, "A facts file" if wants_facts else "A procedure")
    except BadFile as error:
        source.fault(path, error.findings[0].code, error.findings[0].message)
        loaded.whole = False
        return None
    has_steps = isinstance(inner.tree, Map) and "steps" in inner.tree.entries
    if has_steps if wants_facts else _facts_alone(inner):
        _other_kind(source, name, path, model)
        loaded.whole = False
        return None
    loaded.sources[target] = inner
    if inner.shape is None:
        loaded.whole = False
    return inner


def _other_kind(source: Source, name: str, path: Path_, model: type[schema.Shape]) -> None:
    message = (
        "is a procedure, not a file of facts; include it among the steps"
        if model is schema.FactsFileShape
        else "is a file of facts, not a procedure; name it under facts_in"
    )
    source.fault(path, "file-wrong", f"“{short(name)}” {message}.")


def _is_file(path: Path) -> bool:
    try:
        return path.is_file()
    except OSError:
        return False


def _declare_all(
    loaded: Loaded, source: Source, file: schema.ProcedureShape | schema.FactsFileShape
) -> None:
    take_hazards(loaded.hazards, loaded.hazard_places, source, file.hazards)
    for name, shape, path in _each_fact(file):
        if name in loaded.declared:
            first, first_path = loaded.declared[name]
            if (first, first_path) != (source, path):
                line = first.mark(first_path, key=True)[0]
                source.fault(
                    path,
                    "fact-twice",
                    f"“{name}” is already declared in {first.shown} on line {line}; put it in one "
                    "file and name that file under facts_in.",
                    key=True,
                )
            continue
        loaded.facts[name] = declare(source, name, shape, path)
        loaded.declared[name] = (source, path)


def _each_fact(
    file: schema.ProcedureShape | schema.FactsFileShape,
) -> Iterator[tuple[str, schema.FactShape, Path_]]:
    """Every fact with its name and place; one with `parts` is a fact for each of them."""
    for name, shape in file.facts.items():
        if not shape.parts:
            yield name, shape, ("facts", name)
        for one in shape.parts:
            for part, say in {one: shape.say}.items() if isinstance(one, str) else one.items():
                single = shape.model_copy(update={"part": part, "parts": [], "say": say})
                yield part, single, ("facts", name)


def includes_in(blocks: list[schema.AnyBlock], path: Path_) -> list[tuple[str, Path_]]:
    """Every include of these blocks, however deep, with its place."""
    found: list[tuple[str, Path_]] = []
    for index, block in enumerate(blocks):
        here = (*path, index)
        if block.include is not None:
            found.append((block.include.file, (*here, "include")))
        if block.by_case is not None:
            for number, case in enumerate(block.by_case.cases):
                inner = (*here, "by_case", "cases", number, "steps")
                found += includes_in(case.steps, inner)
        if block.check is not None:
            found += includes_in(
                block.check.otherwise.steps, (*here, "check", "otherwise", "steps")
            )
        if block.each is not None:
            found += includes_in(block.each.steps, (*here, "each", "steps"))
        if block.repeat is not None:
            found += includes_in(block.repeat.steps, (*here, "repeat", "steps"))
            found += includes_in(
                block.repeat.otherwise.steps, (*here, "repeat", "otherwise", "steps")
            )
    return found


def _circles(loaded: Loaded) -> None:
    """Note worked facts that are computed from themselves."""
    for name, fact in loaded.facts.items():
        seen: set[str] = set()
        todo = fact.input_facts()
        while todo:
            one = todo.pop()
            if one == name:
                source, path = loaded.declared[name]
                source.fault(path, "fact-circle", f"“{name}” is computed from itself.", key=True)
                break
            if one not in seen and one in loaded.facts:
                seen.add(one)
                todo += loaded.facts[one].input_facts()
