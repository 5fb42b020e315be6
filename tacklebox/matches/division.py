"""Dividing stock among what is to be tied, over all wants at once, proven best by a solver.

First the wants in their order: as many of the first as can be, then of the second, and so on.
Then the least money for what the rest needs. Then the fewest new packets opened.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from typing import Any

from tacklebox.errors import CannotBeDoneError

MOST_SECONDS = 60.0
PACKET_SECONDS = 3.0
AT_ONCE = 3  # wants in one question, so that weights stay small beside the solver's tolerance


@dataclass(frozen=True)
class Stack:
    """One item: what is on hand, in one packet (smallest units), and a packet's price."""

    on_hand: int
    pack: int
    price_cents: int | None = None

    @property
    def open_rest(self) -> int:
        """What is left in the packet that is open."""
        return self.on_hand % self.pack


@dataclass(frozen=True)
class PartAsk:
    """One part of one rig: how much it takes, and the stacks that would do, the nearest first."""

    amount: int
    stacks: tuple[int, ...]


@dataclass(frozen=True)
class Wanted:
    """So many rigs to be tied, each of these parts."""

    count: int
    parts: tuple[PartAsk, ...]

    @property
    def can_be_bought_for(self) -> bool:
        """Whether every part has an item that would do."""
        return all(part.stacks for part in self.parts)


@dataclass(frozen=True)
class Division:
    """The best division. ``tied`` counts rigs of each want that stock serves; ``serves`` says
    how many of them, by (want, part, stack); ``packs`` are to be bought, by stack; ``opened``
    are new packets, bought ones too; pieces that come singly are no packets.

    That no other division ties more or costs less is always proven; ``proven_fewest`` says
    whether it is proven, too, that none opens fewer packets."""

    tied: tuple[int, ...]
    serves: dict[tuple[int, int, int], int]
    packs: dict[int, int]
    cost_cents: int
    opened: int
    proven_fewest: bool


@dataclass
class _Model:
    """A mixed-integer model: columns and rows as lists, handed to HiGHS at one go."""

    low: list[float] = field(default_factory=list)
    high: list[float] = field(default_factory=list)
    rows: list[tuple[float, float, list[int], list[float]]] = field(default_factory=list)

    def column(self, high: float, low: float = 0.0) -> int:
        """A new whole-numbered column."""
        self.low.append(low)
        self.high.append(high)
        return len(self.low) - 1

    def row(self, low: float, high: float, factors: Sequence[tuple[int, float]]) -> None:
        """low ≤ Σ factor × column ≤ high."""
        self.rows.append((low, high, [c for c, _ in factors], [f for _, f in factors]))

    def solver(self) -> Any:
        """HiGHS with the model in it; every answer must be proven, to the last whole number."""
        import highspy
        import numpy as np

        count = len(self.low)
        lp = highspy.HighsLp()
        lp.num_col_, lp.num_row_ = count, len(self.rows)
        lp.col_cost_ = np.zeros(count)
        lp.col_lower_, lp.col_upper_ = np.array(self.low), np.array(self.high)
        lp.row_lower_ = np.array([r[0] for r in self.rows])
        lp.row_upper_ = np.array([r[1] for r in self.rows])
        lp.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
        lp.a_matrix_.start_ = np.cumsum([0, *(len(r[2]) for r in self.rows)])
        lp.a_matrix_.index_ = np.array([c for r in self.rows for c in r[2]])
        lp.a_matrix_.value_ = np.array([f for r in self.rows for f in r[3]], dtype=float)
        lp.integrality_ = [highspy.HighsVarType.kInteger] * count
        solver = _quiet(highspy.Highs)
        solver.setOptionValue("output_flag", False)
        solver.setOptionValue("threads", 1)
        solver.setOptionValue("mip_rel_gap", 0.0)
        solver.setOptionValue("mip_abs_gap", 0.999)  # every question has a whole answer
        solver.passModel(lp)
        return solver


