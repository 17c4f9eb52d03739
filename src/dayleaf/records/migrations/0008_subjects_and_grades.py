"""Other subjects as plain lines, and how a grade book counts."""

from __future__ import annotations

from typing import ClassVar

import django.db.models.deletion
from django.db import migrations, models


class Migration(migrations.Migration):
    """Two tables."""

    dependencies: ClassVar = [("records", "0007_courses_and_lines")]
    operations: ClassVar = [
        migrations.CreateModel(
            name="SubjectRow",
            fields=[
                ("line_id", models.CharField(max_length=32, primary_key=True, serialize=False)),
                ("day", models.DateField()),
                ("title", models.CharField(max_length=80)),
                ("minutes", models.PositiveSmallIntegerField(null=True)),
                ("done", models.BooleanField(default=True)),
                ("away", models.BooleanField(default=False)),
                (
                    "household",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="subjects", to="records.household"
                    ),
                ),
                (
                    "learner",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="subjects", to="records.learner"
                    ),
                ),
            ],
            options={
                "ordering": ["day", "title", "line_id"],
                "indexes": [models.Index(fields=["learner", "day"], name="subject_by_learner_and_day")],
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("line_id", ""), _negated=True), models.Q(("title", ""), _negated=True)
                        ),
                        name="subject_has_an_id_and_a_title",
                    ),
                    models.CheckConstraint(condition=models.Q(("minutes__lte", 1440)), name="subject_fits_in_a_day"),
                ],
            },
        ),
        migrations.CreateModel(
            name="GradeBookRow",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("scale", models.TextField()),
                (
                    "learner",
                    models.OneToOneField(
                        on_delete=django.db.models.deletion.PROTECT, related_name="grade_book", to="records.learner"
                    ),
                ),
            ],
        ),
    ]
