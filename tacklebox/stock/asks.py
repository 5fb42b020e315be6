"""What is asked of an item: a requirement by figures, matched against stock.

A recipe's part and a filter of the stock list ask in the same words:
``diameter = "0.13 to 0.15 mm"``, ``strain = "at least 4 lb"``, ``barb = "barbless"``.
"""

import math
import re
from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache, partial
from operator import attrgetter
from typing import Any, Protocol, TypeVar

from sqlmodel import and_, col, func, or_

from tacklebox.errors import AskedWronglyError, nearest_word
from tacklebox.stock.naming.hand import run_at
from tacklebox.stock.naming.kin import general, kinds_of
from tacklebox.stock.naming.lexicon import LEXICON, MARK_LETTERS
from tacklebox.stock.naming.tokens import Token, tokenise
from tacklebox.stock.naming.words import COLOURS, HOOK_COLOURS, WORDS
from tacklebox.stock.tables import FIGURES, UNMARKED, Figures, Hook, Kind, Weight
from tacklebox.trade import quantities as q
from tacklebox.trade.floats import one_sort_capacity
from tacklebox.trade.hooks import BARBS, SHANK_ENDS, read_hook_range
from tacklebox.trade.line import BY_WORD, material_named
from tacklebox.trade.quantities import Range
from tacklebox.trade.shot import WEIGHT_MATERIALS, read_mark

Wanted = Range | frozenset[str]

CAPACITY_SLACK = 0.001  # rounding alone: another float is not the one that the pattern is for
FEEDER_SLACK = 0.10  # of a feeder's or bomb's mass (common practice)


def _one_of(text: str, known: Collection[str], reader: Callable[[str], str] | None) -> Wanted:
    words = re.split(r"\s*(?:,|\bor\b)\s*", text.strip())
    return frozenset(_word(word, known, reader) for word in words)


def _word(word: str, known: Collection[str], reader: Callable[[str], str] | None) -> str:
    if reader is not None:
        return reader(word)
    if word.lower() in known:
        return word.lower()
    raise AskedWronglyError(f'"{word}" is not known.', right=nearest_word(word, list(known)))


def _range(text: str, reader: Callable[[str], float]) -> Wanted:
    return q.read_range(text, reader)


def _capacity(text: str) -> Wanted:
    wanted = q.read_range(text, lambda t: one_sort_capacity(t).mass_g)
    if wanted.low == wanted.high:
        slack = CAPACITY_SLACK * wanted.low
        return Range(wanted.low - slack, wanted.high + slack)
    return wanted


def _pole_mark(text: str) -> str:
    """The mark that is asked for where it is a pole float's, else "".

    What such a mark means differs from table to table, so a float of that mark meets the ask whatever it
    carries; one that is called otherwise must carry what the mark means.

    >>> _pole_mark("4x14"), _pole_mark("0.4 g"), _pole_mark("4×12 to 4×16")
    ('4×14', '', '')
    """
    plain = text.replace("x", "×").replace(" ", "")
    return plain if re.fullmatch(r"\d×\d\d", plain) else ""


def _mass(text: str) -> Wanted:
    wanted = q.read_range(text, q.read_mass_g)
    if wanted.low == wanted.high:  # ounces on one packet, grams on the next
        return Range(wanted.low - 0.0015, wanted.high + 0.0015)
    return wanted


def _feeder_mass(text: str) -> Wanted:
    """Feeders and bombs are sold by ounces and by grams: within a tenth they serve each other."""
    wanted = q.read_range(text, q.read_mass_g)
    return Range(wanted.low * (1 - FEEDER_SLACK), wanted.high * (1 + FEEDER_SLACK))


def _any_text(text: str) -> Wanted:
    return frozenset({" ".join(text.lower().removeprefix("size").split())})


def _hook_size(text: str) -> Wanted:
    return read_hook_range(text)


def _marked(tokens: Sequence[Token]) -> str:
    """The tokens as they are printed, sizes of shot by their letters: "3SSG" of "3 swan"."""
    said, at = "", 0
    while at < len(tokens):
        mark = run_at(tokens, at, MARK_LETTERS)
        said += f"{mark[0][1]}" if mark else f" {tokens[at].said}"
        at = mark[1] if mark else at + 1
    return said.strip()


@dataclass(frozen=True)
class AskField:
    """One figure that can be asked for: the column it is in, and how the ask is read."""

    column: str
    read: Callable[[str], Wanted]
    weight: float = 0.0  # how much nearness to the middle of the ask counts; 0: not at all
    named: Callable[[str], str] | None = None  # the mark that meets it whatever the figure is


