"""What a phrase was read as: an item with its figures as said, or a question with its readings."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from functools import lru_cache

from tacklebox.errors import AskedWronglyError
from tacklebox.stock.tables import MEASURED_KINDS, Kind
from tacklebox.trade import quantities as q

# The figures that a kind can have, in the order in which they are written.
FIGURES_OF: Mapping[str, tuple[str, ...]] = {
    Kind.LINE: ("material", "sort", "diameter", "strain", "colour", "maker"),
    Kind.HOOK: ("size", "barb", "end", "eye", "wire", "bend", "colour"),
    Kind.HOOKLENGTH: (
        *("size", "barb", "end", "eye", "wire", "bend", "colour"),
        *("material", "diameter", "strain", "length", "bait"),
    ),
    Kind.FLOAT: (
        *("shape", "mark", "carries", "body", "material", "stem"),
        *("tip", "tip diameter", "tip length", "colour"),
    ),
    Kind.WEIGHT: ("form", "mark", "mass", "material"),
    Kind.FEEDER: ("shape", "fitting", "mass", "size", "volume"),
    Kind.PART: ("sort", "size", "strain"),
    Kind.ELASTIC: ("grade", "core", "colour"),
    Kind.WINDER: ("length", "width", "colour"),
}


@dataclass(frozen=True, slots=True)
class Figure:
    """One figure of an item: in SI or as one plain word, and as it was said.

    ``because`` says why it was assumed where nobody said it, else "".
    """

    value: str | float
    words: str
    because: str = ""


@dataclass(frozen=True, slots=True)
class Described:
    """An item as described: its kind, its figures, and what was said of packets and numbers.

    ``pack`` is what one packet or spool holds, in pieces or mm; ``packs`` how many packets and
    ``count`` how many pieces were named; ``left`` is what there is of it where that is part of a spool,
    ``price_cents`` what a packet costs.
    """

    kind: Kind
    figures: Mapping[str, Figure]
    pack: Figure | None = None
    packs: int | None = None
    count: int | None = None
    note: str = ""
    left: Figure | None = None
    price_cents: int | None = None

    @property
    def measured(self) -> bool:
        """Whether it goes by its length rather than by pieces."""
        return self.kind in MEASURED_KINDS

    @property
    def pack_size(self) -> int | None:
        """What a packet holds, in pieces or mm, said or usual; None where nobody can say."""
        return round(float(self.pack.value)) if self.pack else None

    def words_of(self, key: str) -> str:
        """A figure as said, or "" where it is not known."""
        return self.figures[key].words if key in self.figures else ""

    @property
    def readings(self) -> tuple["Described", ...]:
        """Itself alone, where a question has several."""
        return (self,)

    @property
    def assumed(self) -> Mapping[str, Figure]:
        """The figures that nobody said, by their names; "pack" for the packet."""
        every = {**self.figures, **({"pack": self.pack} if self.pack else {})}
        return {key: figure for key, figure in every.items() if figure.because}

    def without_pack(self) -> "Described":
        """The item alone: what it is, and nothing of how much was named."""
        return replace(self, pack=None, packs=None, count=None, left=None, price_cents=None)


def goes_by(one: Described) -> str:
    """The figure that it goes by and that may be unmarked, "" for a kind that has none."""
    if one.kind is Kind.WEIGHT:
        return "mass" if one.words_of("form") == "olivette" else "mark"
    return {Kind.FEEDER: "mass", Kind.FLOAT: "mark", Kind.HOOK: "size"}.get(one.kind, "")


@dataclass(frozen=True, slots=True)
class Question:
    """What must be asked before a phrase is taken: ``about`` is the figure in doubt, "kind" or "word".

    Any of the ``readings`` may be taken as it is; ``answer_like`` shows what can be said instead, added
    to the phrase and read again, "" where nothing can. ``sure`` is what was said without what is missing.
    ``see`` is the question of the desk that was likely meant instead.
    """

    phrase: str
    about: str
    asks: str
    readings: tuple[Described, ...] = field(default=())
    answer_like: str = ""
    sure: Described | None = None
    see: str = ""


Reads = Callable[[str], Described | Question]
IsReadBack = Callable[[Described], bool]  # whether it is read from its own words as it is


def if_understood(text: str, reads: Reads) -> Described | Question | None:
    """What the words are read as, None where they are not understood."""
    try:
        return reads(text)
    except AskedWronglyError:
        return None


def each_reading(
    made: Described | Question, change: Callable[[Described], Described]
) -> Described | Question:
    """What was read, changed alike in each way that it may be meant."""
    if isinstance(made, Described):
        return change(made)
    return replace(made, readings=tuple(change(one) for one in made.readings))


def asked_before(text: str, asks: str, made: Described | Question, about: str = "word") -> Question:
    """The question whether it is so at all, before whatever else is asked of what was read."""
    if isinstance(made, Described):
        return Question(text, about, asks, (made,))
    return replace(made, phrase=text, asks=f"{asks} {made.asks}")


def word(value: str) -> Figure:
    """A figure that is a plain word."""
    return Figure(value, value)


def assumed(value: str | float, words: str, because: str) -> Figure:
    """A figure that nobody said."""
    return Figure(value, words, because)


# Every kind's reader asks for the same few figures of a phrase, and a list of phrases for the same again.
_remembered = lru_cache(maxsize=512)


@_remembered
def strain(words: str) -> Figure:
    """A strain as said, in kg."""
    return Figure(q.read_strain_kg(words), words)


@_remembered
def mass(words: str) -> Figure:
    """A mass as said, in g."""
    return Figure(q.read_mass_g(words), words)


@_remembered
def length(words: str) -> Figure:
    """A length as said, in mm."""
    return Figure(q.read_length_mm(words), words)


@_remembered
def diameter(text: str, unit: str = "") -> Figure:
    """A diameter as said, in mm; hundredths are written out ("0.1" is 0.10 mm)."""
    unit = unit or "mm"
    if unit == "mm" and "." in text and len(text.partition(".")[2]) < 2:
        text = f"{text}0"
    words = f"{text} {unit}"
    return Figure(q.read_diameter_mm(words), words)


def pieces(number: int) -> Figure:
    """So many pieces in a packet."""
    return Figure(number, str(number))
