"""How many were named: packets, what one holds, pieces. A number may be that or a size, so that a
phrase has several framings, the likeliest first."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from itertools import pairwise

from tacklebox.stock.naming.hand import FILLERS, run_at
from tacklebox.stock.naming.lexicon import (
    MARK_LETTERS,
    PACKETS,
    PIECES,
    SPOOLS,
    TUBS,
    vocabulary,
)
from tacklebox.stock.naming.tokens import Token, number
from tacklebox.trade.floats import POLE_MARKS

MOST = 10_000
SINGLY = ("single", "loose")
MOST_SPOOLS = 12  # that a bare number may be
FEW = 5  # fewer are hardly in one packet
OF_A_PACKET = (
    "bulk",
    "new",
    "full",
    "fresh",
    "more",
    "further",
    "other",
    "refill",
    "spare",
    "small",
)
BEFORE_A_POT = ("pole", "cad", "toss", "feeding")
KEPT_IN_BOXES = (
    "rig",
    "winder",
    "hooklength",
    "length",
    "hooklink",
    "bait",
    "tackle",
    "float",
    "feeder",
)


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


Rule = Callable[[Framing], Iterator[Framing]]


def framings(tokens: tuple[Token, ...]) -> list[Framing]:
    """Every way to take numbers as packets or pieces, the likeliest first."""
    said = {token.text for token in tokens if token.kind == "word"}
    vessel = "spool" if said & SPOOLS else "tub" if said & TUBS else ""
    frames = [Framing(tokens, vessel=vessel)]
    for rule in (_per_packet, _packets_of, _holding, _one_packet, _times, _how_many):
        frames = [made for frame in frames for made in rule(frame)]
    return frames


def _is_many(token: Token) -> bool:
    return (
        token.whole and token.lead in ("", "count") and not token.plural and 0 < token.value <= MOST
    )


def _is_packet(token: Token) -> bool:
    return token.kind == "word" and token.text in PACKETS


def _first_packet(frame: Framing) -> int:
    """Where the first packet is named, -1 for none; a pole pot is none."""
    for at, token in enumerate(frame.tokens):
        if _is_packet(token) and not _is_for_tackle(frame, at):
            return at
    return -1


def _is_for_tackle(frame: Framing, at: int) -> bool:
    """Whether the pot is a pole's, or the box one that tackle is kept in: "winder box"."""
    before, word = _said(frame, at - 1), _said(frame, at)
    if before in BEFORE_A_POT:
        return True
    boxes = ("box", "tray", "boxes", "trays")
    if word in boxes and at == 0 and _said(frame, 1) in KEPT_IN_BOXES:  # "box winder 18 cm"
        return True
    hooks = before == "hook" and word == "box" and frame.tokens[at - 1].kind == "word"
    return word in boxes and (hooks or before in KEPT_IN_BOXES) and _said(frame, at + 1) != "of"


def _said(frame: Framing, at: int) -> str:
    return frame.tokens[at].text if 0 <= at < len(frame.tokens) else ""


def _per_packet(frame: Framing) -> Iterator[Framing]:
    """ "10 per packet", "10 in a packet", "eight on the card", "six a pack", "a hundred in it"."""
    for at, token in enumerate(frame.tokens):
        end = at + 1
        joined = _said(frame, end) in ("per", "in", "to", "on")
        if not _is_many(token) or not (joined or _said(frame, end) in ("a", "each")):
            continue
        end += joined
        one = _said(frame, end)
        end += one in ("a", "the", "each", "every", "one")
        packet = end < len(frame.tokens) and _is_packet(frame.tokens[end])
        if packet or (joined and one in ("each", "it", "them")):
            yield frame.take(at, end + 1 if packet else end, pack=int(token.value))
            return
    yield frame


