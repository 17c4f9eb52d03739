"""Photos of sheets, what was read in them, what people said about it, and the phones that may send them."""

from __future__ import annotations

from typing import ClassVar

import django.db.models.deletion
from django.db import migrations, models


class Migration(migrations.Migration):
    """Four new tables; nothing that was kept is touched."""

    dependencies: ClassVar = [("records", "0003_fewer_items")]
    operations: ClassVar = [
        migrations.CreateModel(
            name="PhotoRow",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                (
                    "household",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="photos", to="records.household"
                    ),
                ),
                ("sha256", models.CharField(max_length=64)),
                ("state", models.CharField(default="waiting", max_length=8)),
                ("came_at", models.DateTimeField()),
                ("came_from", models.CharField(max_length=40)),
            ],
            options={
                "ordering": ["pk"],
                "constraints": [
                    models.UniqueConstraint(fields=("household", "sha256"), name="photo_is_kept_once"),
                    models.CheckConstraint(
                        condition=models.Q(("state__in", ("waiting", "read", "refused"))), name="photo_state_is_known"
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="PhotoPageRow",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                (
                    "household",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="photo_pages", to="records.household"
                    ),
                ),
                (
                    "photo",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE, related_name="pages", to="records.photorow"
                    ),
                ),
                ("number", models.PositiveSmallIntegerField()),
                ("status", models.CharField(max_length=8)),
                ("code", models.CharField(default="", max_length=20)),
                ("message", models.CharField(default="", max_length=200)),
                ("sheet", models.CharField(default="", max_length=8)),
                ("side", models.PositiveSmallIntegerField(null=True)),
                ("reading", models.TextField(default="")),
            ],
            options={
                "ordering": ["pk"],
                "indexes": [models.Index(fields=["household", "sheet"], name="photo_page_by_sheet")],
                "constraints": [
                    models.UniqueConstraint(fields=("photo", "number"), name="photo_page_is_one"),
                    models.UniqueConstraint(
                        condition=models.Q(("status", "read")),
                        fields=("household", "sheet", "side"),
                        name="side_is_read_once",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="SettledRow",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                (
                    "household",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="settled", to="records.household"
                    ),
                ),
                ("sheet", models.CharField(max_length=8)),
                ("said", models.TextField()),
            ],
            options={
                "constraints": [
                    models.UniqueConstraint(fields=("household", "sheet"), name="sheet_is_settled_in_one_place")
                ],
            },
        ),
        migrations.CreateModel(
            name="DeviceRow",
            fields=[
                ("device_id", models.CharField(max_length=32, primary_key=True, serialize=False)),
                (
                    "household",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="devices", to="records.household"
                    ),
                ),
                ("name", models.CharField(max_length=40)),
                ("token_sha256", models.CharField(max_length=64, unique=True)),
                ("joined_at", models.DateTimeField()),
                ("sent_away_at", models.DateTimeField(null=True)),
            ],
            options={
                "ordering": ["joined_at"],
                "constraints": [
                    models.CheckConstraint(
                        condition=~models.Q(("device_id", "")) & ~models.Q(("name", "")),
                        name="device_has_an_id_and_a_name",
                    )
                ],
            },
        ),
    ]
