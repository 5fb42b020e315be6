"""Words in, an item or a question out: every kind's reader tries the phrase, and the one that understands
all of it is taken. What two understand, what may be several things, and what is not said is asked."""

import re
from collections.abc import Sequence
from dataclasses import replace

from tacklebox.errors import AskedWronglyError, SeveralFitError
from tacklebox.stock.naming.described import Described, Question, word
from tacklebox.stock.naming.floats import BY_GRAMS
from tacklebox.stock.naming.hand import FILLERS, Attempt
from tacklebox.stock.naming.hooks import read_hooklength
from tacklebox.stock.naming.lexicon import LEXICON, MARKS, all_known, vocabulary
from tacklebox.stock.naming.lines import read_line
from tacklebox.stock.naming.makers import is_maker, without_maker, write_maker
from tacklebox.stock.naming.own import is_own, own_thing, with_own, without_own
from tacklebox.stock.naming.packets import FEW, framings
from tacklebox.stock.naming.prices import how_many, with_price, without_price
from tacklebox.stock.naming.remainders import with_remainder, without_remainder
from tacklebox.stock.naming.several import one_each
from tacklebox.stock.naming.slips import likely_word
from tacklebox.stock.naming.tokens import UNITS, Token, tokenise
from tacklebox.stock.naming.tries import (
    BARE,
    CLEAR,
    DOUBTFUL,
    FAULTY,
    MISSING,
    READERS,
    SINGLY,
    Try,
    attempted,
    readings_of,
    sure_of,
    usual_of,
)
from tacklebox.stock.naming.writing import write_with_pack
from tacklebox.stock.tables import MEASURED_KINDS, Kind

MOST_LETTERS = 400
MOST_READINGS = 9
USUAL_PACKETS = (10, 20, 25)
MOST_OF_A_KIND = 2  # where any kind may be meant
NAMES_A_KIND = ("name", "sort", "shape", "form")
_SO_MANY = re.compile(r"^(.*\d.*?)\s*\((\d{1,4})\)$")
_BARE_PRICE = re.compile(r"\s([1-9]\d{0,2}\.\d\d)(?:\s+\d{1,3}\.\d\d)?$")
_PATTERN = re.compile(
    r"\b(?:with\s+)?(pattern|code|ref|model|series)\.?\s+(?:no\.?|number|nr\.?|#)?\s*([a-z-]*\d[\w-]*)",
    re.IGNORECASE,
)
_WITH = re.compile(
    r"\s(?:with|w/|c/w|complete with|inc\.?|incl\.?|including)\s(?P<more>.+)$", re.IGNORECASE
)
NOT = ("no", "not", "non", "without", "never")  # what it is not says the opposite of the rest
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


def read(text: str) -> Described | Question:
    """The item that the words name, or what must be asked before it is taken.

    Raises AskedWronglyError for words that name no kind of tackle and for figures that cannot be.
    """
    if len(text) > MOST_LETTERS:
        raise AskedWronglyError(
            f"the description is {len(text)} letters long.", right=f"At most {MOST_LETTERS}."
        )
    plain = " ".join(text.split())
    bare, own = without_own(plain)
    bare, pence, each = without_price(bare)
    made = _read_but_money(bare)
    if pence is not None:
        made = _with_price(made, pence, each=each)
        if each is None and isinstance(made, Described) and how_many(made) > 1:
            of_all = with_price(made, pence, each=False)
            asks = f"Is £{pence / 100:.2f} the price of one, or of all {how_many(made)}?"
            made = Question(plain, "price", asks, (made, of_all))
    elif isinstance(made, Question):
        made = _or_priced(bare, made)
    made = with_own(made, own) if own else made
    return replace(made, phrase=plain) if isinstance(made, Question) else made


def _read_but_money(plain: str) -> Described | Question:
    """The item that the words name, of which a part may be left."""
    whole, left = without_remainder(plain)
    if left is not None and whole:
        try:
            made = with_remainder(_read_words(whole), left)
        except AskedWronglyError:
            made = None
        if made is not None:
            return made
    return _read_words(plain)


