"""Numbers that two figures could take nearly as well: how many there are, a size, what a packet holds.

A wrong reading taken costs more than a question, so that such a number is asked with its nearest readings.
"""

from collections.abc import Sequence

from tacklebox.stock.naming.described import Described
from tacklebox.stock.naming.hand import singular
from tacklebox.stock.naming.lexicon import vocabulary
from tacklebox.stock.naming.packets import USUALLY_HELD
from tacklebox.stock.naming.tokens import Token
from tacklebox.stock.naming.tries import CLEAR, DOUBTFUL, MISSING, Try, readings_of
from tacklebox.stock.tables import Kind

NAMED = ("hooks", "hks")
USUAL_PACKETS = (10, 20, 25)
USUAL_COUNTS = (10, 12, 20)  # of hooks, which are told by their size in any number
MOST_COUNTED = 3  # readings of "so many", where their figure is not said


def other_readings(tries: Sequence[Try], taken: Try) -> list[Described]:
    """Every reading, where what was understood clearly may be meant otherwise; none where it is sure."""
    if other := _or_so_many(tries, taken):
        return [*readings_of([taken]), *other]
    if other := _or_what_it_holds(tries, taken):
        return [*readings_of([taken]), *other]
    if either := _or_either(tries, taken):
        return either
    return _or_two_sizes(tries, taken)


def also_so_many(tries: Sequence[Try], asked: Try) -> list[Described]:
    """What may be meant, too, where a figure is asked for: so many of it, or so many spools."""
    same = [one for one in tries if one.attempt.kind is asked.attempt.kind]
    loose = readings_of([one for one in same if one.frame.loose and one.rank <= DOUBTFUL])
    return [*loose, *_or_so_many(tries, asked)]


def _or_so_many(tries: Sequence[Try], taken: Try) -> list[Described]:
    """ "16 swivels" are sixteen of them, or of size 16: the only number, before the thing in the plural."""
    frame = taken.frame
    if frame.count is not None or not _may_count(frame.tokens, taken.attempt.kind):
        return []
    if taken.attempt.kind is Kind.HOOK and (frame.pack or frame.packs or frame.times):
        return []
    counted = [
        one
        for one in tries
        if one.attempt.kind is taken.attempt.kind
        and one.frame.count == taken.frame.tokens[0].value
        and not one.frame.behind
        and one.rank <= MISSING
    ]
    return readings_of(counted[:1])[:MOST_COUNTED]


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
        for one in tries
        if one.attempt.kind is Kind.HOOK
        and one.frame.told
        and str(one.frame.pack) == size
        and one.rank <= MISSING
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
    clear = [t for t in tries if t.rank == CLEAR and t.attempt.kind is taken.attempt.kind]
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


def _or_packet(tries: Sequence[Try], taken: Try) -> list[Described]:
    """ "12 swivels 20" are twelve of size 20, or a packet of twenty of size 12."""
    count = taken.frame.count or 0
    whole = [
        one
        for one in tries
        if one.attempt.kind is Kind.PART and one.frame.count is None and one.rank == DOUBTFUL
    ]
    bare = any(token.whole and not token.lead for token in taken.frame.tokens)
    sized = bare and count % 2 == 0 and count > 4 and not taken.frame.told
    return readings_of([taken, *whole[:1]]) if sized and whole else []
