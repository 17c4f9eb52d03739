"""Where a skill is seen again, the course map stands, and a family keeps words and a course of its own."""

from __future__ import annotations

from django.urls import path

from dayleaf.web.views import again, course_map, own_words

urlpatterns = [
    path("again/<str:skill>.pdf", again.paper, name="again-paper"),
    path("again/<str:skill>", again.again, name="again"),
    path("library/map", course_map.whole, name="course-map"),
    path("library/map.pdf", course_map.paper, name="course-map-paper"),
    path("own-words/<str:lesson>", own_words.own_words, name="own-words"),
    path("own-words/<str:lesson>/note", own_words.note, name="own-note"),
    path("own-words/<str:lesson>/line", own_words.line, name="own-line"),
]
