"""The rows a household keeps. They hold and find; rules live in the pure rooms, writes in `services`.

Every row belongs to a household. Ids are made on the device, so that copies can merge one day. Events,
plan versions and printed sheets never change once written; triggers in the database hold that too.

JSON is kept as text in canonical form: a check by the database's own JSON functions would not pass with
`trusted_schema=OFF` on older SQLite.
"""

from __future__ import annotations

from typing import ClassVar

from django.db import models
from django.db.models import Q

ID_LENGTH = 32
EVENT_KINDS = (
    "printed",
    "taught",
    "marked",
    "looked",
    "mended",
    "noted",
    "override",
    "attended",
    "plan changed",
)
PAPERS = ("letter", "a4")
HANDS = ("right", "left")
BOXES = ("standard", "large", "compact")
WEEK_STARTS = (0, 5, 6)
"""Monday, Saturday and Sunday: the days with which weeks begin (Unicode CLDR, `firstDay`)."""
PHOTO_STATES = ("waiting", "read", "refused")
SHEETS_PER_DAY = ("as the course says", "one", "two")


class Household(models.Model):
    """The people who share one set of records. `time_zone` says which date it is for them.

    `week_start` is the weekday of a week's first day, Monday 0. Of the passphrase only a salted hash is kept, "" where
    there is none.
    """

    id = models.CharField(primary_key=True, max_length=ID_LENGTH)
    name = models.CharField(max_length=80)
    time_zone = models.CharField(max_length=64)
    language = models.CharField(max_length=8)
    paper = models.CharField(max_length=8)
    younger_child = models.BooleanField(default=False)
    morning_start = models.TimeField(null=True, blank=True)
    week_start = models.PositiveSmallIntegerField(default=0)
    passphrase = models.CharField(max_length=200, default="", blank=True)

    class Meta:
        constraints: ClassVar = [
            models.CheckConstraint(condition=~Q(id=""), name="household_has_an_id"),
            models.CheckConstraint(condition=Q(week_start__in=WEEK_STARTS), name="household_week_start_is_known"),
            models.CheckConstraint(condition=Q(paper__in=PAPERS), name="household_paper_is_known"),
        ]

    def __str__(self) -> str:
        return self.name


class Learner(models.Model):
    """A child who learns. `born` is the first of a month, or nothing.

    `on_screen` is how many items a round on the child's own page has; 0 where the child has no such page.
    """

    household = models.ForeignKey(Household, on_delete=models.PROTECT, related_name="learners")
    id = models.CharField(primary_key=True, max_length=ID_LENGTH)
    name = models.CharField(max_length=40)
    born = models.DateField(null=True, blank=True)
    hand = models.CharField(max_length=8, default="right")
    boxes = models.CharField(max_length=12, default="standard")
    sheets_per_day = models.CharField(max_length=20, default="as the course says")
    fewer_items = models.BooleanField(default=False)
    on_screen = models.PositiveSmallIntegerField(default=0)
    course = models.CharField(max_length=40)
    place = models.PositiveSmallIntegerField(default=0)

    class Meta:
        ordering: ClassVar = ["place", "name"]
        constraints: ClassVar = [
            models.CheckConstraint(condition=~Q(id="") & ~Q(name=""), name="learner_has_an_id_and_a_name"),
            models.CheckConstraint(condition=Q(hand__in=HANDS), name="learner_hand_is_known"),
            models.CheckConstraint(condition=Q(boxes__in=BOXES), name="learner_boxes_are_known"),
            models.CheckConstraint(condition=Q(sheets_per_day__in=SHEETS_PER_DAY), name="learner_sheets_are_known"),
            models.UniqueConstraint(fields=["household", "name"], name="learner_name_is_one_childs_own"),
        ]

    def __str__(self) -> str:
        return self.name


class EventRow(models.Model):
    """One thing that happened. `payload` is the whole event; the other columns find it. `seq` is the order written."""

    seq = models.BigAutoField(primary_key=True)
    household = models.ForeignKey(Household, on_delete=models.PROTECT, related_name="events")
    learner = models.ForeignKey(Learner, on_delete=models.PROTECT, related_name="events", null=True)
    event_id = models.CharField(max_length=ID_LENGTH)
    kind = models.CharField(max_length=16)
    day = models.DateField()
    at = models.DateTimeField()
    sheet = models.CharField(max_length=8, default="")
    lesson = models.CharField(max_length=40, default="")
    payload = models.TextField()

    class Meta:
        ordering: ClassVar = ["seq"]
        indexes: ClassVar = [
            models.Index(fields=["learner", "kind", "seq"], name="event_by_learner_and_kind"),
            models.Index(fields=["household", "sheet"], name="event_by_sheet"),
        ]
        constraints: ClassVar = [
            models.UniqueConstraint(fields=["household", "event_id"], name="event_id_is_unique"),
            models.CheckConstraint(condition=Q(kind__in=EVENT_KINDS), name="event_kind_is_known"),
            models.CheckConstraint(condition=~Q(event_id=""), name="event_has_an_id"),
        ]

    def __str__(self) -> str:
        return f"{self.kind} {self.day}"


