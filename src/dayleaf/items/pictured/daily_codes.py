"""Every code that items about money, time and longer stories carry, with the names of its values.

`codes` takes them in.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

QUESTIONS: Mapping[str, tuple[str, ...]] = {
    # coins; coin and noun are codes of nouns
    "coin-worth": (),  # How many cents is this coin worth?
    "coin-worth-more": (),  # Which coin is worth more?
    "draw-coins": ("n",),  # Draw coins that make 47¢.
    "draw-coins-of-kind": ("n", "coin"),  # Draw nickels that make 30¢.
    "draw-two-ways": ("n",),  # Draw 30¢ in two ways.
    "draw-fewest-coins": ("n",),  # Draw 30¢ with as few coins as you can.
    "cents-of-coins": ("n", "noun"),  # How many cents are 3 quarters?
    "which-is-cents": ("n",),  # Which one is forty-five cents?
    "fix-cents": ("n", "shown"),  # shown as it stands. Forty-five cents: $45 is not right. How is it written?
    "which-set-more": ("a", "first", "b", "second"),  # Which set is more money? (the values say what is drawn)
    "how-many-for-dollars": ("n", "coin"),  # How many dimes make 2 dollars?
    "draw-dollars": ("n", "coin"),  # Draw quarters that make 1 dollar.
    "draw-change": ("price", "paid"),  # It costs 65¢. You pay 100¢. Draw the change.
    # p and q are codes of people, thing and other codes of nouns
    "change-story": ("p", "thing", "price", "paid"),  # Wren buys a pear for 65¢. Wren pays 100¢. How much change?
    "money-left-cents": ("p", "a", "thing", "b"),  # Wren has 90¢. Wren buys an egg for 35¢. How much is left?
    "money-left-dollars": ("p", "a", "thing", "b"),
    "money-both-cents": ("p", "thing", "a", "other", "b"),  # Wren buys a pear for 40¢ and an egg for 35¢. How much?
    "money-both-dollars": ("p", "thing", "a", "other", "b"),
    "money-more-cents": ("p", "a", "q", "b"),  # Wren has 90¢. Ivo has 35¢. How much more has Wren?
    "money-more-dollars": ("p", "a", "q", "b"),
    # clocks; named is the hour that the words name
    "which-time": (),  # Which time does the clock show?
    "draw-half-past": ("named",),  # Draw the hands: half past four
    "draw-quarter-past": ("named",),
    "draw-quarter-to": ("named",),
    "fix-short-hand": ("h", "m"),  # At 6:30 someone drew the short hand right on 6. Between which numbers is it?
    # spans; p is a code of people, doing one of DOING
    "how-long-hours": ("p", "doing", "h", "end", "m"),  # Wren weeds from 2:00 to 4:30. How many hours and minutes?
    "how-long-minutes": ("p", "doing", "h", "m", "end", "end_m"),
    "when-done": ("p", "doing", "h", "m", "k"),  # Wren weeds from 9:50 on, for 20 minutes. When is Wren done?
    "draw-later-hours": ("h", "hours"),  # It is 2:00. Draw the hands for 3 hours later.
    "draw-later-half": ("h",),
    "draw-later-hours-half": ("h", "hours"),
    "am-or-pm": ("what", "h", "m"),  # what: a code of DAILY. Wren eats breakfast at 7:30. Is that a.m. or p.m.?
    # dates; month is a word code such as month-3
    "date-after-days": ("d", "k"),  # Which date is 4 days after the 9th?
    "date-after-weeks": ("d", "k"),
    "story-after-days": ("month", "d", "k"),  # The boat leaves on March 9 and is away 4 days. On which date …?
    "story-after-weeks": ("month", "d", "k"),
    # stories of two steps, with too much or too little told; p and noun as in stories
    "gets-then-gives": ("p", "noun", "a", "b", "c"),  # Wren has 12 apples, gets 8 more, gives away 5. How many left?
    "gives-then-gets": ("p", "noun", "a", "b", "c"),
    "gives-twice": ("p", "noun", "a", "b", "c"),
    "extra-gets": ("p", "noun", "x", "a", "b"),  # Wren is 7 years old, has 12 shells, finds 5 more. How many now?
    "extra-gives": ("p", "noun", "x", "a", "b"),
    "told-enough": ("p", "noun", "x", "a", "b"),  # as extra-gets; can you work it out?
    "told-too-little": ("p", "noun", "a"),  # Wren has 12 shells and finds some more. Can you work out how many?
    # graphs with a scale, tables of numbers in and out
    "draw-bars": ("first", "a", "second", "b", "third", "c"),  # codes. Apples 10, beans 15, shells 5: draw the bars
    "in-out-missing": (),  # Find the rule. Which two numbers come out?
    "in-out-rule": (),  # What is the rule of the table? Tell how you know
    # bills and coins; first and second in dollars, noun a coin
    "bills-one-kind": ("p", "a", "first", "n", "noun"),  # Wren has 2 five-dollar bills and 3 dimes. How much is that?
    "bills-two-kinds": ("p", "a", "first", "b", "second", "n", "noun"),
    # stories of two steps with all four signs, told in this order
    "has-then-groups": ("p", "noun", "c", "a", "b"),  # Wren has 8 shells, gets 3 bags of 4. How many now?
    "wants-from-groups": ("p", "noun", "c", "a", "b"),  # Wren gives away 8 shells out of 3 bags of 4. How many left?
    "finds-then-shared": ("p", "noun", "c", "total", "a"),  # Wren has 8, then 12 are shared among 3 children
    "gives-then-shared": ("p", "noun", "total", "c", "a"),
    # a question asked of people; topic is a code of TOPICS in `surveys`
    "ask-people": ("n", "topic"),  # Ask 12 people: which fruit do you like best? Make a mark for each answer
    "plan-survey": ("topic", "n"),
    # why a way works
    "why-new-ten": ("a", "b", "result"),  # 47 + 28 = 75. Why is there one more ten?
    "why-tens-first": ("a", "b", "result"),
    "why-friendly-ten": ("a", "b", "result"),
    "what-is-small-one": ("a", "b"),  # 47 + 28 in columns: what is the small 1 above the tens?
    "why-open-ten": ("a", "b", "result"),
    "why-count-up": ("a", "b", "result"),
    "why-still-same": ("a", "b", "result"),
    "why-ten-opened": ("a", "b"),  # 62 − 38: why may a ten be opened?
    "unit-of-time": ("what", "n"),  # what: a code of LASTING. To sneeze takes about 2 …
}

OPTIONS: frozenset[str] = frozenset(
    {
        "penny", "nickel", "dime", "quarter", "am", "pm", "seconds", "minutes", "hours", "days", "months", "years",
        "made-from-ten-ones", "carry-the-one", "just-know", "ten-only-opened", "cross-out-borrow", "how-you-do-it",
    }
)  # fmt: skip
"""Option codes that are words. Amounts (45¢, $45) and times (4:35) stand as they are."""

WORDS: Mapping[str, bool] = {
    "number-name": True,
    "cent": True,
    "penny": True,
    "nickel": True,
    "dime": True,
    "quarter": True,
    "dollar": True,
    "hours": False,
    "minutes": False,
    "to-time": False,  # from one time to another
    "half-past": False,
    "quarter-past": False,
    "quarter-to": False,
    "second": True,
    "minute": True,
    "hour": True,
    "day": True,
    "week": True,
    "month": True,
    "year": True,
}
"""Words inside rows: code → whether it comes with a count."""

STEPS: Mapping[str, tuple[str, ...]] = {
    "take-coins": ("n", "noun", "total"),  # 2 quarters: 50¢ in all
    "coin-is": ("coin", "n"),  # A dime is 10¢
    "or-else": (),  # Or:
    "cents-sign": ("n",),  # The sign ¢ stands after the number: 45¢
    "coins-per-dollar": ("count", "coin"),  # 10 dimes make a dollar
    "coins-for-dollars": ("n", "count", "coin"),  # 2 dollars: 20 dimes
    "change-is": ("n",),  # The change is 35¢
    "with-cent": ("n",),  # The answer: 35¢
    "with-dollar": ("n",),  # The answer: $35
    "long-hand-fives": ("numeral", "n"),  # The long hand is on 7 or past it: count 7 fives, 35 minutes
    "small-marks": ("n", "total"),  # And 2 small marks: 37 minutes
    "after-the-hour": ("n", "h"),  # 15 minutes after 4
    "quarter-before": ("named", "h"),  # 15 minutes before 6: the hour is still 5
    "hops-of-an-hour": ("h", "to", "n"),  # From 2 to 5 hop by hours: 3
    "half-hour-more": ("h", "m"),  # Half an hour more: 5:30
    "minutes-jump": ("h", "m", "n"),  # To 10:00: 10 minutes
    "minutes-in-all": ("n",),  # In all 20 minutes
    "before-noon": (),  # Midnight to noon is a.m.
    "from-noon": (),  # Noon to midnight is p.m.
    "one-unit-is": ("larger", "n", "smaller"),  # codes. 1 hour is 60 minutes
    "units-are": ("n", "noun", "total", "smaller"),  # codes. 2 hours are 120 minutes
    "ways-to-part": ("n", "ways"),  # 0 and 7, 1 and 6, and so on: 8 ways
    "not-needed": ("x",),  # The 7 is not needed
    "number-missing": (),  # How many were found is not told
    "weeks-down": ("n", "days"),  # 2 weeks are 14 days: go down 2 rows
    "month-ends": ("days", "left"),  # The month has 31 days; 2 days are left for the next
    "take-bills": ("n", "value", "total"),  # 2 five-dollar bills: $10 in all
    "hidden-has-then-groups": (),  # The hidden question: how many are in the groups?
    "hidden-wants-from-groups": (),
    "hidden-finds-then-shared": (),
    "hidden-gives-then-shared": (),
    "each-person-once": (),  # Ask each person once, with the same words
    "marks-as-people": ("n",),  # In the end there are 12 marks, one for each person
    "one-clear-question": (),  # One clear question, three or four answers to choose from
    "one-stands-for": ("n",),  # One picture or step stands for 5
    "half-stands-for": ("n",),
    "one-step-stands-for": ("n",),
    "group-has": ("group", "value"),  # code. Apples: 15
    "bar-reaches": ("group", "value", "steps"),  # code. Apples 15: 3 steps high
    "rule-add": ("n",),  # The rule: add 4
    "rule-take": ("n",),
    "rule-times": ("n",),
    "goes-in-comes-out": ("a", "b"),  # 7 goes in, 11 comes out
    "try-each-row": (),  # Try it on each row
    "halves-make-ones": ("n", "ones"),  # Two half squares make one: 2 halves make 1
    "date-is": ("n",),  # So the date is the 16
    "lasts-about": ("n", "noun"),  # code. It takes about 2 seconds
}

DOING: frozenset[str] = frozenset({"garden", "deck", "wall", "oven"})
"""What takes a while."""

DAILY: Mapping[str, tuple[int, int]] = {
    # what happens at which hour (0 to 23) and minute
    "wake": (6, 30),
    "breakfast": (7, 30),
    "rooster": (5, 15),
    "bread-oven": (4, 30),
    "milk-goats": (8, 15),
    "lock-opens": (9, 0),
    "stars-late": (1, 30),
    "midnight": (0, 0),
    "noon-bell": (12, 0),
    "lunch": (12, 45),
    "nap": (13, 15),
    "swim": (15, 30),
    "tea": (16, 0),
    "supper": (17, 45),
    "bedtime": (19, 30),
    "owl": (22, 45),
}

LASTING: Mapping[str, tuple[tuple[str, int], ...]] = {
    # by unit: what takes about so many of it
    "second": (("sneeze", 2), ("tie-knot", 10), ("clap", 5)),
    "minute": (("brush-teeth", 2), ("eat-lunch", 20), ("boil-egg", 6)),
    "hour": (("sleep", 10), ("boat-trip", 3), ("bake-bread", 4)),
    "day": (("bean-sprouts", 7), ("holiday", 5), ("cold", 6)),
    "month": (("winter", 3), ("pumpkin-grows", 4), ("goat-carries", 5)),
}
"""Common knowledge, no source; a goat carries her kid for about five months."""
