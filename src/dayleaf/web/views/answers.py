"""Plain questions and answers, and what to mind."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.utils.translation import gettext
from django.views.decorators.http import require_GET

from dayleaf.records.printer import home_folder
from dayleaf.web.page import household_or_none, page

if TYPE_CHECKING:
    from django.http import HttpRequest, HttpResponse


@require_GET
def answers(request: HttpRequest) -> HttpResponse:
    """A dozen questions that parents have, with answers; then the cautions."""
    values = {"questions": questions(), "cautions": cautions(), "folder": str(home_folder())}
    return page(request, "help", values, household=household_or_none(), here="help")


def questions() -> tuple[tuple[str, str, str, str], ...]:
    """(question, answer, name of the page that does it or "", words of the link)."""
    return (
        (
            gettext("What do I do this morning?"),
            gettext(
                "Open Today and press Print. Read the guide’s first lines, fetch what is named, sit down. The guide "
                "tells what to say, do and ask. The step with the line at its left is the one that counts; the rest "
                "may be cut short."
            ),
            "today",
            gettext("Today"),
        ),
        (
            gettext("What if there are only ten minutes?"),
            gettext(
                "Every guide ends with a ten-minute version and one without things. Do that, say “half” on Today, and "
                "the day counts as begun. Stopping in the middle of a page is allowed; half a page is good to know."
            ),
            "",
            "",
        ),
        (
            gettext("How do I mark a page?"),
            gettext(
                "Everything counts as right. Touch what was not and type what the child wrote: that tells a slip from "
                "a habit. A photo does it too; you are asked only where a digit is in doubt."
            ),
            "mark",
            gettext("Mark"),
        ),
        (
            gettext("We lost a day, or a week. What now?"),
            gettext(
                "Nothing is owed. Say which days were lost on the year’s page and choose: let everything move, use "
                "spare days, or trim what may be trimmed. Pages already printed stay good, and one touch undoes it."
            ),
            "year",
            gettext("Year"),
        ),
        (
            gettext("Where does my child begin?"),
            gettext(
                "The placement on the child’s page asks at most 25 questions, aloud or on paper, in two or three "
                "sittings. It names a day and says why. You may choose another."
            ),
            "children",
            gettext("Children"),
        ),
        (
            gettext("The same thing goes wrong again and again"),
            gettext(
                "On the child’s page, open the skill: there is what was seen, with the answers that say so, a short "
                "probe for what lies beneath, and three short days with things, a drawing, and paper."
            ),
            "children",
            gettext("Children"),
        ),
        (
            gettext("Why does earlier work come back?"),
            gettext(
                "What is not used fades. The back of a sheet brings a few skills that are getting rusty or will be "
                "needed soon. “Why these” on Today says the reason for each."
            ),
            "today",
            gettext("Today"),
        ),
        (
            gettext("A printed ruler is not true"),
            gettext(
                "The printer was asked to fit the page, or is a little off. Print one page with a bar, measure it, and "
                "type what you find; from then on things come out true."
            ),
            "printer",
            gettext("The printer"),
        ),
        (
            gettext("A key is wrong"),
            gettext(
                "Every answer is worked out twice by separate ways. If one is wrong all the same, please keep the page "
                "with its sheet number and report it; do not mark it against the child."
            ),
            "",
            "",
        ),
        (
            gettext("Somebody else teaches on Thursday"),
            gettext(
                "Open the day in the library: guide, pages and key print without a name and without anything about "
                "your child. Or print the child’s own day as always; the guide is enough to teach it."
            ),
            "library-days",
            gettext("Every day"),
        ),
        (
            gettext("Where is everything kept?"),
            gettext(
                "In one folder on this computer. Nothing is sent anywhere, and it works without a network. Make a copy "
                "of it now and then, on another disk."
            ),
            "",
            "",
        ),
        (
            gettext("Can my child work on a screen?"),
            gettext(
                "Paper and hands come first. A page with one question at a time can be switched on for a child; it "
                "has no clock and no points, and ends by itself."
            ),
            "children",
            gettext("Children"),
        ),
    )


def cautions() -> tuple[tuple[str, str], ...]:
    """What to mind, as (name, words)."""
    return (
        (
            gettext("Small parts"),
            gettext(
                "Counters, coins, cubes, clips and rubber bands are a choking danger for children under three and for "
                "any who put things into their mouths. Take large things instead, count small ones back in, and keep "
                "magnets and button cells out of it."
            ),
        ),
        (
            gettext("Scissors, string, bags"),
            gettext(
                "An adult cuts card and small pieces; children cut sitting down, with blunt tips. String never goes "
                "round a neck or near a cot. Keep sets in paper or small bags with holes, out of reach."
            ),
        ),
        (
            gettext("Kitchen and water"),
            gettext(
                "Weigh and pour with cold water, away from the stove, and wipe the floor. No glass thermometers with "
                "mercury. Nothing is measured at a canal, a pond or a road."
            ),
        ),
        (
            gettext("Records"),
            gettext(
                "These are your records. Rules about teaching at home differ from place to place and change: check "
                "the rules where you live."
            ),
        ),
        (
            gettext("Not a diagnosis"),
            gettext(
                "What is said about a child is what was seen on pages, with dates. Where something worries you for "
                "months, consider asking a qualified person; the record can go along."
            ),
        ),
        (
            gettext("What is not proved"),
            gettext(
                "What comes back, and what is believed of a child, was tried out on simulated children. It is not "
                "validated on children yet, nor is the reading of their handwriting. You decide."
            ),
        ),
    )
