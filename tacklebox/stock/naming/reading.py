"""Words in, an item or a question out: every kind's reader tries the phrase, and the one that understands
all of it is taken. What two understand, what may be several things, and what is not said is asked."""

import re
from contextvars import ContextVar
from dataclasses import replace

from tacklebox.errors import AskedWronglyError, SeveralFitError
from tacklebox.stock.naming.accounted import asked_what_is_lost
from tacklebox.stock.naming.apart import apart_alone, or_apart
from tacklebox.stock.naming.asking import (
    also_so_many,
    asked,
    one_or_asked,
    other_readings,
)
from tacklebox.stock.naming.bare_numbers import asked_how_many, or_packets_of, or_so_many
from tacklebox.stock.naming.beside import read_beside, with_whole_asides
from tacklebox.stock.naming.clauses import by_clauses
from tacklebox.stock.naming.corrections import as_put_right
from tacklebox.stock.naming.described import (
    Described,
    Question,
    Reads,
    asked_before,
    if_understood,
)
from tacklebox.stock.naming.either import or_either
from tacklebox.stock.naming.hooks import with_sizes
from tacklebox.stock.naming.in_turn import (
    MOST_OF_A_KIND,
    asked_of_a_tied_rig,
    is_a_rig,
    one_at_a_time,
    several,
)
from tacklebox.stock.naming.notes import (
    with_maker,
    with_note,
    with_plain_notes,
    without_notes,
    without_own_notes,
)
from tacklebox.stock.naming.numbers import without_hyphens
from tacklebox.stock.naming.own import with_own, without_own
from tacklebox.stock.naming.packets import framings
from tacklebox.stock.naming.plainly import plainly
from tacklebox.stock.naming.priced import or_priced, priced
from tacklebox.stock.naming.prices import each_priced, without_price
from tacklebox.stock.naming.remainders import with_remainder, without_remainder
from tacklebox.stock.naming.several import (
    each_coloured,
    each_counted,
    each_worded,
    in_figures,
    one_each,
    says_of_each,
)
from tacklebox.stock.naming.so_many import with_so_many
from tacklebox.stock.naming.strange import not_understood
from tacklebox.stock.naming.talk import Says, without_talk
from tacklebox.stock.naming.tally import reckoned
from tacklebox.stock.naming.tokens import SPOKEN_UNITS, Token, refuse_endless
from tacklebox.stock.naming.tries import (
    BARE,
    CLEAR,
    FAULTY,
    MISSING,
    READERS,
    Try,
    attempted,
    readings_of,
)
from tacklebox.stock.naming.turns import SPOKEN
from tacklebox.stock.naming.writing import as_written, write_with_pack
from tacklebox.stock.tables import Kind

MOST_LETTERS = 400
MOST_NUMBERS = 16  # each may be several things, and every way of taking them together is tried
SURELY_SEVERAL = 3  # figures of one form in a list
_ONE_ITEM = "Say one item at a time."
MOST_WEIGHED = (
    6_000  # words, each way to take the numbers apart; the wordiest of an angler's needed 4,300
)
MOST_OF_CLAUSES = (
    2_000  # words that are weighed besides, clause by clause; the wordiest needed 1,225
)
MOST_READ = (
    16_000  # letters, of a phrase and of all its parts; the longest of an angler's needed 8,000
)
_read: ContextVar[int] = ContextVar("letters of the phrase and its parts read so far", default=0)
_weighed: ContextVar[int] = ContextVar("words of the phrase weighed so far", default=0)
INSTEAD = {  # what is likely meant by words that say something else than that a thing comes in
    Says.GONE: "stock.take ITEM",
    Says.SOUGHT: "stock.listed",
    Says.COUNTED: "stock.counted ITEM",
    Says.LEVEL: "stock.level ITEM",
    Says.LOADED: "reels.load",
}
_ASIDE = re.compile(r"\((?!note:)([^()\d]+)\)", re.IGNORECASE)
_COMMA_DECIMAL = re.compile(r"(?<![\d.,])0,(\d{1,3})(?![\d,])")  # "0,14 mm"
_NUMBER = re.compile(r"\d+(?:\.\d+)?")
_CURLY = re.compile(r"(?<=\w)’(?=\w)")  # "I’d say"
_COMMA_AND = re.compile(r",\s*and\s", re.IGNORECASE)
_AND = re.compile(  # two things, of which nothing is said of both
    r"^(?!.*\b(?:each|mixed|assorted|asst|both|all)\b).*(?:\b(?:and|plus)\b|[&+;])", re.IGNORECASE
)
_TOLD_NOTE = re.compile(r"\s*\(note:\s*([^()]*?)\s*\)", re.IGNORECASE)  # nothing in it is read
_HARDLY_ANY = re.compile(r"nearly|almost|empty|low$|gone|done|plenty|loads|lots", re.IGNORECASE)
_NEARLY = re.compile(r"\b(?:nearly|almost)\b", re.IGNORECASE)
_NUMBERED = re.compile(
    r"\s*\((?!note:|strips?\b|for\s+(?:the|my|an?)\s+\d+(?:\.\d+)?\s*m\b|[\d./ ]+(?:in|ins|inch|inches|cm)\))"
    rf"(?P<inside>[^()]*(?:\d|\b{SPOKEN}\b)[^()]*)\)[,;.]?",
    re.IGNORECASE,
)


