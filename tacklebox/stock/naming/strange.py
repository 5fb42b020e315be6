"""What no kind understands whole: words that were run together, slips of the pen, things that come with it,
strange words as a note, or a thing of its own; what is none of them is refused.

``Reads`` reads the phrase again once it was put right.
"""

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace
from itertools import product

from tacklebox.errors import AskedWronglyError
from tacklebox.stock.naming.asking import HOW_MUCH, MOST_READINGS, answer_like, asked
from tacklebox.stock.naming.described import (
    Described,
    Question,
    Reads,
    asked_before,
    if_understood,
)
from tacklebox.stock.naming.hand import FILLERS
from tacklebox.stock.naming.in_turn import (
    ENTERED,
    OF_A_RIG,
    is_a_rig,
    is_headed,
    one_at_a_time,
    several,
)
from tacklebox.stock.naming.lexicon import LEXICON, MARKS, all_known, vocabulary
from tacklebox.stock.naming.notes import with_note
from tacklebox.stock.naming.own import is_own, own_thing
from tacklebox.stock.naming.several import one_each
from tacklebox.stock.naming.slips import likely_words
from tacklebox.stock.naming.tokens import UNITS, Token, tokenise
from tacklebox.stock.naming.tries import READERS, Try, readings_of, sure_of
from tacklebox.stock.naming.turns import saying
from tacklebox.stock.tables import Kind

MOST_WORDS = 400  # more than any phrase has
MOST_WAYS = 8  # in which slips may be put right
NAMES_A_KIND = ("name", "sort", "shape", "form")
_WITH = saying(
    r"(?<!\(note:)\s(?:with|w/|c/w|complete with|inc\.?|incl\.?|including)\s"
    r"(?P<more>(?:(?!\b(?:packets?|packs?|pkts?|pks?|bags?|tubs?|spools?)\b)[^\d,;:])+)"
)
NOT = ("no", "not", "non", "without", "never")  # what it is not says the opposite of the rest


def not_understood(
    text: str, tokens: Sequence[Token], tries: Sequence[Try], reads: Reads
) -> Described | Question:
    """Slips of the pen are asked with what was likely meant, unknown words as a note."""
    known = vocabulary()
    strange = [t.text for t in tokens if t.kind == "word" and t.text not in known]
    if question := (
        one_at_a_time(text, reads, listed=is_headed(text))
        or several(text, one_each(text, listed=True), reads)
        or one_at_a_time(text, reads, listed=True)
    ):
        return question
    if apart := _parted(text, strange):
        return reads(apart)
    if question := _with_more(text, reads):
        return question
    mended = _corrected(text, strange, reads) if strange else None
    noted = _noted(text, strange, tries)
    if mended and not (noted and _words_noted(noted) < _words_noted(mended)):
        return mended
    if noted:
        rig = is_a_rig(text)
        return replace(noted, asks=f"{OF_A_RIG} {noted.asks}", see=ENTERED) if rig else noted
    fault = _fault(text, tries)
    if fault is None:
        return _own_or_refused(text)
    raise fault


def _parted(text: str, strange: Sequence[str]) -> str:
    """The phrase with words that were run together parted, "" where none are: "30gcage", "10mhollow"."""
    apart = text
    for run in strange:
        for at in range(1, len(run) - 2):
            first, rest = run[:at], run[at:]
            unit = first in UNITS and re.search(rf"\d\s*{run}", text, re.IGNORECASE)
            if (
                len(rest) > 3
                and rest in vocabulary()
                and (unit or (at > 2 and first in vocabulary()))
            ):
                apart = re.sub(
                    rf"(?<![^\W\d_]){run}(?![^\W\d_])",
                    f"{first} {rest}",
                    apart,
                    flags=re.IGNORECASE,
                )
                break
    return apart if apart != text else ""


def _with_more(text: str, reads: Reads) -> Question | None:
    """What comes with a thing ("feeder 30 g with snap link") is a note of it, and asked."""
    found = _WITH.search(text)
    if found is None or not all_known(tokenise(found.group("more"))):
        return None
    made = if_understood(f"{text[: found.start()]} {text[found.end() :]}", reads)
    if made is None or (isinstance(made, Question) and made.answer_like):
        return None  # too little is known without it
    noted = with_note(made, f"with {found.group('more').strip()}")
    return asked_before(text, f'Keep "{found.group().strip()}" as a note?', noted)


def _corrected(text: str, strange: Sequence[str], reads: Reads) -> Question | None:
    """The question whether slips of the pen were meant as the words that make the surest thing of it."""
    alone = [text.lower()] == list(strange)
    likely = {slip: words for slip in strange if (words := likely_words(slip, alone=alone))}
    ways = [dict(zip(likely, words, strict=True)) for words in product(*likely.values())]
    found = [made for meant in ways[:MOST_WAYS] if meant and (made := _mended(text, meant, reads))]
    return min(found, key=_surely, default=None)


def _surely(question: Question) -> int:
    """Of one thing before one in doubt, and of that before what may be of any kind."""
    return 2 * (question.about == "kind") + (len(question.readings) > 1)


