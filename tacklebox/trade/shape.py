"""What a pattern of shot keeps of its recipe: how much sits at the float, the bulk, the droppers."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from tacklebox.errors import AskedWronglyError
from tacklebox.trade.balance import Group, Place
from tacklebox.trade.limits import within
from tacklebox.trade.shot import MOST_SHOT

NO_8_G, NO_4_G = 0.06, 0.20
LEEWAY = 0.1  # of the share at the float that a recipe has (our choice)
HEAVIER = 1.15  # shot of a mark may weigh so much more than its nominal mass (from memory)


@dataclass(frozen=True, slots=True)
class Shape:
    """What a pattern keeps of its recipe.

    ``float_low``–``float_high`` is the share of the wished load at the float (half to three quarters on
    a waggler: Soar Tackle, "Guide to float shotting & weights"; 0–0 for a pole float),
    ``lock_least`` how many shot lock it at least, ``bulk_least`` how many equal shot make the bulk at
    least (0 for none), ``droppers`` how many there are and ``dropper_most_g`` the nominal mass of the
    biggest (No 8, common practice), ``most_shot`` in all, ``bulk_most_g`` the nominal mass of the
    biggest in the bulk. ``olivette``: the bulk is one, or more, of those. ``bulk_is``: whether the
    bulk sits together or is spread.
    """

    float_low: float = 0.5
    float_high: float = 0.75
    lock_least: int = 2
    bulk_least: int = 2
    droppers: int = 2
    dropper_most_g: float = NO_8_G
    most_shot: int = 60
    bulk_most_g: float = NO_4_G
    olivette: bool = False
    bulk_is: Place = Place.BULK

    def __post_init__(self) -> None:
        within(self.float_low, 0, 1, "a share at the float")
        within(self.float_high, self.float_low, 1, "a share at the float")
        least = self.lock_least + self.bulk_least + self.droppers
        if not 0 <= least <= self.most_shot <= MOST_SHOT:
            raise AskedWronglyError(
                f"{least} lock shot, bulk shot and droppers do not go into {self.most_shot} shot.",
                right=f"At most {MOST_SHOT} in all.",
            )
        if (
            min(self.lock_least, self.bulk_least, self.droppers) < 0
            or not 0 < self.dropper_most_g <= 100
        ):
            raise AskedWronglyError(
                "a pattern's numbers cannot be below nothing.", right="Give 0 or more."
            )

    def with_any_share(self) -> "Shape":
        """The same bulk and droppers, whatever share of the load is at the float."""
        return replace(self, float_low=0.0, float_high=1.0, lock_least=0)

    @classmethod
    def like(cls, groups: Sequence[Group]) -> "Shape":
        """The shape of a recipe's own groups, its share at the float give or take a tenth, at
        least half as many shot in the bulk and none there more than twice its biggest.

        >>> from tacklebox.trade.shot import read_pattern
        >>> pole = Shape.like([Group(Place.BULK, read_pattern("6 No 8")),
        ...                    Group(Place.DROPPER, read_pattern("2 No 10"))])
        >>> pole.float_high, pole.bulk_least, pole.droppers, pole.dropper_most_g
        (0.0, 3, 2, 0.04)
        """
        of = {part: [g for g in groups if place_of(g) is part] for part in _PARTS}
        mass = {part: sum(group.mass_g for group in those) for part, those in of.items()}
        loads = {part: [load for g in those for load in g.loads] for part, those in of.items()}
        shot = {part: sum(load.count for load in those) for part, those in loads.items()}
        total = sum(mass.values())
        if total <= 0:
            raise AskedWronglyError(
                "there is no shot to take a shape from.", right="Give a pattern."
            )
        bulk = loads[Place.BULK]
        olivette = any(load.kind == "olivette" for load in bulk)
        share = mass[Place.LOCK] / total
        locked = shot[Place.LOCK] > 0
        biggest = max((load.mass_g for load in bulk), default=NO_4_G / 2)
        return cls(
            max(0.0, share - LEEWAY) if locked else 0.0,
            min(1.0, share + LEEWAY) if locked else 0.0,
            min(2, shot[Place.LOCK]),
            1 if olivette else min(shot[Place.BULK], max(2, (shot[Place.BULK] + 1) // 2)),
            shot[Place.DROPPER],
            max((load.mass_g for load in loads[Place.DROPPER]), default=NO_8_G),
            bulk_most_g=2 * biggest,
            olivette=olivette,
            bulk_is=next((g.what for g in of[Place.BULK]), Place.BULK),
        )


_PARTS = (Place.LOCK, Place.BULK, Place.DROPPER)


def place_of(group: Group) -> Place:
    """Which of a pattern's three parts a group belongs to."""
    if group.what in (Place.LOCK, Place.UNDER):
        return Place.LOCK
    return Place.DROPPER if group.what is Place.DROPPER else Place.BULK
