"""The one-line notation of an item: what an angler would say, read and written back.

"nylon 0.14 mm 4 lb 100 m", "hook 18 barbless spade pack 10", "waggler 5BB insert",
"shot AAA tin", "feeder cage 30 g", "swivel size 14 12 kg", "elastic 5 3 m",
"winder 18 cm 20 mm".
"""

import re
from collections.abc import Callable
from dataclasses import dataclass

from tacklebox.errors import AskedWronglyError, nearest_word
from tacklebox.stock.tables import (
    Elastic,
    Feeder,
    Figures,
    Float,
    Hook,
    Kind,
    Line,
    Part,
    Weight,
    Winder,
)
from tacklebox.trade import line as trade_line
from tacklebox.trade import quantities as q
from tacklebox.trade.floats import read_capacity
from tacklebox.trade.hooks import BARBS, SHANK_ENDS, read_hook_order, write_hook_order
from tacklebox.trade.shot import WEIGHT_MATERIALS, read_mark

COLOURS = (
    *("clear", "green", "brown", "black", "white", "red", "orange", "yellow"),
    *("blue", "grey", "pink", "purple", "gold", "silver", "sand", "camo"),
)
FEEDER_SHAPES = ("cage", "open-end", "block-end", "method", "pellet", "window", "in-line", "bomb")
PART_SORTS = (
    *("swivel", "snap link", "link swivel", "bead", "stop", "adaptor"),
    *("connector", "ring", "run ring", "sleeve", "tube", "bait band"),
)
WIRES = ("fine", "medium", "strong")
THINNEST_MM = 0.001  # the last decimal that is written
UNITS = ("mm", "cm", "m", "in", "ft", "kg", "g", "lb", "oz", "ml")
MOST_LETTERS = 400


@dataclass(frozen=True)
class Described:
    """An item as described: its kind, its figures, and the pack size where that was said."""

    kind: Kind
    figures: Figures
    pack_size: int | None

    @property
    def words(self) -> str:
        """The figures as one line that reads back to the same figures."""
        return write_notation(self.figures)


class _Words:
    """A line of words that readers take their pieces out of; what is left was not understood."""

    def __init__(self, text: str) -> None:
        self.whole = text
        self.left = f" {text} "

    def take(self, pattern: str) -> str | None:
        found = re.search(rf"(?<=\s)(?:{pattern})(?=\s)", self.left, re.IGNORECASE)
        if not found:
            return None
        self.left = self.left[: found.start()] + self.left[found.end() :]
        return found.group(0).strip()

    def take_word(self, *known: str) -> str | None:
        words = sorted(known, key=len, reverse=True)
        forms = "|".join(
            re.escape(w).replace(r"\ ", r"[ -]").replace(r"\-", "[ -]?") for w in words
        )
        word = self.take(f"(?:{forms})s?")
        if word is None:
            return None
        squashed = re.sub(r"[ -]", "", word.lower())
        return next(k for k in words if re.sub(r"[ -]", "", k) in (squashed, squashed[:-1]))

    def finish(self, known: tuple[str, ...]) -> None:
        rest = self.left.split()
        if len(rest) > 1 and re.fullmatch(_N, rest[0]):
            raise AskedWronglyError(
                f'"{rest[0]} {rest[1]}" is not understood in "{self.whole}".',
                right=f"Known units: {', '.join(UNITS)}.",
            )
        if rest and rest[0].lower() in UNITS:
            raise AskedWronglyError(
                f'"{rest[0]}" has no figure of its own in "{self.whole}".',
                right='Each figure stands before its unit, like "0.14 mm 4 lb".',
            )
        if rest:
            raise AskedWronglyError(
                f'"{rest[0]}" is not understood in "{self.whole}".',
                right=nearest_word(rest[0], known),
            )


_N = r"(?:\d+\s+\d+/\d+|\d+/\d+|\d*[.,]\d+|\d+|[½¼¾])"


def _measure(words: _Words, units: str) -> str | None:
    return words.take(rf"{_N}\s*(?:{units})(?:\s+{_N}\s*(?:{units}))*")


