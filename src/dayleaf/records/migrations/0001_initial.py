"""The tables as they first were."""

from typing import ClassVar

import django.db.models.deletion
from django.db import migrations, models


class Migration(migrations.Migration):
    initial = True

    dependencies: ClassVar = []

    operations: ClassVar = [
        migrations.CreateModel(
            name="Household",
            fields=[
                ("id", models.CharField(max_length=32, primary_key=True, serialize=False)),
                ("name", models.CharField(max_length=80)),
                ("time_zone", models.CharField(max_length=64)),
                ("language", models.CharField(max_length=8)),
                ("paper", models.CharField(max_length=8)),
                ("younger_child", models.BooleanField(default=False)),
                ("morning_start", models.TimeField(blank=True, null=True)),
            ],
            options={
                "constraints": [
                    models.CheckConstraint(condition=models.Q(("id", ""), _negated=True), name="household_has_an_id"),
                    models.CheckConstraint(
                        condition=models.Q(("paper__in", ("letter", "a4"))), name="household_paper_is_known"
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="Learner",
            fields=[
                ("id", models.CharField(max_length=32, primary_key=True, serialize=False)),
                ("name", models.CharField(max_length=40)),
                ("born", models.DateField(blank=True, null=True)),
                ("hand", models.CharField(default="right", max_length=8)),
                ("boxes", models.CharField(default="standard", max_length=12)),
                ("sheets_per_day", models.CharField(default="as the course says", max_length=20)),
                ("course", models.CharField(max_length=40)),
                ("place", models.PositiveSmallIntegerField(default=0)),
                (
                    "household",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="learners", to="records.household"
                    ),
                ),
            ],
            options={
                "ordering": ["place", "name"],
            },
        ),
        migrations.CreateModel(
            name="EventRow",
            fields=[
                ("seq", models.BigAutoField(primary_key=True, serialize=False)),
                ("event_id", models.CharField(max_length=32)),
                ("kind", models.CharField(max_length=16)),
                ("day", models.DateField()),
                ("at", models.DateTimeField()),
                ("sheet", models.CharField(default="", max_length=8)),
                ("lesson", models.CharField(default="", max_length=40)),
                ("payload", models.TextField()),
                (
                    "household",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="events", to="records.household"
                    ),
                ),
                (
                    "learner",
                    models.ForeignKey(
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="events",
                        to="records.learner",
                    ),
                ),
            ],
            options={
                "ordering": ["seq"],
            },
        ),
        migrations.CreateModel(
            name="CacheRow",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("kind", models.CharField(max_length=60)),
                ("last_event", models.BigIntegerField()),
                ("model_version", models.CharField(max_length=40)),
                ("payload", models.TextField()),
                (
                    "learner",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE, related_name="caches", to="records.learner"
                    ),
                ),
            ],
        ),
        migrations.CreateModel(
            name="PlanVersionRow",
            fields=[
                ("version_id", models.CharField(max_length=32, primary_key=True, serialize=False)),
                ("reason", models.CharField(max_length=200)),
                ("plan", models.TextField()),
                ("sha256", models.CharField(max_length=64)),
                (
                    "household",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="plans", to="records.household"
                    ),
                ),
                (
                    "learner",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="plans", to="records.learner"
                    ),
                ),
                (
                    "parent",
                    models.ForeignKey(
                        null=True, on_delete=django.db.models.deletion.PROTECT, to="records.planversionrow"
                    ),
                ),
            ],
        ),
        migrations.CreateModel(
            name="PrintRow",
            fields=[
                ("print_id", models.CharField(max_length=32, primary_key=True, serialize=False)),
                ("seq", models.PositiveIntegerField()),
                ("lesson", models.CharField(max_length=40)),
                ("day", models.DateField()),
                ("seed", models.BigIntegerField()),
                ("engine", models.CharField(max_length=40)),
                ("lang", models.CharField(max_length=8)),
                ("paper", models.CharField(max_length=8)),
                ("guide", models.BinaryField()),
                ("pages", models.BinaryField()),
                ("key", models.BinaryField()),
                (
                    "household",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="prints", to="records.household"
                    ),
                ),
                (
                    "learner",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="prints", to="records.learner"
                    ),
                ),
            ],
            options={
                "ordering": ["seq"],
            },
        ),
        migrations.CreateModel(
            name="SheetRow",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("sheet_id", models.CharField(max_length=8)),
                ("lesson", models.CharField(max_length=40)),
                ("place", models.PositiveSmallIntegerField()),
                ("spec", models.TextField()),
                ("pages", models.TextField()),
                (
                    "household",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="sheets", to="records.household"
                    ),
                ),
                (
                    "learner",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="sheets", to="records.learner"
                    ),
                ),
                (
                    "printed",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="sheets", to="records.printrow"
                    ),
                ),
            ],
            options={
                "ordering": ["printed__seq", "place"],
            },
        ),
        migrations.AddConstraint(
            model_name="learner",
            constraint=models.CheckConstraint(
                condition=models.Q(models.Q(("id", ""), _negated=True), models.Q(("name", ""), _negated=True)),
                name="learner_has_an_id_and_a_name",
            ),
        ),
        migrations.AddConstraint(
            model_name="learner",
            constraint=models.CheckConstraint(
                condition=models.Q(("hand__in", ("right", "left"))), name="learner_hand_is_known"
            ),
        ),
        migrations.AddConstraint(
            model_name="learner",
            constraint=models.CheckConstraint(
                condition=models.Q(("boxes__in", ("standard", "large", "compact"))), name="learner_boxes_are_known"
            ),
        ),
        migrations.AddConstraint(
            model_name="learner",
            constraint=models.CheckConstraint(
                condition=models.Q(("sheets_per_day__in", ("as the course says", "one", "two"))),
                name="learner_sheets_are_known",
            ),
        ),
        migrations.AddConstraint(
            model_name="learner",
            constraint=models.UniqueConstraint(fields=("household", "name"), name="learner_name_is_one_childs_own"),
        ),
        migrations.AddIndex(
            model_name="eventrow",
            index=models.Index(fields=["learner", "kind", "seq"], name="event_by_learner_and_kind"),
        ),
        migrations.AddIndex(
            model_name="eventrow",
            index=models.Index(fields=["household", "sheet"], name="event_by_sheet"),
        ),
        migrations.AddConstraint(
            model_name="eventrow",
            constraint=models.UniqueConstraint(fields=("household", "event_id"), name="event_id_is_unique"),
        ),
        migrations.AddConstraint(
            model_name="eventrow",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    (
                        "kind__in",
                        (
                            "printed",
                            "taught",
                            "marked",
                            "looked",
                            "mended",
                            "noted",
                            "override",
                            "attended",
                            "plan changed",
                        ),
                    )
                ),
                name="event_kind_is_known",
            ),
        ),
        migrations.AddConstraint(
            model_name="eventrow",
            constraint=models.CheckConstraint(
                condition=models.Q(("event_id", ""), _negated=True), name="event_has_an_id"
            ),
        ),
        migrations.AddConstraint(
            model_name="cacherow",
            constraint=models.UniqueConstraint(fields=("learner", "kind"), name="cache_is_one_a_kind"),
        ),
        migrations.AddConstraint(
            model_name="planversionrow",
            constraint=models.CheckConstraint(
                condition=models.Q(models.Q(("version_id", ""), _negated=True), models.Q(("plan", ""), _negated=True)),
                name="plan_version_is_whole",
            ),
        ),
        migrations.AddConstraint(
            model_name="printrow",
            constraint=models.UniqueConstraint(fields=("learner", "seq"), name="print_order_is_clear"),
        ),
        migrations.AddConstraint(
            model_name="printrow",
            constraint=models.CheckConstraint(
                condition=models.Q(("paper__in", ("letter", "a4"))), name="print_paper_is_known"
            ),
        ),
        migrations.AddConstraint(
            model_name="sheetrow",
            constraint=models.UniqueConstraint(fields=("household", "sheet_id"), name="sheet_id_is_unique_at_home"),
        ),
        migrations.AddConstraint(
            model_name="sheetrow",
            constraint=models.CheckConstraint(
                condition=models.Q(("sheet_id", ""), _negated=True), name="sheet_has_an_id"
            ),
        ),
    ]
