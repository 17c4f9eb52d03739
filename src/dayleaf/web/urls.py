"""Where each page lives."""

from __future__ import annotations

from django.urls import path
from django.views.generic import RedirectView

from dayleaf.web.views import children, files, first, plan, sheets, today

urlpatterns = [
    path("", today.today, name="today"),
    path("prepare", today.prepare, name="prepare"),
    path("print/<str:learner>/<str:lesson>", today.print_day, name="print"),
    path("said/<str:learner>/<str:lesson>", today.said, name="said"),
    path("begin", first.first_visit, name="first-visit"),
    path("sheets", sheets.sheets, name="sheets"),
    path("sheets/<str:sheet_id>", sheets.sheet, name="sheet"),
    path("children", children.children, name="children"),
    path("children/<str:learner>", children.child, name="child"),
    path("children/<str:learner>/read", children.read_again, name="read-again"),
    path("children/<str:learner>/pages", children.pages, name="pages"),
    path("plan", plan.plan, name="plan"),
    path("plan/<str:learner>", plan.plan, name="plan-of"),
    path("papers/<str:print_id>/<str:paper>.pdf", files.paper, name="paper"),
    path("fonts/<str:name>", files.font, name="font"),
    path("favicon.ico", RedirectView.as_view(url="/static/dayleaf/leaf.svg")),
]
handler404 = "dayleaf.web.views.errors.not_found"
handler500 = "dayleaf.web.views.errors.broken"
