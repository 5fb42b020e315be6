"""Why a want is not met: what the venue turns away, the parts that nothing is left for."""

from collections.abc import Sequence
from dataclasses import dataclass

from tacklebox.matches.before.holding import Holding
from tacklebox.matches.before.losses import AnyItem
from tacklebox.matches.before.rulings import Ruling
from tacklebox.matches.before.venue_rules import barred_by, is_main_line
from tacklebox.matches.dividing.flaws import Flaws, Rig
from tacklebox.matches.dividing.stacks import PartAsk, Wanted
from tacklebox.matches.files.venue import Rules
from tacklebox.rigs.recipes.resolved import Need, Resolved
from tacklebox.stock.amounts import show_amount
from tacklebox.stock.asked import asked_words
from tacklebox.stock.inventory import Stocked


@dataclass(frozen=True)
class Stopped:
    """A part that stops the next rig, "" for the rig as a whole, and why; the item that ran out.

    ``unknown``: no item in the box would do for it."""

    part: str
    says: str
    item: AnyItem | None = None
    unknown: bool = False

    def __str__(self) -> str:
        return f"{self.part}: {self.says}" if self.part else self.says


@dataclass(frozen=True)
class Reasons:
    """Why not one more can be tied of each want, once stock is divided.

    ``left`` is what is left of each stack; ``flaws`` are those that the division found.
    """

    rules: Rules | None
    stock: Sequence[Stocked]
    left: Sequence[int]
    holding: Holding
    flaws: Flaws

    def of(
        self,
        w: int,
        resolved: Resolved,
        needs: Sequence[Need],
        asked: Wanted,
        refused_by: Ruling | None,
    ) -> list[Stopped]:
        """For the want of that number, part by part."""
        if refused_by:
            says = f"the venue does not allow it: {refused_by.rule}: {refused_by.part}: {refused_by.says}"
            return [Stopped("", says)]
        reasons = [
            reason
            for need, part, holds in zip(
                needs, asked.parts, self.flaws.asked(w, graded=False).parts, strict=True
            )
            if (reason := self._of_part(resolved, need, part, holds))
        ]
        nearest = self.nearest(w)
        if nearest and all(part.stacks for part in asked.parts):
            refusals = self.holding.checked(w, nearest[0]).refusals
            about = ", ".join(dict.fromkeys(judgement.about for judgement in refusals))
            return [Stopped("", f"nothing in the box holds in it: {about}")]
        return reasons or [Stopped("", "what is left does not serve all its parts at once")]

    def nearest(self, w: int) -> list[Rig]:
        """The rig that is nearest to what a want asks for, where none holds that the box could make."""
        parts = self.holding.asked[w].parts
        if not all(part.stacks for part in parts) or self.flaws.asked(w).can_be_tied:
            return []
        return [tuple(part.stacks[0] for part in parts)]

    def none_allowed(self, needs: Sequence[Need], asked: Wanted, refused_by: Ruling | None) -> bool:
        """Whether the venue lets none of it be tied."""
        parts = zip(needs, asked.parts, strict=True)
        return bool(refused_by) or any(self.holding.would_do(n) for n, p in parts if not p.stacks)

    def _of_part(
        self, resolved: Resolved, need: Need, part: PartAsk, holds: PartAsk
    ) -> Stopped | None:
        """``holds``: the part without what fails in it by itself."""
        every = self.holding.would_do(need)
        if not every:
            return Stopped(
                need.part, f"no item in the box is {asked_words(need.ask)}", unknown=True
            )
        if not part.stacks and self.rules:
            main_line = is_main_line(resolved, need.part)
            kind, nearest = need.ask.kind, every[0]
            rule = barred_by(self.rules, kind, nearest.figures, main_line=main_line)
            return Stopped(need.part, f"the venue does not allow {nearest.item.name} ({rule})")
        if not holds.stacks or any(self.left[s] >= part.amount for s in holds.stacks):
            return None
        most = max(holds.stacks, key=lambda s: self.left[s])
        item = self.stock[most].item
        has, takes = (
            show_amount(a, item.measured, item.pack_said) for a in (self.left[most], part.amount)
        )
        says = f"{has} of {item.name} left, {takes} needed for one"
        if item.level:
            says = f"{item.name}: {item.level}"
        if len(holds.stacks) < len(part.stacks):
            says += ", and what else would do does not hold in it"
        elif len(every) > len(part.stacks):
            says += ", and the venue does not allow what else would do"
        return Stopped(need.part, says, self.stock[holds.stacks[0]].item)
