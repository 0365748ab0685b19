"""A procedure file with everything it includes: read, its facts declared, its faults gathered."""

from dataclasses import dataclass, field
from pathlib import Path, PurePosixPath

from guide.procedure import schema
from guide.procedure.declare import check_using, declare
from guide.procedure.facts import Fact
from guide.procedure.findings import BadFile, Finding
from guide.procedure.marks import Map
from guide.procedure.source import Path_, Source, read_source
from guide.procedure.spelling import meant

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
    findings: list[Finding] = field(default_factory=list)
    facts_only: bool = False
    """Whether the file holds shared facts and no steps."""

    def included(self, source: Source, name: str) -> Source | None:
        """The file that `source` calls `name`, if it could be read."""
        path = resolve(source, name)
        return self.sources.get(path) if path is not None else None

    def gather(self) -> list[Finding]:
        """Every finding so far, in reading order."""
        found = [f for source in self.sources.values() for f in source.findings]
        return sorted({*found, *self.findings}, key=Finding.place)


def load(path: Path, text: str | None = None) -> Loaded:
    """Read a procedure and all it gathers; never raises for what a file holds.

    `text` stands in for the root file's text, for checking what an editor has not saved.
    """
    root_path = path.resolve()
    try:
        root = read_source(path, schema.ProcedureShape, "A procedure", text)
    except BadFile as error:
        empty = Source(path, error.findings[0].file, "", tree=_nothing())
        loaded = Loaded(empty, {root_path: empty})
        loaded.findings = list(error.findings)
        return loaded
    loaded = Loaded(root, {root_path: root})
    if (
        isinstance(root.tree, Map)
        and "facts" in root.tree.entries
        and not ({"procedure", "steps"} & root.tree.entries.keys())
    ):
        _take_facts_alone(loaded, path, text)
    else:
        _take(loaded, root, (root_path,))
    for name, (source, place) in loaded.declared.items():
        check_using(source, loaded.facts, loaded.facts[name], place)
    _circles(loaded)
    return loaded


def _nothing() -> Map:

    return Map((1, 1))


def _take_facts_alone(loaded: Loaded, path: Path, text: str | None) -> None:
    """A file of shared facts, read by itself."""
    loaded.facts_only = True
    loaded.root = read_source(path, schema.FactsFileShape, "A facts file", text)
    loaded.sources = {path.resolve(): loaded.root}
    if loaded.root.shape is not None:
        _declare_all(loaded, loaded.root, loaded.root.shape.facts)


def resolve(source: Source, name: str) -> Path | None:
    """The path of an included file; None where the name leaves the file's folder."""
    pure = PurePosixPath(name)
    if pure.is_absolute() or ".." in pure.parts or "\\" in name or "\x00" in name or ":" in name:
        return None
    folder = source.path.resolve().parent
    found = (folder / name).resolve()
    return found if found.is_relative_to(folder) else None


def _take(loaded: Loaded, source: Source, chain: tuple[Path, ...]) -> None:
    """Declare a procedure's facts and read what it includes."""
    shape: schema.ProcedureShape | None = source.shape
    if shape is None:
        return
    for place, name in enumerate(shape.facts_in):
        inner = _read(loaded, source, name, ("facts_in", place), schema.FactsFileShape)
        if inner is not None and inner.shape is not None:
            _declare_all(loaded, inner, inner.shape.facts)
    _declare_all(loaded, source, shape.facts)
    for name, path in includes_in(shape.steps, ("steps",)):
        target = resolve(source, name)
        if target is not None and target in chain:
            source.fault(
                (*path, "file"),
                "include-circle",
                f"“{name}” includes itself, by way of {len(chain)} file(s); break the circle.",
            )
            continue
        fresh = target not in loaded.sources
        inner = _read(loaded, source, name, (*path, "file"), schema.ProcedureShape)
        if inner is not None and target is not None and fresh:
            _take(loaded, inner, (*chain, target))


def _read(
    loaded: Loaded,
    source: Source,
    name: str,
    path: Path_,
    model: type[schema.ProcedureShape] | type[schema.FactsFileShape],
) -> Source | None:
    target = resolve(source, name)
    if target is None:
        source.fault(
            path,
            "file-outside",
            f"“{name}” is not in this file's folder; put it there and write its name alone.",
        )
        return None
    if target in loaded.sources:
        return loaded.sources[target]
    if len(loaded.sources) >= MOST_FILES:
        source.fault(path, "too-large", f"More than {MOST_FILES} files are gathered; use fewer.")
        return None
    if not target.exists():
        folder = source.path.resolve().parent
        near = meant(name, sorted(p.name for p in folder.glob("*.yaml")), "look at the spelling.")
        source.fault(path, "file-unknown", f"There is no file “{name}” beside this one; {near}")
        return None
    try:
        what = "A facts file" if model is schema.FactsFileShape else "A procedure"
        inner = read_source(target, model, what)
    except BadFile as error:
        loaded.findings += error.findings
        return None
    loaded.sources[target] = inner
    return inner


def _declare_all(loaded: Loaded, source: Source, shapes: dict[str, schema.FactShape]) -> None:
    for name, shape in shapes.items():
        path: Path_ = ("facts", name)
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


def includes_in(blocks: list[schema.AnyBlock], path: Path_) -> list[tuple[str, Path_]]:
    """Every include of these blocks, however deep, with its place."""
    found: list[tuple[str, Path_]] = []
    for index, block in enumerate(blocks):
        here = (*path, index)
        if block.include is not None:
            found.append((block.include.file, (*here, "include")))
        if block.choose is not None:
            for number, branch in enumerate(block.choose.branches):
                inner = (*here, "choose", "branches", number, "steps")
                found += includes_in(branch.steps, inner)
        if block.check is not None:
            found += includes_in(
                block.check.otherwise.steps, (*here, "check", "otherwise", "steps")
            )
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
