"""Rigs that hold, by the whole check: against a check of every way to tie them, on boxes in memory."""

import random
from collections.abc import Iterator
from datetime import date
from itertools import product
from typing import Any

import pytest

from tacklebox.matches.before.holding import Holding, MustMeet
from tacklebox.matches.dividing.division import divide
from tacklebox.matches.dividing.flaws import DOUBTFUL, FAILS, SOUND, Rig
from tacklebox.matches.dividing.stacks import PartAsk, Stack, Wanted
from tacklebox.rigs.checking.check import check, judging
from tacklebox.rigs.fitting import fit
from tacklebox.rigs.recipes.file import parse_recipe
from tacklebox.rigs.recipes.resolved import Resolved
from tacklebox.rigs.recipes.resolving import resolve
from tacklebox.stock.inventory import Inventory, Stocked
from tacklebox.stock.measured import Measured
from tacklebox.stock.tables import Hook, Item, Kind, Line
from tacklebox.trade.judgement import Judgement, Outcome
from tacklebox.trade.pulls import Pull
from tests.long.length import so_many
from tests.matches.test_flaws import by_trying_everything, is_true, value_of
from tests.outside import outside
from tests.rigs.boxes import fine_hooklength

LEADER = """
name = "Leger with a leader"
makes = "rig"
method = "feeder"
for = "bream"
hooklengths = ["hooklength-fine"]

[[part]]
name = "upper line"
is = "line"
diameter = "0.10 to 0.22 mm"
length = "{length}"
top = "double overhand loop"
bottom = "{knot}"

[[part]]
name = "leader"
is = "line"
diameter = "0.08 to 0.22 mm"
length = "50 cm"
top = "{knot}"
bottom = "double overhand loop"

[[part]]
name = "hooklength"
is = "hooklength"
"""
GRADES = {Outcome.SOUND: SOUND, Outcome.DOUBTFUL: DOUBTFUL, Outcome.FAILS: FAILS}


def leader_rig(length: str, knot: str) -> Resolved:
    text = LEADER.format(length=length, knot=knot)
    return resolve(parse_recipe(text, "leger-leader"), {}, fine_hooklength())


class Box:
    """A few spools of near strengths, and what every check says of each way to use them."""

    def __init__(self, dice: random.Random) -> None:
        self.stacks, lines = [], []
        for number in range(dice.randint(2, 5)):
            diameter = dice.choice([0.10, 0.11, 0.12, 0.14, 0.16, 0.20])
            strain = dice.choice([0.6, 0.7, 0.8, 0.9, 1.0, 1.1, 1.2, 1.6, 2.4])
            lines.append(spool(number + 1, diameter, strain))
            self.stacks.append(
                Stack(
                    dice.choice([0, 700, 1500, 2400, 5000]),
                    dice.choice([2000, 5000]),
                    dice.randint(1, 6),
                    dice.choice([0, 0, 1000]),
                )
            )
        fine = spool(90, 0.08, dice.choice([0.6, 0.7, 0.8]))
        hook = stocked(
            91, Hook(item_id=91, size="20", size_order=-20, end="spade", barb="barbless"), "hook 20"
        )
        self.inventory = Inventory(
            {kind: [] for kind in Kind} | {Kind.LINE: [*lines, fine], Kind.HOOK: [hook]}
        )
        # The fine line serves the hooklength alone, which is looked at and not taken from.
        self.numbers = {s: s + 1 for s in range(len(lines))}
        self.rigs = [
            leader_rig(
                f"{dice.choice([40, 60, 100])} cm", dice.choice(["water knot", "blood knot"])
            )
            for _ in range(dice.randint(1, 2))
        ]
        self.wants = [self._wanted(dice.randint(1, 3), rig) for rig in self.rigs]
        self.grades: dict[tuple[int, Rig], int] = {}

    def _wanted(self, count: int, rig: Resolved) -> Wanted:
        parts = []
        for need in rig.needs:
            found = self.inventory.ranked(need.ask, in_place=False)
            parts.append(PartAsk(need.amount, tuple(s.id - 1 for s in found if s.id < 90)))
        return Wanted(count, tuple(parts))

    def grade(self, w: int, rig: Rig) -> int:
        """By a fit and a check of its own."""
        if (w, rig) not in self.grades:
            names = [need.part for need in self.rigs[w].needs]
            use = {name: self.numbers[s] for name, s in zip(names, rig, strict=True)}
            fitted = fit(self.rigs[w], self.inventory.copy(), 1, use)
            self.grades[w, rig] = GRADES[check(fitted).outcome]
        return self.grades[w, rig]