def _need(value: str | None, what: str, words: _Words, example: str) -> str:
    if value is None:
        raise AskedWronglyError(
            f'"{words.whole}" says no {what}.', right=f'Write it like "{example}".'
        )
    return value


def _read_line(words: _Words) -> tuple[Figures, int | None]:
    words.take("line")
    material = words.take_word(*trade_line.BY_WORD)
    example = "nylon 0.14 mm 4 lb 100 m"
    _need(material, "material", words, example)
    diameter = _measure(words, "mm|in") or words.take(r"0?[.,]\d+")
    spool = _measure(words, "m|metres|yd|yards")
    strain = _measure(words, "kg|lbs?|oz|g")
    colour = words.take_word(*COLOURS)
    words.finish((*trade_line.BY_WORD, *COLOURS))
    said = _need(diameter, "diameter", words, example)
    diameter_mm = q.read_diameter_mm(said)
    if diameter_mm < THINNEST_MM:
        raise AskedWronglyError(f'"{said}" is no diameter of a line.', right="From 0.001 mm up.")
    figures = Line(
        material=trade_line.material_named(str(material)).name,
        diameter_mm=round(diameter_mm, 3) if said.endswith("in") else diameter_mm,
        breaks_at_kg=q.read_strain_kg(strain) if strain else None,
        colour=colour or "",
    )
    return figures, round(q.read_length_mm(spool)) if spool else None


def _read_hook(words: _Words) -> tuple[Figures, int | None]:
    words.take("hooks?")
    barb = words.take_word(*BARBS)
    end = words.take_word(*(f"{e} end" for e in SHANK_ENDS)) or words.take_word(*SHANK_ENDS)
    wire = words.take_word(*(f"{w} wire" for w in WIRES)) or words.take_word(*WIRES)
    size = words.take(r"(?:size\s+)?\d+(?:/0)?s?")
    words.finish((*BARBS, *SHANK_ENDS, *WIRES, "size"))
    order = read_hook_order(_need(size, "size", words, "hook 18 barbless spade"))
    wire, end = (wire or "").removesuffix(" wire"), (end or "").removesuffix(" end")
    written = write_hook_order(order)
    return Hook(size=written, size_order=order, end=end, barb=barb or "", wire=wire), None


def _read_float(words: _Words) -> tuple[Figures, int | None]:
    words.take("floats?")
    family = words.take_word("waggler", "stick", "pole")
    words.take("floats?")
    body = words.take_word("straight", "insert", "loaded")
    tip = words.take(rf"tip\s+{_N}\s*mm(?:\s*[x×]\s*{_N}\s*mm)?")
    mark = words.take(r"\d\s*[x×*]\s*\d{2}|\d+\s*(?:no\.?\s*\d+|[A-Z]{2,3})|" + rf"{_N}\s*m?g")
    words.finish(("waggler", "stick", "pole", "straight", "insert", "loaded", "tip"))
    example = "waggler 5BB insert"
    family = _need(family, "kind of float (waggler, stick or pole)", words, example)
    capacity = read_capacity(_need(mark, "capacity", words, example))
    if family == "waggler":
        family = f"waggler {body or 'straight'}"
    elif body:
        raise AskedWronglyError(f'a {family} float is not "{body}".', right="That is for wagglers.")
    sizes = re.split(r"[x×]", tip[3:]) if tip else []
    return Float(
        shape=family,
        mark=capacity.mark,
        capacity_g=capacity.mass_g,
        tip_diameter_mm=q.read_diameter_mm(sizes[0]) if sizes else None,
        tip_length_mm=q.read_length_mm(sizes[1]) if len(sizes) > 1 else None,
    ), None


def _read_weight(words: _Words) -> tuple[Figures, int | None]:
    form = words.take_word("olivette") or "shot"
    words.take("(?:split )?shot")
    names = tuple(m.name for m in WEIGHT_MATERIALS)
    material = words.take_word(*names) or "tin"
    if form == "olivette":
        mass = _measure(words, "g|mg")
        words.finish(names)
        mass_g = round(q.read_mass_g(_need(mass, "mass", words, "olivette 0.4 g")), 3)
        return Weight(form=form, mark=q.write_mass(mass_g), mass_g=mass_g, material=material), None
    mark = words.take(r"(?:no\.?|number|size)?\s*\d{1,2}s?|[A-Z]{2,3}")
    shot = read_mark(_need(mark, "size", words, "shot AAA tin"))
    words.finish(names)
    return Weight(form=form, mark=shot.mark, mass_g=shot.mass_g, material=material), None


