"""Every code that items about money and time carry, with the names of its values; `codes` takes them in."""

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
}

OPTIONS: frozenset[str] = frozenset({"penny", "nickel", "dime", "quarter"})
"""Option codes that are words. Amounts (45¢, $45) and times (4:35) stand as they are."""

WORDS: Mapping[str, bool] = {
    "number-name": True,
    "cent": True,
    "penny": True,
    "nickel": True,
    "dime": True,
    "quarter": True,
    "dollar": True,
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
}
