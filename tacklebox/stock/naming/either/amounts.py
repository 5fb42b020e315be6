"""How many there are, where words say it that went into no figure: "a few", "bit of it left", "3 of them"
in a note; and how long line is that was said to weigh so much."""

from dataclasses import replace

from tacklebox.stock.naming.asking import asked
from tacklebox.stock.naming.described import Described, Question, diameter, length
from tacklebox.stock.naming.either.said import Either, is_one_packet
from tacklebox.stock.naming.notes import with_note
from tacklebox.stock.naming.numbers import count_of
from tacklebox.stock.naming.tries import usual_of
from tacklebox.stock.naming.turns import LENGTH, MANY, PACKETS, saying
from tacklebox.stock.tables import MEASURED_KINDS, Kind

_VAGUE = saying(
    r"\b(?:a\s+few|few|bits?\s+of(?=.*\bleft\b)|bit\s+left|some\s+left|remnants?|remains|dregs|end\s+of\s+an?)\b"
)
_LENGTH_LEFT = saying(rf"^(?!.*\bspool\b).*{LENGTH}\b[^,]*\bleft\b")
_LEFT = saying(r"\bleft\b")
_COUNTED_NOTE = saying(rf"\b(?P<many>{MANY})\s+(?:of\s+(?:them|em|these|those)\b|loose\b)")
_PACKETS_NOTED = saying(rf"\b(?P<many>{MANY})(?:\s+and\s+a\s+half)?\s+{PACKETS}\b")
_DAMAGED = saying(rf"\b(?P<many>{MANY})\s+(?:are\s+|is\s+)?(?:cracked|broken?|snapped)$")
_IN_USE = saying(rf"\b(?P<many>{MANY})\s+(?:are\s+|in\s+)?used?\b")
_IN_BOX = saying(r"(?:,\s*|\()(?P<where>(?:[a-z]+\s+)?(?:box|bag|tin|tub)\s+(?P<number>[1-9]))\)?$")
_TIMES_NOTED = saying(r"(?<![\d\w] )\bx\s?(\d{1,2})$")
MOST_SPOOLS = 25
_SPOOLS = saying(r"\b(?:spools?|reels?|packs?|packets?|pkts?|boxes|lengths?|off|of\s+them)\b")
_THICK = saying(r"(?<![\d.])0?\.[0-6]\d{1,2}(?!\d)")
DEAREST_CENTS = 5000  # of a packet of small tackle
_ANY_NUMBER = saying(r"\d+")
_WEIGHED_SPOOL = saying(r"^[\d./\s]+\s*(?:oz|lb)$")


def _how_much_left(text: str, made: Described) -> Question | None:
    """ "Bit of 0.10 left on a 50 m spool", "styls no 9, few"."""
    told = made.count is not None or made.left is not None or made.packs is not None
    vague = _VAGUE.search(text)
    told |= bool(_LENGTH_LEFT.search(text)) and made.kind in MEASURED_KINDS
    if told or not (vague or _LEFT.search(text)) or "left" in made.note or "few" in made.note:
        return None
    noted = with_note(made, " ".join(vague.group().split()) if vague else "some left")
    like = "20 m left" if made.kind in MEASURED_KINDS else "4 left"
    return asked(text, "left", "How much of it is left?", noted.readings, like)


def _counted_in_note(text: str, made: Described) -> Question | None:
    """A number that counts must not be in the note alone: "3 loose ones left"."""
    found = _COUNTED_NOTE.search(made.note)
    if found is None or made.count is not None or made.packs is not None:
        return None
    many = count_of(found["many"])
    if many < 1 or made.kind in MEASURED_KINDS:
        return None
    asks = f'Does "{found.group()}" say how many there are?'
    return asked(text, "count", asks, [replace(made, count=many), made])


