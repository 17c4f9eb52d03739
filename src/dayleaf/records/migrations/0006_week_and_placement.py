"""When a week begins, an optional passphrase, what is ready in a week, and placements on screen."""

from __future__ import annotations

from typing import ClassVar

import django.db.models.deletion
from django.db import migrations, models


class Migration(migrations.Migration):
    """Two fields of the household and two small tables."""

    dependencies: ClassVar = [("records", "0005_feed_and_busy")]
    operations: ClassVar = [
        migrations.AddField("household", "week_start", models.PositiveSmallIntegerField(default=0)),
        migrations.AddField("household", "passphrase", models.CharField(blank=True, default="", max_length=200)),
        migrations.AddConstraint(
            "household",
            models.CheckConstraint(
                condition=models.Q(("week_start__in", (0, 5, 6))), name="household_week_start_is_known"
            ),
        ),
        migrations.CreateModel(
            name="ReadyRow",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("week", models.DateField()),
                ("what", models.CharField(max_length=120)),
                (
                    "household",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="ready", to="records.household"
                    ),
                ),
            ],
            options={
                "constraints": [
                    models.UniqueConstraint(fields=("household", "week", "what"), name="thing_is_ready_once_a_week")
                ],
            },
        ),
        migrations.CreateModel(
            name="PlacementRow",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("said", models.TextField()),
                (
                    "learner",
                    models.OneToOneField(
                        on_delete=django.db.models.deletion.PROTECT, related_name="placement", to="records.learner"
                    ),
                ),
            ],
        ),
    ]