def _quiet(highs: Any) -> Any:
    """The solver greets when its callbacks are set, so it is silenced just before."""

    class Quiet(highs):  # type: ignore[misc]
        def enableCallbacks(self) -> None:  # noqa: N802
            self.silent()
            super().enableCallbacks()

    return Quiet()


def _least(
    solver: Any, costs: dict[int, float], seconds: float = MOST_SECONDS
) -> tuple[list[int], bool]:
    """The columns' values at the least Σ cost × column, and whether that is proven."""
    import highspy

    for column, cost in costs.items():
        solver.changeColCost(column, cost)
    solver.setOptionValue("time_limit", solver.getRunTime() + seconds)  # it counts all its runs
    solver.run()
    proven = solver.getModelStatus() == highspy.HighsModelStatus.kOptimal
    found = (
        solver.getInfo().primal_solution_status == highspy.SolutionStatus.kSolutionStatusFeasible
    )
    if not proven and seconds == MOST_SECONDS:
        raise CannotBeDoneError(
            f"no best plan was proven within {seconds:g} s.", right="Plan for fewer rigs."
        )
    values = [round(v) for v in solver.getSolution().col_value] if found else []
    for column in costs:
        solver.changeColCost(column, 0.0)
    return values, proven


def divide(stacks: Sequence[Stack], wants: Sequence[Wanted]) -> Division:
    """Divide the stacks among the wants, the most important first.

    A want with a part that no stack would do for is not tied and nothing is bought for it.
    Packets of unknown price count as the dearest of known price, so that none looks free.
    Raises CannotBeDoneError when no plan is proven best in time.
    """
    tied = _most_tied(stacks, wants)
    return _cheapest(stacks, wants, tied)


class _Shares:
    """Columns for who serves what: one for each (want, part, stack)."""

    def __init__(self, model: _Model, wants: Sequence[Wanted], counts: Sequence[int]) -> None:
        self.of: dict[tuple[int, int, int], int] = {}
        for w, want in enumerate(wants):
            if counts[w]:
                for p, part in enumerate(want.parts):
                    for s in part.stacks:
                        self.of[w, p, s] = model.column(counts[w])
        self.wants = wants

    def of_part(self, w: int, p: int) -> list[tuple[int, float]]:
        """All that may serve one part of one want."""
        return [(self.of[w, p, s], 1.0) for s in self.wants[w].parts[p].stacks]

    def by_stack(self) -> dict[int, list[tuple[int, float]]]:
        """What each stack gives, in its smallest unit."""
        used: dict[int, list[tuple[int, float]]] = {}
        for (w, p, s), column in self.of.items():
            used.setdefault(s, []).append((column, float(self.wants[w].parts[p].amount)))
        return used


def _most_tied(stacks: Sequence[Stack], wants: Sequence[Wanted]) -> list[int]:
    """The most of each want, in their order.

    Where simply taking in order meets all, that is the answer; else the solver is asked for
    a few wants at a time, weighted so that their order decides.
    """
    counts = [w.count if w.can_be_bought_for else 0 for w in wants]
    if _in_order(stacks, wants, counts) == counts:
        return counts
    model = _Model()
    shares = _Shares(model, wants, counts)
    most = {w: model.column(count) for w, count in enumerate(counts) if count}
    for w, column in most.items():
        for p in range(len(wants[w].parts)):
            model.row(0.0, 0.0, [*shares.of_part(w, p), (column, -1.0)])
    for s, used in shares.by_stack().items():
        model.row(0.0, stacks[s].on_hand, used)
    solver, order = model.solver(), list(most)
    for begun in range(0, len(order), AT_ONCE):
        block = order[begun : begun + AT_ONCE]
        weight, costs = 1.0, {}
        for w in reversed(block):  # one more of a want outweighs all of those after it
            costs[most[w]] = -weight
            weight *= counts[w] + 1
        values, _ = _least(solver, costs)
        for w in block:
            counts[w] = values[most[w]]
            solver.changeColBounds(most[w], float(counts[w]), float(counts[w]))
    return counts


