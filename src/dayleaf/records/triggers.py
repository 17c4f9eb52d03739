"""The tables whose rows never change, and the triggers that hold it in the database itself."""

from __future__ import annotations

NEVER_CHANGED = ("records_eventrow", "records_printrow", "records_sheetrow", "records_planversionrow")


def _trigger(table: str, verb: str) -> tuple[str, str]:
    name = f"{table}_no_{verb.lower()}"
    return name, (
        f'CREATE TRIGGER "{name}" BEFORE {verb} ON "{table}" '
        f"BEGIN SELECT RAISE(ABORT, 'what was written down is never changed'); END"
    )


TRIGGERS: dict[str, str] = dict(_trigger(table, verb) for table in NEVER_CHANGED for verb in ("UPDATE", "DELETE"))
"""Name → statement, exactly as the database keeps it; a restore compares them."""
