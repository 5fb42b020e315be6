"""What runs low: what is short of its minimum, and what the rigs wanted would use up.

Rigs are tied on paper, one at a time in the order asked, so that a part may go over to another item within
its ask. What the rest would take is bought in whole packets, minimums included.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from sqlmodel import Session

from tacklebox.matches.before.losses import (
    AnyItem,
    Forecast,
    forecasts,
    items_to_watch,
    read_losses,
)
from tacklebox.matches.before.purchases import Purchase, purchases, total_cents
from tacklebox.stock.batches import tied_at_home
from tacklebox.stock.care.box import Box
from tacklebox.stock.levels import is_short, to_hand

if TYPE_CHECKING:
    from tacklebox.matches.before.in_wallet import InWallet
    from tacklebox.matches.dividing.candidates import Candidate, Candidates
    from tacklebox.rigs.recipes.resolved import Need, Resolved


@dataclass(frozen=True)
class Want:
    """So many rigs or hooklengths of one resolved recipe."""

    resolved: "Resolved"
    count: int


@dataclass(frozen=True)
class Gap:
    """A part that nothing is left for, and what there is, in words."""

    need: "Need"
    gap: str


@dataclass(frozen=True)
class Reach:
    """How many of a want are in the wallet, how many more can be tied from what is left, and what stops
    the next one."""

    want: Want
    can_tie: int
    stopped_by: tuple[Gap, ...]
    in_wallet: int = 0


@dataclass(frozen=True)
class Outlook:
    """The whole answer: what is low now, how far stock reaches, what to buy."""

    short: tuple[AnyItem, ...]  # of their minimum, now; low and out of what is not counted
    reaches: tuple[Reach, ...]
    runs_out_first: AnyItem | None
    purchases: tuple[Purchase, ...]
    no_item_for: tuple[str, ...]  # asks that no item in the box meets
    forecasts: tuple[Forecast, ...]  # of what is planned or has a minimum

    @property
    def total_cents(self) -> int:
        """Cost of all purchases with a known price."""
        return total_cents(self.purchases)


def look_ahead(box: Box, wants: Sequence[Want]) -> Outlook:
    """How many of each want can be tied from stock together, in the order they are given.

    Hooklengths that the wallet holds are not tied again. Earlier wants take first; each takes
    substitutes only within its recipe's own asks. To buy: what the untied rest needs, and what brings
    each item back to its minimum after tying, in whole packs.
    """
    with box.reading() as session:
        watched = items_to_watch(session)
        items: dict[int, AnyItem] = {item.id: item for item in watched}
        losses = read_losses(session)
        tied = tied_at_home(session)
        tying = _tying_on_paper(session, wants) if wants else None
        held = _in_wallet(session, wants)
    reaches = (
        tuple(tying.reach(want, one.count) for want, one in zip(wants, held, strict=True))
        if tying
        else ()
    )
    planned = tying.all_rigs if tying else {}
    if tying:
        items |= {number: tying.used[number].item for number in planned}
    taken = {stocked.id: stocked.item for one in held for stocked, _ in one.served}
    items |= taken
    ordered = [item for _, item in sorted(items.items())]
    return Outlook(
        tuple(item for item in watched if is_short(item)),
        reaches,
        tying.runs_out_first.item if tying and tying.runs_out_first else None,
        purchases(ordered, planned, tied),
        tuple(tying.no_item_for) if tying else (),
        forecasts(ordered, planned, losses, taken),
    )


def _in_wallet(session: Session, wants: Sequence[Want]) -> "list[InWallet]":
    if not wants:
        return []
    from tacklebox.matches.before.in_wallet import in_wallet

    return in_wallet(session, [(want.count, want.resolved) for want in wants])


def _tying_on_paper(session: Session, wants: Sequence[Want]) -> "_TyingOnPaper":
    from tacklebox.matches.dividing.candidates import Candidates

    return _TyingOnPaper(Candidates(session, (need.ask for want in wants for need in _needs(want))))


def _needs(want: Want) -> "list[Need]":
    return [need for need in want.resolved.needs if not need.in_place]


@dataclass
class _TyingOnPaper:
    """What rigs would take of each item, by its number: those that can be tied, the untied rest, and
    what ran out first."""

    candidates: "Candidates"
    tied: dict[int, int] = field(default_factory=dict)
    untied: dict[int, int] = field(default_factory=dict)
    used: "dict[int, Candidate]" = field(default_factory=dict)
    runs_out_first: "Candidate | None" = None
    no_item_for: list[str] = field(default_factory=list)

    @property
    def all_rigs(self) -> dict[int, int]:
        """What all rigs take of each item, tied and untied."""
        numbers = {**self.tied, **self.untied}
        return {n: self.tied.get(n, 0) + self.untied.get(n, 0) for n in numbers}

    def reach(self, want: Want, has: int = 0) -> Reach:
        """Tie those that are not there already one at a time, so that a part may go over to the next item
        when one is used up."""
        needs, to_tie = _needs(want), want.count - has
        for count in range(to_tie):
            takes: dict[int, int] = {}
            serving = [self._first_of(need, takes) for need in needs]
            if None in serving:
                gaps = [n for n, s in zip(needs, serving, strict=True) if s is None]
                self._miss(needs, serving, to_tie - count)
                return Reach(want, count, tuple(self._gap(need) for need in gaps), has)
            for number, amount in takes.items():
                self.tied[number] = self.tied.get(number, 0) + amount
        return Reach(want, to_tie, (), has)

    def _left(self, stocked: "Candidate") -> int:
        return to_hand(stocked.item) - self.tied.get(stocked.id, 0)

    def _first_of(self, need: "Need", takes: dict[int, int]) -> "Candidate | None":
        for stocked in self.candidates.of(need.ask):
            if self._left(stocked) - takes.get(stocked.id, 0) >= need.amount:
                takes[stocked.id] = takes.get(stocked.id, 0) + need.amount
                self.used[stocked.id] = stocked
                return stocked
        return None

    def _miss(
        self, needs: "Sequence[Need]", serving: "Sequence[Candidate | None]", missing: int
    ) -> None:
        """Take for the missing rigs what is left of the candidates; the rest must be bought."""
        for need, chosen in zip(needs, serving, strict=True):
            every, still = self.candidates.of(need.ask), missing
            for stocked in every:
                left = self._left(stocked) - self.untied.get(stocked.id, 0)
                served = max(min(still, left // need.amount), 0)
                self._take(stocked, served * need.amount)
                still -= served
            if every:
                self._take(chosen or every[0], still * need.amount)
                if chosen is None and self.runs_out_first is None:
                    self.runs_out_first = every[0]
            elif (ask := f"{need.part}: {need.ask}") not in self.no_item_for:
                self.no_item_for.append(ask)

    def _take(self, stocked: "Candidate", amount: int) -> None:
        if amount:
            self.untied[stocked.id] = self.untied.get(stocked.id, 0) + amount
            self.used[stocked.id] = stocked

    def _gap(self, need: "Need") -> Gap:
        from tacklebox.stock.ledger import write_gap

        every = self.candidates.of(need.ask)
        if not every:
            return Gap(need, f"nothing in the box is: {need.ask}")
        item = max(every, key=self._left)
        return Gap(need, write_gap(item.item, self._left(item), need.amount))
