"""Knots: what each keeps of the line's strength, what line it eats, what it is for."""

from dataclasses import dataclass

from tacklebox.errors import AskedWronglyError, nearest_word
from tacklebox.trade.sources import MEMORY, Source

# One standard deviation, as a share of the value (from memory).
KNOT_SPREAD = 0.08
PLAIN_SPREAD = 0.05


@dataclass(frozen=True, slots=True)
class Knot:
    """One knot.

    ``keeps`` is the middle share of the line's strength that it keeps in mono, ``keeps_braid`` in
    braid where that is known; ``eats_mm`` the line it takes up at each end,
    trimmed tag included; a loop knot eats twice the loop on top. ``use`` is "tackle" (line to ring,
    swivel or loop), "loop", "hook" or "line" (line to line).
    """

    name: str
    use: str
    keeps: float
    eats_mm: int
    keeps_braid: float | None = None
    source: Source = MEMORY
    words: tuple[str, ...] = ()


# Middle values from memory; of the loops one published figure, about 70 % for the
# figure-of-eight (Toledo-Bend bass tips), lies within the spread of its own.
KNOTS: tuple[Knot, ...] = (
    Knot("overhand loop", "loop", 0.65, 80),
    Knot(
        "figure-of-eight loop",
        "loop",
        0.75,
        80,
        words=(
            "figure of eight loop",
            "figure eight loop",
            "figure of 8 loop",
            "figure 8 loop",
            "figure of eight",
            "figure eight",
            "figure of 8",
            "figure 8",
        ),
    ),
    Knot(
        "double overhand loop",
        "loop",
        0.80,
        80,
        words=("surgeon's loop", "surgeons loop", "double surgeon's loop", "double overhand"),
    ),
    Knot("half blood", "tackle", 0.80, 80, words=("clinch", "half blood knot")),
    Knot(
        "tucked half blood",
        "tackle",
        0.85,
        80,
        words=("tucked blood", "improved half blood", "improved clinch", "locked half blood"),
    ),
    Knot("palomar", "tackle", 0.90, 120, 0.75),
    Knot(
        "grinner", "tackle", 0.87, 80, 0.65, words=("uni", "uni knot", "universal", "grinner knot")
    ),
    Knot("knotless knot", "hook", 0.80, 100, words=("knotless", "no knot", "hair rig knot")),
    Knot(
        "spade knot",
        "hook",
        0.88,
        80,
        words=("spade-end whipping", "spade end whipping", "whipping", "whipped", "spade end knot"),
    ),
    Knot(
        "blood knot",
        "line",
        0.75,
        100,
        words=("double blood", "blood", "barrel knot", "full blood"),
    ),
    Knot("double grinner", "line", 0.80, 100, 0.70, words=("double uni", "back to back grinner")),
    Knot(
        "water knot",
        "line",
        0.85,
        120,
        words=("four-turn water knot", "water", "4 turn water knot", "cove knot"),
    ),
)
LOOP_MM = 20  # usual loop of a hooklength or rig line; it is eaten twice (our choice)
BY_NAME = {word: knot for knot in KNOTS for word in (knot.name, *knot.words)}


def _plain(word: str) -> str:
    """A knot's name without case, hyphens and the word "knot": "Grinner knot" is a grinner."""
    letters = word.lower().replace("’", "'").replace("-", " ").split()
    return " ".join(letters[:-1] if letters[-1:] == ["knot"] and len(letters) > 1 else letters)


_BY_PLAIN_NAME = {_plain(word): knot for word, knot in BY_NAME.items()}


def knot_named(word: str) -> Knot:
    """The knot of that name, in whatever way it is called. Raises AskedWronglyError for an unknown one.

    "Snell" is asked about, for some mean a knotless knot by it and some a whipping.

    >>> knot_named("tucked half blood").keeps, knot_named("surgeon's loop").name
    (0.85, 'double overhand loop')
    >>> knot_named("Uni Knot").name, knot_named("figure-of-eight").name
    ('grinner', 'figure-of-eight loop')
    """
    if _plain(word) in ("snell", "snood"):
        raise AskedWronglyError(
            f'"{word}" may be a knotless knot or a spade knot.', right="Name one of them."
        )
    try:
        return _BY_PLAIN_NAME[_plain(word)]
    except KeyError:
        raise AskedWronglyError(
            f'"{word}" is no knot known here.', right=nearest_word(word, list(BY_NAME))
        ) from None


def keeps(knot: Knot, material: str) -> float:
    """The share of a line's strength that a knot keeps, by the line's material.

    A knot that has no figure of its own for braid is taken at the lower of its
    mono figure and 0.60 (our choice; the published range is 31–87 %, Sport Fishing magazine, third
    reader knot challenge). Source of the middle values: from memory.

    >>> keeps(knot_named("palomar"), "nylon"), keeps(knot_named("palomar"), "braid")
    (0.9, 0.75)
    """
    if material != "braid":
        return knot.keeps
    return knot.keeps_braid if knot.keeps_braid is not None else min(knot.keeps, 0.60)


def eaten_mm(knot: Knot, loop_mm: float = LOOP_MM) -> float:
    """Line that one end's knot takes up, in mm: its own share, and twice the loop for a loop.

    Source: from memory.

    >>> eaten_mm(knot_named("half blood")), eaten_mm(knot_named("figure-of-eight loop"), 20)
    (80, 120)
    """
    return knot.eats_mm + (2 * loop_mm if knot.use == "loop" else 0)
