"""Records a family may need: attendance, grade book, progress, work samples, and all of it as files."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING, Any, Final

from django.http import FileResponse, Http404, HttpResponse
from django.shortcuts import redirect
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from dayleaf.core.errors import BadInput, Problem
from dayleaf.packets.reports import RULES, print_report
from dayleaf.records import attendance, kept_backups, selectors, subjects
from dayleaf.records.archive import archive_of
from dayleaf.records.courses import course_of
from dayleaf.records.grades import entries_of, scale_keep, scale_of
from dayleaf.records.reports import progress_kept, report_of, sample_page
from dayleaf.records.samples import candidates_of, choose_samples
from dayleaf.records.span import year_so_far
from dayleaf.records.summer import print_summer
from dayleaf.web.clock import today_for
from dayleaf.web.page import page
from dayleaf.web.records_shown import days_sentence, month_asked, scale_asked, shown_grades, shown_month
from dayleaf.web.through import from_phone

if TYPE_CHECKING:
    from django.http import HttpRequest

    from dayleaf.packets.reports import ReportName
    from dayleaf.records.models import Household, Learner

REPORTS: Final[dict[str, ReportName]] = {
    "attendance": "attendance",
    "progress": "progress",
    "grades": "grades",
    "samples": "samples",
    "year": "year",
}


@require_GET
def records(request: HttpRequest) -> HttpResponse:
    """Whose records there are."""
    household = selectors.household()
    lines = [{"id": child.id, "name": child.name} for child in selectors.learners(household)]
    return page(request, "records/all", {"children": lines}, household=household, here="records")


@require_GET
def of_child(request: HttpRequest, learner: str) -> HttpResponse:
    """One child's records, and the files that can be made of them."""
    household, child = _child(learner)
    today = today_for(household)
    first, last = year_so_far(child, today=today)
    found = attendance.totals(attendance.attendance(child, first=first, last=last, today=today))
    values = {
        "child": child,
        "says": days_sentence(found),
        "first": first.isoformat(),
        "last": last.isoformat(),
        "grades": scale_of(child).kind != "none",
        "rules": RULES,
    }
    return page(request, "records/child", values, household=household, here="records")


@require_http_methods(["GET", "POST"])
def days(request: HttpRequest, learner: str) -> HttpResponse:
    """A month of attendance; a day is said with the buttons beside it."""
    household, child = _child(learner)
    today = today_for(household)
    if request.method == "POST":
        day = _day(request.POST.get("day", ""))
        minutes = _minutes(request.POST.get("minutes", ""))
        attendance.day_said(learner=child, day=day, known=request.POST.get("known", ""), minutes=minutes, today=today)
        return _to_month(child, day)
    first, last = month_asked(request.GET.get("month", ""), today=today)
    found = attendance.attendance(child, first=first, last=last, today=today)
    values: dict[str, Any] = {
        "child": child,
        **shown_month(found, attendance.totals(found), first=first, last=last, today=today),
        "away": request.GET.get("away", ""),
    }
    return page(request, "records/days", values, household=household, here="records")


@require_POST
def subject(request: HttpRequest, learner: str) -> HttpResponse:
    """Keep a line of another subject."""
    household, child = _child(learner)
    day = _day(request.POST.get("day", ""))
    if day > today_for(household):
        raise BadInput([Problem(gettext("day"), gettext("it is still to come; write it down when it is there"))])
    subjects.subject_add(
        learner=child,
        day=day,
        title=request.POST.get("title", ""),
        minutes=_minutes(request.POST.get("minutes", "")),
        done=request.POST.get("done") == "yes",
    )
    return _to_month(child, day)


@require_POST
def subject_away(request: HttpRequest, learner: str, line: str) -> HttpResponse:
    """Take a line away, or bring it back."""
    _, child = _child(learner)
    back = "back" in request.POST
    row = subjects.subject_away(learner=child, line=line, back=back)
    return _to_month(child, row.day, away="" if back else row.line_id)


@require_http_methods(["GET", "POST"])
def grades(request: HttpRequest, learner: str) -> HttpResponse:
    """The grade book and how it counts."""
    household, child = _child(learner)
    first, last = year_so_far(child, today=today_for(household))
    entries = entries_of(child, course_of(child), first=first, last=last)
    problems: list[Problem] = []
    if request.method == "POST":
        try:
            asked = scale_asked(request.POST, [one.id for one in entries], request.POST.getlist("out"))
            scale_keep(learner=child, scale=asked)
        except BadInput as bad:
            problems = list(bad.problems)
        else:
            return redirect("records-grades", learner=child.id)
    values = {"child": child, "problems": problems, **shown_grades(scale_of(child), entries)}
    return page(
        request, "records/grades", values, household=household, here="records", status=422 if problems else 200
    )


