"""Where a child's own page lives, under /go/LEARNER."""

from __future__ import annotations

from django.urls import path

from dayleaf.web.views import screen

urlpatterns = [
    path("", screen.go, name="go"),
    path("/now", screen.item, name="go-item"),
    path("/answer", screen.answer, name="go-answer"),
    path("/stop", screen.stop, name="go-stop"),
    path("/switch", screen.switch, name="screen"),
]
