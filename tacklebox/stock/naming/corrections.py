"""Slips that an angler puts right in the same breath: "0.10, sorry 0.11", "15 cm not 10", "16s i mean".

The later figure takes the place of the earlier one of its sort, and nothing of the slip is kept. A bare
number that may put two figures right is read in both ways. Of words ("red, sorry green") two are rivals where
one kind of tackle knows both as the same sort of thing, a colour, an end.
"""

import re
from collections.abc import Sequence

from tacklebox.stock.naming.asking import asked
from tacklebox.stock.naming.described import Described, Question, Reads, if_understood
from tacklebox.stock.naming.hand import singular
from tacklebox.stock.naming.lexicon import LEXICON
from tacklebox.stock.naming.said_figures import (
    BARE,
    MARK,
    ON_SPOOL,
    PACKS,
    SIZE,
    THICK,
    SaidFigure,
    figure_at,
    figures_in,
    only_signs,
)
from tacklebox.stock.naming.tokens import tokenise
from tacklebox.stock.naming.turns import PUTS_RIGHT, saying

MOST_CORRECTIONS = 4  # in one breath
MOST_MEANT = 3  # figures that one number may put right
LIKELY_HELD = 5  # so many are rather in a packet than packets
NEAR, FAR = 2.0, 5.0  # times that a slip is too big or too small
_AKIN = {"strain": {"mass"}, "mass": {"strain"}, "length": {ON_SPOOL}, ON_SPOOL: {"length"}}
_I_SAID = saying(r"\s*\b(?:i|it)\s+(?:said|says|put|wrote|thought)\s*$")
_BY_LENGTH = saying(r"\d+\s*[x×]\s*\d+")  # "4x12", which "5 x no 4" is not
_TO = saying(r"\s*(?:to|-|x|/)\s*")
_PLAINLY = (
    rf"(?:{PUTS_RIGHT}|(?:oh\s+|ah\s+)?"
    r"(?:but\s+(?:it'?s|they'?re|really|measures?|actually)|well(?=\s+\d)))"
)
_LIKELY = r"(?:oh\s+)?no(?=[\s,.;:!-])"
_IT_IS = (
    r"(?:the|it'?s|it\s+is|it\s+was|they'?re|they\s+are|that'?s|i'?ve\s+got|i\s+(?:have|got)|got|an?|is|are"
    r"|was|were|there'?s|there\s+are|only|to)"
)
_MARKED = re.compile(
    rf"""(?<=[\w"'%)])(?P<before>(?:\s+i\s+(?:think|thought|reckon))?[\s,;:.!\-–—…(]+)
    (?P<said>(?:{_PLAINLY}|{_LIKELY})(?:[\s,.;:!\-–—…]+(?:{_PLAINLY}|no\b))*)
    (?P<sign>(?:[\s,:;!\-–—…]|\.(?!\d))+|(?=£))(?P<is>(?:{_IT_IS}\s+)*(?:x\s?(?=\d))?)
    (?=[\w£.\#½¼¾])""",
    re.IGNORECASE | re.VERBOSE,
)
_I_MEAN = r"(?:i\s+me(?:an|ant)|sorry|it\s+should\s+(?:be|say|read)|rather(?!\s+than))"
_AFTER = saying(
    rf"(?:[\s,]*\b(?:{_I_MEAN}|it\s+says(?:\s+so)?(?:\s+(?:on|underneath)(?:\s+the\s+\w+)?)?|that\s+is"
    r"|it\s+(?:is|was))\b(?!\s*[\d£.]))*\)?"
)
_BEHIND = saying(rf"[\s,]*\b{_I_MEAN}\b\)?(?=\s*(?:,|$))")  # "0.08 i mean"
_NOT = saying(r"[\s,(]+(?:and\s+)?(?:not|rather\s+than|instead\s+of)\s+(?:(?:the|a)\s+)?(?=[\d.])")
_BY_NUMBER = saying(  # what is called by its number: "2 tubs no 8s"
    r"\b(?:shots?|tubs?|styls?|dust|elastic|lackey|lacky|bb|aaa|ssg|swan|solid|hollow)\b"
)
_BY_SHOT = saying(r"\b(?:sticks?|floats?|wag(?:gler)?s?|avons?|bolos?|olivettes?)\b")
_IN_ONE = saying(  # of what a packet holds: "100 in the bag"
    r"\s+(?:in|per|to)\s+(?:(?:a|the|each|every)\s+)?(?:bag|packet|pack|pkt|pk|box|tub|card)?"
)
_LEFT = saying(r"\s+(?:left|of\s+them|in\s+(?:it|all|the))\b")

