"""Triggers that hold what the code promises: events, prints, sheets and plan versions never change once written."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from django.db import migrations

from dayleaf.records.triggers import TRIGGERS

if TYPE_CHECKING:
    from django.db.backends.base.schema import BaseDatabaseSchemaEditor
    from django.db.migrations.state import StateApps


def set_triggers(apps: StateApps, schema_editor: BaseDatabaseSchemaEditor) -> None:
    """SQLite only: one home, one file. A server for many keeps its own rights on tables."""
    del apps
    if schema_editor.connection.vendor == "sqlite":
        for trigger in TRIGGERS.values():
            schema_editor.execute(trigger)


def drop_triggers(apps: StateApps, schema_editor: BaseDatabaseSchemaEditor) -> None:
    """The way back."""
    del apps
    if schema_editor.connection.vendor == "sqlite":
        for name in TRIGGERS:
            schema_editor.execute(f'DROP TRIGGER "{name}"')


class Migration(migrations.Migration):
    """After the tables."""

    dependencies: ClassVar = [("records", "0001_initial")]
    operations: ClassVar = [migrations.RunPython(set_triggers, drop_triggers, elidable=False)]
