"""What was understood as one kind: the item, or what is asked where a figure is in doubt or missing.

A number that two figures could take nearly as well, how many there are, a size, what a packet holds, is asked
with its nearest readings: a wrong reading taken costs more than a question.
"""

from collections.abc import Sequence
from dataclasses import replace

from tacklebox.errors import AskedWronglyError
from tacklebox.stock.naming.counting import FEW
from tacklebox.stock.naming.described import Described, Question, word
from tacklebox.stock.naming.floats import BY_GRAMS
from tacklebox.stock.naming.hand import Attempt, singular
from tacklebox.stock.naming.hooks import read_hooklength
from tacklebox.stock.naming.lexicon import vocabulary
from tacklebox.stock.naming.lines import read_line
from tacklebox.stock.naming.packets import USUALLY_HELD
from tacklebox.stock.naming.tokens import Token
from tacklebox.stock.naming.tries import (
    BARE,
    CLEAR,
    DOUBTFUL,
    MISSING,
    SINGLY,
    Try,
    attempted,
    readings_of,
    sure_of,
    usual_of,
)
from tacklebox.stock.tables import MEASURED_KINDS, Kind

MOST_READINGS = 9
SMALLEST_NUMBER_TIED = 6  # of a hook that a hooklength has
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

NAMED = ("hooks", "hks")
USUAL_PACKETS = (10, 20, 25)
USUAL_COUNTS = (10, 12, 20)  # of hooks, which are told by their size in any number
MOST_COUNTED = 3  # readings of "so many", where their figure is not said


def one_or_asked(
    text: str, tries: Sequence[Try], others: Sequence[Described] = ()
) -> Described | Question:
    """The one thing that it is, or what is asked; ``others`` may be meant, too, where it is asked."""
    readings = readings_of(tries)
    first = tries[0].attempt
    times = tries[0].frame.times
    tub = tries[0].frame.vessel and first.kind not in MEASURED_KINDS
    if times and tub and len(readings) == 1:  # "bb tub x2" is two tubs
        readings = [replace(readings[0], pack=usual_of(readings[0]), packs=times)]
    elif times and len(readings) == 1 and not first.about and _may_be_packets(readings[0], times):
        packets = replace(readings[0], pack=usual_of(readings[0]), packs=times)
        asks = f"{times} packets, or one packet of {times}?"
        of_it = readings[0]
        if times == 1:
            asks, of_it = "One packet, or one piece?", replace(packets, packs=None, count=1)
        by_piece = first.kind is Kind.HOOKLENGTH
        return asked(text, "packs", asks, [of_it, packets] if by_piece else [packets, of_it])
    if len(readings) == 1 and not first.about and not tries[0].frame.loose:
        return readings[0]
    if len(tries) > 1:
        return asked(text, "kind", f'"{text}" may be several things.', readings)
    first_of_all = tries[0].frame.tokens[0] if others else None
    if first_of_all and first_of_all.whole and first_of_all.value < FEW:  # "two method feeders"
        readings = [*others, *readings]
    else:
        readings += others
    if first.missing:
        like = answer_like(first)
        readings += _on_a_spool(tries[0])
        asks = HOW_MUCH.get(first.about, "Which is it?")
        if first.about == "mark" and first.kind is Kind.WEIGHT:
            asks = "Which size of shot?"
        question = asked(text, first.about, asks, readings, like)
        return replace(question, sure=sure_of(tries[0]))
    if first.kind is Kind.LINE and first.about == "strain":  # "18 nylon .12"
        tied = Try(tries[0].frame, attempted(read_hooklength, Kind.HOOKLENGTH, tries[0].frame))
        hook = tied.attempt.words_of("size")
        likely = tied.rank == BARE and hook.isdecimal() and int(hook) >= SMALLEST_NUMBER_TIED
        readings += readings_of([tied])[:1] if likely else []
    asks = first.doubts[0].asks if first.doubts else ""
    like = answer_like(first) if asks else ""
    several = "may be read in several ways" if len(readings) > 1 else "is not certain"
    asks = asks or f'"{text}" {several}.'
    return asked(text, first.about, asks, readings, like)


def _may_be_packets(made: Described, times: int) -> bool:
    """Whether "x 2" may be so many packets as well as what one holds; olivettes come by the few."""
    by_the_few = made.kind in (*SINGLY, *MEASURED_KINDS) or made.words_of("form") == "olivette"
    return not by_the_few and times <= FEW


def _on_a_spool(one: Try) -> list[Described]:
    """ "Hooklink 0.15" without a hook may be the line that hooklengths are tied from."""
    if one.attempt.kind is not Kind.HOOKLENGTH or "size" in one.attempt.figures:
        return []
    line = Try(one.frame, attempted(read_line, Kind.LINE, one.frame))
    return readings_of([line])[:1] if line.rank in (CLEAR, DOUBTFUL, BARE) else []


def answer_like(made: Attempt) -> str:
    """What may be said instead of a reading that is offered, "" where nothing may."""
    if made.about == "shape" and made.kind is Kind.FEEDER:
        return "cage 30 g"
    if made.about == "mark" and made.figures.get("shape", word("")).value in BY_GRAMS:
        return "0.4 g"
    if made.about == "mark" and made.kind is Kind.WEIGHT:
        return "AAA"
    return ANSWER_LIKE.get(made.about, "")