def read(text: str) -> Described | Question:
    """The item that the words name, or what must be asked before it is taken.

    Raises AskedWronglyError for words that name no kind of tackle and for figures that cannot be.
    """
    if len(text) > MOST_LETTERS:
        raise AskedWronglyError(
            f"the description is {len(text)} letters long.", right=f"At most {MOST_LETTERS}."
        )
    refuse_endless(text)
    _read.set(0)
    numbers = len(_NUMBER.findall(text))
    if numbers > MOST_NUMBERS:
        raise AskedWronglyError(
            f"the description has {numbers} numbers.",
            right=f"At most {MOST_NUMBERS}. {_ONE_ITEM}",
        )
    plain = _CURLY.sub("'", " ".join(text.split()))
    bare, own = without_own(plain)
    try:
        words = with_plain_notes(without_hyphens(bare, SPOKEN_UNITS))
        made = _read_noted(words, _read_whole_or_parts)
    except AskedWronglyError:
        if question := apart_alone(bare, _read_once, _is_read_back):
            return with_own(question, own) if own else question
        noted = _ASIDE.sub(r"(note: \1)", text)
        if noted == text:
            raise
        return read(noted)  # what stands in brackets and is no word of the trade
    made = with_own(made, own) if own else _looked_at_again(plain, or_either(plain, made))
    return replace(made, phrase=plain) if isinstance(made, Question) else made


def _looked_at_again(plain: str, made: Described | Question) -> Described | Question:
    """What was read, where its name and its amounts, each read apart, say the same."""
    if isinstance(made, Described) and write_with_pack(made).lower() == plain.lower():
        return made
    return or_apart(plain, made, _read_once, _is_read_back)


def _read_once(plain: str) -> Described | Question:
    return or_either(plain, _read_noted(with_plain_notes(plain), _read_whole_or_parts))


def _read_noted(plain: str, reads: Reads) -> Described | Question:
    """The item that the words name, with what they call a note, of which nothing is read."""
    noted = ", ".join(filter(None, _TOLD_NOTE.findall(plain)))
    made = reads(_TOLD_NOTE.sub("", plain))
    return with_note(made, noted) if noted else made


def _read_whole_or_parts(plain: str) -> Described | Question:
    """The item that the words name; clause by clause, where they are not understood at once."""
    words, notes = without_notes(plainly(plain))

    def in_parts(made: Described | Question | None) -> Question | None:
        if _weighed.get() > MOST_WEIGHED:  # the best way may be among those left out
            raise _too_many_ways()
        _weighed.set(MOST_WEIGHED - MOST_OF_CLAUSES)
        if is_a_rig(words) or (
            isinstance(made, Described) and write_with_pack(made).lower() == plain.lower()
        ):
            return None
        clear = by_clauses(words, made, lambda part: _read_put_right(f"{part}{notes}"))
        ways = {write_with_pack(one): as_written(one) for one in (clear.readings if clear else ())}
        sure = tuple(filter(_is_read_back, ways.values()))
        return replace(clear, readings=sure) if clear and sure else None

    _weighed.set(0)
    try:
        made = _read_opened(plain)
    except AskedWronglyError:
        if clear := in_parts(None):
            return clear
        raise
    return in_parts(made) or made


def _is_read_back(one: Described) -> bool:
    """Whether its words are read as it is, so that they can be taken."""
    written = write_with_pack(one)
    made = if_understood(written, lambda said: _read_noted(said, _read_opened))
    return isinstance(made, Described) and write_with_pack(made) == written


