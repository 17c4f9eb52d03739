"""The JSON that other programs read from the command line."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

import click

from dayleaf.wording.say import steps_of, text_of

if TYPE_CHECKING:
    from dayleaf.items.model import Item
    from dayleaf.learner.seen import Seen


def item_data(item: Item, lang: str = "en") -> dict[str, Any]:
    """One item: skill, format, numbers, text, answer, steps, errors."""
    return {
        "skill": item.skill,
        "format": item.format,
        "numbers": dict(item.numbers),
        "text": text_of(item, lang),
        "answer": item.answer,
        "steps": list(steps_of(item, lang)),
        "errors": dict(item.errors),
    }


def say_json(data: Any) -> None:
    """Print one JSON document, readable by people too."""
    click.echo(json.dumps(data, ensure_ascii=False, indent=1))


def seen_shape(seen: Seen) -> dict[str, Any]:
    """What a set of answers shows: seen, error, p, evidence, rivals, ask."""
    return {
        "seen": seen.seen,
        "error": seen.error,
        "p": round(seen.p, 6),
        "evidence": [{"text": one.text, "answer": one.answer, "right": one.right} for one in seen.evidence],
        "rivals": list(seen.rivals),
        "ask": item_data(seen.ask) if seen.ask else None,
    }
