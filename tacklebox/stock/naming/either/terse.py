"""Entries of two words, of which one is a number: "8 elastic", "8 shot", "line 5". A dealer would ask."""

import re
from collections.abc import Iterator
from dataclasses import replace

from tacklebox.stock.naming.asking import asked
from tacklebox.stock.naming.described import Described, Question, strain, word
from tacklebox.stock.naming.either.said import Either, is_untold
from tacklebox.stock.naming.tries import usual_of
from tacklebox.stock.naming.turns import saying
from tacklebox.stock.tables import Kind

MOST_OF_THEM = 20  # that the number may say there are
USUAL_GRADES = ("8", "10")  # of elastic that is counted and has none said
USUAL_STRAIN = "6 lb"  # of line likewise
_ELASTIC = saying(
    r"^(\d{1,2})\s+(?:[a-z]+\s+)?(?:elastic|lastic|lacky)\b|^(?:elastic|lastic|lacky)\s+(\d{1,2})$"
)
_LINE = saying(r"(?:line\s+(\d\d)|(\d\d)\s+line)(?=\s+\d+\s*m\b|$)")
_MARKED_SHOT = saying(r"[2-5]\s*[x×]\s*(?:bb|aaa|ab|ssg|swan)(?:\s+shot)?")
_HOOKS_ALONE = saying(r"hooks\s+\d\d")
_BY_SIZE = saying(r"([2-9])\s+[x×]\s+(1\d|2[0-4]|8)s?")
USUAL_HOOKS = ("18", "16")  # that are counted and have no size said
_OF_SO_MANY = "Of so many, say the size, too."


def number_in(text: str) -> int:
    """The number of an entry of two words that may say how many there are; 0 without one.

    >>> number_in("elastic 8"), number_in("8 shot"), number_in("line 0.14"), number_in("hook 8 spade")
    (8, 8, 0, 0)
    """
    words = text.split()
    found = [int(one) for one in words if one.isdecimal()] if len(words) == 2 else []
    return found[0] if len(found) == 1 and 1 < found[0] <= MOST_OF_THEM else 0


def so_many_spools(text: str, made: Question) -> Iterator[Described]:
    """ "Line 5" may be five spools."""
    many = number_in(text)
    for one in made.readings[:1] if many and made.about in ("diameter", "strain") else ():
        if one.kind is Kind.LINE and is_untold(one):
            known = {key: f for key, f in one.figures.items() if key != "diameter"}
            bare = replace(one, figures={**known, "strain": strain(USUAL_STRAIN)}, packs=many)
            yield replace(bare, pack=usual_of(bare))


def _elastic(text: str, made: Described) -> Question | None:
    """ "8 elastic" and "elastic 8" are of that grade, or there are eight of it."""
    grade, found = made.words_of("grade"), _ELASTIC.match(text)
    if made.kind is not Kind.ELASTIC or found is None or grade not in found.groups():
        return None
    if not is_untold(made):
        return None
    many = int(grade)
    other = next(one for one in USUAL_GRADES if one != grade)
    so_many = replace(made, figures={**made.figures, "grade": word(other)}, packs=many)
    asks = f"Is {grade} the size, or how many there are? {_OF_SO_MANY}"
    return asked(text, "count", asks, [made, so_many])


def _shot(text: str, made: Described) -> Question | None:
    """ "8 shot" are of that size, or eight of them, or eight tubs."""
    many = number_in(text)
    if (
        made.kind is not Kind.WEIGHT or not many or re.match(r"[a-z]+ ", text, re.IGNORECASE)
    ):  # "shot 8" is of that size
        return None
    if made.words_of("mark") != f"No {many}":
        return None
    other = {**made.figures, "mark": word("BB")}
    so_many = replace(made, figures=other, count=many)
    asks = f"Is {many} the size, or how many there are? {_OF_SO_MANY}"
    return asked(text, "count", asks, [made, so_many, replace(so_many, count=None, packs=many)])


def _line(text: str, made: Described) -> Question | None:
    """ "Line 14" is 0.14 mm thick, or 14 lb strong."""
    found = _LINE.match(text)
    if found is None or made.kind is not Kind.LINE or "diameter" not in made.figures:
        return None
    known = {key: figure for key, figure in made.figures.items() if key != "diameter"}
    number = found[1] or found[2]
    strong = replace(made, figures={**known, "strain": strain(f"{number} lb")})
    thick = made.words_of("diameter")
    asks = f"Is it {thick} thick, or {number} lb strong?"
    told = made.pack is not None and not made.pack.because
    strong = strong if told else replace(strong, pack=usual_of(strong))
    return asked(text, "strain", asks, [made, strong])


def _marked_shot(text: str, made: Described) -> Question | None:
    """ "2 x BB" are two shot, or two tubs."""
    if made.kind is not Kind.WEIGHT or not made.count or not _MARKED_SHOT.fullmatch(text):
        return None
    tubs = replace(made, packs=made.count, count=None)
    return asked(text, "packs", f"{made.count} shot, or {made.count} tubs?", [made, tubs])


def _hooks(text: str, made: Described) -> Question | None:
    """ "Hooks 14" are of that size, or fourteen of them; one word more says that it is the size."""
    if made.kind is not Kind.HOOK or not _HOOKS_ALONE.fullmatch(text) or not is_untold(made):
        return None
    many = int(made.words_of("size"))
    so_many = [
        replace(made, figures={**made.figures, "size": word(other)}, count=many)
        for other in USUAL_HOOKS
    ]
    asks = f"Is {many} the size, or how many there are? {_OF_SO_MANY}"
    return asked(text, "count", asks, [made, *so_many])


def _by_size(text: str, made: Described) -> Question | None:
    """ "4 x 14s" is a float's size, or four of something of size 14."""
    found = _BY_SIZE.fullmatch(text)
    if found is None or made.kind is not Kind.FLOAT:
        return None
    many, size = int(found[1]), found[2]
    hook = Described(Kind.HOOK, {"size": word(size)}, count=many)
    hook = replace(hook, pack=usual_of(hook))
    swivel = Described(Kind.PART, {"sort": word("swivel"), "size": word(size)}, count=many)
    swivel = replace(swivel, pack=usual_of(swivel))
    return asked(text, "kind", f'"{text}" may be several things.', [made, hook, swivel])


RULES: tuple[Either, ...] = (_by_size, _hooks, _elastic, _shot, _line, _marked_shot)
