"""Why a want is not met: what the venue turns away, the parts that nothing is left for."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass

from tacklebox.matches.before.rulings import Ruling
from tacklebox.matches.before.venue_rules import barred_by, is_main_line
from tacklebox.matches.dividing.candidates import Candidate, Candidates
from tacklebox.matches.dividing.stacks import PartAsk, Wanted
from tacklebox.matches.files.venue import Rules
from tacklebox.rigs.recipes.resolved import Need, Resolved
from tacklebox.stock.ledger import write_amount


@dataclass(frozen=True)
class Reasons:
    """Why not one more can be tied of each want, once stock is divided.

    ``left`` is what is left of each stack; ``unsound`` are the parts of wants, by the want's number,
    of which some item was left out because a rig does not hold with it.
    """

    rules: Rules | None
    candidates: Candidates
    stock: Sequence[Candidate]
    left: Sequence[int]
    unsound: Collection[tuple[int, str]]

    def of(
        self,
        w: int,
        resolved: Resolved,
        needs: Sequence[Need],
        asked: Wanted,
        refused_by: Ruling | None,
    ) -> str:
        """In words, for the want of that number."""
        if refused_by:
            return f"the venue does not allow it: {refused_by.rule}: {refused_by.part}: {refused_by.says}"
        reasons = [
            reason
            for need, part in zip(needs, asked.parts, strict=True)
            if (reason := self._of_part(resolved, need, part, (w, need.part) in self.unsound))
        ]
        return "; ".join(reasons) or "what is left does not serve all its parts at once"

    def none_allowed(self, needs: Sequence[Need], asked: Wanted, refused_by: Ruling | None) -> bool:
        """Whether the venue lets none of it be tied."""
        parts = zip(needs, asked.parts, strict=True)
        return bool(refused_by) or any(self.candidates.of(n.ask) for n, p in parts if not p.stacks)

    def _of_part(self, resolved: Resolved, need: Need, part: PartAsk, unsound: bool) -> str:
        every = self.candidates.of(need.ask)
        if not every:
            return f"{need.part}: no item in the box is {need.ask}"
        if not part.stacks and self.rules:
            main_line = is_main_line(resolved, need.part)
            kind, nearest = need.ask.kind, every[0]
            rule = barred_by(self.rules, kind, nearest.figures, main_line=main_line)
            return f"{need.part}: the venue does not allow {nearest.item.name} ({rule})"
        if any(self.left[s] >= part.amount for s in part.stacks):
            return ""
        most = max(part.stacks, key=lambda s: self.left[s])
        item = self.stock[most].item
        has, takes = (write_amount(a, item.measured) for a in (self.left[most], part.amount))
        short = f"{need.part}: {has} of {item.name} left, {takes} needed for one"
        if item.level:
            short = f"{need.part}: {item.name} is {item.level}"
        if unsound:
            return f"{short}, and what else would do does not hold in it"
        if len(every) > len(part.stacks):
            return f"{short}, and the venue does not allow what else would do"
        return short
