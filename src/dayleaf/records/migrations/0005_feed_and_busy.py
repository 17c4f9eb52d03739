"""What the calendars have said, and what a family's own calendar takes."""

from __future__ import annotations

from typing import ClassVar

import django.db.models.deletion
from django.db import migrations, models


class Migration(migrations.Migration):
    """Two tables of one row a child and one a household."""

    dependencies: ClassVar = [("records", "0004_photos")]
    operations: ClassVar = [
        migrations.CreateModel(
            name="FeedRow",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("announced", models.TextField()),
                ("on", models.DateField()),
                ("at", models.DateTimeField()),
                (
                    "learner",
                    models.OneToOneField(
                        on_delete=django.db.models.deletion.PROTECT, related_name="feed", to="records.learner"
                    ),
                ),
            ],
        ),
        migrations.CreateModel(
            name="BusyRow",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("name", models.CharField(max_length=80)),
                ("on", models.DateField()),
                ("times", models.TextField()),
                (
                    "household",
                    models.OneToOneField(
                        on_delete=django.db.models.deletion.PROTECT, related_name="busy", to="records.household"
                    ),
                ),
            ],
        ),
    ]