# Words of what a thing is, of which one may take the place of another.
_DECIDES = frozenset(
    "barb end eye wire bend colour core material shape size fitting sort body stem tip loose form".split()
)
_WORD_SAID = saying(
    rf"(?<=[a-z])(?P<sign>[\s,;.?–-]+)(?:(?P<plainly>(?:no[\s,]+)?{PUTS_RIGHT}(?:[\s,]+(?:{PUTS_RIGHT}|no))*)|(?P<no>no))"
    r"[\s,]+(?P<is>(?:the|a|it'?s|that'?s|they'?re|they\s+are)\s+)?(?P<new>[a-z]{3,})(?P<after>[\s,]+(?:i\s+mean|sorry|it\s+says))?(?![a-z])"
)
_TAKEN_BACK = saying(r"^[a-z][a-z\s'-]{2,40}\?\s*no[\s,]+(?=[a-z])")
_NOT_WORD = saying(r"[\s,]+not\s+(?P<old>[a-z]{3,})(?![a-z])")
_AGAIN = re.compile(r"\s+(?P<figure>\d[\w.]*)(?=\s*(?:,|$|\s))")
_NOUN_AGAIN = saying(r"\s+([a-z]+)(?:\s+(?:sorry|i\s+mean))?")
_WORD = saying(r"[a-z]{3,}")


def put_right(text: str) -> tuple[str, ...]:
    """The words with what was corrected in the place of the slip: several where it may be of several
    figures; the words alone where nothing is corrected.

    >>> put_right("0.10 line, sorry 0.11, 3 x 50m"), put_right("cage 20g, no 30g it says on the bottom")
    (('0.11 line, 3 x 50m',), ('cage 30g',))
    >>> put_right("10s to 8lb, sorry 12s to 8lb, 24in"), put_right("16 to 0.17, 15cm not 10")
    (('12s to 8lb, 24in',), ('16 to 0.17, 15cm',))
    >>> put_right("18 to 3lb, sorry 4")
    ('18 to 4lb', '4 to 3lb')
    """
    meant: tuple[str, ...] = (text,)
    for _ in range(MOST_CORRECTIONS):
        further = tuple(dict.fromkeys(new for one in meant for new in (_once(one) or (one,))))
        if further == meant or len(further) > MOST_MEANT:
            break
        meant = further
    return meant


def as_put_right(text: str, reads: Reads) -> Described | Question:
    """What the words name once the slips in them are put right; asked where that may be done in two ways."""
    meant = put_right(_with_words_right(text))
    if len(meant) == 1:
        return reads(meant[0])
    readings: list[Described] = []
    for one in meant:
        if made := if_understood(one, reads):
            readings += made.readings
    if not readings:
        return reads(text)
    return asked(text, "number", "Which figure is put right?", readings)


def _once(text: str) -> tuple[str, ...]:
    """The words with one slip put right, in each way that this may be meant."""
    if kept := _without_what_it_is_not(text):
        return (kept,)
    for found in _MARKED.finditer(text):
        in_brackets = text.count("(", 0, found.start()) > text.count(")", 0, found.start())
        if not in_brackets and (ways := _in_front(text, found)):
            return ways
    for found in _BEHIND.finditer(text):
        if ways := _said_behind(text, found):
            return ways
    return ()


def _in_front(text: str, found: re.Match[str]) -> tuple[str, ...]:
    """ "..., sorry 0.11": the figures that follow what says that they are right."""
    head = text[: found.start()]
    earlier = figures_in(head)
    new = figure_at(text, found.end())
    after = _AFTER.match(text, new.end) if new else None
    if new is None or after is None or not earlier:
        return ()
    if re.search(r"\W\s*no$", found["said"], re.IGNORECASE):  # "sorry, no 12" is a number twelve
        numbered = [one for one in earlier if one.lead.lower().startswith("no")]
        earlier = numbered or earlier
    plainly = re.search(_PLAINLY, found["said"], re.IGNORECASE) or after.group().strip(" )")
    if not plainly and not _is_likely(text, found, new, earlier):
        return ()
    ways: list[dict[SaidFigure, SaidFigure]] = [
        {old: new} for old in _put_right_by(new, earlier, head)
    ]
    if new.sort == PACKS and not ways:  # "100 in the bag, make that two bags"
        return (f"{head}, {text[found.end() :]}",)
    end = after.end()
    while ways and (joint := _TO.match(text, new.end)) and (new := figure_at(text, joint.end())):
        old = _put_right_by(new, earlier, head)
        if len(old) != 1:
            break
        ways, end = [{**way, old[0]: new} for way in ways], new.end
    after = _AFTER.match(text, end)
    end = after.end() if after else end
    rest = re.sub(r"^\s+of\s*(?=,|$)", "", text[end:])  # "x 3, no, 4 of"
    if "(" in found["before"] and text[end - 1] != ")":
        rest = rest.replace(")", "", 1)
    return tuple(_joined(_with_figures(head, way), rest) for way in ways)