class PrintRow(models.Model):
    """One print of a day for a child: the finished files, so that printing again gives the same paper."""

    print_id = models.CharField(primary_key=True, max_length=ID_LENGTH)
    household = models.ForeignKey(Household, on_delete=models.PROTECT, related_name="prints")
    learner = models.ForeignKey(Learner, on_delete=models.PROTECT, related_name="prints")
    seq = models.PositiveIntegerField()
    lesson = models.CharField(max_length=40)
    day = models.DateField()
    seed = models.BigIntegerField()
    engine = models.CharField(max_length=40)
    lang = models.CharField(max_length=8)
    paper = models.CharField(max_length=8)
    guide = models.BinaryField()
    pages = models.BinaryField()
    key = models.BinaryField()

    class Meta:
        ordering: ClassVar = ["seq"]
        constraints: ClassVar = [
            models.UniqueConstraint(fields=["learner", "seq"], name="print_order_is_clear"),
            models.CheckConstraint(condition=Q(paper__in=PAPERS), name="print_paper_is_known"),
        ]

    def __str__(self) -> str:
        return f"{self.lesson} {self.day}"


class SheetRow(models.Model):
    """A sheet as it went to paper: every item (`spec`) and every box (`pages`) in full."""

    household = models.ForeignKey(Household, on_delete=models.PROTECT, related_name="sheets")
    learner = models.ForeignKey(Learner, on_delete=models.PROTECT, related_name="sheets")
    printed = models.ForeignKey(PrintRow, on_delete=models.PROTECT, related_name="sheets")
    sheet_id = models.CharField(max_length=8)
    lesson = models.CharField(max_length=40)
    place = models.PositiveSmallIntegerField()
    spec = models.TextField()
    pages = models.TextField()

    class Meta:
        ordering: ClassVar = ["printed__seq", "place"]
        constraints: ClassVar = [
            models.UniqueConstraint(fields=["household", "sheet_id"], name="sheet_id_is_unique_at_home"),
            models.CheckConstraint(condition=~Q(sheet_id=""), name="sheet_has_an_id"),
        ]

    def __str__(self) -> str:
        return self.sheet_id


class PlanVersionRow(models.Model):
    """A plan as it once was: canonical JSON, where it came from and why. Never changed; undo points back at it."""

    household = models.ForeignKey(Household, on_delete=models.PROTECT, related_name="plans")
    learner = models.ForeignKey(Learner, on_delete=models.PROTECT, related_name="plans")
    version_id = models.CharField(primary_key=True, max_length=ID_LENGTH)
    parent = models.ForeignKey("self", on_delete=models.PROTECT, null=True)
    reason = models.CharField(max_length=200)
    plan = models.TextField()
    sha256 = models.CharField(max_length=64)

    class Meta:
        constraints: ClassVar = [
            models.CheckConstraint(condition=~Q(version_id="") & ~Q(plan=""), name="plan_version_is_whole"),
        ]

    def __str__(self) -> str:
        return self.reason


class FeedRow(models.Model):
    """What a child's calendar had said of its lessons before the plan in force came (`feeds`)."""

    learner = models.OneToOneField(Learner, on_delete=models.PROTECT, related_name="feed")
    announced = models.TextField()
    on = models.DateField()
    at = models.DateTimeField()

    def __str__(self) -> str:
        return f"{self.on}"


class BusyRow(models.Model):
    """The times that a household's own calendar file takes, as it was read last (`busy_times`)."""

    household = models.OneToOneField(Household, on_delete=models.PROTECT, related_name="busy")
    name = models.CharField(max_length=80)
    on = models.DateField()
    times = models.TextField()

    def __str__(self) -> str:
        return self.name


class PhotoRow(models.Model):
    """A photo or scan that was handed in; its bytes lie as a file in the home, named by their hash (`photo_files`).

    A refused one keeps its sentence until it is taken away, and has no file.
    """

    household = models.ForeignKey(Household, on_delete=models.PROTECT, related_name="photos")
    sha256 = models.CharField(max_length=64)
    state = models.CharField(max_length=8, default="waiting")
    came_at = models.DateTimeField()
    came_from = models.CharField(max_length=40)

    class Meta:
        ordering: ClassVar = ["pk"]
        constraints: ClassVar = [
            models.UniqueConstraint(fields=["household", "sha256"], name="photo_is_kept_once"),
            models.CheckConstraint(condition=Q(state__in=PHOTO_STATES), name="photo_state_is_known"),
        ]

    def __str__(self) -> str:
        return self.sha256[:7]


