"""Names for things, so that a skill can never be handed over where a lesson is wanted."""

from typing import NewType

HouseholdId = NewType("HouseholdId", str)
LearnerId = NewType("LearnerId", str)
EventId = NewType("EventId", str)
PlanVersionId = NewType("PlanVersionId", str)

CourseId = NewType("CourseId", str)
LessonId = NewType("LessonId", str)
"""The name of a day's file in the course, as `day-084`; never a date, never a place in a plan."""

SkillId = NewType("SkillId", str)
FormatId = NewType("FormatId", str)
ErrorWayId = NewType("ErrorWayId", str)

SheetId = NewType("SheetId", str)
"""Seven signs of base 32, unique within one household."""
