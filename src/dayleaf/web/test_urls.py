"""Where a child's chapter tests live, under /children/LEARNER/tests."""

from __future__ import annotations

from django.urls import path

from dayleaf.web.views import chapter_tests

urlpatterns = [
    path("", chapter_tests.tests, name="tests"),
    path("/<int:chapter>", chapter_tests.test, name="test"),
    path("/<int:chapter>/print", chapter_tests.print_form, name="test-print"),
    path("/<int:chapter>/decide", chapter_tests.decide, name="test-decide"),
]