def _read_feeder(words: _Words) -> tuple[Figures, int | None]:
    words.take("feeders?")
    shape = words.take_word(*FEEDER_SHAPES)
    words.take("feeders?")
    mass = _measure(words, "g|oz|drams?")
    volume = _measure(words, "ml")
    words.finish(("feeder", *FEEDER_SHAPES))
    example = "feeder cage 30 g"
    return Feeder(
        shape=_need(shape, f"kind ({', '.join(FEEDER_SHAPES)})", words, example),
        mass_g=round(q.read_mass_g(_need(mass, "mass", words, example)), 3),
        volume_ml=q.read_volume_ml(volume) if volume else None,
    ), None


def _read_part(words: _Words) -> tuple[Figures, int | None]:
    words.take("(?:quick-change )?float(?= (?:stops?|adaptors?) )")
    sort = words.take_word(*PART_SORTS)
    strain = _measure(words, "kg|lbs?")
    size = words.take(rf"(?:size\s+)?{_N}(?:\s*mm)?")
    words.finish((*PART_SORTS, "size"))
    return Part(
        sort=_need(sort, "small part", words, "swivel size 14 12 kg"),
        size=" ".join((size or "").removeprefix("size").split()),
        breaks_at_kg=q.read_strain_kg(strain) if strain else None,
    ), None


def _read_elastic(words: _Words) -> tuple[Figures, int | None]:
    words.take("pole(?= elastic )")
    words.take("elastic")
    length = _measure(words, "m")
    grade = words.take(rf"(?:grade\s+)?{_N}")
    colour = words.take_word(*COLOURS)
    words.finish(("elastic", "grade", *COLOURS))
    text = _need(grade, "grade", words, "elastic 5 3 m").lower().removeprefix("grade")
    number = q.read_number(text)
    if not 0 < number <= 40:
        raise AskedWronglyError(f'"{text}" is no elastic grade.', right="Grades run from 1 to 40.")
    return Elastic(grade=number, colour=colour or ""), (
        round(q.read_length_mm(length)) if length else None
    )


def _read_winder(words: _Words) -> tuple[Figures, int | None]:
    words.take("winders?")
    first = words.take(rf"{_N}\s*(?:mm|cm|in)")
    words.take("[x×]")
    second = words.take(rf"{_N}\s*(?:mm|cm|in)")
    words.finish(("winder",))
    example = "winder 18 cm 20 mm"
    length = q.read_length_mm(_need(first, "length", words, example))
    width = q.read_length_mm(_need(second, "width", words, example))
    return Winder(length_mm=max(length, width), width_mm=min(length, width)), None


_READERS: dict[Kind, tuple[str, Callable[[_Words], tuple[Figures, int | None]]]] = {
    # In this order: "pole elastic" is no pole float, a "float stop" no float.
    Kind.ELASTIC: ("elastic", _read_elastic),
    Kind.PART: ("|".join(p.replace(" ", "[ -]") for p in PART_SORTS), _read_part),
    Kind.HOOK: ("hook", _read_hook),
    Kind.WINDER: ("winder", _read_winder),
    Kind.FEEDER: ("feeder|bomb", _read_feeder),
    Kind.FLOAT: ("waggler|stick|pole|float", _read_float),
    Kind.WEIGHT: ("shot|olivette", _read_weight),
    Kind.LINE: ("line|" + "|".join(trade_line.BY_WORD), _read_line),
}


def kind_of(text: str) -> Kind | None:
    """The kind that the words name, or None."""
    for kind, (pattern, _) in _READERS.items():
        if re.search(rf"(?<![\w-])(?:{pattern})s?(?![\w-])", text, re.IGNORECASE):
            return kind
    return None


