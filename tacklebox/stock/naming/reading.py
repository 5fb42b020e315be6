"""Words in, an item or a question out: every kind's reader tries the phrase, and the one that understands
all of it is taken. What two understand, what may be several things, and what is not said is asked."""

import re
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from difflib import get_close_matches
from functools import lru_cache

from tacklebox.errors import AskedWronglyError
from tacklebox.stock.naming.described import HOOKLENGTH, Described, Figure, Question, pieces
from tacklebox.stock.naming.floats import read_float
from tacklebox.stock.naming.hand import Attempt
from tacklebox.stock.naming.hooks import read_hook, read_hooklength
from tacklebox.stock.naming.lexicon import LEXICON, vocabulary
from tacklebox.stock.naming.lines import read_line
from tacklebox.stock.naming.packets import Framing, framings
from tacklebox.stock.naming.parts import read_elastic, read_part, read_winder
from tacklebox.stock.naming.tokens import Token, tokenise
from tacklebox.stock.naming.usual import usual_pack
from tacklebox.stock.naming.weights import read_feeder, read_weight
from tacklebox.stock.naming.writing import write_with_pack
from tacklebox.stock.tables import Kind

MOST_LETTERS = 400
MOST_READINGS = 9
# In this order a phrase that names no kind is asked about.
READERS: dict[str, Callable[[Iterable[Token]], Attempt]] = {
    Kind.WEIGHT: read_weight,
    Kind.HOOK: read_hook,
    HOOKLENGTH: read_hooklength,
    Kind.LINE: read_line,
    Kind.FLOAT: read_float,
    Kind.FEEDER: read_feeder,
    Kind.ELASTIC: read_elastic,
    Kind.PART: read_part,
    Kind.WINDER: read_winder,
}
ANSWER_LIKE = {
    "mark": "4BB",
    "size": "18",
    "mass": "30 g",
    "grade": "8",
    "length": "18 cm",
    "diameter": "0.12 mm",
    "strain": "6 lb",
    "shape": "waggler 4BB",
}
HOW_MUCH = {
    "mark": "How much does it carry, or which size is it?",
    "size": "Which size of hook?",
    "mass": "How heavy is it?",
    "grade": "Which grade of elastic?",
    "length": "How long is it?",
    "diameter": "How thick is the line, or how strong?",
    "strain": "How strong is it?",
    "shape": "What kind is it?",
}


@dataclass(frozen=True)
class _Try:
    """One kind's reading of one framing."""

    frame: Framing
    attempt: Attempt

    @property
    def rank(self) -> int:
        """How good a reading it is, 0 the best; the sum of what it lacks."""
        made = self.attempt
        if made.fault:
            return (9 if made.left else 3) if made.evident else 10
        if made.left:
            return 8 if made.evident else 11
        if made.evident:
            return (2 if made.missing else 1) if made.about else 0
        return 12 if made.missing else 4


def read(text: str) -> Described | Question:
    """The item that the words name, or what must be asked before it is taken.

    Raises AskedWronglyError for words that name no kind of tackle and for figures that cannot be.
    """
    if len(text) > MOST_LETTERS:
        raise AskedWronglyError(
            f"the description is {len(text)} letters long.", right=f"At most {MOST_LETTERS}."
        )
    plain = " ".join(text.split())
    if question := _thousands(plain):
        return question
    tokens, note = _without_own_notes(plain)
    made = _best(plain, tokens)
    return _with_note(made, note) if note else made


def described(text: str) -> Described:
    """The item that the words name, where nothing needs asking.

    Raises AskedWronglyError, naming the readings, where something does.
    """
    made = read(text)
    if isinstance(made, Described):
        return made
    readings = " or ".join(f'"{write_with_pack(one)}"' for one in made.readings)
    right = f"Say {readings}" if readings else ""
    if made.answer_like:
        right = f"{right}, or add it, like \"{made.answer_like}\"" if right else f'Add it, like "{made.answer_like}"'
    raise AskedWronglyError(made.asks, right=f"{right}." if right else "")


