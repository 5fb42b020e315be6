"""How many were named: packets, what one holds, pieces. A number may be that or a size, so that a
phrase has several framings, the likeliest first."""

from collections.abc import Iterator
from dataclasses import replace

from tacklebox.stock.naming.counting import (
    FEW,
    MOST_SPOOLS,
    Framing,
    how_many_said,
    is_many,
    said_at,
    times_said,
)
from tacklebox.stock.naming.lexicon import PACKETS, PIECES, SPOOLS, TUBS
from tacklebox.stock.naming.tokens import Token

OF_A_PACKET = frozenset(
    "bulk new full fresh more further other refill spare small wee little big large".split()
)
BEFORE_A_POT = ("pole", "cad", "toss", "feeding")
BEFORE_A_PLACE = ("in", "on", "from", "at", "for")
OF_HOOKS = ("eyed", "spade", "spades", "barbless", "barbed", "fine", "hook", "hooks")
USUALLY_HELD = (5, 6, 8, 10, 12, 15, 20, 25, 50, 100)
KEPT_IN_BOXES = frozenset("rig winder hooklength length hooklink bait tackle float feeder".split())


def framings(tokens: tuple[Token, ...]) -> list[Framing]:
    """Every way to take numbers as packets or pieces, the likeliest first."""
    said = {token.text for token in tokens if token.kind == "word"}
    vessel = "spool" if said & SPOOLS else "tub" if said & TUBS else ""
    frames = [Framing(tokens, vessel=vessel)]
    for rule in (
        _per_packet,
        _in_tens,
        _held_and_packets,
        _packets_of,
        _holding,
        _one_packet,
        times_said,
        how_many_said,
    ):
        frames = [made for frame in frames for made in rule(frame)]
    return frames


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
    before, word = said_at(frame, at - 1), said_at(frame, at)
    if before in BEFORE_A_POT:
        return True
    boxes = ("box", "tray", "boxes", "trays")
    if word in boxes and at == 0 and said_at(frame, 1) in KEPT_IN_BOXES:  # "box winder 18 cm"
        return True
    hooks = before == "hook" and word == "box" and frame.tokens[at - 1].kind == "word"
    return word in boxes and (hooks or before in KEPT_IN_BOXES) and said_at(frame, at + 1) != "of"


def _per_packet(frame: Framing) -> Iterator[Framing]:
    """ "10 per packet", "10 in a packet", "eight on the card", "six a pack", "a hundred in it"."""
    for at, token in enumerate(frame.tokens):
        end = at + 1
        joined = said_at(frame, end) in ("per", "in", "to", "on")
        if not is_many(token) or not (joined or said_at(frame, end) in ("a", "each")):
            continue
        end += joined
        one = said_at(frame, end)
        end += one in ("a", "the", "each", "every", "one")
        packet = end < len(frame.tokens) and _is_packet(frame.tokens[end])
        if packet or (joined and one in ("each", "it", "them")):
            yield frame.take(at, end + 1 if packet else end, pack=int(token.value))
            return
    yield frame


def _in_tens(frame: Framing) -> Iterator[Framing]:
    """ "Two packets of size 12, tens", "packets, 10s in each": what they hold, where the size is said so."""
    packets = any(_is_packet(token) for token in frame.tokens)
    sized = any(_is_size(frame, at) for at in range(len(frame.tokens)))
    sized |= packets and any(
        t.plural and t.whole and t.value not in USUALLY_HELD for t in frame.tokens
    )  # "24s long shank, 2 packets 15s"
    sized |= (
        packets and frame.tokens[0].whole and said_at(frame, 1) in OF_HOOKS
    )  # "16 eyed, tens, 3 packs"
    for at, token in enumerate(frame.tokens):
        end = at + 1 + (said_at(frame, at + 1) == "in")
        each = said_at(frame, end) == "each"
        usual = token.plural and not token.unit and not token.lead and token.value in USUALLY_HELD
        last = at + 1 == len(frame.tokens) or frame.tokens[at + 1].text in ("qty", ",")
        if usual and ((packets and each) or (sized and (last or _is_packet(frame.tokens[at - 1])))):
            yield frame.take(at, end + each if each else at + 1, pack=int(token.value))
            break
    yield frame


