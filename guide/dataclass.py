"""Data classes for what a short command loads: the standard ones, made in a tenth of the time.

The library's own module costs `hingeside work` 10 ms to import, for it brings `inspect`, and 0.4 ms for each class;
one computation meets up to forty. A type checker sees the standard `dataclass`, `field` and `replace`, so a class made
here is declared, read and checked as any other. Of their options only those in use are there; another is a TypeError.
`tests/test_dataclass.py` holds what is made here against what the library makes.
"""

from collections.abc import Callable, Mapping
from operator import attrgetter
from typing import TYPE_CHECKING, Any, TypeVar

__all__ = ["dataclass", "field", "replace"]

T = TypeVar("T")


class _Field:
    """What `field(...)` says of a field."""

    __slots__ = ("factory", "init")

    def __init__(self, factory: Callable[[], object] | None, init: bool) -> None:
        self.factory = factory
        self.init = init


def _field(*, default_factory: Callable[[], object] | None = None, init: bool = True) -> Any:
    return _Field(default_factory, init)


def _dataclass(
    *, slots: bool, frozen: bool = False, eq: bool = True
) -> Callable[[type[T]], type[T]]:
    def made(plain: type[T]) -> type[T]:
        body = dict(vars(plain))
        if not slots or plain.__bases__ != (object,) or (eq and "__eq__" in body):
            raise TypeError(f"{plain.__name__} needs slots=True here, no base, one way to compare.")
        for of_no_slots in ("__dict__", "__weakref__"):
            body.pop(of_no_slots, None)
        names = tuple(body.get("__annotations__", ()))
        defaults = {name: body.pop(name) for name in names if name in body}
        if any(type(default).__hash__ is None for default in defaults.values()):
            raise TypeError(f"{plain.__name__} would share a default that changes; use a factory.")
        body["__slots__"] = names
        body["__match_args__"] = tuple(name for name in names if _taken(defaults.get(name)))
        body["__init__"] = _first_init(names, defaults, frozen)
        body.setdefault("__repr__", _repr)
        if eq:
            body["__eq__"], body["__hash__"] = _eq_and_hash(names)
        if not frozen:
            body["__hash__"] = None
        else:
            body["__setattr__"] = body["__delattr__"] = _refuse
            body["__setstate__"] = _restore
        finished: type[T] = type(plain.__name__, (), body)
        return finished

    return made


def _taken(default: object) -> bool:
    return not isinstance(default, _Field) or default.init


def _first_init(
    names: tuple[str, ...], defaults: Mapping[str, object], frozen: bool
) -> Callable[..., None]:
    """Compiles `__init__` for the first object: few of the classes that a computation loads make one."""

    def first(self: object, *given: object, **named: object) -> None:
        init = _init(names, defaults, frozen, hasattr(self, "__post_init__"))
        type(self).__init__ = init  # type: ignore[method-assign]
        init(self, *given, **named)

    return first


def _init(
    names: tuple[str, ...], defaults: Mapping[str, object], frozen: bool, checked: bool
) -> Callable[..., None]:
    inside: dict[str, object] = {"_set": object.__setattr__, "_absent": _Field}
    taken: list[str] = []
    lines: list[str] = []
    for name in names:
        value = name
        if name not in defaults:
            taken.append(name)
        elif not isinstance(default := defaults[name], _Field):
            inside[f"_of_{name}"] = default
            taken.append(f"{name}=_of_{name}")
        elif default.factory is None:
            continue  # `__post_init__` gives it
        else:
            inside[f"_new_{name}"] = default.factory
            taken.append(f"{name}=_absent")
            value = f"_new_{name}() if {name} is _absent else {name}"
        lines.append(f"_set(self, {name!r}, {value})" if frozen else f"self.{name} = {value}")
    if checked:
        lines.append("self.__post_init__()")
    exec(f"def __init__(self, {', '.join(taken)}):\n " + "\n ".join(lines), inside)
    init: Callable[..., None] = inside["__init__"]  # type: ignore[assignment]
    return init


def _repr(self: object) -> str:
    fields = (f"{name}={getattr(self, name)!r}" for name in _names(self))
    return f"{type(self).__qualname__}({', '.join(fields)})"


def _eq_and_hash(
    names: tuple[str, ...],
) -> tuple[Callable[[object, object], object], Callable[[object], int]]:
    values = attrgetter(*names)

    def equal(self: object, other: object) -> object:
        if type(other) is not type(self):
            return NotImplemented  # as Python asks of a comparison
        # In a tuple, what is the same object is equal, as with the standard ones; even no number.
        return (values(self),) == (values(other),)

    def hashed(self: object) -> int:
        return hash(values(self))

    return equal, hashed


def _refuse(self: object, name: str, *_: object) -> None:
    raise AttributeError(f"{type(self).__name__}.{name} is fixed; make another with replace().")


def _restore(self: object, state: tuple[None, Mapping[str, object]]) -> None:
    for name, value in state[1].items():
        object.__setattr__(self, name, value)


def _names(one: object) -> tuple[str, ...]:
    names: tuple[str, ...] = type(one).__slots__  # type: ignore[attr-defined]
    return names


def _replace(one: T, /, **changed: Any) -> T:
    taken: tuple[str, ...] = type(one).__match_args__  # type: ignore[attr-defined]
    return type(one)(**{name: getattr(one, name) for name in taken} | changed)


if TYPE_CHECKING:
    from dataclasses import dataclass, field, replace
else:
    dataclass, field, replace = _dataclass, _field, _replace
