"""A phrase taken clause by clause: first the one that names the thing, then each that says more of it. What
is left over is kept word for word, and its numbers are offered as how many there are.

This is for what was not understood whole: long talk, of which a part is a story. It always asks. ``Reads``
reads a part of the phrase.
"""

import re
from collections.abc import Sequence
from dataclasses import replace

from tacklebox.stock.naming.asides import has_number, is_strange
from tacklebox.stock.naming.asking import MOST_READINGS, asked
from tacklebox.stock.naming.clauses.cutting import Clause, clauses_of, together
from tacklebox.stock.naming.clauses.so_many import counted
from tacklebox.stock.naming.clauses.taking import (
    Told,
    all_said,
    amounts_of,
    figures_of,
    names_thing,
    taken_from,
)
from tacklebox.stock.naming.described import Described, Question, Reads, if_understood
from tacklebox.stock.naming.notes import with_note
from tacklebox.stock.naming.numbers import count_of
from tacklebox.stock.naming.own import is_own
from tacklebox.stock.naming.tokens import UNITS
from tacklebox.stock.naming.turns import MANY, saying

_HOW_MUCH = "How much is there of it?"
MOST_LETTERS = 280  # the longest of an angler's talk had 180
MOST_CLAUSES = 10
MOST_THINGS = 5  # that clauses name apart
MOST_SCRAPS = 5  # words of a note in which a number likely says how much there is
ASKED_ALREADY = ("price", "left", "number")  # of how much there is
_UNIT = "|".join(sorted(set(UNITS) - {"m"}, key=len, reverse=True))
_FIGURE = saying(
    rf"\d\s*(?:{_UNIT}|bb|aaa|ab|ssg|swan)\b(?!\s+(?:it|that|there|them|the|an?|my|each)\b)|\bno\.?\s*\d"
)  # is none of how much
_SOME_LEFT = saying(
    r"\band\s+a\s+bit\b|\b(?:not\s+(?:much|many|a\s+lot)|hardly\s+any|(?:a\s+)?few)\s+left\b"
    r"|\b(?:nearly|almost|half|about)\s+(?:gone|empty|done|finished|used)\b"
)
_ONE_IS_LESS = saying(
    r"\b(?:one|1)(?:'?s|\s+(?:is|has|of))\b.*\b(?:missing|short|half|nearly|part|started|opened?|empty)\b"
)
_SAID_OF_IT = saying(r"(?:for|with|on|in|off|from|to|like|as|all|each|both|they|these|it)\b")
_A_THING = saying(r"(?:an?|one|1)\s")
_SO = saying(
    rf"\bso\s+(?:(?:just|only|that'?s|its|it'?s|theres|there'?s|call\s+it|say|the|really|now|i'?ve|got|still)\s+)*(?P<many>{MANY})\b"
)


def by_clauses(text: str, whole: Described | Question | None, reads: Reads) -> Question | None:
    """The question what the clauses of the text say of one thing; None where that says nothing else.

    ``whole`` is what the text was read as at once, None where it was not understood.
    """
    if len(text) > MOST_LETTERS:
        return None
    parts = clauses_of(text)
    things = _things_apart(parts, reads)
    known = len(whole.readings) if isinstance(whole, Question) and whole.about == "several" else 0
    if len(things) > known:
        return asked(text, "several", f'"{text}" names several things: one at a time.', things)
    if isinstance(whole, Described):
        return _asked_of_the_end(text, whole)
    if whole is not None and whole.about in ASKED_ALREADY:
        return None
    taken = taken_from(parts, reads) if 1 < len(parts) <= MOST_CLAUSES else None
    if taken is None:
        return None
    another = _is_of_another_kind(whole, taken)
    if isinstance(whole, Question) and (
        taken.is_missing
        or any(_FIGURE.search(one.text) for one in taken.over)
        or (whole.about == "several" and not all(map(_is_told, taken.over)))
    ):
        return None
    told, so_many = _readings(text, taken, reads)
    readings = [*told, *so_many] if taken.amounts else [*so_many, *told]
    if whole is not None and not another and not (taken.over and _is_muddled(text, whole)):
        return _with_others(whole, so_many or told)
    if isinstance(whole, Question) and whole.about != "several":
        readings += [one for one in whole.readings if not is_own(one)]
    asks = _HOW_MUCH if so_many else f'Keep "{together(text, taken.over)}" as a note?'
    like = taken.made.answer_like if isinstance(taken.made, Question) else ""
    return asked(text, "count" if so_many else "word", asks, readings, like)


