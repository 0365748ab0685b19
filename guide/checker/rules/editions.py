"""The rule of editions: words or blocks that changed since an edition was checked in need a new one."""

from collections.abc import Iterator

from guide.checker.manual import at_part
from guide.files.findings import Finding, resolved
from guide.procedure.editions import UnreadableEditions, edition_of, kept_editions, not_raised
from guide.procedure.load import Loaded


def edition_not_raised(loaded: Loaded) -> Iterator[Finding]:
    """Each procedure that says something else than its edition said when it was checked in."""
    try:
        kept = kept_editions(resolved(loaded.root.path).parent)
    except UnreadableEditions as error:
        yield at_part(loaded.root, (), "editions-unreadable", str(error))
        return
    for path, source in loaded.sources.items() if kept else ():
        now = edition_of(loaded, source)
        message = not_raised(kept.get(path.name), now) if now is not None else ""
        if message:
            place = "edition" if "edition" in source.shape.model_fields_set else "procedure"
            yield at_part(source, (place,), "edition-not-raised", message)
