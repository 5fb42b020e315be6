"""What to change when: a sign that is seen at the water, and what anglers try first.

All of it is common practice, after the trade handbook's section 14; nothing of it was measured here.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

FLOATS = frozenset({"float", "pole"})
FEEDER = frozenset({"feeder"})
ANY = FLOATS | FEEDER
WATERS = frozenset({"still water", "canal", "river"})
BASIS = "Common practice; what the fish do that day comes first."


class Wants(StrEnum):
    """What of the tackle that is with him a try asks for."""

    LONGER = "longer hooklengths"
    SHORTER = "shorter hooklengths"
    SMALLER = "smaller hooks"
    FINER = "finer line"
    STRONGER = "stronger line"
    FEEDERS = "feeders"
    FLOATS = "floats"
    SHOT = "shot"


@dataclass(frozen=True)
class Remedy:
    """One thing to try, and what of his tackle it asks for; or what to do, which changes nothing."""

    words: str
    wants: Wants | None = None
    changes: bool = True


@dataclass(frozen=True)
class Sign:
    """What is seen, with which methods and on which waters, and what to try in turn."""

    key: str
    seen: str
    tries: tuple[Remedy, ...]
    methods: frozenset[str] = ANY
    waters: frozenset[str] = WATERS


SIGNS = (
    Sign(
        "missed",
        "Bites missed, or no bites",
        (
            Remedy("Depth first: an inch at a time."),
            Remedy("Then the line under the float."),
            Remedy("Then a longer hooklength.", Wants.LONGER),
            Remedy("Then a smaller hook.", Wants.SMALLER),
            Remedy("Then other shot.", Wants.SHOT),
        ),
        FLOATS,
    ),
    Sign(
        "lifts",
        "Float lifts",
        (Remedy("A bait is picked up off the bottom: strike.", changes=False),),
        FLOATS,
    ),
    Sign(
        "late",
        "Float does not settle in its time",
        (
            Remedy("A fish has it on the drop: strike.", changes=False),
            Remedy("It goes on: string the shot out."),
            Remedy("Lighter droppers.", Wants.SHOT),
            Remedy("A longer hooklength.", Wants.LONGER),
        ),
        FLOATS,
    ),
    Sign("pester", "Small fish pester on the drop", (Remedy("Bulk the shot, and lower."),), FLOATS),
    Sign(
        "dips", "Tip dips and comes back", (Remedy("Shorten, or lower the last dropper."),), FLOATS
    ),
    Sign(
        "waggler",
        "Waggler out, nothing yet",
        (
            Remedy(
                "Bites come as the bait settles: after three or four minutes cast again.",
                changes=False,
            ),
        ),
        frozenset({"float"}),
        frozenset({"still water", "canal"}),
    ),
    Sign(
        "feeder-missed",
        "Bites missed; maggots sucked or burst, nothing seen",
        (Remedy("A shorter hooklength, down to 30 cm.", Wants.SHORTER),),
        FEEDER,
    ),
    Sign(
        "feeder-none",
        "No bites on the feeder",
        (
            Remedy("A longer hooklength, 1 m and more: the bait falls naturally.", Wants.LONGER),
            Remedy("And a finer one.", Wants.FINER),
        ),
        FEEDER,
    ),
    Sign(
        "feeder-warm",
        "Feeder, warm water, nothing happens",
        (Remedy("A twitch after about two minutes; cast again after five.", changes=False),),
        FEEDER,
    ),
    Sign(
        "feeder-cold",
        "Feeder, cold water, nothing happens",
        (
            Remedy(
                "Wait 8 to 15 minutes. Nothing touched: cast without filling it again.",
                changes=False,
            ),
        ),
        FEEDER,
        frozenset({"still water", "canal"}),
    ),
    Sign(
        "better",
        "Better fish come, the water is warm",
        (
            Remedy("A bigger feeder.", Wants.FEEDERS),
            Remedy("More bait and bigger bait in it; damp micro pellets for skimmers."),
        ),
        FEEDER,
    ),
    Sign(
        "stopped",
        "Bites stop",
        (
            Remedy("Less feed."),
            Remedy(
                "Another bait: red for bronze maggot, a pinkie, a caster; one bait in the cold."
            ),
            Remedy("Rest a line that has given two fish."),
        ),
    ),
    Sign(
        "cold",
        "It is cold, and slow",
        (
            Remedy("Hook down a size.", Wants.SMALLER),
            Remedy("Line down a step.", Wants.FINER),
            Remedy("One maggot or a pinkie before more feed."),
            Remedy("One line fed, one hardly, one never. Clear water: a foot or two off the feed."),
        ),
    ),
    Sign(
        "pulls",
        "Hook pulls out",
        (
            Remedy("Foul-hooked fish first: change the depth, or come off the feed."),
            Remedy("A softer elastic or rod."),
            Remedy("A sharper or a larger hook."),
        ),
    ),
    Sign("breaks", "Hooklength breaks", (Remedy("One step stronger, or longer.", Wants.STRONGER),)),
    Sign(
        "line-bites", "Line bites", (Remedy("Shallower, or shorter of the feed. Do not strike."),)
    ),
    Sign(
        "tows",
        "Float tows",
        (
            Remedy("Lay on 2 to 6 inches and hold back."),
            Remedy("A heavier float. Tow turns when a lock is worked.", Wants.FLOATS),
        ),
        FLOATS,
        frozenset({"canal"}),
    ),
    Sign(
        "boat",
        "A boat has been through",
        (Remedy("Wait, plumb again, feed again.", changes=False),),
        waters=frozenset({"canal"}),
    ),
    Sign(
        "river-waggler",
        "Waggler runs too fast, or is dragged under",
        (
            Remedy("Over depth, slowed by the last shot."),
            Remedy("Dragged under: shallower by an inch or two."),
        ),
        frozenset({"float"}),
        frozenset({"river"}),
    ),
    Sign(
        "river-feeder",
        "River feeder moves, or bites are small",
        (
            Remedy("Just the weight that holds, and a longer bow.", Wants.FEEDERS),
            Remedy("Drop-back bites: it is right.", changes=False),
        ),
        FEEDER,
        frozenset({"river"}),
    ),
)


def signs_for(methods: Sequence[str], water: str) -> tuple[Sign, ...]:
    """The signs of those methods ("float", "pole", "feeder") on that water, in the order of the table.

    >>> [sign.key for sign in signs_for(["feeder"], "river")][:2]
    ['feeder-missed', 'feeder-none']
    """
    with_him = frozenset(methods) & ANY
    return tuple(sign for sign in SIGNS if water in sign.waters and sign.methods & with_him)
