"""A phrase read without what is said beside the thing, which is kept word for word as its note.

Where it is talk beyond doubt the note is taken and told; what holds a number, or a word that could say what
the thing is, is asked. ``Reads`` reads the rest of the phrase.
"""

import re
from collections.abc import Sequence
from dataclasses import replace

from tacklebox.stock.naming.asides import Aside, asides, counts, has_number, without
from tacklebox.stock.naming.described import (
    Described,
    Question,
    Reads,
    asked_before,
    if_understood,
)
from tacklebox.stock.naming.hand import run_at
from tacklebox.stock.naming.lexicon import LEXICON
from tacklebox.stock.naming.notes import with_note
from tacklebox.stock.naming.own import is_own
from tacklebox.stock.naming.talk import says_first
from tacklebox.stock.naming.tokens import tokenise
from tacklebox.stock.naming.words import USES
from tacklebox.stock.tables import Kind

_WITH = re.compile(r"(?:with|w/|and|they|it|which|that|these|those)\b", re.IGNORECASE)
_PLACE = re.compile(r"(?:in|on|at|from|for)\s", re.IGNORECASE)
_ON_A_REEL = re.compile(r"^(?:on|onto|in)\b.*\b(?:reel|centrepin|pin|top\s*kit)s?\b", re.IGNORECASE)
ASKED_AS_IT_IS = ("left", "number", "price")  # what is left, put right or paid: never a note
SAYS_NOTHING = ("note", "nothing", "name", "use")


def read_beside(text: str, whole: Question | None, reads: Reads) -> Described | Question | None:
    """The thing with what is said beside it as a note; None where that leaves no clearer thing.

    ``whole`` is what the phrase was read as with all of it, None where it was not understood.
    """
    cut = () if says_first(text, sought=True) else asides(text)
    if isinstance(whole, Question) and whole.about in ASKED_AS_IT_IS:
        return None
    if isinstance(whole, Question) and whole.about != "says":
        if not any(one.is_told for one in cut):
            return None
        if whole.about == "several" and any(counts(one.text) for one in cut):
            return None
    core = if_understood(without(text, cut), reads) if cut else None
    if core is None or not _is_clearer(core, whole):
        return None
    core = _with_named(text, core, cut, reads)
    if isinstance(core, Described):
        core, cut = _with_figures(text, core, cut, reads)
    if not cut:
        return core
    noted = with_note(core, ", ".join(one.text for one in cut))
    doubtful = [one.text for one in cut if not _is_plain(one, core)]
    if not doubtful:
        return noted
    asks = " ".join(f'Keep "{said}" as a note?' for said in doubtful)
    return asked_before(text, asks, noted)


def with_whole_asides(text: str, made: Described) -> Described:
    """The thing with its places told whole: "with the weight at the wrong end", no "at the wrong end"."""
    notes = made.note.split(", ")
    if not any(_PLACE.match(note) for note in notes):
        return made
    for one in asides(text):
        notes = [
            one.text if _PLACE.match(note) and one.text.endswith(f" {note}") else note
            for note in notes
        ]
    return replace(made, note=", ".join(dict.fromkeys(notes)))


def _is_clearer(core: Described | Question, whole: Question | None) -> bool:
    """Whether the rest is read more surely than all of it was."""
    if isinstance(core, Described):
        return not is_own(core)
    if not core.readings or is_own(core.readings[0]) or core.about == "says":
        return False
    if core.answer_like and whole and not whole.answer_like:
        return False  # what was cut out says more than that
    if core.about == "several" and whole:
        alike = whole.about == "several" and len(core.readings) > len(whole.readings)
        if alike or len(whole.readings) == 1:
            return False
    if whole is None or whole.about in ("word", "several", "says") or core.about != "word":
        return True
    fewer = len(core.readings) <= len(whole.readings)
    return fewer and core.readings[0].kind == whole.readings[0].kind


def _with_figures(
    text: str, core: Described, cut: Sequence[Aside], reads: Reads
) -> tuple[Described, tuple[Aside, ...]]:
    """The thing with what an aside says of its figures after all: "for hooklengths" is a use of line."""
    left = tuple(cut)
    for one in cut:
        others = tuple(other for other in left if other is not one)
        more = if_understood(without(text, others), reads)
        if isinstance(more, Described) and _adds_to(core, more):
            core, left = more, others
    return core, left


def _with_named(
    text: str, core: Described | Question, cut: Sequence[Aside], reads: Reads
) -> Described | Question:
    """The thing with the words of an aside that say what it is: "they're the inline ones"."""
    kind = core.kind if isinstance(core, Described) else core.readings[0].kind
    named = " ".join(_words_of(kind, one.text) for one in cut if _WITH.match(one.text))
    more = if_understood(f"{without(text, tuple(cut))}, {named}", reads) if named.strip() else None
    if isinstance(core, Described):
        return more if isinstance(more, Described) and _adds_to(core, more) else core
    if isinstance(more, Question) and more.about == core.about and more.readings:
        return more if _adds_to(core.readings[0], more.readings[0]) else core
    return core


def _words_of(kind: str, said: str) -> str:
    """The words among these that say something of such a thing: "with flights, yellow tips"."""
    tokens, found, at = tokenise(said), list[str](), 0
    while at < len(tokens):
        known = run_at(tokens, at, LEXICON[kind])
        end = known[1] if known else at + 1
        if known and _tells(known[0]):
            found += [token.text for token in tokens[at:end]]
        at = end
    return " ".join(found)


def _tells(known: tuple[str, str]) -> bool:
    return known[0] not in SAYS_NOTHING


def _adds_to(core: Described, more: Described) -> bool:
    """Whether more is said of the same thing, and nothing of it otherwise."""
    if core.kind != more.kind or (core.packs, core.count) != (more.packs, more.count):
        return False
    said = {key: figure for key, figure in core.figures.items() if not figure.because}
    agrees = all(
        key in more.figures and more.figures[key].words.startswith(figure.words)
        for key, figure in said.items()
    )
    used = more.note != core.note and more.note.endswith("line")
    longer = any(more.words_of(key) != figure.words for key, figure in said.items())
    return agrees and (len(more.figures) > len(core.figures) or longer or used)


def _names_another(said: str) -> bool:
    """Whether another thing is named: "with snap link", "mould came with them"."""
    tokens = tokenise(said)
    every = (run_at(tokens, at, LEXICON[Kind.PART]) for at in range(len(tokens)))
    return any(known and known[0][0] in ("sort", "loose") for known in every)


def _is_plain(one: Aside, core: Described | Question) -> bool:
    """Whether it is talk beyond doubt: no number in it, and no word that could say what the thing is."""
    if not one.plain or has_number(one.text) or _ON_A_REEL.search(one.text):
        return False
    if _WITH.match(one.text) and _names_another(one.text):
        return False
    things = (core,) if isinstance(core, Described) else core.readings[:1]
    lexicons = [LEXICON[made.kind] for made in things]
    uses = USES if one.text.lower().startswith("for ") else {}
    tokens = tokenise(one.text)
    return not any(
        _tells(known[0]) and tokens[at].text.removesuffix("s") not in uses
        for lexicon in lexicons
        for at in range(len(tokens))
        if (known := run_at(tokens, at, lexicon))
    )
