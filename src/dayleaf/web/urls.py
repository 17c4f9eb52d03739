"""Where each page lives."""

from __future__ import annotations

from django.urls import include, path
from django.views.generic import RedirectView

from dayleaf.web.views import children, files, first, phones, photos, plan, settings, settle, sheets, today, week

urlpatterns = [
    path("", today.today, name="today"),
    path("prepare", today.prepare, name="prepare"),
    path("print/<str:learner>/<str:lesson>", today.print_day, name="print"),
    path("said/<str:learner>/<str:lesson>", today.said, name="said"),
    path("note/<str:learner>/<str:lesson>", today.note, name="note"),
    path("begin", first.first_visit, name="first-visit"),
    path("mark", sheets.sheets, name="mark"),
    path("mark/<str:sheet_id>", sheets.sheet, name="sheet"),
    path("mark/<str:sheet_id>/mended", sheets.mended, name="mended"),
    path("mark/<str:sheet_id>/photo", settle.settle, name="settle"),
    path("sheets", RedirectView.as_view(pattern_name="mark")),
    path("sheets/<str:sheet_id>", RedirectView.as_view(pattern_name="sheet")),
    path("sheets/<str:sheet_id>/photo", RedirectView.as_view(pattern_name="settle")),
    path("settings", settings.settings_page, name="settings"),
    path("settings/passphrase", settings.passphrase, name="settings-passphrase"),
    path("open", settings.opening, name="open"),
    path("week", week.week, name="week"),
    path("week/ready", week.ready, name="week-ready"),
    path("week/print", week.print_run, name="week-print"),
    path("week/sheet.pdf", week.sheet, name="week-sheet"),
    path("week/<str:first>/<str:paper>.pdf", week.paper, name="week-paper"),
    path("photos", photos.photos, name="photos"),
    path("photos/now", photos.photos_now, name="photos-now"),
    path("photos/read", photos.read_now, name="photos-read"),
    path("photos/<str:photo>/remove", photos.remove, name="photo-remove"),
    path("photos/<str:photo>/<int:number>/away", photos.put_away, name="photo-put-away"),
    path("photos/<str:photo>/<int:number>.jpg", photos.side, name="photo-side"),
    path("phones", phones.phones, name="phones"),
    path("phones/now", phones.phones_now, name="phones-now"),
    path("phones/open", phones.open_door, name="door-open"),
    path("phones/close", phones.close_door, name="door-close"),
    path("phones/code.svg", phones.code, name="door-code"),
    path("phones/<str:device>/away", phones.send_away, name="phone-away"),
    path("join", phones.join, name="join"),
    path("join/<str:code>", phones.join, name="join-with"),
    path("children", children.children, name="children"),
    path("children/<str:learner>", children.child, name="child"),
    path("children/<str:learner>/read", children.read_again, name="read-again"),
    path("children/<str:learner>/", include("dayleaf.web.child_urls")),
    path("children/<str:learner>/pages", children.pages, name="pages"),
    path("year", plan.year, name="year"),
    path("year/calendar.ics", plan.calendar, name="calendar"),
    path("year/<str:learner>", plan.year, name="year-of"),
    path("year/<str:learner>/calendar.ics", plan.calendar, name="calendar-of"),
    path("year/<str:learner>/change", plan.change, name="year-change"),
    path("year/<str:learner>/undo", plan.undo, name="year-undo"),
    path("year/<str:learner>/busy", plan.busy, name="year-busy"),
    path("year/<str:learner>/beside", plan.beside, name="year-beside"),
    path("plan", RedirectView.as_view(pattern_name="year")),
    path("plan/<str:learner>", RedirectView.as_view(pattern_name="year-of")),
    path("children/<str:learner>/tests", include("dayleaf.web.test_urls")),
    path("go/<str:learner>", include("dayleaf.web.go_urls")),
    path("", include("dayleaf.web.again_urls")),
    path("library", include("dayleaf.web.library_urls")),
    path("records", include("dayleaf.web.records_urls")),
    path("papers/<str:print_id>/<str:paper>.pdf", files.paper, name="paper"),
    path("fonts/<str:name>", files.font, name="font"),
    path("favicon.ico", RedirectView.as_view(url="/static/dayleaf/leaf.svg")),
]
handler400 = "dayleaf.web.views.errors.not_understood"
handler404 = "dayleaf.web.views.errors.not_found"
handler500 = "dayleaf.web.views.errors.broken"