def _read_opened(plain: str) -> Described | Question:
    """The item that the words name; what stands in brackets says more of it where that is clearer."""
    made = _read_put_right(plain)
    opened = _NUMBERED.sub(r", \g<inside>, ", plain)
    if opened == plain or (
        isinstance(made, Described) and write_with_pack(made).lower() == plain.lower()
    ):
        return made
    try:
        more = _read_put_right(" ".join(opened.split()).replace(" ,", ",").strip(" ,."))
    except AskedWronglyError:
        return made
    return more if _says_more(more, made) else made


def _says_more(more: Described | Question, made: Described | Question) -> bool:
    """Whether a reading is surer than the other, or says more amounts of the same thing."""
    if isinstance(made, Question):
        return isinstance(more, Described) or (
            more.about in ("word", "price") and made.about not in ("word", "price")
        )
    one = more if isinstance(more, Described) else more.readings[0]
    sure = isinstance(more, Described) or more.about in ("word", "price")
    return sure and one.kind == made.kind and _amounts(one) > _amounts(made)


def _amounts(made: Described) -> int:
    said = made.pack is not None and not made.pack.because
    return len(made.figures) + said + (made.packs is not None) + (made.count is not None)


def _read_put_right(plain: str) -> Described | Question:
    words, notes = without_notes(plain)
    return as_put_right(plainly(words), lambda right: _read_counted(f"{reckoned(right)}{notes}"))


def _read_counted(plain: str) -> Described | Question:
    """The item that the words name; a bare number that is none of its figures may say how many there are."""
    try:
        made = _read_beside(plain)
    except AskedWronglyError:
        if question := asked_how_many(plain, None, _read_beside):
            return question
        raise
    made = asked_how_many(plain, made, _read_beside) or or_so_many(made)
    made = or_packets_of(plain, made)
    return asked_of_a_tied_rig(plain, made, _read_words)


def _read_beside(plain: str) -> Described | Question:
    """The item that the words name; what is said beside it is its note where that makes it clearer."""
    try:
        made = _read_said(plain)
    except AskedWronglyError:
        if beside := read_beside(plain, None, _read_said):
            return beside
        raise
    if isinstance(made, Described):
        return with_whole_asides(plain, made)
    return read_beside(plain, made, _read_said) or made


def _read_said(plain: str) -> Described | Question:
    """The item that the words name, of which a part may be left, with what is said round its name."""
    _refuse_too_many_parts()
    words, notes = without_notes(plain)
    words = with_so_many(words)
    made = _with_what_is_left(f"{words}{notes}", _read_talk)
    return asked_what_is_lost(without_talk(words).words, made)


def _with_what_is_left(plain: str, reads: Reads) -> Described | Question:
    words, notes = without_notes(plain)
    whole, left = without_remainder(words)
    if left is not None and whole:
        held = re.search(r"spool|reel|tub", left.words, re.IGNORECASE)
        of_it = "tub of " if held and held.group().lower() == "tub" else "spool of "
        ways = (of_it,) if of_it == "tub of " else ("", of_it) if held else ("",)
        for before in ways:  # "0.16 clear, third of a spool left"
            try:
                made = with_remainder(reads(f"{before}{whole}{notes}"), left)
            except AskedWronglyError:
                made = None
            if made is not None:
                return made
    return reads(plain)


def _read_what_is_left(plain: str) -> Described | Question:
    """The item that the words name, without a price."""
    return _with_what_is_left(plain, _read_words)


def _read_talk(plain: str) -> Described | Question:
    """The item that the words name, with what is said round its name and of money."""
    if question := several(plain, each_priced(plain), _read_talk, noted=True):
        return question
    heard = without_talk(plain)
    bare, price = without_price(heard.words)
    made = _read_what_is_left(bare)
    if price is not None:
        made = priced(plain, bare, made, price, _read_what_is_left)
    else:
        made = or_priced(bare, made, _read_what_is_left)
    made = with_note(made, ", ".join(heard.places)) if heard.places else made
    return _not_coming(plain, made, heard.says, heard.said) if heard.says else made


def _not_coming(
    text: str, made: Described | Question, says: Says, said: str
) -> Described | Question:
    """What was said of a thing that does not come in: taken for it only if he says so."""
    asks = f'"{said}" says {says.value}. Put it in all the same?'
    of_a_tub = any(one.kind is Kind.WEIGHT for one in made.readings)  # of which a level is set
    telling = _HARDLY_ANY.search(said) and (not of_a_tub or _NEARLY.search(said))
    noted = with_note(made, said) if telling else made
    asked_first = asked_before(text, asks, noted, "says")
    return replace(asked_first, see=INSTEAD.get(says) or asked_first.see)


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
    raise SeveralFitError(
        made.asks, text, offered, right=f"{right}." if right else "", see=made.see
    )