def _or_priced(text: str, made: Question) -> Question:
    """A figure behind the rest that may be what it costs, "2.49", is offered as that, first of all."""
    found = _BARE_PRICE.search(text)
    if found is None:
        return made
    try:
        rest = _read_but_money(text[: found.start()])
    except AskedWronglyError:
        return made
    priced = _with_price(rest, round(float(found.group(1)) * 100), each=True)
    readings = [priced] if isinstance(priced, Described) else list(priced.readings)
    asks = f"Is {found.group(1)} its price?"
    if isinstance(priced, Question):
        asks = f"{asks} {priced.asks}"
    return replace(made, asks=asks, readings=tuple([*readings, *made.readings][:MOST_READINGS]))


def _with_price(
    made: Described | Question, pence: int, *, each: bool | None
) -> Described | Question:
    """With the price of one, where nobody says that it is that of all."""
    if isinstance(made, Described):
        return with_price(made, pence, each=each is not False)
    priced = (with_price(one, pence, each=each is not False) for one in made.readings)
    return replace(made, readings=tuple(priced))


def _read_words(plain: str) -> Described | Question:
    """The item that the words name, with all that there is of it and without a price."""
    if question := _thousands(plain):
        return question
    if question := _several(plain, one_each(plain)):
        return question
    tokens, note, maker = _without_own_notes(plain)
    made = _best(plain, tokens)
    made = _with_note(made, note) if note else made
    return _with_maker(made, maker) if maker else made


def described(text: str) -> Described:
    """The item that the words name, where nothing needs asking.

    Raises SeveralFitError with the readings where something does.
    """
    made = read(text)
    if isinstance(made, Described):
        return made
    readings = " or ".join(f'"{write_with_pack(one)}"' for one in made.readings)
    right = f"Say {readings}" if readings else ""
    if made.answer_like:
        right = (
            f'{right}, or add it, like "{made.answer_like}"'
            if right
            else f'Add it, like "{made.answer_like}"'
        )
    offered = [(words, words) for words in map(write_with_pack, made.readings)]
    raise SeveralFitError(made.asks, text, offered, right=f"{right}." if right else "")


def _thousands(text: str) -> Question | None:
    """ "1,000 m" and "1.000 m" are a thousand to some and one to others: asked, both ways read."""
    found = re.search(r"(?<![\d.,])([1-9]\d{0,2})(?:,(\d{3})|\.(000))(?![\d.,])", text)
    if not found:
        return None
    digits = found.group(2) or found.group(3)
    readings: list[Described] = []
    for number in (found.group(1) + digits, f"{found.group(1)}.{digits}".rstrip("0").rstrip(".")):
        try:
            made = _read_words(f"{text[: found.start()]}{number}{text[found.end() :]}")
        except AskedWronglyError:
            continue
        readings += [made] if isinstance(made, Described) else made.readings
    one = f"{found.group(1)}.{digits}".rstrip("0").rstrip(".")
    asks = f'"{found.group()}" may be {found.group(1)}{digits} or {one}.'
    return Question(text, "number", asks, tuple(readings))


def _several(text: str, phrases: Sequence[str]) -> Question | None:
    """The question which of several things is meant, None where a phrase of them is none."""
    readings: list[Described] = []
    for phrase in phrases:
        try:
            made = _read_words(phrase)
        except AskedWronglyError:
            return None
        if isinstance(made, Question) and made.about in ("word", "packs"):
            return None  # more than the figures is unclear
        found = [made] if isinstance(made, Described) else made.readings[:MOST_OF_A_KIND]
        readings += [one for one in found if one not in readings]
    if len(readings) < 2:
        return None
    asks = f'"{text}" names several things: one at a time.'
    return _asked(text, "several", asks, readings)


