"""A number that is left over as a note says something yet: another of the same sort ("5 mm ... and 4 mm
same"), or what each of the packets holds ("8 per pkt x 2 pkt")."""

import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace

from tacklebox.stock.naming.bare_numbers import NEVER_COUNTED
from tacklebox.stock.naming.described import (
    Described,
    Figure,
    Question,
    diameter,
    length,
    mass,
    pieces,
    word,
)
from tacklebox.stock.naming.own import is_own
from tacklebox.stock.naming.turns import saying

_FIGURE = saying(
    r"(?P<number>\d+\s+\d/\d|\d/\d|\d*\.?\d+)\s*(?P<unit>mm|cm|m|g|oz|lb|kg)?(?![\w.])"
)
_SAYS_LITTLE = saying(
    r"\b(?:same|ditto|do|too|also|as\s+well|and|plus|another|one|ones|each|all|of|the|in|x)\b|[+&,.\s]"
)
_MADE_OF: Mapping[str, Callable[[str], Figure]] = {
    "mass": mass,
    "length": length,
    "diameter": lambda said: diameter(*said.split()),
    "size": word,
}
MOST_PACKETS = 5  # that a number may be which was taken for what one holds
FEWEST_HELD = 4


def others_of_its_sort(text: str, made: Question) -> Question:
    """The question with a figure of a note as another thing: "bands 5 mm (note: 4 mm same)" are two."""
    if made.about not in ("word", "count") or not made.readings or is_own(made.readings[0]):
        return made
    one, kept, others = made.readings[0], list[str](), list[Described]()
    for note in filter(None, one.note.split(", ")):
        more = list(_of_the_note(note, one, text))
        others += more
        kept += [] if more else [note]
    if not others:
        return made
    rest = ", ".join(kept)
    readings = tuple(replace(each, note=rest) for each in (one, *others))
    asks = f'"{text}" names several things: one at a time.'
    return replace(made, about="several", asks=asks, readings=readings)


def _of_the_note(note: str, one: Described, text: str) -> Iterator[Described]:
    """The thing with each figure of the note in place of its own; none where the note says more."""
    figures = list(_FIGURE.finditer(note))
    rest = _SAYS_LITTLE.sub("", _FIGURE.sub("", note)).lower()
    if not figures or (
        rest and not re.search(rf"\b{re.escape(rest)}", text.split(note)[0].lower())
    ):
        return
    for key, of in _MADE_OF.items():
        unit = one.words_of(key).rpartition(" ")[2]
        units = [found["unit"] or ("oz" if "/" in found["number"] else "") for found in figures]
        if re.match(r"[a-z]+$", unit) and all(said == unit for said in units):
            for found in figures:
                figure = of(f"{found['number']} {unit}")
                yield replace(one, figures={**one.figures, key: figure})
            return


def packets_of_so_many(_: str, made: Question) -> Iterator[Described]:
    """ "8 per pkt x 2 pkt" are two packets of eight, where eight was left over or taken for how many."""
    for one in made.readings if made.about not in NEVER_COUNTED else ():
        if one.measured or is_own(one) or one.pack is None:
            continue
        held = 0 if one.pack.because else one.pack_size or 0
        if one.packs and one.packs > FEWEST_HELD and 1 < held <= MOST_PACKETS:
            yield replace(one, packs=held, pack=pieces(one.packs))
        for note in one.note.split(", ") if one.count is None else ():
            if not re.fullmatch(r"\d{1,3}", note) or int(note) < FEWEST_HELD:
                continue
            rest = ", ".join(other for other in one.note.split(", ") if other != note)
            if one.packs and not held:
                yield replace(one, pack=pieces(int(note)), note=rest)
            if not one.packs and 1 < held <= MOST_PACKETS:
                yield replace(one, packs=held, pack=pieces(int(note)), note=rest)