def stocked(number: int, figures: Line | Hook, words: str) -> Stocked:
    item = Item(
        id=number, kind=figures.of_kind, words=words, name=words, pack_size=50_000,
        on_hand=50_000, added_on=date(2026, 3, 5),
    )  # fmt: skip
    return Stocked(item, figures)


def spool(number: int, diameter_mm: float, strain_kg: float) -> Stocked:
    line = Line(item_id=number, material="nylon", diameter_mm=diameter_mm, breaks_at_kg=strain_kg)
    return stocked(number, line, f"nylon {diameter_mm} mm {strain_kg} kg")


@outside("rigs that hold by every check", "every way to tie them, each checked", "other way")
@pytest.mark.parametrize("block", range(so_many(10, 1)))
def test_the_plan_is_the_best_of_all_whose_every_rig_holds(block: int) -> None:
    """Three hundred boxes in the whole form, thirty in a block: near strengths, knots that suit few
    diameters."""
    fails = 0
    for seed in range(30 * block, 30 * block + so_many(30, 20)):
        box = Box(random.Random(seed))
        holding = Holding(box.inventory, box.rigs, box.wants, box.numbers, MustMeet())
        found = divide(box.stacks, box.wants, holding.flaws)
        is_true(box.stacks, box.wants, box, found)
        assert found.proven
        best = by_trying_everything(box.stacks, box.wants, box)
        assert (seed, value_of(found, box)) == (seed, best)
        fails += FAILS in box.grades.values()
    assert fails > 8


def test_a_flaw_is_told_of_the_fewest_parts_with_all_that_does_the_same() -> None:
    """Every rig with those items has it, by a check of its own."""
    for seed in range(20):
        box = Box(random.Random(seed))
        holding = Holding(box.inventory, box.rigs, box.wants, box.numbers, MustMeet())
        for w, want in enumerate(box.wants):
            every = list(product(*(part.stacks for part in want.parts)))
            for rig in every:
                flaws = list(holding.flaws(w, rig))
                worst = max(
                    (FAILS if f.fails else DOUBTFUL for f in flaws if f.is_in(rig)), default=SOUND
                )
                assert worst == box.grade(w, rig)
                for flaw in flaws:
                    least = FAILS if flaw.fails else DOUBTFUL
                    assert all(box.grade(w, one) >= least for one in every if flaw.is_in(one))


def test_items_with_the_same_figures_are_checked_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """Twelve spools of one weak line for a rig line; a thirteenth, pulled, is judged by itself."""
    box = Box(random.Random(0))
    weak = [spool(number, 0.12, 0.6) for number in range(1, 14)]
    box.inventory.by_kind[Kind.LINE][:] = [*weak, spool(90, 0.08, 0.8)]
    box.inventory.measured = Measured(pulls={13: (Pull(3.0, None),) * 3})
    text = LEADER.format(length="60 cm", knot="double overhand loop")
    rig_text = text[: text.index('[[part]]\nname = "leader"')] + text[text.rindex("[[part]]") :]
    rig = resolve(parse_recipe(rig_text, "leger"), {}, fine_hooklength())
    want = Wanted(1, (PartAsk(1, tuple(range(13))),))
    holding = Holding(box.inventory, [rig], [want], {s: s + 1 for s in range(13)}, MustMeet())
    asked = []

    def counted(*case: Any, **more: Any) -> Iterator[Iterator[Judgement]]:
        asked.append(case)
        return judging(*case, **more)

    monkeypatch.setattr("tacklebox.matches.before.holding.judging", counted)
    fails = [flaw for flaw in holding.flaws(0, (4,)) if flaw.fails]
    assert [dict(flaw.stacks) for flaw in fails] == [{0: frozenset(range(12))}]
    first = len(asked)
    assert not [flaw for flaw in holding.flaws(0, (12,)) if flaw.fails]
    assert len(asked) < 2 * first
    assert first < 24