def _said_behind(text: str, found: re.Match[str]) -> tuple[str, ...]:
    """ "20 to 0.09, 0.08 i mean": one figure, and behind it that it is the right one."""
    before = figures_in(text, 0, found.start())
    if len(before) < 2 or before[-1].end != found.start():
        return ()
    *earlier, new = before
    head = re.sub(r"[\s,]+(?:no|not)?[\s,]*$", "", text[: new.start])
    ways = [{old: new} for old in _put_right_by(new, earlier, head)]
    return tuple(_joined(_with_figures(head, way), text[found.end() :]) for way in ways)


def _without_what_it_is_not(text: str) -> str:
    """ "15cm not 10", "0.12 rather than 0.14": the words without what it is not; "" where nothing is so."""
    for found in _NOT.finditer(text):
        old = figure_at(text, found.end())
        if old is None:
            continue
        head, rest = text[: found.start()], text[old.end :]
        others = [*figures_in(head), *figures_in(rest)]
        beside = (
            figures_in(head)[-1:]
            if only_signs(head[max((s.end for s in figures_in(head)), default=0) :])
            else []
        )
        alike = [
            one for one in others if one.sort == old.sort or {one.sort, old.sort} == {BARE, SIZE}
        ]
        if alike or (old.plain and beside):
            return _joined(head, re.sub(r"^(?:\s*,?\s*but\b|\s*\))", "", rest))
    return ""


def _is_likely(
    text: str, found: re.Match[str], new: SaidFigure, earlier: Sequence[SaidFigure]
) -> bool:
    """Whether a bare "no" says that the figure was wrong: "20g, no 30g". "5 no 4" is a number four."""
    head, parted = text[: found.start()], "," in found["sign"]
    beside = only_signs(head[earlier[-1].end :])
    if re.search(r"\b(?:and|or|with|to|of|by|&)$", head, re.IGNORECASE):
        return False
    if re.search(r"\b(?:its?|they|that|thats)\b", found["is"], re.IGNORECASE):  # "no, it's 12"
        return True
    if new.sort == BARE:
        left = beside and earlier[-1].plain and _LEFT.match(text, new.end)
        named = _BY_NUMBER.search(text) or _BY_SHOT.search(text)  # what "no 8" may be called by
        dotted = found["sign"].startswith(".")  # "(20) no. 18"
        return bool(parted or left or ("," in found["before"] and not named and not dotted))
    if not any(one.sort == new.sort for one in earlier):
        return False
    if new.sort == SIZE:
        return parted or not ("." in found["sign"] or _BY_NUMBER.search(text))
    if new.sort == PACKS:
        return parted or "," in found["before"]
    counted = beside and earlier[-1].plain  # "3 no 40g feeders"
    return not counted and (new.sort != MARK or new.number[0].isdecimal())


def _put_right_by(new: SaidFigure, earlier: Sequence[SaidFigure], head: str) -> list[SaidFigure]:
    """The earlier figures of which the new one may take the place, the likeliest first."""
    beside = earlier[-1] if only_signs(head[earlier[-1].end :]) else None
    if new.sort == BARE:
        return _near_in_size(new, _of_bare_number(earlier, beside))
    for sorts in ({new.sort}, _AKIN.get(new.sort, set())):
        same = [one for one in earlier if one.sort in sorts and _is_formed_like(one, new)]
        if beside in same:
            return [beside]
        if same:
            return same[::-1][:MOST_MEANT]
    bare = [one for one in earlier if one.sort == BARE]
    if new.sort == PACKS:
        bare = [one for one in bare if not _IN_ONE.match(head, one.end)]
    if beside in bare:
        return [beside]
    return bare if new.sort == SIZE or len(earlier) == 1 else []


def _of_bare_number(earlier: Sequence[SaidFigure], beside: SaidFigure | None) -> list[SaidFigure]:
    """What "sorry 16" may put right: the number beside it, else any that is a number of the like."""
    bare = [one for one in reversed(earlier) if one.sort in (BARE, SIZE, PACKS)]
    units = [one for one in reversed(earlier) if one not in bare and one.sort not in (THICK, MARK)]
    if beside in bare:  # "size 18, 10pk, sorry 16" is likely the size
        held = beside.sort == PACKS and beside.number.isdecimal()
        sizes = [one for one in bare if one.sort == SIZE]
        return [*(sizes if held and int(beside.number) >= LIKELY_HELD else ()), beside]
    if beside in units:
        return [beside, *(one for one in bare if one.sort != PACKS)]
    return [*bare, *units]


def _near_in_size(new: SaidFigure, found: Sequence[SaidFigure]) -> list[SaidFigure]:
    """Without those that no slip makes of it, where others are near: 40 was hardly meant to be a 3."""
    far = {one: _times(one, new) for one in found}
    near = [one for one in found if far[one] <= NEAR]
    return [one for one in found if not near or far[one] <= FAR][:MOST_MEANT]