def _words(
    column: str, known: Collection[str], reader: Callable[[str], str] | None = None
) -> AskField:
    return AskField(column, partial(_one_of, known=known, reader=reader))


def _figure(column: str, reader: Callable[[str], float], weight: float = 1.0) -> AskField:
    return AskField(column, partial(_range, reader=reader), weight)


_STRAIN = _figure("breaks_at_kg", q.read_strain_kg, 0.5)
_COLOUR = _words("colour", COLOURS)
ALSO: Mapping[str, tuple[str, ...]] = {"barb": ("micro",), "bait": ("rig",)}  # roles of a word
FORMS = ("shot", "olivette", "styl")
FLOAT_SHAPES = tuple(WORDS[Kind.FLOAT]["shape"])
FEEDER_SHAPES = (*WORDS[Kind.FEEDER]["shape"], "in-line")
PART_SORTS = (*WORDS[Kind.PART]["sort"], "stop")

ASKABLE: Mapping[Kind, Mapping[str, AskField]] = {
    Kind.LINE: {
        "material": _words("material", tuple(BY_WORD), lambda w: material_named(w).name),
        "diameter": _figure("diameter_mm", q.read_diameter_mm),
        "strain": _STRAIN,
        "colour": _COLOUR,
    },
    Kind.HOOK: {
        "size": AskField("size_order", _hook_size, 0.1),
        "end": _words("end", SHANK_ENDS),
        "barb": _words("barb", BARBS),
        "wire": _words("wire", WORDS[Kind.HOOK]["wire"]),
        "bend": _words("bend", WORDS[Kind.HOOK]["bend"]),
        "colour": _words("colour", HOOK_COLOURS),
    },
    Kind.HOOKLENGTH: {
        "size": AskField("size_order", _hook_size, 0.1),
        "end": _words("end", SHANK_ENDS),
        "barb": _words("barb", BARBS),
        "wire": _words("wire", WORDS[Kind.HOOK]["wire"]),
        "bend": _words("bend", WORDS[Kind.HOOK]["bend"]),
        "colour": _words("colour", HOOK_COLOURS),
        "bait": _words("bait", WORDS[Kind.HOOKLENGTH]["bait"]),
        "material": _words("material", tuple(BY_WORD), lambda w: material_named(w).name),
        "diameter": _figure("diameter_mm", q.read_diameter_mm),
        "strain": _STRAIN,
        "length": _figure("length_mm", q.read_length_mm),
    },
    Kind.FLOAT: {
        "shape": _words("shape", FLOAT_SHAPES),
        "capacity": AskField("capacity_g", _capacity, 1.0, _pole_mark),
        "tip": _figure("tip_diameter_mm", q.read_diameter_mm, 0.1),
    },
    Kind.WEIGHT: {
        "form": _words("form", FORMS),
        "mark": _words("mark", (), lambda w: read_mark(w).mark),
        "mass": AskField("mass_g", _mass, 1.0),
        "material": _words("material", tuple(m.name for m in WEIGHT_MATERIALS)),
    },
    Kind.FEEDER: {
        "shape": _words("shape", FEEDER_SHAPES),
        "mass": AskField("mass_g", _feeder_mass, 1.0),
        "volume": _figure("volume_ml", q.read_volume_ml, 0.1),
    },
    Kind.PART: {
        "sort": _words("sort", PART_SORTS),
        "size": AskField("size", _any_text),
        "strain": _STRAIN,
    },
    Kind.ELASTIC: {
        "grade": _figure("grade", q.read_number),
        "core": _words("core", WORDS[Kind.ELASTIC]["core"]),
        "colour": _COLOUR,
    },
    Kind.WINDER: {
        "length": _figure("length_mm", q.read_length_mm),
        "width": _figure("width_mm", q.read_length_mm),
    },
}


def known_words(kind: Kind, key: str) -> tuple[str, ...]:
    """The words that may be asked for, where a figure is a word; none of a number.

    >>> known_words(Kind.LINE, "material"), known_words(Kind.HOOK, "size")
    (('nylon', 'fluorocarbon', 'braid'), ())
    """
    asked: Any = getattr(ASKABLE[kind][key].read, "keywords", {})
    reader, known = asked.get("reader"), asked.get("known", ())
    return tuple(dict.fromkeys(reader(word) if reader else word for word in known))


