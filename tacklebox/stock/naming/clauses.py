"""A phrase taken clause by clause: first the one that names the thing, then each that says more of it. What
is left over is kept word for word, and its numbers are offered as how many there are.

This is for what was not understood whole: long talk, of which a part is a story. It always asks. ``Reads``
reads a part of the phrase.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from tacklebox.stock.naming.asides import has_number, is_strange
from tacklebox.stock.naming.asking import MOST_READINGS, asked
from tacklebox.stock.naming.described import Described, Question, Reads, if_understood, pieces
from tacklebox.stock.naming.hand import run_at
from tacklebox.stock.naming.lexicon import LEXICON
from tacklebox.stock.naming.notes import with_note
from tacklebox.stock.naming.numbers import count_of
from tacklebox.stock.naming.own import is_own
from tacklebox.stock.naming.tokens import UNITS, tokenise
from tacklebox.stock.naming.turns import LENGTH, MANY, PACKETS, saying

_HOW_MUCH = "How much is there of it?"
MOST_CLAUSES = 10
MOST_NUMBERS = 4  # of what is left over that are offered
MOST_SCRAPS = 5  # words of a note in which a number likely says how much there is
MOST_SPOOLS = 20  # that a bare number may be
ASKED_ALREADY = ("price", "count", "packs", "left", "number")  # of how much there is
NAMES_A_KIND = ("name", "sort", "shape", "form")
UNSURE = ("kind", "says", "several", "number")  # asked of what names no one thing
_STOPS = r"\s*(?:[,;:!?]+(?=\s|$)|\.{2,}|(?<=[a-z]{3})\.(?=\s|$)|\s[-–—]+(?=\s))\s*"
_TURNS = (  # a clause of its own begins here
    r"(?<!'ve)(?<!\bive)(?<!\bi)\s+(?=(?:but|though|although|because|cos|which|when|before|after|while|until|where|thought|except|had|got|paid"
    r"|so(?=\s+(?:that|there|i\b|call|say|now|only|it|make|\d|[a-z]+\s+(?:left|now|in|still|full|good)))"
    r"|(?:was|were|used\s+to\s+be|should\s+be|must\s+be)(?=\s+(?:\d|[a-z]+\s+(?:in|of|to)\b))"
    r"|and\s+(?:i|i'?ve|they|it|we|he|she|there|that|the\s+other|another|now|only)"
    r"|out\s+of|left\s+(?:out\s+of|from|of|off|on)|apart\s+from|bar(?=\s+[a-z]+\b))\b)"
)
_PARTS = saying(rf"{_STOPS}|{_TURNS}")
_JOINS = saying(r"^(?:(?:but|and|so|though|although|which|well|oh|um)\s+)+(?=\S)")
_HOLDS = saying(
    rf"\b(?:{PACKETS}|wires?|strips?)\s+of\s+(?P<of>{MANY})|\b(?P<in>{MANY})\s+(?:in|per|to|on)\s+(?:(?:an?|the|each|every|one)\s+)?"
    rf"(?:{PACKETS}|it|there|each|them|wire|strip)\b|\beach\s+(?:has|holds)\s+(?P<each>{MANY})"
)
_PACKETS = saying(rf"\b(?P<many>{MANY})\s+(?:(?!of\b)[a-z]+\s+)?{PACKETS}\b")
_LONG = saying(rf"\b{LENGTH}\b")
_SHARE = saying(
    r"\b(?P<share>half|(?:an?\s+|one\s+)?(?:third|quarter)|(?:two|2)\s+thirds|(?:three|3)\s+quarters|\d/\d)\b(?P<used>\s+(?:gone|used))?"
)
_UNIT = "|".join(sorted(set(UNITS) - {"m"}, key=len, reverse=True))
_FIGURE = saying(rf"\d\s*(?:{_UNIT}|bb|aaa|ab|ssg|swan)\b|\bno\.?\s*\d")  # is none of how much
_ONLY = saying(r"\b(?:only|just|left|now)\b")  # else "one" is one of them
_GONE = saying(
    r"\b(?:lost|gave|gone|sold|snapped|broke|broken|binned|cracked|trod|used|lent|nicked|missing|chewed|snagged|pulled|swapped)\b"
)
_MONEY = r"\s*(?:quid|pence|pounds?|tenner|fiver|p)\b"
_MANY = saying(rf"(?<!£)\b(?P<many>{MANY})(?!{_MONEY}|\s+(?:times?|years?|weeks?|days?|months?)\b)")
_PLACE_NUMBER = saying(r"\b(?:peg|swim|drawer|shelf|box|bay|section|tray)s?\s+(?:no\.?\s*)?\w+$")


@dataclass(frozen=True, slots=True)
class _Clause:
    """Some of the phrase, from ``start`` to ``end``."""

    text: str
    start: int
    end: int

    @property
    def said(self) -> str:
        """What it says, without what joins it to the one before."""
        return _JOINS.sub("", self.text)

    @property
    def is_of_one(self) -> bool:
        """Whether it tells of one packet of several: "one's got 7 left in"."""
        return bool(re.search(r"\b(?:one|1|other|another|opened)\b", self.text, re.IGNORECASE))


@dataclass(frozen=True, slots=True)
class _Taken:
    """A thing: the words that name it, what they were read as, clauses that say how much, and all others."""

    core: str
    made: Described | Question
    amounts: tuple[_Clause, ...]
    over: tuple[_Clause, ...]


@dataclass(frozen=True, slots=True)
class _Number:
    """A number that may say how much there is: so many, or words of how much of a spool is left.

    ``gone``: it is one that was lost, so that it says nothing alone.
    """

    clause: _Clause
    many: int = 0
    left: str = ""
    gone: bool = False


def by_clauses(text: str, whole: Described | Question | None, reads: Reads) -> Question | None:
    """The question what the clauses of the text say of one thing; None where that says nothing else.

    ``whole`` is what the text was read as at once, None where it was not understood.
    """
    if isinstance(whole, Described) or (whole is not None and whole.about in ASKED_ALREADY):
        return None
    parts = _clauses(text)
    taken = _taken(parts, reads) if 1 < len(parts) <= MOST_CLAUSES else None
    if taken is None:
        return None
    if isinstance(whole, Question) and (
        _is_missing(taken.made)
        or any(_FIGURE.search(one.text) for one in taken.over)
        or (whole.about == "several" and not all(map(_is_told, taken.over)))
    ):
        return None
    told, counted = _readings(text, taken, reads)
    readings = [*told, *counted] if taken.amounts else [*counted, *told]
    if whole is not None and not (taken.over and _is_muddled(text, whole)):
        return _with_others(whole, counted or told)
    if isinstance(whole, Question) and whole.about != "several":
        readings += [one for one in whole.readings if not is_own(one)]
    asks = _HOW_MUCH if counted else f'Keep "{_together(text, taken.over)}" as a note?'
    like = taken.made.answer_like if isinstance(taken.made, Question) else ""
    return asked(text, "count" if counted else "word", asks, readings, like)


def _with_others(whole: Question, readings: Sequence[Described]) -> Question | None:
    """The question with what it may mean besides; None where that is none, or less than was asked."""
    if not whole.readings:
        return None
    known = [_all_said(one) for one in whole.readings]
    fewest = min(len(_figures(one)) for one in whole.readings)
    others = [
        one for one in readings if _all_said(one) not in known and len(_figures(one)) >= fewest
    ]
    if not others:
        return None
    every = tuple([*whole.readings, *others][:MOST_READINGS])
    return replace(whole, asks=f"{whole.asks} {_HOW_MUCH}", readings=every)


def _taken(parts: Sequence[_Clause], reads: Reads) -> _Taken | None:
    """What the clauses say of the first thing that one of them names; None where none does."""
    found = _named(parts, reads)
    if found is None:
        return None
    first, made = found
    core, amounts, over = first.said, list[_Clause](), list[_Clause]()
    at = parts.index(first)
    for part in [*parts[at + 1 :], *reversed(parts[:at])]:
        more = if_understood(f"{core}, {part.said}", reads)
        if more is None or not _says_more(made, more):
            over.append(part)
        elif _figures(more) == _figures(made):
            amounts.append(part)
        else:
            core, made = f"{core}, {part.said}", more
    return _Taken(core, made, tuple(amounts), tuple(over))


def _readings(
    text: str, taken: _Taken, reads: Reads
) -> tuple[Sequence[Described], Sequence[Described]]:
    """The thing as its clauses say, with the others as a note; and with so many as those may say."""
    told = if_understood(", ".join([taken.core, *(one.said for one in taken.amounts)]), reads)
    told = told if told is not None and told.readings else taken.made
    whole = with_note(told, _together(text, taken.over)) if taken.over else told
    counted = list[Described]()
    if any(map(_numbers, taken.over)):
        for one, used in _counted(taken, told.readings[0], reads):
            note = _together(text, [clause for clause in taken.over if clause is not used])
            counted += with_note(one, note).readings if note else [one]
    return whole.readings, counted


def _clauses(text: str) -> list[_Clause]:
    found, start = list[_Clause](), 0
    for stop in [*_PARTS.finditer(text), None]:
        end = stop.start() if stop else len(text)
        if bare := text[start:end].strip(" ,").rstrip("."):
            found.append(_Clause(bare, start, end))
        start = stop.end() if stop else end
    return found


def _is_muddled(text: str, whole: Question) -> bool:
    """Whether it was hardly understood: as no kind, or with scraps of it or how many there are as a note."""
    if whole.about in ("kind", "several"):  # of which nothing else is named
        return True
    plain = " ".join(re.findall(r"[^\W_]+", text.lower()))
    for one in whole.readings:
        for note in one.note.split(", "):
            words = re.findall(r"[^\W_]+", note.lower())
            scraps = len(words) > 1 and " ".join(words) not in plain
            if is_own(one) or scraps or (has_number(note) and len(words) < MOST_SCRAPS):
                return True
    return False


def _named(parts: Sequence[_Clause], reads: Reads) -> tuple[_Clause, Described | Question] | None:
    """The first clause that names a thing, and what it was read as."""
    for part in parts:
        made = if_understood(part.said, reads)
        if made is not None and _names(made):
            return part, made
    return None


def _names(made: Described | Question) -> bool:
    if isinstance(made, Question) and made.about in UNSURE:
        return False
    first = _first(made)
    return first is not None and not is_own(first) and not has_number(first.note)


def _is_missing(made: Described | Question) -> bool:
    return isinstance(made, Question) and bool(made.answer_like)


def _is_told(clause: _Clause) -> bool:
    """Whether it is talk in which no thing is named."""
    tokens = tokenise(clause.text)
    named = any(
        known and known[0][0] in NAMES_A_KIND
        for lexicon in LEXICON.values()
        for at in range(len(tokens))
        if (known := run_at(tokens, at, lexicon))
    )
    return not named and is_strange(clause.text)


def _first(made: Described | Question) -> Described | None:
    return next(iter(made.readings), None)


def _says_more(made: Described | Question, more: Described | Question) -> bool:
    """Whether what was read with a further clause says more of the same thing, and nothing otherwise."""
    if isinstance(more, Question) and more.about in UNSURE:
        return False
    before, after = _first(made), _first(more)
    if before is None or after is None or before.kind != after.kind or is_own(after):
        return False
    if isinstance(more, Question) and isinstance(made, Described) and more.about != "word":
        return False
    if any(has_number(note) for note in set(after.note.split(", ")) - set(before.note.split(", "))):
        return False
    said = {**_figures(made), **_amounts_of(before)}
    now = {**_figures(more), **_amounts_of(after)}
    return all(now.get(key) == value for key, value in said.items()) and len(now) > len(said)


def _figures(made: Described | Question) -> dict[str, object]:
    """What was said of the thing itself, without what is only offered: its figures, spool and price."""
    one = _first(made)
    if one is None:
        return {}
    missing = isinstance(made, Question) and made.answer_like and made.sure
    figures = (
        made.sure.figures if isinstance(made, Question) and made.sure and missing else one.figures
    )
    found: dict[str, object] = {
        key: figure.value for key, figure in figures.items() if not figure.because
    }
    if one.measured and one.pack and not one.pack.because:
        found["spool"] = one.pack.value
    if one.price_cents is not None:
        found["price"] = one.price_cents
    return found


def _all_said(one: Described) -> dict[str, object]:
    return {**_figures(one), **_amounts_of(one)}


def _amounts_of(one: Described) -> dict[str, object]:
    held = one.pack.value if one.pack and not one.pack.because and not one.measured else None
    left = one.left.value if one.left else None
    every = (("held", held), ("packs", one.packs), ("count", one.count), ("left", left))
    return {key: value for key, value in every if value is not None}


def _together(text: str, over: Sequence[_Clause]) -> str:
    """What these clauses say, word for word; what follows on another is one with it."""
    runs = list[tuple[int, int]]()
    for one in sorted(over, key=lambda clause: clause.start):
        if runs and not text[runs[-1][1] : one.start].strip(" ,.;-–"):
            runs[-1] = (runs[-1][0], one.end)
        else:
            runs.append((one.start, one.end))
    return ", ".join(text[start:end].strip(" ,.") for start, end in runs)


def _numbers(clause: _Clause) -> Iterator[_Number]:
    """The numbers of a clause that may say how much there is."""
    rest = _HOLDS.sub(" ", _PACKETS.sub(" ", clause.text))
    for long in _LONG.finditer(rest):
        yield _Number(clause, left=f"{long.group()} left")
    for share in _SHARE.finditer(rest):
        yield _Number(clause, left=f"{share['share']} {'used' if share['used'] else 'left'}")
    rest = _SHARE.sub(" ", _LONG.sub(" ", rest))
    for found in _MANY.finditer(rest):
        many, gone = count_of(found["many"]), bool(_GONE.search(clause.text))
        if many > 1 or (many and (gone or _ONLY.search(clause.text))):
            yield _Number(clause, many, gone=gone and many == 1)


def _held(clauses: Sequence[_Clause], pattern: re.Pattern[str]) -> int:
    """What a packet holds, or how many packets there are, by the last clause that says so."""
    said = (found for one in clauses for found in pattern.finditer(one.text))
    numbers = [count_of(next(filter(None, found.groups()))) for found in said]
    return next((number for number in reversed(numbers) if number > 1), 0)


def _counted(taken: _Taken, told: Described, reads: Reads) -> list[tuple[Described, _Clause]]:
    """The thing with so many as the numbers may say, the last first, each with its clause."""
    base = _first(taken.made)
    if base is None:
        return []
    clauses = sorted([*taken.amounts, *taken.over], key=lambda clause: clause.start)
    numbers = [number for clause in clauses for number in _numbers(clause)]
    held, packets = (
        _held(clauses, _HOLDS),
        _held(clauses, _PACKETS) or base.packs or told.packs or 0,
    )
    if not base.measured and (held or told.pack):
        base = replace(base, pack=pieces(held) if held else told.pack)
    sums = _sums(base, told.count or 0, numbers, packets)
    found = [(replace(base, packs=None, count=many), clause) for many, clause in sums]
    for number in [one for one in reversed(numbers) if not one.gone][:MOST_NUMBERS]:
        if number.left or base.measured:
            unit = base.pack.words.split()[-1] if base.pack else "m"
            said = number.left or f"{number.many} {unit} left"
            more = if_understood(f"{taken.core}, {said}", reads)
            found += [(one, number.clause) for one in more.readings[:1]] if more else []
        if number.many and base.measured and number.many <= MOST_SPOOLS:
            found.append((replace(base, packs=number.many), number.clause))
        elif number.many and not base.measured:
            found.append((replace(base, packs=None, count=number.many), number.clause))
    whole = [one for one in clauses if _HOLDS.search(one.text) or _PACKETS.search(one.text)]
    if whole and not base.measured:
        found.append((replace(base, packs=packets or None, count=None), whole[-1]))
    return found


def _sums(
    base: Described, had: int, numbers: Sequence[_Number], packets: int
) -> Iterator[tuple[int, _Clause]]:
    """How many are left of what there was, "made ten, gave three away", or lie in packets and beside them."""
    many = [number for number in numbers if number.many]
    if base.measured or not many:
        return
    last = many[-1]
    held = round(float(base.pack.value)) if base.pack and not base.pack.because else 0
    if held:
        others = [number for number in many if number.many not in (held, packets)]
        for number in others[-1:]:
            if (
                packets < 2 and number.many < held and number.clause.is_of_one
            ):  # "and another with six"
                yield held + number.many, number.clause
            elif packets > 1 and number.many < held:
                of_one = packets - 1 if number.clause.is_of_one else packets
                yield of_one * held + number.many, number.clause
                yield packets * held - number.many, number.clause
        return
    first = had or many[0].many
    gone = sum(number.many for number in (many[1:] if many[0].many == first else many))
    if 0 < gone < first and not last.clause.text.lower().startswith("so "):
        yield first - gone, last.clause