def _without_own_notes(text: str) -> tuple[tuple[Token, ...], str, str]:
    """The tokens, the notes and the maker: what stands in brackets and is no word of the trade is a note."""
    notes = []

    def keep(found: re.Match[str]) -> str:
        inside = found.group(1).strip()
        own = re.sub(r"^note:\s*", "", inside, flags=re.IGNORECASE)
        if own == inside and (is_maker(inside) or all_known(tokenise(inside))):
            return f" {inside} "
        notes.append(own)
        return " "

    plain = _SO_MANY.sub(r"\1 x \2", text)  # "hooks 18 (25)"
    plain = re.sub(r"\(([^()]*)\)", keep, plain)
    for named in _PATTERN.finditer(plain):
        notes.append(f"{named.group(1).lower()} {named.group(2)}")
    plain = _PATTERN.sub(" ", plain)
    plain, maker = without_maker(plain)
    return tokenise(plain), ", ".join(notes), maker


def _with_maker(made: Described | Question, maker: str) -> Described | Question:
    """A maker is a figure of line, whose print is his; of all else he is a note."""
    if isinstance(made, Question):
        named = (_with_maker(one, maker) for one in made.readings)
        return replace(made, readings=tuple(one for one in named if isinstance(one, Described)))
    if made.kind is Kind.LINE:
        return replace(made, figures={**made.figures, "maker": word(maker)})
    note = write_maker(maker)
    if note in made.note.split(", "):
        return made
    return replace(made, note=", ".join(n for n in (made.note, note) if n))


def _with_note(made: Described | Question, note: str) -> Described | Question:
    if isinstance(made, Described):
        return replace(made, note=", ".join(n for n in (made.note, note) if n))
    noted = (
        replace(one, note=", ".join(n for n in (one.note, note) if n)) for one in made.readings
    )
    return replace(made, readings=tuple(noted))


def _best(text: str, tokens: tuple[Token, ...]) -> Described | Question:
    tries = [
        Try(frame, attempted(reader, kind, frame))
        for frame in framings(tokens)
        for kind, reader in READERS.items()
    ]
    best = min(one.rank for one in tries)
    chosen = [one for one in tries if one.rank == best]
    if best == CLEAR and (sizes := _or_two_sizes(tries, chosen[0])):
        return _asked(text, "size", f'"{text}" may be read in several ways.', sizes)
    if best <= MISSING:
        chosen = [one for one in chosen if one.frame == chosen[0].frame]
        return _one_or_asked(text, chosen)
    if best == FAULTY:
        raise AskedWronglyError(f'"{text}": {chosen[0].attempt.fault}')
    if best == BARE:
        nearest = [reading for one in chosen for reading in readings_of([one])[:MOST_OF_A_KIND]]
        return _asked(text, "kind", f'"{text}" may be several things.', nearest)
    return _not_understood(text, tokens, tries)


def _or_two_sizes(tries: Sequence[Try], taken: Try) -> list[Described]:
    """ "16 20 hooks" is sixteen of one size, or hooks of two: every reading, none where it is sure."""
    if taken.frame.count is None:
        return []
    if packets := [
        t
        for t in tries
        if t.frame.either and t.rank == CLEAR and t.attempt.kind is taken.attempt.kind
    ]:
        return readings_of([packets[0], taken])
    if taken.attempt.kind is Kind.HOOKLENGTH:
        return _or_size_first(tries, taken)
    if taken.attempt.kind is not Kind.HOOK:
        return []
    sizes = [
        one
        for one in tries
        if one.attempt.kind is Kind.HOOK
        and one.rank == DOUBTFUL
        and one.attempt.about == "size"
        and one.frame.count is None
    ]
    packets = [
        one
        for one in tries
        if one.attempt.kind is Kind.HOOK
        and one.rank == CLEAR
        and one.frame.times in USUAL_PACKETS
        and one.attempt.words_of("size") == str(taken.frame.count)
    ]  # "18 x 10 spade"
    other = [*sizes[:1], *packets[:1]]
    return readings_of([taken, *other]) if other else []


