"""The plan whose rigs hold: what fails a check is left out where something else would do.

A plan is made and every rig of it checked. Where one fails and another item would make it hold, the weak
one and all line printed no stronger are left out for that want, and the plan is made again with the answers
of what did not change. What is doubtful goes on.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from tacklebox.matches.before.plan import MOST, Plan, Unsound, make_plan
from tacklebox.matches.before.tie_plan import Portion, check_portions, portions_of
from tacklebox.matches.before.venue_rules import is_main_line, not_barred
from tacklebox.matches.dividing.stacks import KeptAnswers
from tacklebox.matches.files.match import WantedRig
from tacklebox.matches.files.venue import Rules
from tacklebox.rigs.checking.check import Checked, check
from tacklebox.rigs.fitting import fit
from tacklebox.rigs.recipes.resolved import Need, Resolved
from tacklebox.stock.care.box import Box
from tacklebox.stock.inventory import Inventory, Stocked
from tacklebox.stock.tables import Kind, Line
from tacklebox.trade.breaks_first import DOUBTFUL_FROM, SOUND_FROM
from tacklebox.trade.judgement import Outcome

Limits = tuple[float, float]
MOST_TRIED = 6  # others for one part of one rig; each is a check


def plan_that_holds(
    box: Box,
    wants: Sequence[tuple[WantedRig, Resolved]],
    rules: Rules | None = None,
    limits: Limits = (SOUND_FROM, DOUBTFUL_FROM),
) -> Plan:
    """The best plan of which no rig fails, where stock has something that would.

    A plan is made and checked; where a rig fails, and would with another item for one of its
    parts, what fails there is left out for that want, and the plan is made again. What nothing
    in the box makes good stays, and its want's ``checked`` says so. ``limits`` are the chances from
    which a rig is sound, and to be looked at again. Raises as ``make_plan``.
    """
    unsound: set[Unsound] = set()
    kept = KeptAnswers()
    while True:
        plan = make_plan(box, wants, rules, unsound, kept)
        portions = portions_of(plan)
        checks = check_portions(box, portions, limits)
        failing = [
            portion
            for portion, checked in zip(portions, checks, strict=True)
            if checked.outcome is Outcome.FAILS
        ]
        found = _Substitutes(box, plan, rules, limits).unsound(failing) if failing else set()
        if found <= unsound:
            return _with_checks(plan, portions, checks)
        unsound |= found


class _Substitutes:
    """Looks for what would do in the place of what will not."""

    def __init__(self, box: Box, plan: Plan, rules: Rules | None, limits: Limits) -> None:
        with box.reading() as session:
            self.inventory = Inventory.read(session, Kind)
        # Whether an item holds is asked, not how much of it is left.
        every = (s for items in self.inventory.by_kind.values() for s in items)
        self.inventory.reserved = {s.id: -MOST for s in every}
        self.numbers = {id(want): w for w, want in enumerate(plan.wants)}
        self.rules, self.limits = rules, limits

    def unsound(self, failing: Sequence[Portion]) -> set[Unsound]:
        """What fails in those rigs, of the first part for which another item would."""
        found: set[Unsound] = set()
        for portion in failing:
            w = self.numbers[id(portion.want)]
            if not any((w, part, item) in found for part, item in portion.use.items()):
                found.update(self._of(w, portion))
        return found

    def _of(self, w: int, portion: Portion) -> Iterator[Unsound]:
        needs = [n for n in portion.want.resolved.needs if not n.in_place]
        for need in sorted(needs, key=lambda n: n.ask.kind is not Kind.LINE):
            every = self._let_in(portion.want.resolved, need)
            used = next((s for s in every if s.id == portion.use[need.part]), None)
            if used is None:  # the box was changed meanwhile
                continue
            others = [s for s in every if not self._does_no_better(s, used)]
            others.sort(key=_strain, reverse=True)
            if any(self._holds(portion, need, other) for other in others[:MOST_TRIED]):
                yield from ((w, need.part, s.id) for s in every if self._does_no_better(s, used))
                return

    def _let_in(self, resolved: Resolved, need: Need) -> list[Stocked]:
        every = self.inventory.ranked(need.ask, in_place=False)
        if self.rules is None:
            return every
        main_line = is_main_line(resolved, need.part)
        return not_barred(self.rules, need.ask.kind, every, main_line=main_line)

    def _does_no_better(self, other: Stocked, used: Stocked) -> bool:
        """Whether it is the same, or line of that material printed no stronger; a spool that was
        pulled is judged by itself."""
        if other.id == used.id:
            return True
        a, b = other.figures, used.figures
        if not (isinstance(a, Line) and isinstance(b, Line)):
            return False
        pulled = {other.id, used.id} & set(self.inventory.measured.pulls)
        return not pulled and a.material == b.material and 0 < _strain(other) <= _strain(used)

    def _holds(self, portion: Portion, need: Need, other: Stocked) -> bool:
        use = {**portion.use, need.part: other.id}
        fitted = fit(portion.want.resolved, self.inventory.copy(), 1, use)
        return check(fitted, *self.limits).outcome is not Outcome.FAILS


def _strain(stocked: Stocked) -> float:
    figures = stocked.figures
    return figures.breaks_at_kg or 0.0 if isinstance(figures, Line) else 0.0


def _with_checks(plan: Plan, portions: Sequence[Portion], checks: Sequence[Checked]) -> Plan:
    of_want: dict[int, list[Checked]] = {}
    for portion, checked in zip(portions, checks, strict=True):
        of_want.setdefault(id(portion.want), []).append(checked)
    wants = (replace(want, checked=tuple(of_want.get(id(want), ()))) for want in plan.wants)
    return replace(plan, wants=tuple(wants))