def _is_size(frame: Framing, at: int) -> bool:
    """Whether the number can be nothing but a size: "size 12", "hooks 16"."""
    token = frame.tokens[at]
    return token.lead == "size" or (token.whole and said_at(frame, at - 1) in ("hook", "hooks"))


def _held_and_packets(frame: Framing) -> Iterator[Framing]:
    """ "x 10 pack, 2 packs": what one holds, and how many they are."""
    named = [
        at
        for at, token in enumerate(frame.tokens[:-1])
        if is_many(token) and _is_packet(frame.tokens[at + 1]) and said_at(frame, at + 2) != "of"
    ]
    if len(named) == 2:
        held, many = named
        packet, packets = said_at(frame, held + 1), said_at(frame, many + 1)
        apart = packets.endswith("s") and not packet.endswith("s")
        if apart and frame.tokens[held].value > FEW and frame.tokens[many].value <= MOST_SPOOLS:
            rest = frame.take(many, many + 2, packs=int(frame.tokens[many].value))
            start = held - (said_at(frame, held - 1) == "x")
            yield rest.take(start, held + 2, pack=int(frame.tokens[held].value))
            return
    yield frame


def _packets_of(frame: Framing) -> Iterator[Framing]:
    """ "3 packets of", "two spools of", "3 x 100 m spools"; "20 pack" holds twenty."""
    for at, token in enumerate(frame.tokens):
        if not is_many(token):
            continue
        end = at + 1 + (said_at(frame, at + 1) in ("x", "of"))
        between = frame.tokens[end] if end < len(frame.tokens) else token
        apart = end > at + 1 or not at or token.value == 1 or said_at(frame, at - 1) in (",", ":")
        if between.kind == "number" and between.unit in ("m", "yd") and apart:
            end += 1  # "3 x 100 m spools", "one 50 yard spool"
        while end == at + 1 and said_at(frame, end) in OF_A_PACKET:
            end += 1  # "one bulk spool"
        following = said_at(frame, end)
        after = end + 1 + (said_at(frame, end + 1) == "of")
        beyond = frame.tokens[after] if after < len(frame.tokens) else None
        sized = any(t.lead == "size" or t.plural for t in frame.tokens[:at])
        bare = not token.lead and (sized or said_at(frame, at - 1) not in ("hook", "hooks"))
        one_of = token.value <= FEW and after > end + 1  # "beads 4 mm, one packet of 100"
        one_of |= token.value == 1 and bare  # "hooks 20, 1 packet 10"
        if beyond and is_many(beyond) and not following.endswith("s") and at and not one_of:
            continue  # "hook 16 pack 25"
        if following in PIECES:
            yield frame.take(at, end + 1, pack=int(token.value))
            return
        if following in PACKETS and at > 1 and said_at(frame, at - 1) == "x":
            yield _times_packets(frame, at, end)
            return
        if _holds_so_many(frame, at, end):
            number = int(token.value)
            few = number <= (MOST_SPOOLS if frame.pack is not None else FEW)
            if number == 1 or (few and _says_held(frame, at)):  # "pack of 8, 3pk"
                yield frame.take(at, end + 1, packs=number)
            elif number <= FEW:  # "2 pk" may be two of them
                yield frame.take(at, end + 1, times=number)
            else:
                yield frame.take(at, end + 1, pack=number)
            return
        if following in PACKETS:
            start = at - (said_at(frame, at - 1) == "x")  # "x 3 packets"
            last = at + 1 + (said_at(frame, at + 1) == "x" and end == at + 2)  # "2 x pkt"
            kept = frame.take(end, end + 1).take(start, last, packs=int(token.value))
            yield from _of_so_many(kept, frame.tokens[after:], after > end + 1)
            yield kept
            return
    yield frame