@require_GET
def progress(request: HttpRequest, learner: str) -> HttpResponse:
    """What was learned: how many skills, and the standard codes with how they fit."""
    household, child = _child(learner)
    found = progress_kept(child, course_of(child), today=today_for(household))
    met = sum(len(lines) for _, lines in found.strands) if found else 0
    values = {"child": child, "progress": found, "met": met}
    return page(request, "records/progress", values, household=household, here="records")


@require_GET
def samples(request: HttpRequest, learner: str) -> HttpResponse:
    """The sheets that would be shown, chosen evenly over time and strands."""
    household, child = _child(learner)
    course = course_of(child)
    first, last = year_so_far(child, today=today_for(household))
    chosen = choose_samples(candidates_of(child, course, first=first, last=last))
    lines = [
        {
            "sheet": one.candidate.sheet,
            "photo": one.candidate.photo,
            **_facts(sample_page(child, course, one, pictures=False)),
        }
        for one in chosen
    ]
    values = {"child": child, "samples": lines}
    return page(request, "records/samples", values, household=household, here="records")


@require_POST
def file(request: HttpRequest, learner: str) -> HttpResponse:
    """One file of a child's records, made now."""
    household, child = _child(learner)
    today = today_for(household)
    what = request.POST.get("what", "")
    first, last = _day(request.POST.get("first", "")), _day(request.POST.get("last", ""))
    if first > last:
        raise BadInput([Problem(gettext("days"), gettext("the first day is after the last one"))])
    if what == "archive":
        data = archive_of(child, first=first, last=last, today=today).zipped()
        return _attached(data, f"{_plain(child.name)}-{first}-{last}.zip", "application/zip")
    if what == "summer":
        return _attached(print_summer(child, today=today), f"{_plain(child.name)}-summer.pdf", "application/pdf")
    if what not in REPORTS:
        raise Http404
    report = report_of(child, first=first, last=last, today=today, pictures=what in {"samples", "year"})
    data = print_report(report, REPORTS[what], paper=selectors.look_of(child).paper)
    return _attached(data, f"{_plain(child.name)}-{what}.pdf", "application/pdf")


@require_http_methods(["GET", "POST"])
def backups(request: HttpRequest) -> HttpResponse:
    """The backups beside the records; one touch makes another. A phone cannot: everything stands in it."""
    household = selectors.household()
    if request.method == "POST" and not from_phone(request):
        kept_backups.backup_keep(today=today_for(household), at=timezone.now())
        return redirect("records-backups")
    values = {"backups": kept_backups.backups_kept(), "on_phone": from_phone(request)}
    return page(request, "records/backups", values, household=household, here="records")


@require_GET
def backup_file(request: HttpRequest, name: str) -> FileResponse:
    """A backup, to be saved elsewhere."""
    if from_phone(request):
        raise Http404
    answer = FileResponse(kept_backups.backup_named(name).open("rb"), as_attachment=True, filename=name)
    answer.headers["Cache-Control"] = "private, no-store"
    return answer


def _child(learner: str) -> tuple[Household, Learner]:
    household = selectors.household()
    return household, selectors.learner_by_id(household, learner)


def _facts(sample: Any) -> dict[str, str]:
    return {"heading": sample.heading, "facts": sample.facts}


def _to_month(child: Learner, day: date, *, away: str = "") -> HttpResponse:
    undo = f"&away={away}" if away else ""
    return redirect(f"{reverse('records-days', args=(child.id,))}?month={day:%Y-%m}{undo}")


def _day(text: str) -> date:
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise BadInput([Problem(gettext("day"), gettext("write a date such as 2027-01-12"))]) from None


def _minutes(text: str) -> int | None:
    text = text.strip()
    if not text:
        return None
    if not (text.isascii() and text.isdigit() and len(text) < 6):
        raise BadInput([Problem(gettext("minutes"), gettext("write a whole number, or leave it empty"))])
    return int(text)


def _attached(data: bytes, name: str, kind: str) -> HttpResponse:
    answer = HttpResponse(data, content_type=kind)
    answer.headers["Content-Disposition"] = f'attachment; filename="{name}"'
    answer.headers["Cache-Control"] = "private, no-store"
    return answer


def _plain(name: str) -> str:
    return "".join(sign if sign.isascii() and sign.isalnum() else "-" for sign in name)
