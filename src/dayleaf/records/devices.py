"""The phones of a household: let in, known again by their token, sent away."""

from __future__ import annotations

import hashlib
import secrets
from typing import TYPE_CHECKING

from django.db import transaction
from django.utils import timezone

from dayleaf.core.errors import BadInput, DayleafError
from dayleaf.records.models import DeviceRow
from dayleaf.records.naming import name_problems
from dayleaf.records.services import new_id

if TYPE_CHECKING:
    from datetime import datetime

    from dayleaf.records.models import Household


class NoSuchDevice(DayleafError):
    """No phone of this household has that id."""

    def __init__(self) -> None:
        super().__init__("This phone is not among those that were let in.")


def check_name(name: str) -> None:
    """Raises `BadInput` where the name cannot stand on a page."""
    problems = name_problems("the phone's name", name, longest=40)
    if problems:
        raise BadInput(problems)


@transaction.atomic
def device_join(*, household: Household, name: str, at: datetime | None = None) -> tuple[DeviceRow, str]:
    """Let a phone in: (its row, the token that it shows from now on, which is kept nowhere here).

    Raises:
        BadInput: the name cannot stand on a page.
    """
    check_name(name)
    token = secrets.token_urlsafe(32)
    row = DeviceRow.objects.create(
        household=household,
        device_id=new_id(),
        name=name.strip(),
        token_sha256=_hash(token),
        joined_at=at or timezone.now(),
    )
    return row, token


@transaction.atomic
def device_send_away(*, household: Household, device_id: str, at: datetime | None = None) -> None:
    """Take a phone's leave away; its name stays beside what it settled. Raises `NoSuchDevice`."""
    here = DeviceRow.objects.filter(household=household, device_id=device_id, sent_away_at=None)
    if not here.update(sent_away_at=at or timezone.now()):
        raise NoSuchDevice


def device_with(token: str) -> DeviceRow | None:
    """The phone that shows this token, None where there is none or it was sent away; only reads."""
    return DeviceRow.objects.filter(token_sha256=_hash(token), sent_away_at=None).first()


def devices_of(household: Household) -> tuple[DeviceRow, ...]:
    """The phones that are let in, oldest first."""
    return tuple(DeviceRow.objects.filter(household=household, sent_away_at=None))


def _hash(token: str) -> str:
    return hashlib.sha256(token.encode()).hexdigest()
