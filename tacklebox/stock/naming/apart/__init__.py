"""A second reading of each phrase, its amounts taken off its name by a way of its own. Where both readings
agree, what was read stands; where they do not, he is asked: one slip of either takes nothing wrong.
    ways      what is said of amounts
    amounts   the name and the amounts of a phrase
    counted   a thing with its amounts
    things    several things in one breath
    lots      one thing in several sizes, each with its own number
    mixed     one thing in several sizes, of which only the number of all is said
    sizes     sizes as they are said one after the other
    each      the question that names each of them
    left_numbers a number that only a note has
    own_words a thing of his own words, in so many
    rigs      a hooklength that is called a rig
    alike     whether two readings say the same
"""

import re
from collections.abc import Sequence
from dataclasses import replace

from tacklebox.stock.naming.apart.alike import is_such, says_the_same
from tacklebox.stock.naming.apart.amounts import Apart, amounts_apart
from tacklebox.stock.naming.apart.counted import where_counted, with_amounts
from tacklebox.stock.naming.apart.each import (
    each_of_several,
    one_of_each,
    one_packet_of_each,
)
from tacklebox.stock.naming.apart.left_numbers import or_so_many_noted
from tacklebox.stock.naming.apart.mixed import or_one_lot
from tacklebox.stock.naming.apart.own_words import or_by_own_words
from tacklebox.stock.naming.apart.rigs import or_whole_hooklength
from tacklebox.stock.naming.asking import MOST_READINGS
from tacklebox.stock.naming.described import (
    Described,
    IsReadBack,
    Question,
    Reads,
    if_understood,
)
from tacklebox.stock.naming.notes import with_note
from tacklebox.stock.naming.own import is_own
from tacklebox.stock.naming.several import says_of_each
from tacklebox.stock.naming.turns import PUTS_RIGHT, saying
from tacklebox.stock.naming.writing import as_written, write_with_pack
from tacklebox.stock.tables import Kind

_PUT_RIGHT = saying(rf"\b{PUTS_RIGHT}\b")  # no two figures agree in such a phrase
_WITH = saying(
    r"^(?P<name>[^,(]*[a-z][^,(]*(?:,[^,(]+)?),?\s+\(?(?P<note>(?:with|w/)\s+[a-z][^,()\d]*)\)?(?P<rest>(?:,.*)?)$"
)
# "4 pks link swivels 10s", "stops small 3 x 5": a size, or what each packet holds
_TENS = saying(r"(?P<name>.*[a-z])[\s,]+(?P<held>5|6|8|10|12|15|20|25|50)s$")
_TIMES = saying(r"(?P<name>.*[a-z])[\s,]+(?P<packs>[1-9])\s*x\s*(?P<held>[3-9]|10|12|15|20|25|50)$")
IN_PACKETS = (Kind.PART, Kind.HOOK, Kind.HOOKLENGTH)
MOST_PACKETS = 10
MOST_WORDS = 24  # of several things in one breath
_TYPED = re.compile(  # what is typed of tackle: a second reading takes its time
    r"[A-Za-z0-9\s.,;:/&+'\"‘’“”½¼¾⅓⅔⅛⅜⅝⅞×()£%°#@!?=*–—-]*"
)
_AND_SOME = saying(
    r"^(?P<one>[^,(]*[a-z][^,(]*?),?\s+(?:and|plus|\+|&)\s+(?:some|an?\s+few|an?\s+couple\s+of)\s+(?P<other>[a-z][^,]*)$"
)
_JOINED = saying(r"[&+;,]|\s/\s|[a-z]/[a-z]|\b(?:and|plus|or)\b")


def or_apart(
    text: str, made: Described | Question, reads: Reads, is_read_back: IsReadBack
) -> Described | Question:
    """What was read, or the question with what its name and its amounts are, read apart from each other."""
    if _PUT_RIGHT.search(text) or not _TYPED.fullmatch(text):
        return made
    made = or_whole_hooklength(text, made, reads, is_read_back)
    if things := _things(text, made, reads, is_read_back):
        return things
    if isinstance(made, Question):
        made = one_packet_of_each(text, or_one_lot(text, one_of_each(text, made), is_read_back))
    made = _or_with(text, made, reads, is_read_back)
    said = amounts_apart(text)
    if isinstance(made, Question) and made.about in ("says", "number"):
        return made
    others = [*_with_what_may_be_held(text, said, made, reads)]
    if said and said != Apart(said.name):
        named = where_counted(if_understood(said.name, reads))
        if isinstance(made, Question) and made.about == "several":
            single = _single(named, said)
            if single is None or single in made.readings or not is_read_back(single):
                return made
            return replace(
                made, about="count", readings=(single, *made.readings[: MOST_READINGS - 1])
            )
        if isinstance(named, Described) or (named and isinstance(made, Question)):
            others = [*_with_amount_each(named, said, made), *others]
        only_noted = said == Apart(said.name, note=said.note)
        if only_noted and isinstance(named, Described) and others and is_read_back(others[0]):
            return _noted(made, others[0])
    known = {write_with_pack(one) for one in made.readings}
    made = or_by_own_words(text, made)
    others = [one for one in others if write_with_pack(one) not in known and is_read_back(one)]
    if not others:
        return or_so_many_noted(made)
    if isinstance(made, Question):
        more = replace(made, readings=tuple([*others, *made.readings][:MOST_READINGS]))
        return or_so_many_noted(more)
    return Question(text, "count", f'"{text}" may be read in several ways.', (*others, made))


