"""Whether every number that was said went into what was read. One that did not is asked about, so that no
reading drops a number however clear the rest of it is."""

import re
from collections.abc import Iterator, Sequence
from math import isclose

from tacklebox.stock.naming.described import Described, Question
from tacklebox.stock.naming.notes import with_note
from tacklebox.stock.naming.numbers import count_of
from tacklebox.stock.naming.prices import how_many, how_many_priced
from tacklebox.stock.naming.turns import SPOKEN, saying

_POUND_KG = 0.45359237
ONE_STRAIN = 0.06  # two units of one strain on a packet differ by no more than this share
_SIGNS = {"½": " 1/2", "¼": " 1/4", "¾": " 3/4", "⅓": " 1/3", "⅔": " 2/3", "⅛": " 1/8"}
_COMMA = re.compile(r"(?<![\d.,])(\d{1,2}),(\d{1,3})(?![\d,])")
_POINT = saying(r"(?<=[a-z])\.(?=\d)")  # "no.4"
_SLIP = re.compile(r"[\d.]*[\d.][IlO][\d.]+")  # "0.I4"
_TIMES_STRONG = re.compile(r"\b[1-5]\s?x[\s-]?(?=strong\b)", re.IGNORECASE)  # is how strong
_NUMBER = re.compile(r"\d+\s+\d{1,2}/\d{1,2}|\d{1,2}/\d{1,2}|\d*\.\d+|\d+")
_SPELT_PARTS = saying(  # "point one two", "three quarters"
    rf"\b(?:point|oh|nought|naught)(?:\s+(?:oh|nought|naught|{SPOKEN}))+\b|\b(?:two|three)\s+(?:thirds|quarters)\b"
)
_SPELT = saying(rf"\b{SPOKEN}\b")
_DOZENS = saying(r"\b(?:dz|doz|dozens?)\b")


def asked_what_is_lost(text: str, made: Described | Question) -> Described | Question:
    """What was read, or the question what a number is that went into no figure of it."""
    if isinstance(made, Question):
        return made
    lost = lost_numbers(text, made)
    if not lost:
        return made
    said = " ".join(lost)
    asks = f'"{said}" is not understood. Keep it as a note?'
    return Question(text, "word", asks, with_note(made, said).readings)


def lost_numbers(text: str, made: Described) -> list[str]:
    """The numbers of the text that are in none of the figures, amounts and notes of what was read."""
    known = [*_of_figures(made), *_of_amounts(made)]
    if _DOZENS.search(text):
        known += [value / 12 for value in known]
    numbers = [value for _, value in _said(text)]  # "ten and three", "ten, used three"
    there = [float(one) for one in (made.count, made.left and float(made.left.value) / 1000) if one]
    known += [
        abs(there_is + by * number) for there_is in there for number in numbers for by in (1, -1)
    ]
    known += _of_packets_but_some(made, numbers)
    strengths = _of_strain(made)
    return [
        said
        for said, value in _said(text)
        if not any(isclose(value, one, rel_tol=0.005) for one in known)
        and not any(isclose(value, one, rel_tol=ONE_STRAIN) for one in strengths)
        and not _in_parts(said, known)
    ]


def _of_packets_but_some(made: Described, numbers: Sequence[float]) -> list[float]:
    """ "3 packets of 10 less the 4 that broke" are 26: both numbers went into them."""
    if not (made.count and made.pack):
        return []
    held = float(made.pack.value)
    apart = [(packs, abs(packs * held - made.count)) for packs in numbers]
    return [one for packs, some in apart if some in numbers for one in (packs, some)]


def _in_parts(said: str, known: Sequence[float]) -> bool:
    """ "18.to.12.4in" has 12 and 4 in it."""
    return "." in said and all(float(part) in known for part in said.split(".") if part)


def _said(text: str) -> Iterator[tuple[str, float]]:
    for sign, spelt in _SIGNS.items():
        text = text.replace(sign, spelt)
    text = _TIMES_STRONG.sub(" ", text)
    text = _SLIP.sub(" ", _POINT.sub(" ", _COMMA.sub(r"\1.\2", text)))
    for found in _SPELT.finditer(_SPELT_PARTS.sub(" ", text)):
        if (many := count_of(found.group())) > 1:
            yield found.group(), float(many)
    for found in _NUMBER.finditer(text):
        if parts := _no_fraction(found.group()):
            yield from parts
        elif value := _value(found.group()):
            yield found.group(), value


def _no_fraction(said: str) -> list[tuple[str, float]]:
    """The two numbers that a stroke parts where they are no fraction of a pound or an inch: "22/15".

    >>> _no_fraction("22/15"), _no_fraction("3/8")
    ([('22', 22.0), ('15', 15.0)], [])
    """
    above, stroke, below = said.partition("/")
    if not stroke or " " in above or (int(above) < int(below) and int(below) in (2, 3, 4, 8, 16)):
        return []
    return [(one, float(one)) for one in (above, below) if float(one)]


def _value(said: str) -> float:
    """A number as said: "1 1/2", "3/8", ".12", "4".

    >>> _value("1 1/2"), _value(".12"), _value("3/0")
    (1.5, 0.12, 0.0)
    """
    total = 0.0
    for part in said.split():
        above, stroke, below = part.partition("/")
        if stroke and not int(below):
            return 0.0  # "3/0" is a hook
        total += float(above) / float(below or 1)
    return total


def _of_figures(made: Described) -> Iterator[float]:
    """The numbers of its figures and notes, a whole and its part also apart; of hundredths their mm."""
    figures = [*made.figures.values(), *(f for f in (made.pack, made.left) if f)]
    for words in (*(figure.words for figure in figures), made.note):
        yield from (value for _, value in _said(words))
        yield from map(float, re.findall(r"\d+", words))
    for loaded in re.findall(r"([\d.]+)\+([\d.]+)", made.words_of("mark")):
        yield sum(map(float, loaded))
    if "diameter" in made.figures:
        yield 100 * float(made.figures["diameter"].value)


def _of_strain(made: Described) -> tuple[float, ...]:
    if "strain" not in made.figures:
        return ()
    kg = float(made.figures["strain"].value)
    return kg, kg / _POUND_KG


def _of_amounts(made: Described) -> Iterator[float]:
    """How many, how many packets of how many, what was used of them, and the price of one and of all."""
    many, packs = how_many(made), made.packs or 1
    yield from (many, packs)
    if made.left and made.pack:  # "two full ones and one about half gone", "30 m used"
        yield float(made.left.value) // float(made.pack.value)
        yield (float(made.pack.value) - float(made.left.value)) / 1000
    if made.count and made.pack and made.pack_size:  # "2 1/2 packs"
        yield made.count // made.pack_size
    yield from (made.count or 0, float(made.pack.value) * packs if made.pack else 0)
    if made.price_cents is not None:
        priced = (1, many, how_many_priced(made))
        yield from (made.price_cents * of / share for of in priced for share in (1, 100))
        yield from (made.price_cents * of % 100 for of in priced)  # "two pounds fifty"