def _read_words(plain: str) -> Described | Question:
    """The item that the words name, with all that there is of it and without a price."""
    _read.set(_read.get() + len(plain))
    _refuse_too_many_parts()
    if question := _thousands(plain):
        return question
    plain = _COMMA_DECIMAL.sub(r"0.\1", plain)
    for each in (each_counted(in_figures(plain)), each_coloured(plain)):
        if question := several(plain, each, _read_words, noted=True):
            return question
    if question := several(plain, each_worded(plain), _read_words):
        return question
    if _COMMA_AND.search(plain) and (question := one_at_a_time(plain, _read_words)):
        return question
    listed = one_each(plain)
    many = len(listed) >= SURELY_SEVERAL and "dispenser" not in plain.lower()
    sure = says_of_each(plain) or many
    if question := several(plain, listed, _read_words, noted=sure):
        return question
    tokens, note, maker = without_own_notes(plain)
    made = _best(plain, with_sizes(tokens))
    made = with_note(made, note) if note else made
    return with_maker(made, maker) if maker else made


def _thousands(text: str) -> Question | None:
    """ "1,000 m" and "1.000 m" are a thousand to some and one to others: asked, both ways read."""
    found = re.search(r"(?<![\d.,])([1-9]\d{0,2})(?:,(\d{3})|\.(000))(?![\d.,])", text)
    if not found:
        return None
    digits = found.group(2) or found.group(3)
    readings: list[Described] = []
    for number in (found.group(1) + digits, f"{found.group(1)}.{digits}".rstrip("0").rstrip(".")):
        if made := if_understood(
            f"{text[: found.start()]}{number}{text[found.end() :]}", _read_words
        ):
            readings += made.readings
    one = f"{found.group(1)}.{digits}".rstrip("0").rstrip(".")
    asks = f'"{found.group()}" may be {found.group(1)}{digits} or {one}.'
    return Question(text, "number", asks, tuple(readings))


def _refuse_too_many_parts() -> None:
    if _read.get() > MOST_READ:  # every further part fails at once
        raise _too_many_ways()


def _too_many_ways() -> AskedWronglyError:
    return AskedWronglyError("the description may be taken in too many ways.", right=_ONE_ITEM)


def _are_so_many(one: Try) -> bool:
    """ "10 12s" are likely ten of that size."""
    counted = one.frame.count or (one.frame.packs and one.frame.pack)
    return bool(counted) and any(token.plural for token in one.frame.tokens)


def _best(text: str, tokens: tuple[Token, ...]) -> Described | Question:
    frames = framings(tokens)
    _weighed.set(_weighed.get() + len(frames) * len(tokens))
    if _weighed.get() > MOST_WEIGHED:  # every further way fails at once
        raise _too_many_ways()
    tries = [
        Try(frame, attempted(reader, kind, frame))
        for frame in frames
        for kind, reader in READERS.items()
    ]
    best = min(one.rank for one in tries)
    chosen = sorted((one for one in tries if one.rank == best), key=lambda one: one.frame.loose)
    if best == CLEAR and (readings := other_readings(tries, chosen[0])):
        return asked(text, "count", f'"{text}" may be read in several ways.', readings)
    if best <= MISSING:
        others = also_so_many(tries, chosen[0])
        chosen = [one for one in chosen if one.frame == chosen[0].frame]
        made = one_or_asked(text, chosen, others)
        two_sorts = isinstance(made, Question) and made.about == "sort" and _AND.search(text)
        return (one_at_a_time(text, _read_words) if two_sorts else None) or made
    if best == FAULTY:
        if question := one_at_a_time(text, _read_words) or one_at_a_time(
            text, _read_words, listed=True
        ):
            return question
        raise AskedWronglyError(f'"{text}": {chosen[0].attempt.fault}')
    if best == BARE:
        chosen.sort(key=lambda one: not _are_so_many(one))
        nearest = [reading for one in chosen for reading in readings_of([one])[:MOST_OF_A_KIND]]
        return asked(text, "kind", f'"{text}" may be several things.', nearest)
    return not_understood(text, tokens, tries, _read_words)
