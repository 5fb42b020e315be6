"""How many of a thing were named: "a dozen", "3 x", "bombs half oz, eight"; a number may be a size.

A framing is one way to take the numbers of a phrase: what is left of it once packets and pieces are out.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import pairwise

from tacklebox.stock.naming.hand import FILLERS, run_at
from tacklebox.stock.naming.lexicon import MARK_LETTERS, vocabulary
from tacklebox.stock.naming.tokens import Token, number
from tacklebox.trade.floats import POLE_MARKS

MOST = 10_000
MOST_SPOOLS = 12  # that a bare number may be
FEW = 5  # fewer are hardly in one packet
SINGLY = ("single", "loose")
MOST_NAMED_SPOOLS = 50  # that are said to be so many
TUBES = ("silicone", "silicon", "tube", "tubing", "rubber")
IN_PACKETS = (
    "hook",
    "hooklength",
    "swivel",
    "bead",
    "stop",
    "band",
    "link",
    "bomb",
    "eyed",
    "spade",
    "barbless",
    "barbed",
)
ON_SPOOLS = frozenset("elastic elastics latex line nylon mono braid fluorocarbon fluoro".split())


@dataclass(frozen=True, slots=True)
class Framing:
    """What is left of a phrase once packets and numbers of pieces are taken from it.

    ``times``: "hooks x 25" is a packet of so many, "feeder 30 g x 3" so many pieces. ``vessel`` is "spool"
    or "tub" where it is said to come in one. ``behind``: the count stood last, as a size may; ``spools``: so
    many of a thing are spools of it; ``either``: they may be packets or pieces; ``told``: the count stood
    with "x" or "of"; ``loose``: a bare number was taken for so many spools, which is never sure.
    """

    tokens: tuple[Token, ...]
    pack: int | None = None
    times: int | None = None
    packs: int | None = None
    count: int | None = None
    vessel: str = ""
    behind: bool = False
    spools: bool = False
    either: bool = False
    told: bool = False
    loose: bool = False

    def take(self, at: int, end: int, **found: int) -> "Framing":
        """Without the tokens from ``at`` to ``end``, and with what they said."""
        left = replace(self, tokens=self.tokens[:at] + self.tokens[end:])
        return replace(left, **found)  # type: ignore[arg-type]


def is_many(token: Token) -> bool:
    """Whether it may be so many: a whole number that nothing calls a size."""
    return (
        token.whole and token.lead in ("", "count") and not token.plural and 0 < token.value <= MOST
    )


def said_at(frame: Framing, at: int) -> str:
    """The word, sign or figure there, "" beyond the ends."""
    return frame.tokens[at].text if 0 <= at < len(frame.tokens) else ""


def times_said(frame: Framing) -> Iterator[Framing]:
    """ "hooks size 16 x 25", "wagglers 3 x 3AAA"; "4 x 14" is a mark, "18 x 20" may be a winder."""
    tokens = frame.tokens
    for at, token in enumerate(tokens[:-1]):
        if token.text in ("qty", "quantity") and is_many(tokens[at + 1]):
            number = int(tokens[at + 1].value)
            said = {"packs": number} if frame.pack is not None else {"times": number}
            yield frame.take(at, at + 2, **said)
            return
    if said_at(frame, 0) == "x" and len(tokens) > 2 and is_many(tokens[1]):  # "x3 30 g feeders"
        yield frame.take(0, 2, count=int(tokens[1].value))
        return
    yield frame
    for at in range(1, len(tokens) - 1):
        before = tokens[at - 1]
        spool = _is_of_a_spool(tokens[at + 1], at) or _is_of_a_tube(frame, tokens[at + 1])
        if tokens[at].text == "x" and is_many(before) and spool:
            yield frame.take(at - 1, at + 1, packs=int(before.value))  # "2 x 100 m", "3 x 0.17"
            return
        if tokens[at].text != "x" or not is_many(tokens[at + 1]):
            continue
        if _is_packets_of(frame, at):
            number, held = int(before.value), int(tokens[at + 1].value)
            yield frame.take(at - 1, at + 2, packs=number, pack=held)  # "hooks 18 fine 2 x 10"
        if is_many(before) and run_at(tokens, at + 2, MARK_LETTERS):
            yield frame.take(at - 1, at + 1, count=int(before.value))
        elif frame.pack is not None:
            yield frame.take(at, at + 2, packs=int(tokens[at + 1].value))
        elif is_many(before) and before.value < 10 and not _names_measured(frame):
            continue  # "4 x 14" is a mark
        else:
            yield frame.take(at, at + 2, times=int(tokens[at + 1].value))
        return


def _is_packets_of(frame: Framing, at: int) -> bool:
    """Whether an "x" parts packets from what each holds: last of all, behind another number."""
    first, held = frame.tokens[at - 1], frame.tokens[at + 1]
    behind = at + 2 == len(frame.tokens) and any(t.kind == "number" for t in frame.tokens[: at - 1])
    in_packets = any(token.text.removesuffix("s") in IN_PACKETS for token in frame.tokens)
    mark = not in_packets and f"{first.text}×{held.text}" in POLE_MARKS
    likely = first.value <= min(MOST_SPOOLS, held.value) and held.value >= FEW
    return behind and not mark and is_many(first) and likely


def _names_measured(frame: Framing) -> bool:
    """Whether it is line or elastic, which have no mark like "4 x 14"."""
    return any(token.text in ON_SPOOLS for token in frame.tokens)


def _is_of_a_spool(token: Token, at: int) -> bool:
    """Whether it is a spool's length, or at the start of a phrase a line's thickness."""
    thick = "." in token.text and token.value < 1 and token.unit in ("", "mm")
    return token.unit in ("m", "yd") or (at == 1 and token.kind == "number" and thick)


def _is_of_a_tube(frame: Framing, token: Token) -> bool:
    """Whether it is how long each piece of tubing is: "silicone 0.5, 3 x 30 cm"."""
    return token.unit in ("cm", "in", "ft") and any(t.text in TUBES for t in frame.tokens)


def how_many_said(frame: Framing) -> Iterator[Framing]:
    """ "a dozen", "3 x", and a number at the start that may be a size instead."""
    if not frame.tokens:
        yield frame
        return
    for at, token in enumerate(frame.tokens):
        after, beyond = said_at(frame, at + 1), said_at(frame, at + 2)
        of_them = after == "of" and beyond == "them"
        of = of_them or after == "off" or (after == "of" and beyond == ",")
        if is_many(token) and of:  # "5 off 18 to 0.10", "4 of, cane tip"
            yield from _so_many(frame, at, at + 2 + of_them)
            return
    size = len(frame.tokens)
    dozens = [at for at, t in enumerate(frame.tokens) if at and t.lead == "count" and t.whole]
    if dozens:  # "18 to 0.10, a dozen"
        yield from _so_many(frame, dozens[0], dozens[0] + 1)
        return
    yield from _between_commas(frame)
    times = said_at(frame, size - 3) == "x"  # "4x12 left"
    behind = size > 1 and is_many(frame.tokens[-2]) and not times
    if behind and said_at(frame, size - 1) in ("of", "left", "x", "no"):
        yield from _so_many(frame, size - 2, size)  # "4x12 (10 of)", "dibber 0.2 g, 4x"
        return
    for at, (many, sized) in enumerate(pairwise(frame.tokens)):
        if at and is_many(many) and not many.lead and sized.lead == "size" and not sized.plural:
            yield from _so_many(frame, at, at + 1)  # "hooklengths, ten 16 to 0.12"
            return
    yield from _behind(frame)
    yield from _in_front(frame)
    for at, (many, named) in enumerate(pairwise(frame.tokens)):
        if at and is_many(many) and not many.lead and _is_plural(named):  # "1.5 oz 3 bombs"
            yield replace(frame, count=int(many.value)).take(at, at + 1)
            return


def _is_plural(token: Token) -> bool:
    word = token.text
    thing = token.kind == "word" and len(word) > 3 and word in vocabulary()
    return thing and word.endswith("s") and not word.endswith("ss")


def _so_many(frame: Framing, at: int, end: int) -> Iterator[Framing]:
    """So many of the thing, the tokens from ``at`` to ``end`` say: pieces, or spools of what is measured.

    Of what comes in packets of a number that is said, it is packets where "of" tells so.
    """
    number = int(frame.tokens[at].value)
    rest = frame.take(at, end)
    shot = any(t.lead == "no" or t.text in ("shot", "shots") for t in frame.tokens)
    if frame.vessel == "tub" and shot:  # "no 8 shot refill tub, two"
        yield replace(rest, packs=number)
    few = number <= MOST_SPOOLS
    if frame.pack is not None and few and said_at(frame, at + 1) == "of":  # "pkt of 10, 2 of"
        yield replace(rest, packs=number)
        return
    yield replace(rest, count=number)
    if number <= MOST_NAMED_SPOOLS:
        yield replace(rest, packs=number, spools=True)


def _stands_alone(frame: Framing, at: int) -> bool:
    apart = said_at(frame, at - 1) in (",", ";", ":") and said_at(frame, at + 1) in (",", ";")
    return at > 1 and apart and is_many(frame.tokens[at]) and not frame.tokens[at].lead


def _between_commas(frame: Framing) -> Iterator[Framing]:
    """A bare number alone in its clause: "dibbers 0.1 g, 5, yellow tips"."""
    alone = [at for at in range(len(frame.tokens)) if _stands_alone(frame, at)]
    if len(alone) == 1:  # more are a list: "BB, 1, 4, 6, 8"
        yield from _pieces_or_spools(frame, alone[0], behind=False)


def _behind(frame: Framing) -> Iterator[Framing]:
    """A bare number that stands last: "bombs half oz, eight", "insert 4BB (2)"."""
    end = len(frame.tokens) - (said_at(frame, len(frame.tokens) - 1) == ")")
    last = frame.tokens[end - 1]
    joined = said_at(frame, end - 2) in ("-", "x", "/", "to", "and", "+", "loaded")
    if end > 1 and is_many(last) and not last.lead and not joined:
        yield from _pieces_or_spools(frame, end - 1, behind=True)


def _pieces_or_spools(frame: Framing, at: int, *, behind: bool) -> Iterator[Framing]:
    """A bare number as so many pieces, a small one also as so many spools."""
    rest, number = frame.take(at, at + 1), int(frame.tokens[at].value)
    yield replace(rest, count=number, behind=behind)
    if number <= MOST_SPOOLS:
        yield replace(rest, packs=number, spools=True, loose=True)


def _first_number(frame: Framing) -> int:
    """Where a number stands in front, behind words that say nothing of any tackle."""
    for at, token in enumerate(frame.tokens):
        if token.kind == "number":
            return at
        if token.kind != "word" or (token.text in vocabulary() and token.text not in FILLERS):
            break
    return 0


def _in_front(frame: Framing) -> Iterator[Framing]:
    """ "a dozen", "3 x", "5 no hooklengths", "twelve 14s to 0.17"."""
    yield from _halves(frame)
    at = _first_number(frame)
    first = frame.tokens[at]
    if is_many(first) and said_at(frame, at + 1) == "no" and len(frame.tokens) > at + 2:
        beyond = frame.tokens[at + 2]  # "5 no hooklengths"; "5 no 4" is a number four
        named = beyond.kind == "word" and beyond.text not in ("barb", "eye")
        if named or beyond.lead == "size":
            yield from _so_many(frame, at, at + 2)
            return
    if said_at(frame, at + 1) in ("-", "/", "to") and first.lead != "count":  # "18 to", "18-20"
        yield frame
        return
    if is_many(first) and said_at(frame, at + 1) in SINGLY:  # "2 single hook 16 pack 10"
        yield replace(frame, count=int(first.value), told=True).take(at, at + 2)
        return
    start = 0 if said_at(frame, 0) == "a" else at
    counted = replace(frame, count=int(first.value)).take(start, at + 1) if is_many(first) else None
    if counted and first.lead == "count":
        yield counted
        return
    yield frame
    shot = any(token.text in ("shot", "shots") for token in frame.tokens)
    if not counted or (not shot and run_at(counted.tokens, 0, MARK_LETTERS)):  # "4 BB" is a mark
        return
    number, times = int(first.value), said_at(counted, 0) == "x"
    packets = replace(counted.take(0, 1) if times else counted, count=None, packs=number)
    if times and frame.pack is not None and number <= FEW:
        yield packets  # "2 x hook 10PK"
        return
    yield replace(counted, told=times)
    if times:
        yield from _so_many(frame, at, at + 2)  # "1 x elastic"
    if frame.pack is not None and counted.tokens:  # "1 swivel 16 pk 20"
        yield replace(packets, either=True)
    if number <= MOST_SPOOLS:
        yield replace(packets, spools=True, loose=True)


def _halves(frame: Framing) -> Iterator[Framing]:
    """ "2 1/2 oz bombs" may be two of half an ounce."""
    first = frame.tokens[0]
    many, _, part = first.text.partition(" ")
    fraction = re.fullmatch(r"\d+/\d+", part) and many.isdecimal() and int(many) > 1
    if fraction and any(token.text.endswith("s") for token in frame.tokens):
        half = replace(number(part), unit=first.unit)
        yield replace(frame, tokens=(half, *frame.tokens[1:]), count=int(many), either=True)