def _thousands(text: str) -> Question | None:
    """ "1,000 m" and "1.000 m" are a thousand to some and one to others: asked, both ways read."""
    found = re.search(r"(?<![\d.,])([1-9]\d{0,2})(?:,(\d{3})|\.(000))(?![\d.,])", text)
    if not found:
        return None
    digits = found.group(2) or found.group(3)
    readings = []
    for number in (found.group(1) + digits, f"{found.group(1)}.{digits}".rstrip("0").rstrip(".")):
        try:
            made = read(f"{text[: found.start()]}{number}{text[found.end() :]}")
        except AskedWronglyError:
            continue
        readings += [made] if isinstance(made, Described) else made.readings
    asks = f'"{found.group()}" may be {found.group(1)}{digits} or {found.group(1)}.{digits}.'
    return Question(text, "number", asks, tuple(readings))


def _without_own_notes(text: str) -> tuple[tuple[Token, ...], str]:
    """The tokens, without what stands in brackets and is no word of the trade: that is a note."""
    notes = []

    def keep(found: re.Match[str]) -> str:
        inside = tokenise(found.group(1))
        if all(token.kind != "word" or token.text in vocabulary_of_all() for token in inside):
            return f" {found.group(1)} "
        notes.append(found.group(1).strip())
        return " "

    plain = re.sub(r"\(([^()]*)\)", keep, text)
    return tokenise(plain), ", ".join(notes)


@lru_cache(maxsize=1)
def vocabulary_of_all() -> frozenset[str]:
    """Every word that is understood, and its plural."""
    return frozenset(word + ending for word in vocabulary() for ending in ("", "s"))


def _with_note(made: Described | Question, note: str) -> Described | Question:
    if isinstance(made, Described):
        return replace(made, note=", ".join(n for n in (made.note, note) if n))
    noted = (replace(one, note=", ".join(n for n in (one.note, note) if n)) for one in made.readings)
    return replace(made, readings=tuple(noted))


def _best(text: str, tokens: tuple[Token, ...]) -> Described | Question:
    tries = [
        _Try(frame, _attempt(reader, kind, frame))
        for frame in framings(tokens)
        for kind, reader in READERS.items()
    ]
    best = min(one.rank for one in tries)
    chosen = [one for one in tries if one.rank == best]
    if best <= 2:
        chosen = [one for one in chosen if one.frame == chosen[0].frame]
        return _one_or_asked(text, chosen)
    if best == 4:
        return _asked(text, "kind", f'"{text}" may be several things.', _readings(chosen))
    if best == 3:
        raise AskedWronglyError(f'"{text}": {chosen[0].attempt.fault}')
    return _not_understood(text, tokens, tries)


def _attempt(
    reader: Callable[[Iterable[Token]], Attempt], kind: str, frame: Framing
) -> Attempt:
    try:
        return reader(frame.tokens)
    except AskedWronglyError as error:
        return Attempt(kind, evident=_names(kind, frame.tokens), fault=str(error))


def _names(kind: str, tokens: Sequence[Token]) -> bool:
    return any(token.text in LEXICON[kind] for token in tokens)


def _readings(tries: Sequence[_Try]) -> list[Described]:
    readings: list[Described] = []
    for one in tries:
        made = one.attempt
        if made.fault:
            continue
        choices = made.choices if made.about else ({},)
        for choice in choices:
            reading = _described(one.frame, made, choice)
            if reading not in readings:
                readings.append(reading)
    return readings


def _described(frame: Framing, made: Attempt, choice: dict[str, Figure]) -> Described:
    figures = {**made.figures, **choice}
    pack = figures.pop("pack", None) or made.pack
    if frame.pack is not None:
        pack = pieces(frame.pack)
    pack = pack or usual_pack(made.kind, figures)
    return Described(made.kind, figures, pack, frame.packs, frame.count, made.note)


