"""What is left to be shared out once all is served that plainly can be, in groups that share no stack."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from tacklebox.matches.dividing.filling import FilledRigs
from tacklebox.matches.dividing.flaws import AskedOfStock
from tacklebox.matches.dividing.question import (
    BoundDemand,
    Demand,
    SharedStacks,
    TiedOrBought,
)
from tacklebox.matches.dividing.stacks import PartAsk, Stacks, Wanted, linked, plainly_served


def groups_of(
    filled: FilledRigs, wants: Sequence[Wanted], at_no_cost: Mapping[int, int]
) -> list[SharedStacks]:
    """What shares stacks, if only through others, together; what is plainly served is filled."""
    wanted = [
        (w, one, now, later)
        for w, (one, now, later) in enumerate(
            zip(filled.asked, filled.now.counts, filled.later.counts, strict=True)
        )
        if now + later or w in filled.either
    ]
    free = _plainly_served(wanted, at_no_cost)
    apart = _Apart()
    for w, one, now, later in wanted:
        either = w in filled.either
        own: list[tuple[int, PartAsk]] = []  # of what is tied later, or not
        for p, part in one.loose if now + later else ():
            if part.stacks in free:
                filled.now.parts[w, p] = filled.later.parts[w, p] = [free[part.stacks]]
                continue
            apart.demand(w, p, part, now, 0 if either else later)
            own.append((p, part))
        if one.bound and now + later:
            apart.bound[w] = BoundDemand(w, one, now, later)
        if either:
            apart.either[w] = TiedOrBought(
                w, filled.either[w], one, tuple(own) if later else (), wants[w].for_sale
            )
    return apart.groups


def _plainly_served(
    wanted: Sequence[tuple[int, AskedOfStock, int, int]], at_no_cost: Mapping[int, int]
) -> dict[Stacks, int]:
    amounts: dict[Stacks, int] = {}
    beside: list[tuple[Stacks, int]] = []
    for _, one, now, later in wanted:
        for _, part in one.loose if now + later else ():
            amounts[part.stacks] = amounts.get(part.stacks, 0) + (now + later) * part.amount
        for p in one.bound.parts if one.bound and now + later else ():
            beside.append((one.parts[p].stacks, (now + later) * one.parts[p].amount))
    return plainly_served(amounts, at_no_cost, beside)


@dataclass
class _Apart:
    """What is asked for each part, for bound parts, and for what is tied or bought, by want."""

    demands: dict[PartAsk, Demand] = field(default_factory=dict)
    bound: dict[int, BoundDemand] = field(default_factory=dict)
    either: dict[int, TiedOrBought] = field(default_factory=dict)

    def demand(self, w: int, p: int, part: PartAsk, now: int, later: int) -> None:
        """So many ask for a loose part, now and later."""
        if now + later:
            demand = self.demands.setdefault(part, Demand(part))
            for count, of in ((now, demand.now), (later, demand.later)):
                if count:
                    of[w, p] = count

    @property
    def groups(self) -> list[SharedStacks]:
        """All of it, what shares stacks together."""
        links = dict(self._links())
        roots = linked([*(part.stacks for part in self.demands), *links.values()])
        groups: dict[int, SharedStacks] = {}
        for part, demand in self.demands.items():
            groups.setdefault(roots[part.stacks[0]], SharedStacks()).loose.append(demand)
        for w, its in links.items():
            group = groups.setdefault(roots[its[0]], SharedStacks())
            if w in self.bound:
                group.bound.append(self.bound[w])
            if w in self.either:
                group.tied_or_bought.append(self.either[w])
        return list(groups.values())

    def _links(self) -> Iterator[tuple[int, Stacks]]:
        """The stacks of each want that stand or fall together."""
        for w in sorted({*self.bound, *self.either}):
            of_bound = SharedStacks(bound=[self.bound[w]]).stacks if w in self.bound else ()
            of_either = self.either[w].stacks if w in self.either else ()
            yield w, (*of_either, *of_bound)
