"""Where a skill is seen again, the course map stands, and a family keeps words and a course of its own."""

from __future__ import annotations

from django.urls import path

from dayleaf.web.views import again, course_map, own_course, own_words

urlpatterns = [
    path("again/<str:skill>.pdf", again.paper, name="again-paper"),
    path("again/<str:skill>", again.again, name="again"),
    path("library/map", course_map.whole, name="course-map"),
    path("library/map.pdf", course_map.paper, name="course-map-paper"),
    path("library/own-course", own_course.own_course, name="own-course"),
    path("library/own-course/lines", own_course.read, name="own-course-read"),
    path("library/own-course/keep", own_course.keep, name="own-course-keep"),
    path("own-words/<str:lesson>", own_words.own_words, name="own-words"),
    path("own-words/<str:lesson>/note", own_words.note, name="own-note"),
    path("own-words/<str:lesson>/line", own_words.line, name="own-line"),
]