def _says_held(frame: Framing, at: int) -> bool:
    """Whether it is said before what one packet holds: "pack of 8"."""
    return frame.pack is not None or any(
        _is_packet(frame.tokens[n])
        and said_at(frame, n + 1) == "of"
        and is_many(frame.tokens[n + 2])
        for n in range(at - 2)
    )


def _times_packets(frame: Framing, at: int, end: int) -> Framing:
    """ "3 x 10 packs" are three of ten, "stops x3pk" three."""
    token, times = frame.tokens[at], frame.tokens[at - 2]
    if is_many(times) and times.value <= MOST_SPOOLS < 2 * token.value:
        return frame.take(at - 2, end + 1, packs=int(times.value), pack=int(token.value))
    return frame.take(at - 1, end + 1, packs=int(token.value))


def _of_so_many(kept: Framing, behind: tuple[Token, ...], of: bool) -> Iterator[Framing]:
    """ "Two packets of eight", where nothing but a sign follows, perhaps each hold eight; "8 hooks 14" do."""
    ends = len(behind) < 2 or behind[1].kind == "sign" or behind[1].text in BEFORE_A_PLACE
    named = len(behind) > 1 and behind[1].kind == "word" and behind[1].text.endswith("s")
    numbered = named and (len(behind) == 2 or any(token.kind == "number" for token in behind[2:]))
    if of and behind and is_many(behind[0]) and (ends or numbered):
        start = len(kept.tokens) - len(behind)
        yield kept.take(start - 1, start + 1, pack=int(behind[0].value), told=True)


def _holds_so_many(frame: Framing, at: int, end: int) -> bool:
    """Whether one packet holds so many: "a hundred box", "10 pk"; never "2 x pkt" or "3 pack of"."""
    one = said_at(frame, end) in PACKETS and not said_at(frame, end).endswith("s")
    counted = frame.tokens[at].lead == "count" or end > at + 1
    many = frame.tokens[at].value > FEW  # "3 pack of"; "20 pack of" is one
    return one and not counted and (many or said_at(frame, end + 1) != "of")


def _holding(frame: Framing) -> Iterator[Framing]:
    """ "packet of 10", "pack 10", "box of 100"; "pkt 18 spade" may be one packet of size 18."""
    for at, token in enumerate(frame.tokens):
        end = at + 1 + (said_at(frame, at + 1) == "of")
        one_of_two = said_at(frame, end + 1) in ("and", "to", "-", "/")  # "tub of 8 and 10"
        held = end < len(frame.tokens) and is_many(frame.tokens[end]) and not one_of_two
        if _is_packet(token) and held:
            of = end > at + 1
            number = int(frame.tokens[end].value)
            if number == 1 and not of:  # "2 in the feeder bag 1 in the jacket"
                continue
            tubs = said_at(frame, at) in TUBS and not of and number <= MOST_SPOOLS
            if tubs and said_at(frame, end + 1) in ("of", "off", "x", ""):  # "refill tub 2 of"
                yield frame.take(at, min(end + 2, len(frame.tokens)), packs=number)
                return
            yield frame.take(at, end + 1, pack=int(frame.tokens[end].value), told=of)
            yield replace(frame, told=of)
            return
    yield frame


def _one_packet(frame: Framing) -> Iterator[Framing]:
    """ "a packet of", "tub of" at the start is one of it."""
    at = 1 if said_at(frame, 0) in ("a", "one", "an") else 0
    tackle = _is_for_tackle(frame, at)
    if (
        frame.packs is None
        and not tackle
        and said_at(frame, at) in PACKETS
        and not said_at(frame, at).endswith("s")
    ):
        frame = frame.take(0, at + 1, packs=1)
    while (at := _first_packet(frame)) >= 0:  # "refill tub"
        frame = frame.take(at, at + 1)
    yield frame