def _is_of_another_kind(whole: Described | Question | None, taken: Told) -> bool:
    """Whether a figure was asked of a thing that the clause which names it says nothing of."""
    if not isinstance(taken.made, Described) or not isinstance(whole, Question):
        return False
    return bool(whole.answer_like) and taken.made.kind not in {one.kind for one in whole.readings}


def _asked_of_the_end(text: str, whole: Described) -> Question | None:
    """The question how many there are where a note says so: "so just the one spare", "one's half empty"."""
    one_less = (whole.packs or 1) > 1 and _ONE_IS_LESS.search(whole.note)
    if (
        (one_less or _SOME_LEFT.search(whole.note))
        and whole.pack
        and not (whole.left or whole.count)
    ):
        like = "20 m left" if whole.measured else "4 left"
        return replace(asked(text, "left", "How much of it is left?", [whole]), answer_like=like)
    found = _SO.search(whole.note)
    many = count_of(found["many"]) if found else 0
    in_all = (whole.packs or 1) * (whole.pack_size or 1)
    if (
        not many
        or many in (whole.count, whole.packs, in_all)
        or (whole.measured and not whole.packs)
    ):
        return None
    meant = replace(whole, packs=many) if whole.packs else replace(whole, count=many)
    return asked(text, "count", _HOW_MUCH, [meant, whole])


def _things_apart(parts: Sequence[Clause], reads: Reads) -> list[Described]:
    """The things where several clauses name one and how many there are: "stops x12, run rings x6"."""
    groups = _groups(parts) if len(parts) > 1 else []
    if not 1 < len(groups) <= MOST_THINGS:
        return []
    made = [(said, if_understood(said, reads)) for said in groups]
    things = [
        one.readings
        for said, one in made
        if (isinstance(one, Described) or (one and one.about in ("packs", "several")))
        and (amounts_of(one.readings[0]) or _A_THING.match(said))
        and not is_own(one.readings[0])
    ]
    sorts = {(one.kind, one.words_of("sort"), one.words_of("shape")) for one, *_ in things}
    return [one for each in things for one in each] if len(sorts) == len(groups) else []


def _groups(parts: Sequence[Clause]) -> list[str]:
    """The clauses from each that names a thing to the next; nothing where the first names none."""
    groups = list[str]()
    for part in parts:
        if names_thing(part) and not _SAID_OF_IT.match(part.said):
            groups.append(part.said)
        elif groups:
            groups[-1] = f"{groups[-1]}, {part.said}"
        else:
            return []
    return groups


def _with_others(whole: Question, readings: Sequence[Described]) -> Question | None:
    """The question with what it may mean besides; None where that is none, or less than was asked."""
    if not whole.readings:
        return None
    known = [all_said(one) for one in whole.readings]
    fewest = min(len(figures_of(one)) for one in whole.readings)
    others = [
        one for one in readings if all_said(one) not in known and len(figures_of(one)) >= fewest
    ]
    if not others:
        return None
    every = tuple([*whole.readings, *others][:MOST_READINGS])
    return replace(whole, asks=f"{whole.asks} {_HOW_MUCH}", readings=every)


def _readings(
    text: str, taken: Told, reads: Reads
) -> tuple[Sequence[Described], Sequence[Described]]:
    """The thing as its clauses say, with the others as a note; and with so many as those may say."""
    told = if_understood(", ".join([taken.core, *(one.said for one in taken.amounts)]), reads)
    told = told if told is not None and told.readings else taken.made
    whole = with_note(told, together(text, taken.over)) if taken.over else told
    so_many = list[Described]()
    if taken.over:
        for one, used in counted(taken, told.readings[0], reads):
            note = together(text, [clause for clause in taken.over if clause is not used])
            so_many += with_note(one, note).readings if note else [one]
    return whole.readings, so_many


def _is_muddled(text: str, whole: Question) -> bool:
    """Whether it was hardly understood: as no kind, or with scraps of it or how many there are as a note."""
    if whole.about in ("kind", "several"):  # of which nothing else is named
        return True
    if whole.about in ("count", "packs"):
        return False
    plain = " ".join(re.findall(r"[^\W_]+", text.lower()))
    for one in whole.readings:
        for note in one.note.split(", "):
            words = re.findall(r"[^\W_]+", note.lower())
            scraps = len(words) > 1 and " ".join(words) not in plain
            if is_own(one) or scraps or (has_number(note) and len(words) < MOST_SCRAPS):
                return True
    return False


def _is_told(clause: Clause) -> bool:
    """Whether it is talk in which no thing is named."""
    return is_strange(clause.text) and not names_thing(clause)
