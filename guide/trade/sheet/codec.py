"""From plain data to a sheet and back, by the annotations of its classes.

Plain data is text, lists and mappings, as the file of a sheet is read; JSON holds the same. A key is the name of the
field, and a field with a default may be left out. The content of a field is defined once, in its class:

- one line: a kind of value (`kinds`), perhaps `| None`;
- a mapping: another of these classes, perhaps `| None`;
- a list: `tuple[Class, ...]`, with `AtLeast` where it may not be empty.
"""

from collections.abc import Iterable
from dataclasses import MISSING, dataclass, fields
from typing import Annotated, Any, TypeAlias, TypeVar, get_args, get_origin, get_type_hints

from guide.errors import FOUND, HingesideError
from guide.text import nearest, short
from guide.trade.sheet.kinds import AtLeast, Kind, UnreadableError

T = TypeVar("T")
Path: TypeAlias = tuple[str | int, ...]
"""The path of a part of a sheet: keys and places in lists, counted from 0, from the top."""

MOST = 100
"""Faults of one sheet that are reported; nobody reads more."""


@dataclass(frozen=True, slots=True)
class SheetFault:
    """One thing that keeps plain data from being a sheet."""

    path: Path
    code: str
    """A stable word, as `hingeside explain` knows it."""
    message: str
    """What is wrong and what to do, one sentence."""


class BadSheetError(HingesideError, ValueError):
    """Plain data that is not a sheet, with every fault of it."""

    status = FOUND

    def __init__(self, faults: list[SheetFault]) -> None:
        self.faults = tuple(faults)
        where = " > ".join(
            str(part + 1) if isinstance(part, int) else part for part in faults[0].path
        )
        super().__init__(f"The sheet cannot be read{where and f' at {where}'}: {faults[0].message}")


class FieldError(ValueError):
    """A value that its field does not accept."""

    def __init__(self, key: str, message: str) -> None:
        super().__init__(message)
        self.key = key


@dataclass(frozen=True, slots=True)
class Field:
    """One field of a class of the sheet."""

    key: str
    kind: Kind | None
    """What its line holds; None for a part or a list of parts."""
    part: type[Any] | None
    """The class of a part, or of each part of a list."""
    several: AtLeast | None
    """The least number of parts in the list; None if the field is not a list."""
    default: object
    """`dataclasses.MISSING` where the field must be written."""


_FIELDS: dict[type[Any], tuple[Field, ...]] = {}


def fields_of(owner: type[Any]) -> tuple[Field, ...]:
    """The fields of a class of the sheet, in its order. TypeError for any annotation not named above."""
    if owner not in _FIELDS:
        hints = get_type_hints(owner, include_extras=True)
        _FIELDS[owner] = tuple(
            _field(one.name, hints[one.name], one.default) for one in fields(owner)
        )
    return _FIELDS[owner]


def _field(key: str, hint: Any, default: object) -> Field:
    if type(None) in get_args(hint):
        (hint,) = (one for one in get_args(hint) if one is not type(None))
    extra: Any = None
    if get_origin(hint) is Annotated:
        hint, extra = get_args(hint)
        if not isinstance(extra, AtLeast):
            return Field(key, extra, None, None, default)
    if get_origin(hint) is tuple:
        return Field(key, None, get_args(hint)[0], extra or AtLeast(0, ""), default)
    if isinstance(hint, type) and hasattr(hint, "__dataclass_fields__"):
        return Field(key, None, hint, None, default)
    raise TypeError(f"The field {key} needs a kind of value, such as Line or Length.")


def check_fields(part: Any) -> None:
    """Raise FieldError if the field does not accept the value."""
    for field in fields_of(type(part)):
        value = getattr(part, field.key)
        if value is None:
            continue
        try:
            if field.kind is not None:
                field.kind.check(field.key, value)
            elif field.several is not None:
                field.several.check(field.key, len(value))
        except ValueError as error:
            raise FieldError(field.key, str(error)) from None


