"""What a morning is made of: lessons in phases, who else wants the adult, the one tablet; and the morning laid out.

All times are whole minutes from the start of the morning. Where the family sets no start, they are an order, no clock.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Final, Literal

if TYPE_CHECKING:
    from collections.abc import Mapping
    from datetime import time

    from dayleaf.core.ids import LearnerId

PhaseKind = Literal["led", "alone"]
How = Literal["rule", "search", "solver"]

ADULT: Final = "adult"
"""The name under which an appointment takes the adult away."""


@dataclass(frozen=True, slots=True)
class Phase:
    """A piece of a lesson, without a break inside: `led` needs the adult; `uses` names shared things."""

    kind: PhaseKind
    minutes: int
    uses: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Block:
    """One lesson of one child: its phases in their fixed order.

    A child ends one block before the next begins; between the phases of a block it may have to wait. `worth`
    is the price of leaving the block out on a day that is too short. `fresh` blocks are wanted early,
    `after` names blocks of the same child that are wanted before this one (wishes, both); a `loud` block
    stays out of quiet times (a rule).
    """

    id: str
    learner: LearnerId
    title: str
    phases: tuple[Phase, ...]
    worth: int = 50
    fresh: bool = False
    loud: bool = False
    after: tuple[str, ...] = ()

    @property
    def minutes(self) -> int:
        """What the phases last together."""
        return sum(phase.minutes for phase in self.phases)


@dataclass(frozen=True, slots=True)
class Stamina:
    """How long a child keeps at it: after at most `span` minutes of phases comes a pause of `pause` or more.

    Phases whose gaps are shorter than a pause make one stretch. A single phase longer than the span is a
    stretch of its own.
    """

    span: int
    pause: int


@dataclass(frozen=True, slots=True)
class Appointment:
    """A time that is taken: of children by their ids, or of the adult (`ADULT`).

    In a `quiet` time (a little one's nap) no loud block may lie. `start` may be before the morning.
    """

    name: str
    who: tuple[str, ...]
    start: int
    minutes: int
    quiet: bool = False

    @property
    def end(self) -> int:
        """The minute in which it is over."""
        return self.start + self.minutes


@dataclass(frozen=True, slots=True)
class SharedThing:
    """A thing that children share, and how many of it there are: one tablet, two sets of blocks."""

    name: str
    count: int = 1


@dataclass(frozen=True, slots=True)
class MorningWishes:
    """What each wish costs, once the end of the morning is as early as it can be.

    `waiting`: a minute that a child waits in the middle of a lesson. `order`: a block that comes before one it
    was wanted after. `fresh`: a minute until a block that is wanted early begins.
    """

    waiting: int = 2
    order: int = 15
    fresh: int = 1


@dataclass(frozen=True, slots=True)
class MorningNeeds:
    """Everything a morning has to hold.

    `stamina` names the children who need pauses. `shared` says how many there are of each shared thing.
    `latest` is the minute by which all is done; blocks that do not fit are left out, cheapest first.
    """

    blocks: tuple[Block, ...]
    stamina: Mapping[LearnerId, Stamina] = field(default_factory=dict)
    appointments: tuple[Appointment, ...] = ()
    shared: Mapping[str, int] = field(default_factory=dict)
    latest: int | None = None
    start: time | None = None
    wishes: MorningWishes = MorningWishes()

    @property
    def learners(self) -> tuple[LearnerId, ...]:
        """The children in the order in which their blocks are given."""
        return tuple(dict.fromkeys(block.learner for block in self.blocks))


@dataclass(frozen=True, slots=True)
class Session:
    """One phase with its time; `phase` counts from 0 within its block."""

    learner: LearnerId
    block: str
    phase: int
    kind: PhaseKind
    start: int
    minutes: int
    uses: tuple[str, ...] = ()

    @property
    def end(self) -> int:
        """The minute in which it is over."""
        return self.start + self.minutes


@dataclass(frozen=True, slots=True)
class LeftOut:
    """A block without a place, and why in one sentence."""

    block: str
    learner: LearnerId
    says: str


@dataclass(frozen=True, slots=True)
class MorningPlan:
    """A morning laid out: sessions by start, then by child.

    `minutes` is the end of the last session. `finish_bound` is a proven lower bound of it for the blocks that
    are in; `wishes_bound` one of the wishes' cost among mornings that end as early; `price_bound` one of the
    worth left out. `how` says what found it: a rule that is always right, a search, or the solver.
    """

    sessions: tuple[Session, ...]
    left_out: tuple[LeftOut, ...]
    price: int
    price_bound: int
    minutes: int
    finish_bound: int
    cost: Mapping[str, int]
    wishes_bound: int
    how: How
    start: time | None = None

    @property
    def total(self) -> int:
        """What the wishes that are not met cost."""
        return sum(self.cost.values())

    @property
    def proof(self) -> Literal["optimal", "bound"]:
        """Whether nothing left out, end and wishes are all proven to be the best there is."""
        proven = (self.price, self.minutes, self.total) == (self.price_bound, self.finish_bound, self.wishes_bound)
        return "optimal" if proven else "bound"

    @property
    def with_adult(self) -> tuple[Session, ...]:
        """Who is with the adult when."""
        return tuple(session for session in self.sessions if session.kind == "led")
