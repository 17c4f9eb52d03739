"""Where a skill is seen again, and where the course map and its index stand."""

from __future__ import annotations

from django.urls import path

from dayleaf.web.views import again, course_map

urlpatterns = [
    path("again/<str:skill>.pdf", again.paper, name="again-paper"),
    path("again/<str:skill>", again.again, name="again"),
    path("library/map", course_map.whole, name="course-map"),
    path("library/map.pdf", course_map.paper, name="course-map-paper"),
]