def to_plain(part: Any) -> dict[str, Any]:
    """A sheet, or a part of one, as plain data; what is as when left out is left out."""
    found: dict[str, Any] = {}
    for field in fields_of(type(part)):
        value = getattr(part, field.key)
        if value == field.default:
            continue
        if field.kind is not None:
            found[field.key] = field.kind.write(value)
        elif field.several is not None:
            found[field.key] = [to_plain(one) for one in value]
        else:
            found[field.key] = to_plain(value)
    return found


def from_plain(owner: type[T], data: object) -> T:
    """The sheet in plain data. BadSheetError with every fault, where there are any."""
    reader = _Reader()
    part: T = reader.part(owner, data, ())
    if reader.faults:
        raise BadSheetError(reader.faults)
    return part


class _Reader:
    """Reads part after part, and gathers what is wrong."""

    def __init__(self) -> None:
        self.faults: list[SheetFault] = []

    @property
    def _full(self) -> bool:
        return len(self.faults) > MOST

    def _fault(self, path: Path, code: str, message: str) -> None:
        if not self._full:
            self.faults.append(SheetFault(path, code, message))

    def part(self, owner: type[Any], data: object, path: Path) -> Any:
        """The part in a mapping; None if anything is wrong with it."""
        if not isinstance(data, dict):
            message = f"{_named(path)} must be a mapping of keys to values, and this is not one."
            self._fault(path, "shape", message)
            return None
        before = len(self.faults)
        meant = self._unknown_keys(owner, data, path)
        values: dict[str, Any] = {}
        for field in fields_of(owner):
            where = (*path, field.key)
            if field.key in data:
                values[field.key] = self._value(field, data[field.key], where)
            elif field.default is MISSING and field.key not in meant:
                place = _named(path)
                owned = f"in {place[:1].lower()}{place[1:]}" if path else "at the top of the file"
                self._fault(where, "key-missing", f"“{field.key}” is missing {owned}; write it.")
        if len(self.faults) > before or self._full:
            return None
        try:
            return owner(**values)
        except FieldError as error:
            self._fault((*path, error.key), "sheet-wrong", str(error))
        except ValueError as error:
            self._fault(path, "sheet-wrong", str(error))
        return None

    def _unknown_keys(self, owner: type[Any], data: dict[Any, Any], path: Path) -> set[str]:
        """Note the keys that are not known; the known ones that they were probably meant for."""
        known = [field.key for field in fields_of(owner)]
        meant = set()
        for key in data:
            if key in known or self._full:
                continue
            near = nearest(str(key), known)
            hint = f"did you mean “{near}”?" if near else _known_here(known)
            message = f"The key “{short(str(key))}” is not known; {hint}"
            self._fault((*path, str(key)), "key-unknown", message)
            meant.add(near)
        return meant

    def _value(self, field: Field, data: object, path: Path) -> Any:
        if field.kind is not None:
            return self._line(field.kind, data, path)
        if field.several is None:
            assert field.part is not None
            return self.part(field.part, data, path)
        if not isinstance(data, list):
            message = f"{_named(path)} must be a list; write each entry on its own line after “- ”."
            self._fault(path, "shape", message)
            return ()
        try:
            field.several.check(field.key, len(data))
        except ValueError as error:
            self._fault(path, "shape", str(error))
        assert field.part is not None
        return tuple(
            self.part(field.part, one, (*path, number))
            for number, one in enumerate(data)
            if not self._full
        )

    def _line(self, kind: Kind, data: object, path: Path) -> Any:
        if not isinstance(data, str):
            message = f"{_named(path)} must be a line of text, and this is a list or a mapping."
            self._fault(path, "shape", message)
            return None
        try:
            return kind.read(str(path[-1]), data)
        except UnreadableError as error:
            self._fault(path, error.code, str(error))
            return None


def _named(path: Path) -> str:
    """Where in the sheet, as a sentence begins with it."""
    if not path:
        return "A sheet"
    last = path[-1]
    return f"“{last}”" if isinstance(last, str) else f"An entry of “{path[-2]}”"


def _known_here(known: Iterable[str]) -> str:
    return f"write a key known here: {', '.join(known)}."
