"""How many items a round on a child's own page has."""

from __future__ import annotations

from typing import ClassVar

from django.db import migrations, models


class Migration(migrations.Migration):
    """One more choice for a child."""

    dependencies: ClassVar = [("records", "0008_subjects_and_grades")]

    operations: ClassVar = [
        migrations.AddField(
            model_name="learner",
            name="on_screen",
            field=models.PositiveSmallIntegerField(default=0),
        ),
    ]