def _mended(text: str, meant: Mapping[str, str], reads: Reads) -> Question | None:
    mended = re.sub(
        r"[^\W\d_]+", lambda found: meant.get(found.group().lower(), found.group()), text
    )
    if mended == text:  # a slip that is joined to what is no letter
        return None
    made = if_understood(mended, reads)
    if made is None or not made.readings or is_own(made.readings[0]):
        return None
    notes = [
        n for reading in made.readings for n in reading.note.split(", ") if not n.endswith("line")
    ]
    words = {word for note in notes for word in note.split()}
    if words.issuperset(meant.values()):
        return None  # it would mean nothing there
    said = ", ".join(f'"{slip}" for "{right}"' for slip, right in meant.items())
    return asked_before(text, f"Is {said} a slip?", made)


def _words_noted(question: Question) -> int:
    """How much the first reading would leave to its note: a slip put right leaves less than before."""
    usual = [one for one in question.readings if not is_own(one)]
    known = vocabulary()
    said = usual[0].note.split() if usual else []
    return sum(w not in known and w.isalpha() for w in said) if usual else MOST_WORDS


def _noted(text: str, strange: Sequence[str], tries: Sequence[Try]) -> Question | None:
    """The readings that understand most, and keep what they do not understand as a note."""
    partly = [one for one in tries if one.attempt.left and not one.attempt.fault]
    named = [one for one in partly if one.attempt.evident]
    fitting = [
        one
        for one in named or partly
        if all(
            named or token.unit or (token.kind == "word" and token.text in strange)
            for token in one.attempt.left
        )
        and (named or not one.attempt.missing)
    ]
    if not fitting or any(token.text in NOT for one in fitting for token in one.attempt.left):
        return None
    best = min(map(_not_taken, fitting))
    fitting = [one for one in fitting if _not_taken(one) == best]
    first = [one for one in fitting if one.frame == fitting[0].frame]
    readings = []
    for one in first:
        note = _left_words(one)
        noted = (
            replace(r, note=", ".join(n for n in (r.note, note) if n)) for r in readings_of([one])
        )
        readings += [reading for reading in noted if reading not in readings]
    made = first[0].attempt
    asks = f'"{_left_words(first[0])}" is not understood. Keep it as a note?'
    if made.missing and made.about in HOW_MUCH:
        asks = f"{asks} {HOW_MUCH[made.about]}"
    if _hardly_understood(first[0]) and (own := own_thing(text)):
        readings = [*readings[: MOST_READINGS - 1], own] if made.evident else [own, *readings]
    question = asked(text, made.about or "word", asks, readings, answer_like(made))
    return replace(question, sure=sure_of(first[0])) if made.missing else question


def _hardly_understood(one: Try) -> bool:
    """Whether so much is strange that it may be a thing of its own: figures are missing, or most words."""
    strange = sum(token.kind == "word" for token in one.attempt.left)
    words = sum(token.kind == "word" and token.text not in FILLERS for token in one.frame.tokens)
    most = 2 * strange > words
    unsized = one.attempt.kind is Kind.PART and "size" not in one.attempt.figures
    return one.attempt.missing or not one.attempt.evident or most or (unsized and strange > 0)


def _left_words(one: Try) -> str:
    """What is left of a phrase, in the order in which it was said."""
    left, said = list(one.attempt.left), []
    for token in one.frame.tokens:
        if token in left:
            left.remove(token)
            said.append(token.said)
    return " ".join([*said, *(token.said for token in left)])


def _not_taken(one: Try) -> tuple[int, int, int, int]:
    """How much a reading leaves: the words that name another kind, what is missing, figures, then all."""
    others = [
        token
        for token in one.attempt.left
        for kind in READERS
        if kind is not one.attempt.kind
        and LEXICON[kind].get(token.text.removesuffix("s"), ("",))[0] in NAMES_A_KIND
    ]
    if one.attempt.kind not in (Kind.FLOAT, Kind.WEIGHT):
        others += [token for token in one.attempt.left if token.text in MARKS]
    figures = sum(token.kind == "number" for token in one.attempt.left)
    unsure = one.attempt.missing + (one.attempt.about != "")
    return len(others), figures, len(one.attempt.left), unsure


def _fault(text: str, tries: Sequence[Try]) -> AskedWronglyError | None:
    """Why the words cannot be tackle; None where no kind is named."""
    evident = [one.attempt for one in tries if one.attempt.evident]
    faulty = [made for made in evident if made.fault and not made.left] or [
        made for made in evident if made.fault
    ]
    if faulty:
        return AskedWronglyError(f'"{text}": {faulty[0].fault}')
    if not evident:
        return None
    nearest = min(evident, key=lambda made: len(made.left))
    left = nearest.left[0]
    return AskedWronglyError(
        f'"{left.said}" is not understood in "{text}".',
        right=f"It was read as a {nearest.kind}; say the rest in other words, or in brackets as a note.",
    )


def _own_or_refused(text: str) -> Question:
    """What names no kind of tackle may be a thing of its own. Raises AskedWronglyError if that cannot be."""
    if is_a_rig(text):
        raise AskedWronglyError(
            f'"{text}" names a rig, and no tackle.',
            right="A rig is tied from its recipe; one that is tied already is entered with the rigs.",
        )
    own = own_thing(text)
    right = (
        'Say what it is, like "nylon 0.14 mm 4 lb 100 m", "hook 18 barbless spade", '
        '"waggler 5BB insert", "shot AAA tin", "feeder cage 30 g", "swivel size 14 12 kg"'
    )
    asks = f'no kind of tackle is named in "{text}".'
    if own is None:
        raise AskedWronglyError(asks, right=f"{right}.")
    return Question(text, "kind", f"{asks} Keep it as a thing of its own?", (own,))
