"""The rows of what a family may have to show: other subjects as plain lines, and how its grade book counts."""

from __future__ import annotations

from typing import ClassVar

from django.db import models
from django.db.models import Q

MOST_MINUTES = 24 * 60


class SubjectRow(models.Model):
    """One line of another subject on a day. A line that was taken away keeps its row, so that it can come back."""

    household = models.ForeignKey("Household", on_delete=models.PROTECT, related_name="subjects")
    learner = models.ForeignKey("Learner", on_delete=models.PROTECT, related_name="subjects")
    line_id = models.CharField(primary_key=True, max_length=32)
    day = models.DateField()
    title = models.CharField(max_length=80)
    minutes = models.PositiveSmallIntegerField(null=True)
    done = models.BooleanField(default=True)
    away = models.BooleanField(default=False)

    class Meta:
        ordering: ClassVar = ["day", "title", "line_id"]
        indexes: ClassVar = [models.Index(fields=["learner", "day"], name="subject_by_learner_and_day")]
        constraints: ClassVar = [
            models.CheckConstraint(condition=~Q(line_id="") & ~Q(title=""), name="subject_has_an_id_and_a_title"),
            models.CheckConstraint(condition=Q(minutes__lte=MOST_MINUTES), name="subject_fits_in_a_day"),
        ]

    def __str__(self) -> str:
        return self.title


class GradeBookRow(models.Model):
    """How a child's grade book counts, as JSON (`gradebook.Scale`); no row, no grades."""

    learner = models.OneToOneField("Learner", on_delete=models.PROTECT, related_name="grade_book")
    scale = models.TextField()

    def __str__(self) -> str:
        return self.learner_id