def _or_size_first(tries: Sequence[Try], taken: Try) -> list[Described]:
    """ "12 hooklengths to 0.19, 50 cm, 10" are twelve of size 10, or ten of size 12."""
    last = taken.frame.tokens[-1]
    if not last.whole or last.lead or last.plural:
        return []
    whole = [
        one
        for one in tries
        if one.attempt.kind is Kind.HOOKLENGTH and one.frame.count is None and one.rank == DOUBTFUL
    ]
    other = [r for r in readings_of(whole[:1]) if r.pack and not r.pack.because]
    return [*readings_of([taken]), *other] if other else []


def _may_be_packets(made: Described, times: int) -> bool:
    """Whether "x 2" may be so many packets as well as what one holds; olivettes come by the few."""
    by_the_few = made.kind in (*SINGLY, *MEASURED_KINDS) or made.words_of("form") == "olivette"
    return not by_the_few and times <= FEW


def _one_or_asked(text: str, tries: Sequence[Try]) -> Described | Question:
    readings = readings_of(tries)
    first = tries[0].attempt
    times = tries[0].frame.times
    tub = tries[0].frame.vessel and first.kind not in MEASURED_KINDS
    if times and tub and len(readings) == 1:  # "bb tub x2" is two tubs
        readings = [replace(readings[0], pack=usual_of(readings[0]), packs=times)]
    elif times and len(readings) == 1 and not first.about and _may_be_packets(readings[0], times):
        packets = replace(readings[0], pack=usual_of(readings[0]), packs=times)
        asks = f"{times} packets, or one packet of {times}?"
        return _asked(text, "packs", asks, [packets, readings[0]])
    if len(readings) == 1 and not first.about:
        return readings[0]
    if len(tries) > 1:
        return _asked(text, "kind", f'"{text}" may be several things.', readings)
    if first.missing:
        like = _answer_like(first)
        readings += _on_a_spool(tries[0])
        asked = _asked(text, first.about, HOW_MUCH.get(first.about, "Which is it?"), readings, like)
        return replace(asked, sure=sure_of(tries[0]))
    if first.kind is Kind.LINE and first.about == "strain":  # "18 nylon .12"
        tied = Try(tries[0].frame, attempted(read_hooklength, Kind.HOOKLENGTH, tries[0].frame))
        readings += readings_of([tied])[:1] if tied.rank == BARE else []
    asks = first.doubts[0].asks if first.doubts else ""
    like = _answer_like(first) if asks else ""
    several = "may be read in several ways" if len(readings) > 1 else "is not certain"
    asks = asks or f'"{text}" {several}.'
    return _asked(text, first.about, asks, readings, like)


def _on_a_spool(one: Try) -> list[Described]:
    """ "Hooklink 0.15" without a hook may be the line that hooklengths are tied from."""
    if one.attempt.kind is not Kind.HOOKLENGTH or "size" in one.attempt.figures:
        return []
    line = Try(one.frame, attempted(read_line, Kind.LINE, one.frame))
    return readings_of([line])[:1] if line.rank == BARE else []


def _asked(
    text: str, about: str, asks: str, readings: Sequence[Described], like: str = ""
) -> Question:
    return Question(text, about, asks, tuple(readings[:MOST_READINGS]), like)


def _not_understood(
    text: str, tokens: Sequence[Token], tries: Sequence[Try]
) -> Described | Question:
    """Slips of the pen are asked with what was likely meant, unknown words as a note."""
    known = vocabulary()
    strange = [t.text for t in tokens if t.kind == "word" and t.text not in known]
    if question := _several(text, one_each(text, listed=True)):
        return question
    if apart := _parted(text, strange):
        return _read_words(apart)
    if question := _with_more(text):
        return question
    mended = _corrected(text, strange) if strange else None
    noted = _noted(text, strange, tries)
    if mended and not (noted and _words_noted(noted) <= _words_noted(mended)):
        return mended
    if noted:
        return noted
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
            if rest in vocabulary() and (unit or (at > 2 and first in vocabulary())):
                apart = re.sub(
                    rf"(?<![^\W\d_]){run}(?![^\W\d_])",
                    f"{first} {rest}",
                    apart,
                    flags=re.IGNORECASE,
                )
                break
    return apart if apart != text else ""