def _times(one: SaidFigure, other: SaidFigure) -> float:
    """How many times the bigger of two figures is the smaller."""
    values = sorted(tokenise(one_figure.number)[0].value for one_figure in (one, other))
    return values[1] / values[0] if values[0] > 0 else FAR


def _is_formed_like(one: SaidFigure, new: SaidFigure) -> bool:
    """Whether two marks are of one sort: "4x12" and "4x14", "3AAA" and "3BB"."""
    return new.sort != MARK or bool(_BY_LENGTH.fullmatch(one.number)) == bool(
        _BY_LENGTH.fullmatch(new.number)
    )


def _with_figures(head: str, put: dict[SaidFigure, SaidFigure]) -> str:
    """The words before with the right figures in them, and without "i said" before one."""
    for old, new in sorted(put.items(), key=lambda pair: -pair[0].start):
        before = _I_SAID.sub(" ", head[: old.start])
        head = f"{before}{_in_place(old, new)}{head[old.end :]}"
    return head


def _in_place(old: SaidFigure, new: SaidFigure) -> str:
    """The new figure with what only the old one was called by: its unit, "size", its packets."""
    lead = new.lead or old.lead
    tail = new.tail or ("" if "size" in lead and old.sort != SIZE else old.tail)
    return f"{lead}{new.number}{tail}"


def _joined(head: str, rest: str) -> str:
    head, rest = head.rstrip(" ,;:-("), rest.lstrip()
    apart = ", " if head[-1:].isdigit() and rest[:1].isdigit() else " "
    return f"{head}{'' if rest[:1] in (',', ')', '') else apart}{rest}"


def _with_words_right(text: str) -> str:
    """The words with what was put right in the place of the slip.

    >>> _with_words_right("16 spade barbless no barbed"), _with_words_right("elastic 8 red, sorry green")
    ('16 spade barbed', 'elastic 8 green')
    >>> _with_words_right("18s eyed not spade, fine"), _with_words_right("eyed, no barb")
    ('18s eyed, fine', 'eyed, no barb')
    """
    text = _TAKEN_BACK.sub("", text)
    for found in _WORD_SAID.finditer(text):
        earlier = list(_WORD.finditer(text, 0, found.start()))
        beside = earlier[-1:] if earlier and earlier[-1].end() == found.start() else []
        told = found["is"] and found["is"].split()[0].lower() not in (
            "the",
            "a",
        )  # "no they're eyed"
        sure = found["plainly"] or found["after"] or told
        named = _NOUN_AGAIN.match(text, found.end())  # "wire stem? no carbon stem"
        if beside and named and named.group(1).lower() == beside[0].group().lower():
            beside, end = earlier[-2:-1], named.end()
        else:
            end = found.end()
        for old in reversed(earlier if sure else beside):
            if _are_rivals(old.group(), found["new"]):
                start = _start_of_name(text, earlier, old)
                new = f"{text[:start]}{found['new']}{text[old.end() : found.start()]}"
                return _with_words_right(f"{new}{_without_again(text[end:], new)}")
        if told and any(found["new"].lower() in known for known in LEXICON.values()):
            return _with_words_right(f"{text[: found.start()]}, {text[found.start('new') :]}")
    for found in _NOT_WORD.finditer(text):  # "waggler not loaded" says more than what it is not
        others = _WORD.finditer(text, 0, found.start())
        if any(_are_rivals(other.group(), found["old"], _DECIDES - {"shape"}) for other in others):
            return _with_words_right(f"{text[: found.start()]}{text[found.end() :]}")
    return text


def _start_of_name(text: str, earlier: Sequence[re.Match[str]], old: re.Match[str]) -> int:
    """Where a name of two words begins that the slip ends: "pellet waggler" is one."""
    at = earlier.index(old)
    before = earlier[at - 1] if at else None
    if before is None or text[before.end() : old.start()].strip(" -"):
        return old.start()
    name = singular(f"{before.group()}{old.group()}".lower())
    return before.start() if any(name in known for known in LEXICON.values()) else old.start()


def _without_again(rest: str, before: str) -> str:
    """The rest without a figure that was only said again: "eyed 14s, scratch that, spade 14s"."""
    again = _AGAIN.match(rest)
    return rest[again.end() :] if again and again["figure"] in before.split() else rest


def _are_rivals(one: str, other: str, roles: frozenset[str] = _DECIDES) -> bool:
    """Whether a kind knows both, in one role and with two meanings."""
    for known in LEXICON.values():
        first, second = (
            known.get(word) or known.get(singular(word)) for word in (one.lower(), other.lower())
        )
        if (
            first
            and second
            and first[0] == second[0]
            and first[0] in roles
            and first[1] != second[1]
        ):
            return True
    return False
