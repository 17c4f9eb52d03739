"""Where the pages of records live."""

from __future__ import annotations

from django.urls import path

from dayleaf.web.views import records

urlpatterns = [
    path("", records.records, name="records"),
    path("/backups", records.backups, name="records-backups"),
    path("/backups/<str:name>", records.backup_file, name="records-backup-file"),
    path("/<str:learner>", records.of_child, name="records-of"),
    path("/<str:learner>/days", records.days, name="records-days"),
    path("/<str:learner>/subjects", records.subject, name="records-subject"),
    path("/<str:learner>/subjects/<str:line>/away", records.subject_away, name="records-subject-away"),
    path("/<str:learner>/grades", records.grades, name="records-grades"),
    path("/<str:learner>/progress", records.progress, name="records-progress"),
    path("/<str:learner>/samples", records.samples, name="records-samples"),
    path("/<str:learner>/file", records.file, name="records-file"),
]
