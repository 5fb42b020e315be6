"""What was understood as one kind: the item, or what is asked where a figure is in doubt or missing."""

from collections.abc import Sequence
from dataclasses import replace

from tacklebox.stock.naming.counting import FEW
from tacklebox.stock.naming.described import Described, Question, word
from tacklebox.stock.naming.floats import BY_GRAMS
from tacklebox.stock.naming.hand import Attempt
from tacklebox.stock.naming.hooks import read_hooklength
from tacklebox.stock.naming.lines import read_line
from tacklebox.stock.naming.tries import (
    BARE,
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
        by_piece = first.kind is Kind.HOOKLENGTH
        return asked(
            text, "packs", asks, [readings[0], packets] if by_piece else [packets, readings[0]]
        )
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
        question = asked(
            text, first.about, HOW_MUCH.get(first.about, "Which is it?"), readings, like
        )
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
    return readings_of([line])[:1] if line.rank == BARE else []


def answer_like(made: Attempt) -> str:
    """What may be said instead of a reading that is offered, "" where nothing may."""
    if made.about == "shape" and made.kind is Kind.FEEDER:
        return "cage 30 g"
    if made.about == "mark" and made.figures.get("shape", word("")).value in BY_GRAMS:
        return "0.4 g"
    return ANSWER_LIKE.get(made.about, "")


def asked(
    text: str, about: str, asks: str, readings: Sequence[Described], like: str = ""
) -> Question:
    each: list[Described] = []
    for one in readings:
        each += [one] if one not in each else []
    return Question(text, about, asks, tuple(each[:MOST_READINGS]), like)