def _packets_of(frame: Framing) -> Iterator[Framing]:
    """ "3 packets of", "two spools of", "3 x 100 m spools"; "20 pack" holds twenty."""
    for at, token in enumerate(frame.tokens):
        if not _is_many(token):
            continue
        end = at + 1 + (_said(frame, at + 1) in ("x", "of"))
        between = frame.tokens[end] if end < len(frame.tokens) else token
        apart = end > at + 1 or not at or token.value == 1 or _said(frame, at - 1) in (",", ":")
        if between.kind == "number" and between.unit in ("m", "yd") and apart:
            end += 1  # "3 x 100 m spools", "one 50 yard spool"
        while end == at + 1 and _said(frame, end) in OF_A_PACKET:
            end += 1  # "one bulk spool"
        following = _said(frame, end)
        after = end + 1 + (_said(frame, end + 1) == "of")
        beyond = frame.tokens[after] if after < len(frame.tokens) else None
        one_of = token.value <= FEW and after > end + 1  # "beads 4 mm, one packet of 100"
        if beyond and _is_many(beyond) and not following.endswith("s") and at and not one_of:
            continue  # "hook 16 pack 25"
        if following in PIECES:
            yield frame.take(at, end + 1, pack=int(token.value))
            return
        if following in PACKETS and at > 1 and _said(frame, at - 1) == "x":
            yield _times_packets(frame, at, end)
            return
        if _holds_so_many(frame, at, end):
            number = int(token.value)
            if number == 1:
                yield frame.take(at, end + 1, packs=1)
            elif number <= FEW:  # "2 pk" may be two of them
                yield frame.take(at, end + 1, times=number)
            else:
                yield frame.take(at, end + 1, pack=number)
            return
        if following in PACKETS:
            start = at - (_said(frame, at - 1) == "x")  # "x 3 packets"
            last = at + 1 + (_said(frame, at + 1) == "x" and end == at + 2)  # "2 x pkt"
            kept = frame.take(end, end + 1).take(start, last, packs=int(token.value))
            yield from _of_so_many(kept, frame.tokens[after:], after > end + 1)
            yield kept
            return
    yield frame


def _times_packets(frame: Framing, at: int, end: int) -> Framing:
    """ "3 x 10 packs" are three of ten, "stops x3pk" three."""
    token, times = frame.tokens[at], frame.tokens[at - 2]
    if _is_many(times) and times.value <= MOST_SPOOLS < 2 * token.value:
        return frame.take(at - 2, end + 1, packs=int(times.value), pack=int(token.value))
    return frame.take(at - 1, end + 1, packs=int(token.value))


def _of_so_many(kept: Framing, behind: tuple[Token, ...], of: bool) -> Iterator[Framing]:
    """ "Two packets of eight", where nothing but a sign follows, perhaps each hold eight."""
    if of and behind and _is_many(behind[0]) and (len(behind) < 2 or behind[1].kind == "sign"):
        start = len(kept.tokens) - len(behind)
        yield kept.take(start - 1, start + 1, pack=int(behind[0].value))


def _holds_so_many(frame: Framing, at: int, end: int) -> bool:
    """Whether one packet holds so many: "a hundred box", "10 pk"; never "2 x pkt" or "3 pack of"."""
    one = _said(frame, end) in PACKETS and not _said(frame, end).endswith("s")
    counted = frame.tokens[at].lead == "count" or end > at + 1
    many = frame.tokens[at].value > FEW  # "3 pack of"; "20 pack of" is one
    return one and not counted and (many or _said(frame, end + 1) != "of")


def _holding(frame: Framing) -> Iterator[Framing]:
    """ "packet of 10", "pack 10", "box of 100"; "pkt 18 spade" may be one packet of size 18."""
    for at, token in enumerate(frame.tokens):
        end = at + 1 + (_said(frame, at + 1) == "of")
        one_of_two = _said(frame, end + 1) in ("and", "to", "-", "/")  # "tub of 8 and 10"
        held = end < len(frame.tokens) and _is_many(frame.tokens[end]) and not one_of_two
        if _is_packet(token) and held:
            yield frame.take(at, end + 1, pack=int(frame.tokens[end].value))
            yield frame
            return
    yield frame