def read_kind(text: str) -> Kind:
    """A kind of item by its name. Raises AskedWronglyError for an unknown one."""
    word = text.strip().lower()
    if word in list(Kind):
        return Kind(word)
    if word.removesuffix("s") in list(Kind):
        return Kind(word.removesuffix("s"))
    raise AskedWronglyError(f'"{text}" is no kind of item.', right=nearest_word(text, list(Kind)))


def read_is(text: str) -> tuple[Kind, dict[str, str]]:
    """A kind of item, or what anglers call a sort of one, as its kind and what that asks for.

    Raises AskedWronglyError for an unknown word.

    >>> read_is("shot"), read_is("hooks")
    ((<Kind.WEIGHT: 'weight'>, {'form': 'shot'}), (<Kind.HOOK: 'hook'>, {}))
    """
    word = text.strip().lower()
    for sort in (word, word.removesuffix("s")):
        if sort in PART_SORTS:
            return Kind.PART, {"sort": sort}
        if sort == "bomb":
            return Kind.FEEDER, {"shape": sort}
        if sort in FORMS:
            return Kind.WEIGHT, {"form": sort}
    return read_kind(text), {}


class _Figured(Protocol):
    @property
    def figures(self) -> Any: ...


F = TypeVar("F", bound=_Figured)


@dataclass(frozen=True)
class Ask:
    """A requirement: a kind of item and what is wanted of its figures."""

    kind: Kind
    wanted: tuple[tuple[str, str, Wanted], ...]  # (key, as written, as read)

    def matches(self, figures: Figures) -> bool:
        """Whether the figures meet every wish; an unknown figure meets none.

        A hook or shot of no one size meets none at all.
        """
        return not _is_of_no_size(figures) and all(
            _meets(getattr(figures, field.column), wish) or (mark and figures.mark == mark)  # type: ignore[attr-defined]
            for field, mark, wish in self._fields
        )

    def unnoted(self, figures: Figures) -> tuple[str, ...]:
        """The keys of wishes whose figure is not noted, where all others are met; () where it is not that.

        >>> from tacklebox.stock.tables import Part
        >>> swivel = Part(item_id=1, sort="swivel", size="12")
        >>> read_ask(Kind.PART, {"sort": "swivel", "strain": "at least 5 kg"}).unnoted(swivel)
        ('strain',)
        """
        missing = []
        for (key, _, _), (field, mark, wish) in zip(self.wanted, self._fields, strict=True):
            figure = getattr(figures, field.column)
            if figure in (None, ""):
                missing.append(key)
            elif not (_meets(figure, wish) or (mark and figures.mark == mark)):  # type: ignore[attr-defined]
                return ()
        return tuple(missing)

    @cached_property
    def _fields(self) -> list[tuple[AskField, str, Wanted]]:
        """Each wish with its field, and the mark that meets it, "" for none."""
        fields = ((ASKABLE[self.kind][key], text, wish) for key, text, wish in self.wanted)
        return [
            (field, field.named(text) if field.named else "", wish) for field, text, wish in fields
        ]

    def among(self, stock: Sequence[F]) -> list[F]:
        """Those whose figures match, in their order; each figure that many share is judged once."""
        left = [one for one in stock if not _is_of_no_size(one.figures)]
        for field, mark, wish in self._fields:
            figure = attrgetter(f"figures.{field.column}")
            meeting = {value for value in set(map(figure, left)) if _meets(value, wish)}
            left = [
                one for one in left if figure(one) in meeting or (mark and one.figures.mark == mark)
            ]
        return left

    def condition(self) -> Any:
        """The ask in SQL, on the table of its kind: true of all that ``matches``, and a shade wider: of what
        lacks a figure, too."""
        return _condition_of(self)

    @cached_property
    def _middles(self) -> list[tuple[str, float, float]]:
        """Where nearness counts: the column, its weight, and the middle of what is asked."""
        return [
            (field.column, field.weight, wish.middle)
            for field, _, wish in self._fields
            if field.weight and isinstance(wish, Range) and math.isfinite(wish.middle)
        ]

    def distance(self, figures: Figures) -> float:
        """How far the figures lie from the middle of the ask, as a weighted share (0: in it)."""
        total = 0.0
        for column, weight, middle in self._middles:
            value = getattr(figures, column)
            if value is not None:
                total += weight * abs(value - middle) / max(abs(middle), 1e-9)
        return total

    def __str__(self) -> str:
        return ", ".join([str(self.kind), *(f"{key} {text}" for key, text, _ in self.wanted)])