def _things(
    text: str, made: Described | Question, reads: Reads, is_read_back: IsReadBack
) -> Question | None:
    """The question that names each of several things, also where "2 of each" was taken for one thing."""
    if len(text.split()) > MOST_WORDS:
        return None
    if isinstance(made, Question):
        return each_of_several(text, made, reads, is_read_back)
    if question := _and_some(text, reads):
        return question
    as_one = Question(text, "count", f'"{text}" may be one thing.', (made,))
    told = says_of_each(text) or re.search(r"\d", made.note)
    return each_of_several(text, as_one, reads, is_read_back) if told else None


def _and_some(text: str, reads: Reads) -> Question | None:
    """ "Float adapters and some waggler rubbers" are two things, even where both words mean the same."""
    found = _AND_SOME.match(text)
    both = [if_understood(found[one], reads) for one in ("one", "other")] if found else []
    if not both or not all(isinstance(one, Described) and not is_own(one) for one in both):
        return None
    readings = tuple(as_written(one) for one in both if isinstance(one, Described))
    return Question(text, "several", f'"{text}" names several things: one at a time.', readings)


def _single(named: Described | Question | None, said: Apart) -> Described | None:
    """The one thing that was taken for several, None where its name joins two: a "bomb swivel" is a bomb."""
    if named is None or len(named.readings) != 1 or _JOINED.search(said.name):
        return None
    one = with_amounts(named.readings[0], said)
    return as_written(one) if one and not is_own(one) else None


def _with_what_may_be_held(
    text: str, said: Apart | None, made: Described | Question, reads: Reads
) -> Sequence[Described]:
    """The thing where a size may be what each of its packets holds."""
    tens = _TENS.match(said.name) if said and said.packs and not said.held else None
    bare = said or Apart(text)
    counted = bare.count or bare.packs or bare.held or isinstance(made, Described)
    times = None if counted else _TIMES.match(bare.name)
    if not (tens or times):
        return []
    if tens and said:
        apart = [replace(said, name=tens["name"], held=int(tens["held"]))]
    else:
        assert times
        one, other = int(times["packs"]), int(times["held"])
        ways = [(one, other), (other, one)] if other < MOST_PACKETS else [(one, other)]
        apart = [replace(bare, name=times["name"], packs=p, held=held) for p, held in ways]
    name = if_understood(apart[0].name, reads)
    if name is None or not all(one.kind in IN_PACKETS for one in name.readings):
        return []
    if isinstance(name, Question) and name.about != "sort":
        return []
    return [one for each in apart for one in _with_amount_each(name, each, made)]


def apart_alone(text: str, reads: Reads, is_read_back: IsReadBack) -> Question | None:
    """The question whether the name with its amounts is meant, where the whole phrase is not understood."""
    said = amounts_apart(text) if _TYPED.fullmatch(text) else None
    named = if_understood(said.name, reads) if said else None
    if said is None or named is None or (isinstance(named, Question) and named.about == "several"):
        return None
    each = [as_written(one) for name in named.readings if (one := with_amounts(name, said))]
    readings = tuple(one for one in each if is_read_back(one))
    return Question(text, "count", f'Is that what "{text}" says?', readings) if readings else None


def _or_with(
    text: str, made: Described | Question, reads: Reads, is_read_back: IsReadBack
) -> Described | Question:
    """What was read, or the thing that stands before "with": a "swimfeeder with strap lead" is a feeder."""
    found = _WITH.match(text)
    named = found and if_understood(f"{found['name']}{found['rest']}", reads)
    if named is None or found is None or (isinstance(named, Question) and named.about != "mass"):
        return made
    noted = with_note(named, found["note"].strip()).readings
    if any(is_such(one, other) for one in noted for other in made.readings):
        return made
    others = [as_written(one) for one in noted if one.price_cents is None and not is_own(one)]
    if not others or not all(map(is_read_back, others)):
        return made
    asks = f'"{text}" may be read in several ways.'
    question = made if isinstance(made, Question) else Question(text, "kind", asks)
    return replace(question, readings=tuple([*others, *made.readings][:MOST_READINGS]))


def _with_amount_each(
    named: Described | Question, said: Apart, made: Described | Question
) -> Sequence[Described]:
    """What the name may be with its amounts, where no reading of the whole phrase says the same."""
    if isinstance(named, Question) and named.about in ("several", "says"):
        return []
    kinds = {one.kind for one in made.readings}
    each = [with_amounts(name, said) for name in named.readings]
    known = [one for one in each if one and any(says_the_same(one, m) for m in made.readings)]
    if known and isinstance(named, Described):
        return []
    return [
        as_written(one)
        for one in each
        if one
        and one not in known
        and not is_own(one)
        and (isinstance(named, Described) or one.kind in kinds)
    ]


def _noted(made: Described | Question, one: Described) -> Described | Question:
    """The thing where all that was said besides is where it is or since when: that says no number of it. A
    pellet's size may be its own, too, but for a float."""
    sized = one.kind is not Kind.FLOAT and "pellet" in one.note
    return made if sized else one
