"""A child may have fewer items on a page, every skill kept."""

from __future__ import annotations

from typing import ClassVar

from django.db import migrations, models


class Migration(migrations.Migration):
    """One more choice for a child."""

    dependencies: ClassVar = [("records", "0002_never_changed")]
    operations: ClassVar = [
        migrations.AddField("learner", "fewer_items", models.BooleanField(default=False)),
    ]
