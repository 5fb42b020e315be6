"""The rigs of a division, filled part by part from what serves each group of what is asked."""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from tacklebox.matches.dividing.flaws import AskedOfStock, Rig
from tacklebox.matches.dividing.question import BoundTied, Shared, SharedStacks

Rigs = Mapping[Rig, int]  # so many of each, in the order they are tied


@dataclass
class Rows:
    """So many rigs of each want, and the stacks of each part in turn; one alone serves all."""

    counts: list[int]
    parts: dict[tuple[int, int], list[int]] = field(default_factory=dict)


class FilledRigs:
    """The rigs of every want as they are filled, part by part: now and later. ``either`` says of how many of
    a want it is not known yet whether they are tied later or bought ready-made."""

    def __init__(
        self,
        asked: Sequence[AskedOfStock],
        now: list[int],
        later: list[int],
        either: Mapping[int, int],
    ) -> None:
        self.asked, self.now, self.later = asked, Rows(now), Rows(later)
        self.either = either
        self.ready_made: list[Mapping[int, int]] = [{} for _ in asked]

    def add(self, group: SharedStacks, shared: Shared) -> None:
        """What serves one group, each part from its nearest."""
        for demand, (now, later) in zip(group.loose, shared.loose, strict=True):
            for rows, of, counts in (
                (self.now, demand.now, now),
                (self.later, demand.later, later),
            ):
                each = [s for s, count in counts.items() for _ in range(count)]
                begin = 0
                for key, count in of.items():
                    rows.parts[key] = each[begin : begin + count]
                    begin += count
        for either, partly in zip(group.tied_or_bought, shared.tied_or_bought, strict=True):
            self.later.counts[either.want] = partly.tied
            self.ready_made[either.want] = partly.bought
            for p, counts in partly.parts.items():
                each = [s for s, count in counts.items() for _ in range(count)]
                self.later.parts[either.want, p] = each
        for bound, (tied_now, tied_later) in zip(group.bound, shared.bound, strict=True):
            for rows, tied in ((self.now, tied_now), (self.later, tied_later)):
                if tied:
                    for p, those in _bound_parts(bound.asked, tied):
                        rows.parts[bound.want, p] = those

    def rigs(self, rows: Rows) -> list[Rigs]:
        """The rigs of each want, the same together."""
        found: list[Rigs] = []
        for w, (one, count) in enumerate(zip(self.asked, rows.counts, strict=True)):
            every = [rows.parts[w, p] for p in range(len(one.parts))] if count else []
            each = (those if len(those) > 1 else those * count for those in every)
            found.append(
                Counter(zip(*each, strict=True)) if every else Counter({(): count} if count else {})
            )
        return found


def _bound_parts(asked: AskedOfStock, tied: BoundTied) -> Iterator[tuple[int, list[int]]]:
    """The stacks of each bound part, rig by rig: of each class what serves it, in turn."""
    bound = asked.bound
    assert bound is not None
    for place, (p, classes) in enumerate(zip(bound.parts, bound.classes, strict=True)):
        left = [
            iter([s for s in those for _ in range(tied.serves.get((p, s), 0))]) for those in classes
        ]
        yield (
            p,
            [
                next(left[pattern[place]])
                for pattern, count in zip(bound.patterns, tied.patterns, strict=True)
                for _ in range(count)
            ],
        )
