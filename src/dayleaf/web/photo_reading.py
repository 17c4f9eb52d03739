"""Photos are read beside the pages: one thread that works through all that wait, then ends."""

from __future__ import annotations

import threading

from django.db import connections

from dayleaf.records import photos, selectors

_lock = threading.Lock()
_now: list[threading.Thread] = []


def read_soon(household: str) -> None:
    """Begin to read what waits, unless that goes on already."""
    with _lock:
        if _now:
            return
        thread = threading.Thread(target=_read, args=(household,), name="photos", daemon=True)
        _now.append(thread)
    thread.start()


def is_reading() -> bool:
    """Whether photos are being read just now."""
    return bool(_now)


def wait_for_it(seconds: float) -> None:
    """Wait until nothing is being read, at most so long."""
    for thread in tuple(_now):
        thread.join(timeout=seconds)


def _read(household: str) -> None:
    try:
        while _more(household):
            photos.photos_read(selectors.household(household))
    finally:
        with _lock:
            _now.clear()
        connections.close_all()


def _more(household: str) -> bool:
    """Whether a photo waits. Where none does, the next one that comes begins a thread of its own."""
    with _lock:
        if photos.handed_in(selectors.household(household)).waiting:
            return True
        _now.clear()
        return False