class PhotoPageRow(models.Model):
    """One page of a photo or scan: the reading of a side, or why it was not read."""

    household = models.ForeignKey(Household, on_delete=models.PROTECT, related_name="photo_pages")
    photo = models.ForeignKey(PhotoRow, on_delete=models.CASCADE, related_name="pages")
    number = models.PositiveSmallIntegerField()
    status = models.CharField(max_length=8)
    code = models.CharField(max_length=20, default="")
    message = models.CharField(max_length=200, default="")
    sheet = models.CharField(max_length=8, default="")
    side = models.PositiveSmallIntegerField(null=True)
    reading = models.TextField(default="")

    class Meta:
        ordering: ClassVar = ["pk"]
        indexes: ClassVar = [models.Index(fields=["household", "sheet"], name="photo_page_by_sheet")]
        constraints: ClassVar = [
            models.UniqueConstraint(fields=["photo", "number"], name="photo_page_is_one"),
            models.UniqueConstraint(
                fields=["household", "sheet", "side"], condition=Q(status="read"), name="side_is_read_once"
            ),
        ]

    def __str__(self) -> str:
        return f"{self.sheet} {self.side or self.code}"


class SettledRow(models.Model):
    """What people said so far where the photos of a sheet left a question (`settling.Settled`)."""

    household = models.ForeignKey(Household, on_delete=models.PROTECT, related_name="settled")
    sheet = models.CharField(max_length=8)
    said = models.TextField()

    class Meta:
        constraints: ClassVar = [
            models.UniqueConstraint(fields=["household", "sheet"], name="sheet_is_settled_in_one_place"),
        ]

    def __str__(self) -> str:
        return self.sheet


class ReadyRow(models.Model):
    """One line of a week's prep list that somebody ticked; `what` names the thing (`getting_ready`)."""

    household = models.ForeignKey(Household, on_delete=models.PROTECT, related_name="ready")
    week = models.DateField()
    what = models.CharField(max_length=120)

    class Meta:
        constraints: ClassVar = [
            models.UniqueConstraint(fields=["household", "week", "what"], name="thing_is_ready_once_a_week"),
        ]

    def __str__(self) -> str:
        return self.what


class PlacementRow(models.Model):
    """What was asked aloud so far to find a child's place, over all sittings (`placing`)."""

    learner = models.OneToOneField(Learner, on_delete=models.PROTECT, related_name="placement")
    said = models.TextField()

    def __str__(self) -> str:
        return self.learner_id


class DeviceRow(models.Model):
    """A phone that was let in. Only the hash of its token is kept; one that is sent away keeps its row and its name."""

    household = models.ForeignKey(Household, on_delete=models.PROTECT, related_name="devices")
    device_id = models.CharField(primary_key=True, max_length=ID_LENGTH)
    name = models.CharField(max_length=40)
    token_sha256 = models.CharField(max_length=64, unique=True)
    joined_at = models.DateTimeField()
    sent_away_at = models.DateTimeField(null=True)

    class Meta:
        ordering: ClassVar = ["joined_at"]
        constraints: ClassVar = [
            models.CheckConstraint(condition=~Q(device_id="") & ~Q(name=""), name="device_has_an_id_and_a_name"),
        ]

    def __str__(self) -> str:
        return self.name


class CacheRow(models.Model):
    """Something worked out from the events up to `last_event`; it may be thrown away at any time."""

    learner = models.ForeignKey(Learner, on_delete=models.CASCADE, related_name="caches")
    kind = models.CharField(max_length=60)
    last_event = models.BigIntegerField()
    model_version = models.CharField(max_length=40)
    payload = models.TextField()

    class Meta:
        constraints: ClassVar = [
            models.UniqueConstraint(fields=["learner", "kind"], name="cache_is_one_a_kind"),
        ]

    def __str__(self) -> str:
        return self.kind


class CourseRow(models.Model):
    """A family's own course: its outline with the confirmed skills, as JSON. Its lessons are called after `course`."""

    household = models.ForeignKey(Household, on_delete=models.PROTECT, related_name="courses")
    course = models.CharField(max_length=24)
    title = models.CharField(max_length=80)
    outline = models.TextField()

    class Meta:
        ordering: ClassVar = ["pk"]
        constraints: ClassVar = [
            models.UniqueConstraint(fields=["household", "course"], name="course_is_called_once"),
            models.CheckConstraint(condition=~Q(course="") & ~Q(course="grade2"), name="course_is_their_own"),
        ]

    def __str__(self) -> str:
        return self.title


class FamilyLineRow(models.Model):
    """The family's own words for Open or Close of a day (`lesson`) or of every lesson of a chapter of `course`."""

    household = models.ForeignKey(Household, on_delete=models.PROTECT, related_name="lines")
    course = models.CharField(max_length=40)
    lesson = models.CharField(max_length=40, default="")
    chapter = models.PositiveSmallIntegerField(default=0)
    part = models.CharField(max_length=5)
    text = models.CharField(max_length=400)

    class Meta:
        ordering: ClassVar = ["course", "chapter", "lesson", "part"]
        constraints: ClassVar = [
            models.UniqueConstraint(
                fields=["household", "course", "lesson", "chapter", "part"], name="line_has_a_place_of_its_own"
            ),
            models.CheckConstraint(condition=Q(part__in=("open", "close")), name="line_stands_in_open_or_close"),
            models.CheckConstraint(condition=Q(lesson="") ^ Q(chapter=0), name="line_is_of_a_day_or_of_a_chapter"),
        ]

    def __str__(self) -> str:
        return self.text
