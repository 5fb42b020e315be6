"""The shot there is to choose from, and what of it the law and the box allow."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from tacklebox.errors import CannotBeDoneError
from tacklebox.trade.balance import equal_mass_g
from tacklebox.trade.law import lead_may_not_be_used
from tacklebox.trade.limits import within
from tacklebox.trade.shot import SHOT, weight_material

TRIMS_UP_TO_G = 0.036  # a No 11, weighed a fifth heavy, still trims (our choice)


@dataclass(frozen=True, slots=True)
class Supply:
    """One size of weight that may be used: its mark, mass of one in g, material, and how many
    there are (None: as many as wanted). ``kind`` is "shot", "styl" or "olivette"."""

    mark: str
    mass_g: float
    material: str = "tin"
    count: int | None = None
    kind: str = "shot"

    @property
    def allowed(self) -> bool:
        """Whether it may be used (lead over 0.06 g to 28.35 g may not: ``trade.law``)."""
        return weight_material(self.material).name != "lead" or not lead_may_not_be_used(
            self.mass_g
        )

    @property
    def trims(self) -> bool:
        """Whether it is small enough to trim a float with: No 11 to No 13 (common practice)."""
        return self.kind == "shot" and self.mass_g <= TRIMS_UP_TO_G


def every_size(material: str = "tin") -> tuple[Supply, ...]:
    """Shot of every size whose mass is known, as many as wanted."""
    return tuple(
        Supply(shot.mark, shot.mass_g, material) for shot in SHOT if not shot.must_be_weighed
    )


def usable_of(supply: Sequence[Supply]) -> list[Supply]:
    """What is there and allowed, heaviest first; refuses masses that cannot be right."""
    for one in supply:
        within(one.mass_g, 0, 100, "a weight", "g", above=True, where=one.mark)
        within(one.count or 0, 0, math.inf, "a count", where=one.mark)
    usable = [one for one in supply if one.allowed and one.count != 0]
    if not usable:
        banned = any(not one.allowed for one in supply)
        raise CannotBeDoneError(
            "there is no shot to choose from"
            + (" but lead that may not be used." if banned else "."),
            right="Buy tin shot in the sizes of the recipe, or ask for every size.",
        )
    return sorted(usable, key=lambda one: -one.mass_g)


def acts_as_mg(usable: Sequence[Supply], rated_in: str, temperature_c: float) -> list[float]:
    """What each pulls under water, as mg of ``rated_in``."""
    return [
        1000 * equal_mass_g(one.mass_g, one.material, rated_in, temperature_c) for one in usable
    ]