def _own_or_refused(text: str) -> Question:
    """What names no kind of tackle may be a thing of its own. Raises AskedWronglyError if that cannot be."""
    own = own_thing(text)
    right = (
        'Say what it is, like "nylon 0.14 mm 4 lb 100 m", "hook 18 barbless spade", '
        '"waggler 5BB insert", "shot AAA tin", "feeder cage 30 g", "swivel size 14 12 kg"'
    )
    asks = f'no kind of tackle is named in "{text}".'
    if own is None:
        raise AskedWronglyError(asks, right=f"{right}.")
    return Question(text, "kind", f"{asks} Keep it as a thing of its own?", (own,))


def _with_more(text: str) -> Question | None:
    """What comes with a thing ("feeder 30 g with snap link") is a note of it, and asked."""
    found = _WITH.search(text)
    if found is None or not all_known(tokenise(found.group("more"))):
        return None
    try:
        made = _read_words(text[: found.start()])
    except AskedWronglyError:
        return None
    if isinstance(made, Question) and made.answer_like:
        return None  # too little is known without it
    noted = _with_note(made, f"with {found.group('more')}")
    asks = f'Keep "{found.group().strip()}" as a note?'
    if isinstance(noted, Described):
        return Question(text, "word", asks, (noted,))
    return replace(noted, phrase=text, asks=f"{asks} {noted.asks}")


def _words_noted(question: Question) -> int:
    """How much the first reading would leave to its note: a slip put right leaves less than before."""
    usual = [one for one in question.readings if not is_own(one)]
    return len(usual[0].note.split()) if usual else MOST_LETTERS


def _corrected(text: str, strange: Sequence[str]) -> Question | None:
    meant = {slip: right for slip in strange if (right := likely_word(slip))}
    if not meant:
        return None
    mended = re.sub(
        r"[^\W\d_]+", lambda found: meant.get(found.group().lower(), found.group()), text
    )
    if mended == text:  # a slip that is joined to what is no letter
        return None
    try:
        made = _read_words(mended)
    except AskedWronglyError:
        return None
    readings = [made] if isinstance(made, Described) else made.readings
    if any(is_own(reading) for reading in readings):
        return None
    if any(right in reading.note.split() for reading in readings for right in meant.values()):
        return None  # it would mean nothing there
    said = ", ".join(f'"{slip}" for "{right}"' for slip, right in meant.items())
    asks = f"Is {said} a slip?"
    if isinstance(made, Described):
        return Question(text, "word", asks, (made,))
    return replace(made, phrase=text, asks=f"{asks} {made.asks}")


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
    if _hardly_understood(first[0]) and (own := own_thing(text)):
        readings = [*readings[: MOST_READINGS - 1], own] if made.evident else [own, *readings]
    return _asked(text, made.about or "word", asks, readings, _answer_like(made))


def _hardly_understood(one: Try) -> bool:
    """Whether so much is strange that it may be a thing of its own: figures are missing, or most words."""
    strange = sum(token.kind == "word" for token in one.attempt.left)
    words = sum(token.kind == "word" and token.text not in FILLERS for token in one.frame.tokens)
    most = 2 * strange > words
    unsized = one.attempt.kind is Kind.PART and "size" not in one.attempt.figures
    return one.attempt.missing or not one.attempt.evident or most or (unsized and strange > 0)


def _answer_like(made: Attempt) -> str:
    """What may be said instead of a reading that is offered, "" where nothing may."""
    if made.about == "shape" and made.kind is Kind.FEEDER:
        return "cage 30 g"
    if made.about == "mark" and made.figures.get("shape", word("")).value in BY_GRAMS:
        return "0.4 g"
    return ANSWER_LIKE.get(made.about, "")


def _left_words(one: Try) -> str:
    return " ".join(token.said for token in one.attempt.left)


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
    return len(others), figures, len(one.attempt.left), one.attempt.missing


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