def _packets_in_note(text: str, made: Described) -> Question | None:
    """So many packets must not be in the note alone: "10 to a pack, got two and a half packs"."""
    found = _PACKETS_NOTED.search(made.note)
    if found is None or not is_one_packet(made) or count_of(found["many"]) < 1:
        return None
    many, half = count_of(found["many"]), "half" in found.group()
    each = [replace(made, packs=many)]
    if half and made.pack_size and not made.measured:
        each = [replace(made, count=many * made.pack_size + made.pack_size // 2)]
    asks = f'Does "{found.group()}" say how many there are?'
    return asked(text, "count", asks, [*each, made])


def _how_long(text: str, made: Described) -> Question | None:
    """ "4 oz spool of 6 lb line" says how heavy the line is, and not how long."""
    weighed = any(_WEIGHED_SPOOL.match(note) for note in made.note.split(", "))
    if made.kind is not Kind.LINE or not weighed or not made.pack or not made.pack.because:
        return None
    asks = f"How long is it? {made.pack.words} would be assumed."
    return asked(text, "pack", asks, [made], "300 m")


def _still_there(text: str, made: Described) -> Question | None:
    """ "Winders x 10, 2 cracked" are eight, or ten of which two are cracked."""
    found = _DAMAGED.search(text) or (_IN_USE.search(text) if made.kind is Kind.WINDER else None)
    if found is None or made.count is None:
        return None
    many, before = count_of(found["many"]), _ANY_NUMBER.findall(text[: found.start()])
    if str(made.count + many) not in before:
        return None
    whole = replace(made, count=made.count + many)
    asks = f'Are "{found.group()}" still there?'
    return asked(text, "count", asks, [*with_note(whole, found.group()).readings, made])


def _how_long_a_leader(text: str, made: Described) -> Question | None:
    """ "Shock leader 10 lb tapered, 5 off" are five leaders, and hardly spools."""
    told = made.pack is not None and not made.pack.because
    if (
        made.kind is not Kind.LINE
        or "leader" not in made.words_of("sort")
        or told
        or not made.packs
    ):
        return None
    asks = f"How long is each? {made.pack.words if made.pack else ''} would be assumed."
    return asked(text, "pack", asks, [made], "15 m")


def _times_in_note(text: str, made: Described) -> Question | None:
    """So many must not be in the note alone: "x4" behind the name of a maker."""
    found = _TIMES_NOTED.search(made.note)
    if found is None or made.count is not None or made.packs is not None or made.measured:
        return None
    note = " ".join(_TIMES_NOTED.sub("", made.note).split())
    asks = f'Does "{found.group()}" say how many there are?'
    return asked(text, "count", asks, [replace(made, count=int(found[1]), note=note), made])


def kept_in(text: str, made: Described) -> Described | None:
    """What is kept in "box 4" where that was taken for what a packet holds."""
    found = _IN_BOX.search(text)
    if found is None or not made.pack or made.pack.because or made.pack.words != found["number"]:
        return None
    note = ", ".join(filter(None, (made.note, found["where"])))
    return replace(made, pack=usual_of(made), note=note)


def _box_or_packet(text: str, made: Described) -> Question | None:
    """ "Hooks 16, box 4" are in that box, or four in one."""
    if not (other := kept_in(text, made)):
        return None
    asks = f"Does one hold {made.pack_size}, or is that where it is kept?"
    return asked(text, "pack", asks, [other, made])


def _dear(text: str, made: Described) -> Question | None:
    """A packet of hooks at a hundred pounds is hardly what he paid."""
    small = made.kind in (Kind.HOOK, Kind.PART, Kind.WEIGHT, Kind.FEEDER, Kind.HOOKLENGTH)
    if not small or (made.price_cents or 0) <= DEAREST_CENTS:
        return None
    price = f"£{(made.price_cents or 0) / 100:.2f}"
    bare = with_note(replace(made, price_cents=None), price)
    return asked(text, "price", f"Is {price} its price?", [made, *bare.readings])


def _many_spools(text: str, made: Described) -> Question | None:
    """ "3 lb line x 150" is hardly 150 spools, but so many metres or yards."""
    many = made.packs or 0
    if not made.measured or many < MOST_SPOOLS or _SPOOLS.search(text):
        return None
    told = made.pack is not None and not made.pack.because
    one = replace(made, packs=None)
    lengths = [replace(one, pack=length(f"{many} {unit}")) for unit in ("m", "yd")]
    asks = f"{many} spools, or how long is it?"
    return asked(text, "pack", asks, [*([] if told else lengths), made])


def _thick_in_note(text: str, made: Described) -> Question | None:
    """A line's thickness must not be in the note alone: "5 lb (0.20 nominal)"."""
    found = _THICK.search(made.note)
    if made.kind is not Kind.LINE or "diameter" in made.figures or found is None:
        return None
    figures = {**made.figures, "diameter": diameter(found.group())}
    thick = replace(made, figures=figures)
    untold = made.pack is None or bool(made.pack.because)
    thick = replace(thick, pack=usual_of(thick)) if untold else thick
    return asked(text, "diameter", f"Is it {found.group()} mm thick?", [thick, made])


RULES: tuple[Either, ...] = (
    _many_spools,
    _thick_in_note,
    _dear,
    _times_in_note,
    _box_or_packet,
    _still_there,
    _how_much_left,
    _counted_in_note,
    _packets_in_note,
    _how_long_a_leader,
    _how_long,
)