def read_notation(text: str) -> Described:
    """The item that the words describe.

    Raises AskedWronglyError for words that are not understood, a figure that is missing or impossible.

    >>> read_notation("nylon 0.14mm 4lb 100m").words
    'nylon 0.14 mm 4 lb'
    >>> read_notation("hooks size 18 spade-end barbless pack 10").pack_size
    10
    """
    if len(text) > MOST_LETTERS:
        raise AskedWronglyError(
            f"the description is {len(text)} letters long.", right=f"At most {MOST_LETTERS}."
        )
    plain = " ".join(text.split())
    kind = kind_of(plain)
    if kind is None:
        raise AskedWronglyError(
            f'no kind of tackle is named in "{text}".',
            right='Say what it is, like "nylon 0.14 mm 4 lb 100 m", "hook 18 barbless spade", '
            '"waggler 5BB insert", "shot AAA tin", "feeder cage 30 g", "swivel size 14 12 kg".',
        )
    words = _Words(plain)
    pack = words.take(r"(?:pack(?:et)?|card)(?: of)?\s+\d+|[x×]\s?\d+(?=$)")
    figures, pack_size = _READERS[kind][1](words)
    if pack:
        pack_size = int(re.sub(r"\D", "", pack))
    return Described(kind, figures, pack_size)


def write_strain_as_printed(breaks_at_kg: float) -> str:
    """A strain in lb where it is a whole number of quarter pounds, else in kg.

    >>> write_strain_as_printed(1.81436948), write_strain_as_printed(1.9)
    ('4 lb', '1.9 kg')
    """
    quarters = breaks_at_kg / q.KG_PER_LB * 4
    if abs(quarters - round(quarters)) < 1e-6 and round(quarters) > 0:
        return f"{round(quarters) / 4:g} lb"
    return q.write_strain_kg(breaks_at_kg)


def _write_float(figures: Float) -> str:
    tip = ""
    if figures.tip_diameter_mm:
        tip = f" tip {figures.tip_diameter_mm:g} mm"
        if figures.tip_length_mm:
            tip += f" × {figures.tip_length_mm:g} mm"
    family, _, body = figures.shape.partition(" ")
    return f"{family} {figures.mark}{' ' + body if body else ''}{tip}"


def write_notation(figures: Figures) -> str:
    """The figures of an item as one line; ``read_notation`` reads it back."""
    match figures:
        case Line():
            strain = write_strain_as_printed(figures.breaks_at_kg) if figures.breaks_at_kg else ""
            words = [
                figures.material,
                q.write_diameter(figures.diameter_mm),
                strain,
                figures.colour,
            ]
        case Hook():
            wire = f"{figures.wire} wire" if figures.wire else ""
            words = ["hook", figures.size, figures.barb, figures.end, wire]
        case Float():
            words = [_write_float(figures)]
        case Weight():
            words = [figures.form, figures.mark, figures.material]
        case Feeder():
            volume = q.write_volume(figures.volume_ml) if figures.volume_ml else ""
            first = "" if figures.shape == "bomb" else "feeder"
            words = [first, figures.shape, q.write_mass(figures.mass_g), volume]
        case Part():
            size = figures.size if figures.size.endswith("mm") else f"size {figures.size}"
            strain = write_strain_as_printed(figures.breaks_at_kg) if figures.breaks_at_kg else ""
            words = [figures.sort, size if figures.size else "", strain]
        case Elastic():
            words = ["elastic", f"{figures.grade:g}", figures.colour]
        case Winder():
            words = ["winder", q.write_length(figures.length_mm), q.write_length(figures.width_mm)]
        case _:
            raise TypeError(f"no notation for {type(figures).__name__}")
    return " ".join(word for word in words if word)


def words_from_flags(kind: Kind, figures: dict[str, str]) -> str:
    """The one-line notation of an item whose figures were given one by one.

    >>> words_from_flags(Kind.HOOK, {"size": "18", "barb": "barbless"})
    'hook 18 barbless'
    """
    first = "" if kind in (Kind.LINE, Kind.FLOAT, Kind.PART, Kind.WEIGHT) else str(kind)
    values = [f"tip {text}" if key == "tip" else text for key, text in figures.items()]
    return " ".join(word for word in (first, *values) if word)