def _one_packet(frame: Framing) -> Iterator[Framing]:
    """ "a packet of", "tub of" at the start is one of it."""
    at = 1 if _said(frame, 0) in ("a", "one", "an") else 0
    tackle = _is_for_tackle(frame, at)
    if (
        frame.packs is None
        and not tackle
        and _said(frame, at) in PACKETS
        and not _said(frame, at).endswith("s")
    ):
        frame = frame.take(0, at + 1, packs=1)
    while (at := _first_packet(frame)) >= 0:  # "refill tub"
        frame = frame.take(at, at + 1)
    yield frame


def _times(frame: Framing) -> Iterator[Framing]:
    """ "hooks size 16 x 25", "wagglers 3 x 3AAA"; "4 x 14" is a mark, "18 x 20" may be a winder."""
    tokens = frame.tokens
    for at, token in enumerate(tokens[:-1]):
        if token.text in ("qty", "quantity") and _is_many(tokens[at + 1]):
            number = int(tokens[at + 1].value)
            said = {"packs": number} if frame.pack is not None else {"times": number}
            yield frame.take(at, at + 2, **said)
            return
    if _said(frame, 0) == "x" and len(tokens) > 2 and _is_many(tokens[1]):  # "x3 30 g feeders"
        yield frame.take(0, 2, count=int(tokens[1].value))
        return
    yield frame
    for at in range(1, len(tokens) - 1):
        before = tokens[at - 1]
        if tokens[at].text == "x" and _is_many(before) and _is_of_a_spool(tokens[at + 1], at):
            yield frame.take(at - 1, at + 1, packs=int(before.value))  # "2 x 100 m", "3 x 0.17"
            return
        if tokens[at].text != "x" or not _is_many(tokens[at + 1]):
            continue
        if _is_packets_of(frame, at):
            number, held = int(before.value), int(tokens[at + 1].value)
            yield frame.take(at - 1, at + 2, packs=number, pack=held)  # "hooks 18 fine 2 x 10"
        if _is_many(before) and run_at(tokens, at + 2, MARK_LETTERS):
            yield frame.take(at - 1, at + 1, count=int(before.value))
        elif frame.pack is not None:
            yield frame.take(at, at + 2, packs=int(tokens[at + 1].value))
        elif _is_many(before) and before.value < 10 and not _names_elastic(frame):
            continue  # "4 x 14" is a mark
        else:
            yield frame.take(at, at + 2, times=int(tokens[at + 1].value))
        return


def _is_packets_of(frame: Framing, at: int) -> bool:
    """Whether an "x" parts packets from what each holds: last of all, behind another number."""
    first, held = frame.tokens[at - 1], frame.tokens[at + 1]
    behind = at + 2 == len(frame.tokens) and any(t.kind == "number" for t in frame.tokens[: at - 1])
    mark = f"{first.text}×{held.text}" in POLE_MARKS
    return behind and not mark and _is_many(first) and first.value <= MOST_SPOOLS < 2 * held.value


def _names_elastic(frame: Framing) -> bool:
    return any(token.text in ("elastic", "elastics", "latex") for token in frame.tokens)


def _is_of_a_spool(token: Token, at: int) -> bool:
    """Whether it is a spool's length, or at the start of a phrase a line's thickness."""
    thick = "." in token.text and token.value < 1 and token.unit in ("", "mm")
    return token.unit in ("m", "yd") or (at == 1 and token.kind == "number" and thick)


def _how_many(frame: Framing) -> Iterator[Framing]:
    """ "a dozen", "3 x", and a number at the start that may be a size instead."""
    if not frame.tokens:
        yield frame
        return
    for at, token in enumerate(frame.tokens):
        if _is_many(token) and [_said(frame, at + n) for n in (1, 2)] == ["of", "them"]:
            yield from _so_many(frame, at, at + 1, at + 3)
            return
    size = len(frame.tokens)
    dozens = [at for at, t in enumerate(frame.tokens) if at and t.lead == "count" and t.whole]
    if dozens:  # "18 to 0.10, a dozen"
        yield from _so_many(frame, dozens[0], dozens[0] + 1, dozens[0] + 1)
        return
    times = _said(frame, size - 3) == "x"  # "4x12 left"
    behind = size > 1 and _is_many(frame.tokens[-2]) and not times
    if behind and _said(frame, size - 1) in ("of", "left", "x"):
        yield from _so_many(frame, size - 2, size - 1, size)  # "4x12 (10 of)", "dibber 0.2 g, 4x"
        return
    for at, (many, sized) in enumerate(pairwise(frame.tokens)):
        if at and _is_many(many) and not many.lead and sized.lead == "size" and not sized.plural:
            yield from _so_many(frame, at, at + 1, at + 1)  # "hooklengths, ten 16 to 0.12"
            return
    yield from _behind(frame)
    yield from _in_front(frame)