def _in_order(stacks: Sequence[Stack], wants: Sequence[Wanted], counts: Sequence[int]) -> list[int]:
    """How many can be tied by simply taking, one rig after the other: a first guess."""
    left, tied = [s.on_hand for s in stacks], []
    for want, count in zip(wants, counts, strict=True):
        done = 0
        while done < count:
            takes: dict[int, int] = {}
            for part in want.parts:
                s = next((s for s in part.stacks if left[s] - takes.get(s, 0) >= part.amount), None)
                if s is None:
                    break
                takes[s] = takes.get(s, 0) + part.amount
            else:
                for s, amount in takes.items():
                    left[s] -= amount
                done += 1
                continue
            break
        tied.append(done)
    return tied


def _cheapest(stacks: Sequence[Stack], wants: Sequence[Wanted], tied: Sequence[int]) -> Division:
    """The least money for what stock does not reach for, then the fewest new packets."""
    missing = [w.count - t if w.can_be_bought_for else 0 for w, t in zip(wants, tied, strict=True)]
    model = _Model()
    now, later = _Shares(model, wants, tied), _Shares(model, wants, missing)
    for counts, shares in ((tied, now), (missing, later)):
        for w, p in dict.fromkeys((w, p) for w, p, _ in shares.of):
            model.row(counts[w], counts[w], shares.of_part(w, p))
    taken, wished = now.by_stack(), later.by_stack()
    packs, opened = {}, {}
    for s in sorted({*taken, *wished}):
        stack, used = stacks[s], [*taken.get(s, []), *wished.get(s, [])]
        if s in taken and s in wished:
            model.row(0.0, stack.on_hand, taken[s])
        most = sum(amount * model.high[column] for column, amount in used)
        if stack.pack > 1:
            opened[s] = model.column(most // stack.pack + 1)
            model.row(-1e30, stack.open_rest, [*used, (opened[s], -float(stack.pack))])
        if s in wished:
            packs[s] = model.column(most // stack.pack + 1)
            model.row(-1e30, stack.on_hand, [*used, (packs[s], -float(stack.pack))])
        else:
            model.row(0.0, stack.on_hand, used)
    price = _prices(stacks, packs)
    if packs:
        model.row(0.0, 1e30, [(c, float(price[s])) for s, c in packs.items() if price[s]])
    if not model.rows:
        return Division(tuple(tied), {}, {}, 0, 0, True)
    solver = model.solver()
    values, _ = _least(solver, {c: float(price[s]) for s, c in packs.items()})
    if packs:
        spent = sum(price[s] * values[c] for s, c in packs.items())
        solver.changeRowBounds(len(model.rows) - 1, 0.0, spent + 0.5)
    fewer, proven = _least(solver, dict.fromkeys(opened.values(), 1.0), PACKET_SECONDS)
    values = fewer or values
    gone = {
        s: sum(round(amount) * values[c] for c, amount in (*taken.get(s, []), *wished.get(s, [])))
        for s in sorted({*taken, *wished})
    }
    bought = {s: n for s in packs if (n := _packs(gone[s], stacks[s].on_hand, stacks[s].pack))}
    return Division(
        tuple(tied),
        {key: values[c] for key, c in now.of.items() if values[c]},
        bought,
        sum((stacks[s].price_cents or 0) * n for s, n in bought.items()),
        sum(_packs(gone[s], stacks[s].open_rest, stacks[s].pack) for s in opened),
        proven,
    )


def _prices(stacks: Sequence[Stack], of: Iterable[int]) -> dict[int, int]:
    """The price of a packet of each; an unknown one counts as the dearest that is known."""
    known = {s: stacks[s].price_cents for s in of}
    dearest = max((cents or 0 for cents in known.values()), default=0) or 1
    return {s: dearest if cents is None else cents for s, cents in known.items()}


def _packs(gone: int, there: int, pack: int) -> int:
    """Packets for what goes beyond what is there."""
    return -(-max(gone - there, 0) // pack)
