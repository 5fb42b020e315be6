"""One kind's reading of one way to take a phrase: how good it is, and the items that it names."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from tacklebox.errors import AskedWronglyError
from tacklebox.stock.naming.counting import Framing
from tacklebox.stock.naming.described import Described, Figure, pieces
from tacklebox.stock.naming.floats import read_float
from tacklebox.stock.naming.hand import Attempt
from tacklebox.stock.naming.hooks import read_hook, read_hooklength
from tacklebox.stock.naming.lexicon import LEXICON
from tacklebox.stock.naming.lines import read_line
from tacklebox.stock.naming.parts import read_elastic, read_part, read_winder
from tacklebox.stock.naming.tokens import Token
from tacklebox.stock.naming.usual import usual_pack
from tacklebox.stock.naming.weights import read_feeder, read_weight
from tacklebox.stock.tables import MEASURED_KINDS, Kind

SINGLY = (Kind.FLOAT, Kind.FEEDER, Kind.WINDER)
COUNTED_BEHIND = (Kind.FLOAT, Kind.FEEDER)  # "bombs half oz, eight"
FEWEST_GRAMS = 10  # what a bare number of a feeder or a float may weigh
# In this order a phrase that names no kind is asked about.
READERS: dict[Kind, Callable[[Iterable[Token]], Attempt]] = {
    Kind.WEIGHT: read_weight,
    Kind.HOOK: read_hook,
    Kind.HOOKLENGTH: read_hooklength,
    Kind.LINE: read_line,
    Kind.FEEDER: read_feeder,
    Kind.FLOAT: read_float,
    Kind.ELASTIC: read_elastic,
    Kind.PART: read_part,
    Kind.WINDER: read_winder,
}
# What a spool or a tub holds, where nothing else is named.
COMES_IN = (("spool", Kind.LINE), ("tub", Kind.WEIGHT))
# How well a phrase was understood as one kind. A phrase of which nothing belongs to one kind is bare.
CLEAR, DOUBTFUL, MISSING, FAULTY, IN_PART, BARE, NEVER = range(7)


@dataclass(frozen=True)
class Try:
    """One kind's reading of one framing."""

    frame: Framing
    attempt: Attempt

    @property
    def rank(self) -> int:
        """How good a reading it is, the lowest the best."""
        made = self.attempt
        if made.fault:
            return (FAULTY if not made.left else NEVER) if made.evident else NEVER
        if made.left:
            return IN_PART if made.evident else NEVER
        if made.evident:
            sure = DOUBTFUL if made.about or self.frame.loose else CLEAR
            return MISSING if made.missing else sure
        return NEVER if made.missing else BARE


def attempted(reader: Callable[[Iterable[Token]], Attempt], kind: Kind, frame: Framing) -> Attempt:
    if frame.count is not None and kind in MEASURED_KINDS:  # spools are counted by their packets
        return Attempt(kind, fault="it is not counted in pieces.")
    if frame.spools and kind not in MEASURED_KINDS:
        return Attempt(kind, fault="it does not come on spools.")
    sized = any(token.plural and token.whole for token in frame.tokens)  # "16s, 10"
    if frame.behind and not sized and (kind not in COUNTED_BEHIND or _may_be_a_figure(frame)):
        return Attempt(kind, fault="its number may be a size.")
    if frame.vessel == "spool" and kind not in MEASURED_KINDS:
        return Attempt(kind, fault="it does not come on spools.")
    if kind in SINGLY and _says_what_is_held(frame):
        return Attempt(kind, fault="it says what a packet holds.")
    try:
        made = reader(frame.tokens)
        if kind is Kind.FEEDER and _may_be_turned(frame) and "mass" in made.figures:
            made.doubt("mass", [{"mass": made.figures["mass"]}])
        made.evident |= (frame.vessel, kind) in COMES_IN
        return made
    except AskedWronglyError as error:
        return Attempt(kind, evident=_names(kind, frame.tokens), fault=str(error))


def _may_be_a_figure(frame: Framing) -> bool:
    """Whether so many behind a bare number are as likely another of its kind: "cage 20 30"."""
    bare = [t for t in frame.tokens if t.whole and not t.lead]
    return (frame.count or 0) >= FEWEST_GRAMS and len(bare) == 1 and bare[0].value >= FEWEST_GRAMS


def _says_what_is_held(frame: Framing) -> bool:
    """Whether a bare number of the phrase says what a packet holds, and no mass: "bag of 20"."""
    return frame.told and frame.pack is None and frame.count is None


def _may_be_turned(frame: Framing) -> bool:
    """Whether so many may be what each weighs: "cages 20 x 30"."""
    weighed = any(token.unit for token in frame.tokens)
    return (frame.times or 0) >= FEWEST_GRAMS and not weighed


def readings_of(tries: Sequence[Try]) -> list[Described]:
    readings: list[Described] = []
    for one in tries:
        made = one.attempt
        if made.fault:
            continue
        for choice in made.choices():
            reading = _described(one.frame, made, choice)
            if reading not in readings:
                readings.append(reading)
    return readings


def sure_of(one: Try) -> Described:
    """What was said of it, without any figure that is missing or in doubt."""
    return _described(one.frame, one.attempt, {})


def _described(frame: Framing, made: Attempt, choice: dict[str, Figure]) -> Described:
    figures = {**made.figures, **choice}
    pack = figures.pop("pack", None) or made.pack
    count, held = frame.count, frame.pack
    packs = frame.packs
    if made.kind in SINGLY:
        count = count or frame.times
        if packs and count and not held:  # "2 packs of 10 30 g cage feeders"
            held, count = count, None
    elif made.kind in MEASURED_KINDS:
        packs, held = packs or frame.times or held, None  # "nylon 0.12, 2 pcs" are two spools
    else:
        held = held or frame.times
        if packs and count and not held:  # "3 packs of ten 16s"
            held, count = count, None
    pack = pieces(held) if held else pack or usual_pack(made.kind, figures, made.note)
    return Described(made.kind, figures, pack, packs, count, made.note)


def _names(kind: str, tokens: Sequence[Token]) -> bool:
    said = (LEXICON[kind].get(token.text, ("nothing", "")) for token in tokens)
    return any(role not in ("note", "nothing", "colour") for role, _ in said)


def usual_of(made: Described) -> Figure | None:
    return usual_pack(made.kind, dict(made.figures), made.note)
