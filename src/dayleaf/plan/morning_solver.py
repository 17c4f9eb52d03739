"""Mornings by the constraint solver, for the choices that search and bounds leave open.

One worker, a fixed seed and a limit in deterministic time: the same morning on every machine.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from dayleaf.plan.morning_cost import finish_bound, joined
from dayleaf.plan.morning_model import ADULT, Session

if TYPE_CHECKING:
    from collections.abc import Sequence

    from ortools.sat.python import cp_model

    from dayleaf.core.ids import LearnerId
    from dayleaf.plan.morning_model import Block, MorningNeeds, Stamina

TO_A_PROOF, FOR_MANY, MANY = 1.0, 0.02, 5
"""Deterministic time for each of the three questions (what is left out, how early, which wishes): enough to
prove the answers for up to four children; for five or more the best found in about a quarter of a second."""


@dataclass(frozen=True, slots=True)
class Answer:
    """What the solver found for one question: the morning, its value and a proven bound of the value."""

    sessions: tuple[Session, ...] | None
    value: int
    bound: int


@dataclass(frozen=True, slots=True)
class Limits:
    """What earlier questions have settled: at most this price, at most this end."""

    price: int | None = None
    end: int | None = None


class MorningModel:
    """The rules of one morning as a model; each question sets its own aim.

    Every child takes its blocks in the order of a circuit; `sat` is a child's minutes without a pause up to
    the end of a phase.
    """

    def __init__(self, needs: MorningNeeds, hint: Sequence[Session], *, limits: Limits) -> None:
        # Imported here: it takes a second, and most mornings never need it.
        from ortools.sat.python import cp_model  # noqa: PLC0415 -- see above

        self._needs = needs
        self._cp = cp_model
        self._model = cp_model.CpModel()
        self._limits = limits
        last = max((session.end for session in hint), default=0)
        self._horizon = limits.end if limits.end is not None else max(needs.latest or 0, last)
        if needs.latest is not None:
            self._horizon = min(self._horizon, needs.latest)
        self._starts: dict[tuple[str, int], cp_model.IntVar] = {}
        self._sat: dict[tuple[str, int], cp_model.IntVar] = {}
        self._in: dict[str, cp_model.IntVar] = {}
        self._end = self._model.new_int_var(0, self._horizon, "end")
        self._settled = limits.price == 0 or needs.latest is None
        for block in needs.blocks:
            self._in[block.id] = self._model.new_int_var(int(self._settled), 1, f"in {block.id}")
        for child in needs.learners:
            self._child(child, [block for block in needs.blocks if block.learner == child])
        self._machines()
        self._price = sum(block.worth * (1 - self._in[block.id]) for block in needs.blocks)
        if limits.price is not None and not self._settled:
            self._model.add(self._price <= limits.price)
        if self._settled:
            self._model.add(self._end >= finish_bound(needs, needs.blocks))
        self._hint(hint)

    def least_price(self) -> Answer:
        """The least worth left out."""
        self._model.minimize(self._price)
        return self._solve()

    def least_end(self) -> Answer:
        """The earliest end."""
        self._model.minimize(self._end)
        return self._solve()

    def least_cost(self) -> Answer:
        """The wishes met as cheaply as can be."""
        weights = self._needs.wishes
        terms: list[cp_model.LinearExprT] = []
        for block in self._needs.blocks:
            first, last = self._starts[block.id, 0], self._starts[block.id, len(block.phases) - 1]
            inner = block.minutes - block.phases[-1].minutes
            terms.append(weights.waiting * (last - first - inner * self._in[block.id]))
            if block.fresh:
                terms.append(weights.fresh * first)
        terms += [weights.order * late for late in self._late_orders()]
        self._model.minimize(sum(terms))
        return self._solve()

    def _child(self, child: LearnerId, blocks: Sequence[Block]) -> None:
        model = self._model
        for block in blocks:
            self._phases(block, self._needs.stamina.get(child))
        arcs: list[tuple[int, int, cp_model.LiteralT]] = []
        for a, block in enumerate(blocks, start=1):
            arcs += [(0, a, model.new_bool_var("")), (a, 0, model.new_bool_var("")), (a, a, ~self._in[block.id])]
            for b, other in enumerate(blocks, start=1):
                if a != b:
                    arc = model.new_bool_var(f"{block.id} then {other.id}")
                    arcs.append((a, b, arc))
                    self._follows((block, len(block.phases) - 1), (other, 0), arc)
        if not self._settled:
            arcs.append((0, 0, model.new_bool_var("")))
        model.add_circuit(arcs)

    def _phases(self, block: Block, stamina: Stamina | None) -> None:
        """The starts of a block's phases, one after the other."""
        model, here = self._model, self._in[block.id]
        for n, phase in enumerate(block.phases):
            start = model.new_int_var(0, self._horizon, f"{block.id} {n}")
            self._starts[block.id, n] = start
            model.add(self._end >= start + phase.minutes).only_enforce_if(here)
            model.add(start == 0).only_enforce_if(~here)
            if stamina is not None:
                most = max(stamina.span, phase.minutes)
                self._sat[block.id, n] = model.new_int_var(phase.minutes, most, f"sat {block.id} {n}")
            if n:
                self._follows((block, n - 1), (block, n), here)

    def _follows(self, before: tuple[Block, int], after: tuple[Block, int], arc: cp_model.LiteralT) -> None:
        """A child's phase comes next after another where `arc` holds, with or without a pause between."""
        (one, m), (other, n) = before, after
        model, end = self._model, self._starts[one.id, m] + one.phases[m].minutes
        start = self._starts[other.id, n]
        model.add(start >= end).only_enforce_if(arc)
        stamina = self._needs.stamina.get(one.learner)
        if stamina is not None:
            pause = model.new_bool_var("")
            model.add(start >= end + stamina.pause).only_enforce_if([arc, pause])
            joined = self._sat[one.id, m] + other.phases[n].minutes
            model.add(self._sat[other.id, n] >= joined).only_enforce_if([arc, ~pause])

    def _machines(self) -> None:
        """The adult, every child and every shared thing do one thing at a time; loud blocks keep out of quiet."""
        model = self._model
        places: dict[str, list[cp_model.IntervalVar]] = {}
        things: dict[str, list[cp_model.IntervalVar]] = {}
        loud: list[cp_model.IntervalVar] = []
        for block in self._needs.blocks:
            for n, phase in enumerate(block.phases):
                part = model.new_optional_fixed_size_interval_var(
                    self._starts[block.id, n], phase.minutes, self._in[block.id], f"{block.id} {n}"
                )
                places.setdefault(block.learner, []).append(part)
                if phase.kind == "led":
                    places.setdefault(ADULT, []).append(part)
                for name in phase.uses:
                    things.setdefault(name, []).append(part)
                loud += [part] if block.loud else []
        self._taken(places, loud)
        for parts in places.values():
            model.add_no_overlap(parts)
        for name, parts in things.items():
            model.add_cumulative(parts, [1] * len(parts), self._needs.shared.get(name, 1))

    def _taken(self, places: dict[str, list[cp_model.IntervalVar]], loud: Sequence[cp_model.IntervalVar]) -> None:
        """Appointments: each is a fixed part of everybody's day whom it concerns (overlapping ones joined)."""
        for who in {who: None for one in self._needs.appointments for who in one.who}:
            for start, end in joined((one.start, one.end) for one in self._needs.appointments if who in one.who):
                fixed = self._model.new_fixed_size_interval_var(start, end - start, f"{who} {start}")
                places.setdefault(who, []).append(fixed)
        for one in self._needs.appointments:
            if one.quiet:
                quiet = self._model.new_fixed_size_interval_var(one.start, one.minutes, one.name)
                for part in loud:
                    self._model.add_no_overlap([quiet, part])

    def _late_orders(self) -> list[cp_model.IntVar]:
        """One yes for each block that begins before one it was wanted after."""
        late: list[cp_model.IntVar] = []
        known = {block.id: block for block in self._needs.blocks}
        for block in self._needs.blocks:
            for name in block.after:
                if name in known:
                    broken = self._model.new_bool_var("")
                    both = [self._in[block.id], self._in[name], ~broken]
                    self._model.add(self._starts[name, 0] <= self._starts[block.id, 0]).only_enforce_if(both)
                    late.append(broken)
        return late

    def _hint(self, sessions: Sequence[Session]) -> None:
        kept = {session.block for session in sessions}
        for session in sessions:
            self._model.add_hint(self._starts[session.block, session.phase], session.start)
        for name, here in self._in.items():
            self._model.add_hint(here, name in kept)

    def _solve(self) -> Answer:
        solver = self._cp.CpSolver()
        solver.parameters.num_workers = 1
        solver.parameters.random_seed = 1
        solver.parameters.max_deterministic_time = FOR_MANY if len(self._needs.learners) >= MANY else TO_A_PROOF
        solver.parameters.cp_model_probing_level = 0
        solver.parameters.use_overload_checker_in_cumulative = True
        solver.parameters.use_strong_propagation_in_disjunctive = True
        status = solver.solve(self._model)
        bound = _up(solver.best_objective_bound)
        if status not in (self._cp.OPTIMAL, self._cp.FEASIBLE):
            return Answer(None, 0, bound)
        return Answer(self._sessions(solver), round(solver.objective_value), bound)

    def _sessions(self, solver: cp_model.CpSolver) -> tuple[Session, ...]:
        sessions = [
            Session(block.learner, block.id, n, phase.kind, solver.value(start), phase.minutes, phase.uses)
            for block in self._needs.blocks
            if solver.boolean_value(self._in[block.id])
            for n, phase in enumerate(block.phases)
            for start in [self._starts[block.id, n]]
        ]
        return tuple(sorted(sessions, key=lambda one: (one.start, one.learner, one.block, one.phase)))


def _up(bound: float) -> int:
    """The least whole number that is not below the bound, rounding of the solver's own arithmetic aside."""
    return -int(-(bound - 1e-6) // 1)
