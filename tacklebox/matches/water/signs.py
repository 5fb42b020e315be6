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
class Try:
    """One thing to try, and what of his tackle it asks for."""

    words: str
    wants: Wants | None = None


@dataclass(frozen=True)
class Sign:
    """What is seen, with which methods and on which waters, and what to try in turn."""

    key: str
    seen: str
    tries: tuple[Try, ...]
    methods: frozenset[str] = ANY
    waters: frozenset[str] = WATERS


SIGNS = (
    Sign(
        "missed",
        "Bites missed, or no bites",
        (
            Try("Depth first: an inch at a time."),
            Try("Then the line under the float."),
            Try("Then a longer hooklength.", Wants.LONGER),
            Try("Then a smaller hook.", Wants.SMALLER),
            Try("Then other shot.", Wants.SHOT),
        ),
        FLOATS,
    ),
    Sign("lifts", "Float lifts", (Try("A bait is picked up off the bottom: strike."),), FLOATS),
    Sign(
        "late",
        "Float does not settle in its time",
        (
            Try("A fish has it on the drop: strike."),
            Try("It goes on: string the shot out."),
            Try("Lighter droppers.", Wants.SHOT),
            Try("A longer hooklength.", Wants.LONGER),
        ),
        FLOATS,
    ),
    Sign("pester", "Small fish pester on the drop", (Try("Bulk the shot, and lower."),), FLOATS),
    Sign("dips", "Tip dips and comes back", (Try("Shorten, or lower the last dropper."),), FLOATS),
    Sign(
        "waggler",
        "Waggler out, nothing yet",
        (Try("Bites come as the bait settles: after three or four minutes cast again."),),
        frozenset({"float"}),
        frozenset({"still water", "canal"}),
    ),
    Sign(
        "feeder-missed",
        "Bites missed; maggots sucked or burst, nothing seen",
        (Try("A shorter hooklength, down to 30 cm.", Wants.SHORTER),),
        FEEDER,
    ),
    Sign(
        "feeder-none",
        "No bites on the feeder",
        (
            Try("A longer hooklength, 1 m and more: the bait falls naturally.", Wants.LONGER),
            Try("And a finer one.", Wants.FINER),
        ),
        FEEDER,
    ),
    Sign(
        "feeder-warm",
        "Feeder, warm water, nothing happens",
        (Try("A twitch after about two minutes; cast again after five."),),
        FEEDER,
    ),
    Sign(
        "feeder-cold",
        "Feeder, cold water, nothing happens",
        (Try("Wait 8 to 15 minutes. Nothing touched: cast without filling it again."),),
        FEEDER,
        frozenset({"still water", "canal"}),
    ),
    Sign(
        "better",
        "Better fish come, the water is warm",
        (
            Try("A bigger feeder.", Wants.FEEDERS),
            Try("More bait and bigger bait in it; damp micro pellets for skimmers."),
        ),
        FEEDER,
    ),
    Sign(
        "stopped",
        "Bites stop",
        (
            Try("Less feed."),
            Try("Another bait: red for bronze maggot, a pinkie, a caster; one bait in the cold."),
            Try("Rest a line that has given two fish."),
        ),
    ),
    Sign(
        "cold",
        "It is cold, and slow",
        (
            Try("Hook down a size.", Wants.SMALLER),
            Try("Line down a step.", Wants.FINER),
            Try("One maggot or a pinkie before more feed."),
            Try("One line fed, one hardly, one never. Clear water: a foot or two off the feed."),
        ),
    ),
    Sign(
        "pulls",
        "Hook pulls out",
        (
            Try("Foul-hooked fish first: change the depth, or come off the feed."),
            Try("A softer elastic or rod."),
            Try("A sharper or a larger hook."),
        ),
    ),
    Sign("breaks", "Hooklength breaks", (Try("One step stronger, or longer.", Wants.STRONGER),)),
    Sign("line-bites", "Line bites", (Try("Shallower, or shorter of the feed. Do not strike."),)),
    Sign(
        "tows",
        "Float tows",
        (
            Try("Lay on 2 to 6 inches and hold back."),
            Try("A heavier float. Tow turns when a lock is worked.", Wants.FLOATS),
        ),
        FLOATS,
        frozenset({"canal"}),
    ),
    Sign(
        "boat",
        "A boat has been through",
        (Try("Wait, plumb again, feed again."),),
        waters=frozenset({"canal"}),
    ),
    Sign(
        "river-waggler",
        "Waggler runs too fast, or is dragged under",
        (
            Try("Over depth, slowed by the last shot."),
            Try("Dragged under: shallower by an inch or two."),
        ),
        frozenset({"float"}),
        frozenset({"river"}),
    ),
    Sign(
        "river-feeder",
        "River feeder moves, or bites are small",
        (
            Try("Just the weight that holds, and a longer bow.", Wants.FEEDERS),
            Try("Drop-back bites: it is right."),
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