def _one_or_asked(text: str, tries: Sequence[_Try]) -> Described | Question:
    readings = _readings(tries)
    first = tries[0].attempt
    if len(readings) == 1 and not first.about:
        return readings[0]
    if len(tries) > 1:
        return _asked(text, "kind", f'"{text}" may be several things.', readings)
    if first.missing:
        like = ANSWER_LIKE.get(first.about, "")
        return _asked(text, first.about, HOW_MUCH.get(first.about, "Which is it?"), readings, like)
    return _asked(text, first.about, f'"{text}" may be read in several ways.', readings)


def _asked(
    text: str, about: str, asks: str, readings: Sequence[Described], like: str = ""
) -> Question:
    return Question(text, about, asks, tuple(readings[:MOST_READINGS]), like)


def _not_understood(text: str, tokens: Sequence[Token], tries: Sequence[_Try]) -> Described | Question:
    """Slips of the pen are asked with what was likely meant, unknown words as a note."""
    known = vocabulary_of_all()
    strange = [t.text for t in tokens if t.kind == "word" and t.text not in known]
    if strange and (question := _corrected(text, tokens, strange)):
        return question
    noted = _noted(text, strange, tries)
    if noted:
        return noted
    raise _fault(text, strange, tries)


def _corrected(text: str, tokens: Sequence[Token], strange: Sequence[str]) -> Question | None:
    words = sorted(vocabulary_of_all())
    meant: dict[str, str] = {}
    for one in strange:
        near = get_close_matches(one, words, n=1, cutoff=0.75) if len(one) > 2 else []
        if near and near[0] != one:
            meant[one] = near[0]
    if not meant:
        return None
    mended = re.sub(
        r"[^\W\d_]+", lambda found: meant.get(found.group().lower(), found.group()), text
    )
    try:
        made = read(mended)
    except AskedWronglyError:
        return None
    readings = (made,) if isinstance(made, Described) else made.readings
    said = ", ".join(f'"{slip}" for "{right}"' for slip, right in meant.items())
    like = "" if isinstance(made, Described) else made.answer_like
    about = "word" if isinstance(made, Described) else made.about
    return Question(text, about, f"Is {said} a slip?", readings, like)


def _noted(text: str, strange: Sequence[str], tries: Sequence[_Try]) -> Question | None:
    """A reading that understands all but words which nobody knows keeps them as a note."""
    fitting = [
        one
        for one in tries
        if one.attempt.evident
        and not one.attempt.fault
        and one.attempt.left
        and all(t.kind == "word" and t.text in strange for t in one.attempt.left)
    ]
    if not fitting:
        return None
    whole = [one for one in fitting if not one.attempt.about] or fitting
    first = [one for one in whole if one.frame == whole[0].frame]
    note = " ".join(t.text for t in first[0].attempt.left)
    readings = [replace(r, note=", ".join(n for n in (r.note, note) if n)) for r in _readings(first)]
    asks = f'"{note}" is no word that is known here. Keep it as a note?'
    made = first[0].attempt
    return _asked(text, made.about or "word", asks, readings, ANSWER_LIKE.get(made.about, ""))


def _fault(text: str, strange: Sequence[str], tries: Sequence[_Try]) -> AskedWronglyError:
    evident = [one.attempt for one in tries if one.attempt.evident]
    faulty = [made for made in evident if made.fault and not made.left] or [
        made for made in evident if made.fault
    ]
    if faulty:
        return AskedWronglyError(f'"{text}": {faulty[0].fault}')
    if not evident:
        return AskedWronglyError(
            f'no kind of tackle is named in "{text}".',
            right='Say what it is, like "nylon 0.14 mm 4 lb 100 m", "hook 18 barbless spade", '
            '"waggler 5BB insert", "shot AAA tin", "feeder cage 30 g", "swivel size 14 12 kg".',
        )
    nearest = min(evident, key=lambda made: len(made.left))
    left = nearest.left[0]
    return AskedWronglyError(
        f'"{left.said}" is not understood in "{text}".',
        right=f"It was read as a {nearest.kind}; say the rest in other words, or in brackets as a note.",
    )