def _so_many(frame: Framing, at: int, after: int, end: int) -> Iterator[Framing]:
    """So many of the thing, the tokens from ``at`` to ``end`` say: pieces, or spools of what is measured.

    Of what comes in packets of a number that is said, it is packets where "of" tells so.
    """
    number = int(frame.tokens[at].value)
    rest = frame.take(at, end)
    if frame.pack is not None and _said(frame, after) == "of":  # "pkt of 10, 2 of"
        yield replace(rest, packs=number)
        return
    yield replace(rest, count=number)
    yield replace(rest, packs=number, spools=True)


def _behind(frame: Framing) -> Iterator[Framing]:
    """A bare number that stands last: "bombs half oz, eight", "insert 4BB (2)"."""
    end = len(frame.tokens) - (_said(frame, len(frame.tokens) - 1) == ")")
    last = frame.tokens[end - 1]
    joined = _said(frame, end - 2) in ("-", "x", "/", "to", "and", "+")
    if end > 1 and _is_many(last) and not last.lead and not joined:
        rest = frame.take(end - 1, end)
        yield replace(rest, count=int(last.value), behind=True)
        if last.value <= MOST_SPOOLS:
            yield replace(rest, packs=int(last.value), spools=True, loose=True)


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
    if _is_many(first) and _said(frame, at + 1) == "no" and len(frame.tokens) > at + 2:
        beyond = frame.tokens[at + 2]  # "5 no hooklengths"; "5 no 4" is a number four
        if beyond.kind == "word" and beyond.text not in ("barb", "eye"):
            yield replace(frame, count=int(first.value)).take(at, at + 2)
            return
    if _said(frame, at + 1) in ("-", "/", "to") and first.lead != "count":  # "18 to", "18-20"
        yield frame
        return
    if _is_many(first) and _said(frame, at + 1) in SINGLY:  # "2 single hook 16 pack 10"
        yield replace(frame, count=int(first.value), told=True).take(at, at + 2)
        return
    start = 0 if _said(frame, 0) == "a" else at
    counted = (
        replace(frame, count=int(first.value)).take(start, at + 1) if _is_many(first) else None
    )
    if counted and first.lead == "count":
        yield counted
        return
    yield frame
    shot = any(token.text in ("shot", "shots") for token in frame.tokens)
    if not counted or (not shot and run_at(counted.tokens, 0, MARK_LETTERS)):  # "4 BB" is a mark
        return
    number, times = int(first.value), _said(counted, 0) == "x"
    packets = replace(counted.take(0, 1) if times else counted, count=None, packs=number)
    if times and frame.pack is not None and number <= FEW:
        yield packets  # "2 x hook 10PK"
        return
    yield replace(counted, told=times)
    if times:
        yield from _so_many(frame, at, at + 1, at + 2)  # "1 x elastic"
    if frame.pack is not None and counted.tokens:  # "1 swivel 16 pk 20"
        yield replace(packets, either=True)
    if number <= MOST_SPOOLS:
        yield replace(packets, spools=True, loose=True)


def _halves(frame: Framing) -> Iterator[Framing]:
    """ "2 1/2 oz bombs" may be two of half an ounce."""
    first = frame.tokens[0]
    many, _, part = first.text.partition(" ")
    if (
        "/" in part
        and many.isdecimal()
        and int(many) > 1
        and any(t.text.endswith("s") for t in frame.tokens)
    ):
        half = replace(number(part), unit=first.unit)
        yield replace(frame, tokens=(half, *frame.tokens[1:]), count=int(many), either=True)
