"""Starting Django before any home is open, so that the rows can be imported."""

from __future__ import annotations

import os

import django
from django.apps import apps

SETTINGS = "dayleaf.records.settings"


def make_ready() -> None:
    """Set Django up without touching any folder; `home.open_home` names the folder later.

    DAYLEAF_HOME is put aside meanwhile: a command that is told another folder, or only asked for help,
    makes nothing in that one.
    """
    if apps.ready:
        return
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", SETTINGS)
    named = os.environ.pop("DAYLEAF_HOME", None)
    try:
        django.setup()
    finally:
        if named is not None:
            os.environ["DAYLEAF_HOME"] = named
