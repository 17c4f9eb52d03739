"""Where the library's pages live, under /library."""

from __future__ import annotations

from django.urls import path

from dayleaf.web.views import library, skills

urlpatterns = [
    path("", library.library, name="library"),
    path("/search", library.search, name="library-search"),
    path("/days", library.days, name="library-days"),
    path("/days/<int:number>", library.day, name="library-day"),
    path("/days/<int:number>/side-<int:side>.png", library.side, name="library-day-side"),
    path("/days/<int:number>/<str:paper>.pdf", library.day_paper, name="library-day-paper"),
    path("/skills", skills.skills, name="library-skills"),
    path("/skills/<str:skill_id>", skills.skill, name="library-skill"),
    path("/stories", library.stories, name="library-stories"),
    path("/stories/<int:chapter>", library.story, name="library-story"),
    path("/cut-outs", library.cut_outs, name="cut-outs"),
    path("/papers", library.papers, name="library-papers"),
    path("/print/<str:word>.pdf", library.print_one, name="library-print"),
    path("/getting-ready", library.list_of_the_year, name="getting-ready"),
    path("/printer", library.printer, name="printer"),
]
