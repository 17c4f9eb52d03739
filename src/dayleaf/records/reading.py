"""While a page is only being looked at, the same read is made once, and for all children of the home together.

Nothing is remembered beyond one look, and nothing at all while something is written.
"""

from __future__ import annotations

from contextlib import contextmanager
from contextvars import ContextVar
from typing import TYPE_CHECKING, TypeVar, cast

if TYPE_CHECKING:
    from collections.abc import Callable, Hashable, Iterator

Found = TypeVar("Found")

_read: ContextVar[dict[Hashable, object] | None] = ContextVar("dayleaf.read", default=None)


@contextmanager
def only_looking() -> Iterator[None]:
    """Within this block nobody writes, so what was read stays as it is."""
    before = _read.set({})
    try:
        yield
    finally:
        _read.reset(before)


def is_only_looking() -> bool:
    """Whether a look is going on here."""
    return _read.get() is not None


def once(name: Hashable, read: Callable[[], Found]) -> Found:
    """What `read` gives, read once in a look and kept under this name; outside of one it is read each time."""
    remembered = _read.get()
    if remembered is None:
        return read()
    if name not in remembered:
        remembered[name] = read()
    return cast("Found", remembered[name])