def _is_of_no_size(figures: Any) -> bool:
    """Whether it is a tin of hooks or a tub of shot of several sizes, or of none that is known."""
    said = figures.size if isinstance(figures, Hook) else getattr(figures, "mark", "")
    return isinstance(figures, Hook | Weight) and said == UNMARKED


def _meets(value: object, wish: Wanted) -> bool:
    if isinstance(wish, Range):
        return isinstance(value, int | float) and wish.contains(float(value))
    said = str(value)
    return not wish.isdisjoint((said, said.split(" ")[0], general(said)))


@lru_cache(maxsize=200)  # each choice that is moved asks for the same parts but one
def _condition_of(ask: Ask) -> Any:
    table = FIGURES[ask.kind]
    met = []
    for field, mark, wish in ask._fields:
        column = getattr(table, field.column)
        by_figure = or_(_condition(column, wish), col(column).is_(None), col(column) == "")
        met.append(or_(by_figure, col(table.mark) == mark) if mark else by_figure)  # type: ignore[attr-defined]
    return and_(True, *met)


def _condition(column: Any, wish: Wanted) -> Any:
    if isinstance(wish, Range):
        low, high = (
            end + sign * 2e-6 * max(abs(end), 1e-3)
            for end, sign in ((wish.low, -1), (wish.high, 1))
        )
        return col(column).between(low, high)
    first_word = func.substr(column, 1, func.instr(column + " ", " ") - 1)
    any_kind = {kind for word in wish for kind in kinds_of(word)}
    return or_(col(column).in_(any_kind), first_word.in_(wish))


@lru_cache(maxsize=2000)  # recipes ask in the same words again and again
def _read_wish(kind: Kind, key: str, text: str) -> Wanted:
    read = ASKABLE[kind][key].read
    try:
        return read(text)
    except AskedWronglyError:
        usual = _in_usual_words(kind, key, text)
        if usual == text:
            raise
        try:
            return read(usual)
        except AskedWronglyError:
            pass
        raise


def _in_usual_words(kind: Kind, key: str, text: str) -> str:
    """What an angler calls it in the words that are kept: "unbarbed", "four pound", "3 swan".

    >>> _in_usual_words(Kind.HOOK, "barb", "unbarbed"), _in_usual_words(Kind.LINE, "strain", "four pound")
    ('barbless', '4 lb')
    """
    parts = []
    for part in re.split(r"\s*(?:,|\bor\b)\s*", text.strip()):
        tokens = tokenise(part)
        meant = run_at(tokens, 0, LEXICON[kind])
        if meant and meant[1] == len(tokens) and meant[0][0] in (key, *ALSO.get(key, ())):
            parts.append(meant[0][1])
        else:
            parts.append(_marked(tokens))
    return " or ".join(parts)


def read_ask(kind: Kind, asks: Mapping[str, str]) -> Ask:
    """A requirement from its words. Raises AskedWronglyError for an unknown key or bad figure.

    >>> ask = read_ask(Kind.LINE, {"material": "nylon", "diameter": "0.13 to 0.15 mm"})
    >>> str(ask)
    'line, material nylon, diameter 0.13 to 0.15 mm'
    """
    wanted = []
    for key, text in asks.items():
        if key not in ASKABLE[kind]:
            raise AskedWronglyError(
                f'"{key}" cannot be asked of a {kind}.',
                right=nearest_word(key, list(ASKABLE[kind])),
            )
        try:
            wanted.append((key, text, _read_wish(kind, key, text)))
        except AskedWronglyError as error:
            raise error.at(key) from None
    return Ask(kind, tuple(wanted))


_FILTER = re.compile(r"^\s*([a-z]+)\s*[:=]?\s+(.+)$|^\s*([a-z]+)\s*=\s*(.+)$")


def read_filters(is_: str, filters: list[str]) -> Ask:
    """A kind, or a sort of one, and filters: each "KEY ASK", like "diameter 0.12 to 0.16 mm"."""
    kind, asks = read_is(is_)
    for text in filters:
        found = _FILTER.match(text)
        if not found:
            raise AskedWronglyError(
                f'"{text}" is no filter.', right='Write it like "diameter 0.12 to 0.16 mm".'
            )
        asks[found.group(1) or found.group(3)] = found.group(2) or found.group(4)
    return read_ask(kind, asks)
