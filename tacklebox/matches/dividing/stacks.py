"""What is divided: stacks of items, and what rigs ask of them; what is served without a solver."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

Stacks = tuple[int, ...]  # what would do for a part, the nearest first


@dataclass(frozen=True)
class Stack:
    """One item: what is on hand, in one packet, its minimum (smallest units), a packet's price."""

    on_hand: int
    pack: int
    price_cents: int | None = None
    minimum: int = 0

    @property
    def open_rest(self) -> int:
        """What is left in the packet that is open."""
        return self.on_hand % self.pack

    @property
    def spare(self) -> int:
        """What can be taken before one packet more is bought for the minimum."""
        beside = self.on_hand - self.minimum
        return beside if beside >= 0 else beside % self.pack

    def ready_made(self, bought: int) -> tuple[int, int]:
        """Packets to buy where so many are bought that serve whole, and how many of those are opened.

        They are not used up, so that what is bought for the minimum serves as well.
        """
        for_them = packets(bought, 0, self.pack)
        return max(for_them, self.packs_for(0)), for_them if self.pack > 1 else 0

    @property
    def at_no_cost(self) -> int:
        """What can be taken without buying or opening a packet; what comes singly is in none."""
        return min(self.spare, self.open_rest) if self.pack > 1 else self.spare

    def packs_for(self, taken: int) -> int:
        """Packets to buy where so much is taken."""
        return packets(taken + self.minimum, self.on_hand, self.pack)

    def opened_by(self, taken: int) -> int:
        """New packets that are opened where so much is taken."""
        return packets(taken, self.open_rest, self.pack) if self.pack > 1 else 0


@dataclass(frozen=True)
class PartAsk:
    """One part of one rig: how much it takes, and the stacks that would do, the nearest first."""

    amount: int
    stacks: tuple[int, ...]


@dataclass(frozen=True)
class Wanted:
    """So many rigs, each of these parts where it is tied; ``whole`` are the stacks of which a piece serves
    as it is, the nearest first, and ``for_sale`` those of which packets can be bought that serve so."""

    count: int
    parts: tuple[PartAsk, ...]
    whole: Stacks = ()
    for_sale: Stacks = ()


def plainly_served(
    asked: Mapping[Stacks, int],
    reach: Mapping[int, int] | Sequence[int],
    beside: Iterable[tuple[Stacks, int]] = (),
) -> dict[Stacks, int]:
    """Asks that a stack serves whatever the others take, with the nearest such stack.

    ``asked`` says how much is asked of any of those stacks, ``reach`` what each stack has. One
    that reaches for all that it would do for can serve every bit of it; without that, less is
    asked of the other stacks, and more of them may reach. What is asked ``beside`` is never served so.
    """
    load: dict[int, int] = {}
    for stacks, amount in (*asked.items(), *beside):
        for s in stacks:
            load[s] = load.get(s, 0) + amount
    served: dict[Stacks, int] = {}
    plenty = {s for s, amount in load.items() if amount <= reach[s]}
    while plenty:
        less: set[int] = set()  # is asked of these from here on
        for stacks, amount in asked.items():
            nearest = next((s for s in stacks if s in plenty), None)
            if nearest is not None and stacks not in served:
                served[stacks] = nearest
                less.update(stacks)
                for s in stacks:
                    load[s] -= amount
        plenty = {s for s in less if 0 < load[s] <= reach[s]}
    return served


def simply_taken(
    asks: Sequence[tuple[PartAsk, int]], reach: Mapping[int, int] | Sequence[int]
) -> list[dict[int, int]] | None:
    """So many rigs of each ask by stack, where simply taking meets them all: the ask with the fewest
    stacks first, each from its nearest. None where it does not, though another way may.

    ``reach`` says what each stack has.

    >>> simply_taken([(PartAsk(2, (0, 1)), 2), (PartAsk(3, (0,)), 1)], [5, 9])
    [{0: 1, 1: 1}, {0: 1}]
    >>> simply_taken([(PartAsk(2, (0,)), 3)], [5]) is None
    True
    """
    left: dict[int, int] = {}
    taken: list[dict[int, int]] = [{} for _ in asks]
    for number in sorted(range(len(asks)), key=lambda n: len(asks[n][0].stacks)):
        part, still = asks[number]
        for s in part.stacks:
            if not still:
                break
            has = left[s] if s in left else reach[s]
            served = min(still, has // part.amount)
            if served:
                left[s] = has - served * part.amount
                taken[number][s] = served
                still -= served
        if still:
            return None
    return taken


def linked(every: Iterable[Stacks]) -> dict[int, int]:
    """The group of each stack: those that one ask links, if only through others."""
    group_of: dict[int, list[int]] = {}
    for stacks in set(every):
        group = group_of.get(stacks[0], [])
        for s in stacks:
            other = group_of.get(s)
            if other is None:
                group.append(s)
                group_of[s] = group
            elif other is not group:
                less, group = sorted((other, group), key=len)
                group += less
                group_of.update(dict.fromkeys(less, group))
    return {s: group[0] for s, group in group_of.items()}


def packets(taken: int, on_hand: int, pack: int) -> int:
    """Packets for what goes beyond what is there."""
    return -(-max(taken - on_hand, 0) // pack)