def asked(
    text: str, about: str, asks: str, readings: Sequence[Described], like: str = ""
) -> Question:
    each: list[Described] = []
    for one in readings:
        empty = one.pack is not None and not one.pack_size  # "0 left" is no packet of none
        each += [one] if one not in each and not empty else []
    if readings and not each:
        raise AskedWronglyError(f'"{text}": there is none of it.', right="Say how many there are.")
    return Question(text, about, asks, tuple(each[:MOST_READINGS]), like)


def other_readings(tries: Sequence[Try], taken: Try) -> list[Described]:
    """Every reading, where what was understood clearly may be meant otherwise; none where it is sure."""
    if other := _or_so_many(tries, taken):
        return [*readings_of([taken]), *other]
    if other := _or_what_it_holds(tries, taken):
        return [*readings_of([taken]), *other]
    if either := _or_either(tries, taken):
        return either
    return _or_two_sizes(tries, taken)


def also_so_many(tries: Sequence[Try], missing: Try) -> list[Described]:
    """What may be meant, too, where a figure is asked for: so many of it, or so many spools."""
    same = _like(missing, tries)
    loose = readings_of([one for one in same if one.frame.loose and one.rank <= DOUBTFUL])
    return [*loose, *_or_so_many(tries, missing)]


def _or_so_many(tries: Sequence[Try], taken: Try) -> list[Described]:
    """ "16 swivels" are sixteen of them, or of size 16: the only number, before the thing in the plural."""
    frame = taken.frame
    if frame.count is not None or not _may_count(frame.tokens, taken.attempt.kind):
        return []
    if taken.attempt.kind is Kind.HOOK and (frame.pack or frame.packs or frame.times):
        return []
    counted = [
        one
        for one in _like(taken, tries)
        if one.frame.count == taken.frame.tokens[0].value
        and not one.frame.behind
        and one.rank <= MISSING
    ]
    return readings_of(counted[:1])[:MOST_COUNTED]


def _like(taken: Try, tries: Sequence[Try]) -> list[Try]:
    """Those of the same kind of thing."""
    return [one for one in tries if one.attempt.kind is taken.attempt.kind]


def _uncounted(taken: Try, tries: Sequence[Try]) -> list[Try]:
    """Those in which the number is no count of it, where that leaves a figure in doubt."""
    alike = _like(taken, tries)
    return [one for one in alike if one.frame.count is None and one.rank == DOUBTFUL]


def _or_what_it_holds(tries: Sequence[Try], taken: Try) -> list[Described]:
    """ "Packet of 12 barbless" holds twelve, or hooks of size 12."""
    if taken.attempt.kind is not Kind.HOOK or taken.frame.pack is not None:
        return []
    size = taken.attempt.words_of("size")
    named = any(token.text in NAMED for token in taken.frame.tokens)
    if not named and size not in map(str, USUALLY_HELD):
        return []  # "a pack of 18 spades": none holds eighteen
    held = [
        one
        for one in _like(taken, tries)
        if one.frame.told and str(one.frame.pack) == size and one.rank <= MISSING
    ]
    return readings_of(held[:1])[:MOST_COUNTED]


def _may_count(tokens: Sequence[Token], kind: Kind) -> bool:
    first, *rest = tokens or (Token("sign", ""),)
    if not first.whole or first.lead or first.plural or any(t.kind == "number" for t in rest):
        return False
    named = any(token.text in NAMED for token in rest)
    if kind is Kind.HOOK and first.value not in USUAL_COUNTS and not named:
        return False
    return any(
        word.kind == "word"
        and word.text.endswith("s")
        and not word.text.endswith("ss")
        and len(word.text) > 3
        and singular(word.text) in vocabulary()
        for word in rest
    )


def _or_either(tries: Sequence[Try], taken: Try) -> list[Described]:
    """ "2 1/2 oz bombs" are two of half an ounce, or of two and a half."""
    clear = [one for one in _like(taken, tries) if one.rank == CLEAR]
    either = [one for one in clear if one.frame.either]
    whole = [one for one in clear if not one.frame.either and not one.frame.behind]
    return readings_of([either[0], whole[0]]) if either and whole else []


def _or_two_sizes(tries: Sequence[Try], taken: Try) -> list[Described]:
    """ "16 20 hooks" is sixteen of one size, or hooks of two: every reading, none where it is sure."""
    if taken.frame.count is None:
        return []
    if taken.attempt.kind is Kind.HOOKLENGTH:
        return _or_size_first(tries, taken)
    if taken.attempt.kind is Kind.PART and not taken.frame.behind:
        return _or_packet(tries, taken)
    if taken.attempt.kind is not Kind.HOOK:
        return []
    sizes = [one for one in _uncounted(taken, tries) if one.attempt.about == "size"]
    packets = [
        one
        for one in _like(taken, tries)
        if one.rank == CLEAR
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
    other = [r for r in readings_of(_uncounted(taken, tries)[:1]) if r.pack and not r.pack.because]
    return [*readings_of([taken]), *other] if other else []


def _or_packet(tries: Sequence[Try], taken: Try) -> list[Described]:
    """ "12 swivels 20" are twelve of size 20, or a packet of twenty of size 12."""
    count = taken.frame.count or 0
    whole = _uncounted(taken, tries)
    bare = any(token.whole and not token.lead for token in taken.frame.tokens)
    sized = bare and count % 2 == 0 and count > 4 and not taken.frame.told
    return readings_of([taken, *whole[:1]]) if sized and whole else []
