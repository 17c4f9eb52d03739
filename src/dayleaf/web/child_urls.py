"""One child's own pages, under /children/<learner>."""

from __future__ import annotations

from django.urls import path

from dayleaf.web.views import placement, practice, skill

urlpatterns = [
    path("placement", placement.placement, name="placement"),
    path("placement/begin", placement.begin, name="placement-begin"),
    path("placement/paper", placement.paper, name="placement-paper"),
    path("practice", practice.practice, name="practice"),
    path("practice/paper", practice.paper, name="practice-paper"),
    path("skills/<str:skill>", skill.skill, name="skill"),
    path("skills/<str:skill>/decide", skill.decide, name="skill-decide"),
    path("skills/<str:skill>/three-days", skill.strip, name="skill-strip"),
    path("skills/<str:skill>/ask", skill.ask, name="skill-ask"),
]
