"""A family's own courses, and its own words for Open and Close."""

from __future__ import annotations

from typing import ClassVar

import django.db.models.deletion
from django.db import migrations, models


def _household(related_name: str) -> models.ForeignKey:  # type: ignore[type-arg] # a migration's field has no model yet
    return models.ForeignKey(
        on_delete=django.db.models.deletion.PROTECT, related_name=related_name, to="records.household"
    )


class Migration(migrations.Migration):
    """Two tables."""

    dependencies: ClassVar = [("records", "0006_week_and_placement")]
    operations: ClassVar = [
        migrations.CreateModel(
            name="CourseRow",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("course", models.CharField(max_length=24)),
                ("title", models.CharField(max_length=80)),
                ("outline", models.TextField()),
                ("household", _household("courses")),
            ],
            options={
                "ordering": ["pk"],
                "constraints": [
                    models.UniqueConstraint(fields=("household", "course"), name="course_is_called_once"),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("course", ""), _negated=True), models.Q(("course", "grade2"), _negated=True)
                        ),
                        name="course_is_their_own",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="FamilyLineRow",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("course", models.CharField(max_length=40)),
                ("lesson", models.CharField(default="", max_length=40)),
                ("chapter", models.PositiveSmallIntegerField(default=0)),
                ("part", models.CharField(max_length=5)),
                ("text", models.CharField(max_length=400)),
                ("household", _household("lines")),
            ],
            options={
                "ordering": ["course", "chapter", "lesson", "part"],
                "constraints": [
                    models.UniqueConstraint(
                        fields=("household", "course", "lesson", "chapter", "part"), name="line_has_a_place_of_its_own"
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("part__in", ("open", "close"))), name="line_stands_in_open_or_close"
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("lesson", ""), ("chapter", 0), _connector="XOR"),
                        name="line_is_of_a_day_or_of_a_chapter",
                    ),
                ],
            },
        ),
    ]
