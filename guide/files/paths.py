"""Paths as they are compared and kept."""

from pathlib import Path


def resolved(path: Path) -> Path:
    """The path with every link followed; as it stands where links run in a circle."""
    try:
        return path.resolve()
    except (OSError, RuntimeError, ValueError):
        return path.absolute()
