"""Numbers that are a size or say how many, pieces or packets, what a float takes or how many they are."""

import re
from dataclasses import replace

from tacklebox.stock.naming.asking import asked
from tacklebox.stock.naming.counting import FEW
from tacklebox.stock.naming.described import (
    Described,
    Figure,
    Question,
    word,
)
from tacklebox.stock.naming.either.said import Either, bare, is_untold
from tacklebox.stock.naming.tokens import UNITS
from tacklebox.stock.naming.tries import usual_of
from tacklebox.stock.naming.turns import saying
from tacklebox.stock.naming.weights import BOMBS
from tacklebox.stock.tables import UNMARKED, Kind

COUNTED_HOOKS = (10, 12, 15, 20, 24, 25, 30)  # bare numbers that hooks come in
USUAL_SIZES = ("18", "16")  # of hooks that are counted and have none said
HOOK_SIZES = range(10, 26, 2)
SWIVEL_SIZES = range(6, 25, 2)
MOST_PACKETS = 20  # that "x 10" may be
MOST_FLOATS = 6  # of one kind that "3 AAA wagglers" may be
LIGHTEST_FEEDER = 15  # grams that are said without their unit
SHORT = 3  # words of "cage feeder 20"
_SAID_SIZE = saying(r"\b(?:size|sz|sizes)\b")
_NAMED_HOOKS = saying(r"\b(?:hooks|hks|trebles|singles)\b")
_FEW_IN_PACKET = saying(
    r"\b(?:pkts?|packets?|packs?|pks?|bags?)\s+(?P<many>[2-5])\b(?!\s*(?:of|[x×]))"
)
_SO_MANY_PACKETS = saying(
    r"\b(?P<many>\d{1,2})(?P<sized>s?)\s+(?P<packet>pkts?|pks?|packs?|packets?)\b"
)
_TIMES = saying(r"(?:[x×]\s*(?P<behind>\d{1,2})\b(?!\s*[x×./]))|(?:^(?P<before>\d{1,2})\s*[x×]\s)")
_TWO_SIZES = saying(r"(?<![\w./])(\d\d)\s*[x×]\s*(\d\d)(?:s\b)?(?![\w./])")
_MARKED = re.compile(r"(?P<many>[2-9])\s?(?P<each>AAA|AB|BB|SSG|No \d{1,2})")
_LOOSE_SHOT = saying(r"\b(?:loose|single|pieces?|pcs|left|of\s+them|spare)\b")
_TO_NYLON = saying(r"\bhooks?\s+to\s+nylon\b")
_FLOATS = saying(
    r"\b(?:wagglers|waggs|wags|floats|sticks|dibbers|onions|sliders|avons|quills|insert(?:s|ed)?\s+wagglers)\b"
)


def _size_or_count(text: str, made: Described) -> Question | None:
    """ "Caster hooks 20", "swivels 12"."""
    size = made.words_of("size")
    if made.kind not in (Kind.PART, Kind.HOOK) or not size.isdecimal() or int(size) < 2:
        return None
    if not is_untold(made) or _SAID_SIZE.search(text):
        return None
    if not re.search(rf"{_plural(made)}.*?{bare(size)}", text, re.IGNORECASE):
        return None
    without = {key: figure for key, figure in made.figures.items() if key != "size"}
    asks = f"Is {size} the size, or how many there are?"
    if made.kind is Kind.PART:
        so_many = replace(made, figures=without, count=int(size))
        return asked(text, "count", asks, [made, so_many])
    if made.kind is not Kind.HOOK or int(size) not in COUNTED_HOOKS:
        return None
    sized = [
        replace(made, figures={**without, "size": word(one)}, count=int(size))
        for one in USUAL_SIZES
    ]
    return asked(
        text, "count", f"{asks} Of so many, say their size, too.", [made, *sized], "size 18"
    )


def _plural(made: Described) -> str:
    """The things that are named, in the plural."""
    if made.kind is Kind.HOOK:
        return _NAMED_HOOKS.pattern
    names = "|".join(re.escape(one) for one in made.words_of("sort").split() if len(one) > SHORT)
    return rf"\b(?:{names or 'parts'})e?s\b"


def _held_or_packets(text: str, made: Described) -> Question | None:
    """ "Bushes 2.3 mm pkt 2" are two packets, or one of two."""
    found = _FEW_IN_PACKET.search(text)
    held = made.pack_size if made.pack and not made.pack.because else None
    if found is None or held != int(found["many"]) or made.packs or made.count:
        return None
    several = bool(re.search(r"(?:packets|pkts|packs)\s+\d", text, re.IGNORECASE))
    if made.kind not in (Kind.PART, Kind.HOOK) and not (made.kind is Kind.WEIGHT and several):
        return None
    return _pieces_or_packets(text, made, held)


def _size_or_held(text: str, made: Described) -> Question | None:
    """ "Swivels 12 pkt" are a packet of twelve, or one of size 12, or twelve packets; "10s pkt" likewise."""
    found = _SO_MANY_PACKETS.search(text)
    if found is None or made.kind is not Kind.PART or made.packs or made.count:
        return None
    many = int(found["many"])
    if made.words_of("size") == str(many) and found["sized"] and is_untold(made):
        without = {key: figure for key, figure in made.figures.items() if key != "size"}
        held = replace(made, figures=without, pack=Figure(many, str(many)))
        return asked(text, "pack", f"Is {many} the size, or what a packet holds?", [made, held])
    if made.pack_size != many or "size" in made.figures or found["packet"].endswith("s"):
        return None
    bare = replace(made, pack=usual_of(made))
    sized = replace(bare, figures={**made.figures, "size": word(str(many))})
    asks = f"Does a packet hold {many}, or is it the size, or how many packets?"
    return asked(text, "pack", asks, [made, sized, replace(bare, packs=many)])


def _times(text: str, made: Described) -> Question | None:
    """ "Hooks 16 x 10" are ten hooks, or ten packets."""
    found = _TIMES.search(text)
    if found is None or made.packs:
        return None
    bought = made.kind is Kind.HOOKLENGTH and found["behind"] and _TO_NYLON.search(text)
    if made.kind is not Kind.HOOK and not bought:
        return None
    many = int(found["behind"] or found["before"])
    held = made.pack_size if made.pack and not made.pack.because else None
    fewest = FEW if found["behind"] else 1  # "x 3" is asked already
    if not fewest < many <= MOST_PACKETS or many not in (made.count, held):
        return None
    if made.count and held:
        return None
    question = _pieces_or_packets(text, made, many)
    turned = the_other_way(text, made)
    return replace(question, readings=(*question.readings, turned)) if turned else question


def the_other_way(text: str, made: Described) -> Described | None:
    """ "12 x 16 pellet hooks" as sixteen of size 12, None where that is no other way of taking it."""
    found, size = _TWO_SIZES.search(text), made.words_of("size")
    if found is None or made.kind not in (Kind.HOOK, Kind.PART) or size not in found.groups():
        return None
    if not all(int(number) in HOOK_SIZES for number in found.groups()):
        return None
    other = found[1] if size == found[2] else found[2]
    turned = replace(made, figures={**made.figures, "size": word(other)}, count=int(size))
    return replace(turned, packs=None, pack=usual_of(turned))


def _pieces_or_packets(text: str, made: Described, many: int) -> Question:
    packets = replace(made, pack=usual_of(made), packs=many, count=None)
    return asked(text, "packs", f"{many} in all, or {many} packets?", [made, packets])


def _floats_or_mark(text: str, made: Described) -> Question | None:
    """ "3 AAA wagglers" are three of them, or each takes 3AAA."""
    marked = _MARKED.fullmatch(made.words_of("mark"))
    if made.kind is not Kind.FLOAT or made.count or marked is None or not _FLOATS.search(text):
        return None
    many, each = int(marked["many"]), marked["each"]
    spaced = re.search(
        rf"(?<![\w.]){many}\s+(?:[x×]\s+|(?:no|number)\b)|(?<![\w.]){many}\s*(?:[x×]\s*)no|(?<![\w.]){many}\s+(?=aaa|ab|bb|ssg|swan)",
        text,
        re.IGNORECASE,
    )
    if spaced is None or many > MOST_FLOATS:
        return None
    mark = f"1 {each}" if each.startswith("No") else f"1{each}"
    one = replace(made, figures={**made.figures, "mark": word(mark)}, count=many)
    asks = f"Does each take {made.words_of('mark')}, or are there {many} of them?"
    return asked(text, "count", asks, [made, one])


def _grams_or_count(text: str, made: Described) -> Question | None:
    """ "Bomb 15" weighs 15 g, or there are fifteen."""
    said = made.words_of("mass").removesuffix(" g")
    if made.kind is not Kind.FEEDER or not said.isdecimal() or not is_untold(made):
        return None
    light = int(said) < LIGHTEST_FEEDER and re.search(rf"{bare(said)}(?!\s*g)", text, re.I)
    if not light and len(text.split()) > SHORT:
        return None
    if not light and not re.search(rf"{bare(said)}$|^{said}\s+(?:bomb|lead)$", text, re.IGNORECASE):
        return None
    so_many = replace(made, figures={**made.figures, "mass": word(UNMARKED)}, count=int(said))
    usual = "1/2 oz" if made.words_of("shape") in BOMBS else "30 g"
    asks = f"Does one weigh {said} g, or are there {said} of them? Of so many, say the weight, too."
    return asked(text, "count", asks, [made, so_many], usual)


def _size_or_in_each(text: str, made: Described) -> Question | None:
    """ "2 packets 12 carp hooks" are of size 12, or hold twelve each."""
    size = made.words_of("size")
    of_hooks = made.kind in (Kind.HOOK, Kind.HOOKLENGTH)
    if not of_hooks or made.count or not made.pack or not made.pack.because:
        return None
    bare = rf"\b(?:packets?|packs?|pkts?|pks?)\s+(?:of\s+)?{size}\s+(?:[a-z]+\s+)*hook(?:s|\s?lengths)\b"
    if not size.isdecimal() or int(size) not in (*COUNTED_HOOKS, 6, 8):
        return None
    if not re.search(bare, text, re.IGNORECASE):
        return None
    held = Figure(int(size), size)
    sized = [
        replace(made, figures={**made.figures, "size": word(one)}, pack=held) for one in USUAL_SIZES
    ]
    asks = f"Is {size} the size, or what each packet holds? Of so many, say their size, too."
    return asked(text, "pack", asks, [made, *sized], "size 18")


def _hook_or_count(text: str, made: Described) -> Question | None:
    """ "Hooklengths 20 x 0.09" have a hook of size 20, or are twenty."""
    size = made.words_of("size")
    if made.kind is not Kind.HOOKLENGTH or not size.isdecimal() or not is_untold(made):
        return None
    first = rf"^{size}\s*[x×]\s*\d+\s*(?:\"|in|cm)"
    many = rf"^{size}\s+(?!to\b).*\b(?:hair\s+rigs|hook\s?lengths|h\s?/\s?l'?s)\b"
    if not re.search(rf"s\s+{size}\s*[x×]\s*0?\.\d|{first}|{many}", text, re.IGNORECASE):
        return None
    so_many = replace(made, figures={**made.figures, "size": word("18")}, count=int(size))
    asks = f"Is {size} the hook, or how many there are? Of so many, say the hook, too."
    return asked(text, "count", asks, [made, so_many], "size 18")


def _size_and_count(text: str, made: Described) -> Question | None:
    """ "10 x 12 swivels" are ten of size 12, or twelve of size 10."""
    size, many = made.words_of("size"), made.count
    if made.kind is not Kind.PART or not many or not size.isdecimal() or int(size) == many:
        return None
    if not re.search(rf"^{many}\s*[x×]\s*{size}\s+[a-z]", text, re.IGNORECASE) or many % 2:
        return None
    turned = replace(made, figures={**made.figures, "size": word(str(many))}, count=int(size))
    return asked(text, "count", f"Which is the size, {size} or {many}?", [made, turned])


def _size_and_packet(text: str, made: Described) -> Question | None:
    """ "Swivels 14 x 20" are twenty of size 14, or fourteen of size 20."""
    size, held = made.words_of("size"), made.pack_size if made.pack and not made.pack.because else 0
    if made.kind is not Kind.PART or not size.isdecimal() or not held or held % 2 or int(size) % 2:
        return None
    if made.packs or made.count or not re.search(rf"\b{size}\s*[x×]\s*{held}$", text):
        return None
    turned = replace(made, figures={**made.figures, "size": word(str(held))})
    turned = replace(turned, pack=usual_of(turned), count=int(size))
    return asked(text, "count", f"Which is the size, {size} or {held}?", [made, turned])


def _count_or_size(text: str, made: Described) -> Question | None:
    """ "Swivels - 12" are twelve of them, or of size 12."""
    many, sort = made.count or 0, made.words_of("sort")
    numbered = any(one in sort for one in ("swivel", "link"))
    if made.kind is not Kind.PART or "size" in made.figures or not numbered:
        return None
    if many not in SWIVEL_SIZES or not re.search(rf"\s[-–]\s*{many}$", text):
        return None
    sized = replace(made, figures={**made.figures, "size": word(str(many))}, count=None)
    return asked(text, "count", f"Is {many} the size, or how many there are?", [made, sized])


def _one_packet_or_many(text: str, made: Described) -> Question | None:
    """ "Pellet feeders 25 g 3pk" are one packet of three, or three packets."""
    found = re.search(r"(?<![\w.])([2-9])\s?(?:pk|pkt|pack)\b(?!\s+of)", text, re.IGNORECASE)
    if made.kind is not Kind.FEEDER or found is None or made.count != int(found.group(1)):
        return None
    packets = replace(made, packs=made.count, count=None)
    asks = f"{made.count} in all, or {made.count} packets?"
    return asked(text, "packs", asks, [made, packets])


def _count_or_two_sizes(text: str, made: Described) -> Question | None:
    """ "20 16s barbless" are twenty of size 16, or of both sizes."""
    size, many = made.words_of("size"), made.count or 0
    if made.kind is not Kind.HOOK or many not in HOOK_SIZES or not size.isdecimal():
        return None
    if not re.match(rf"{many}\s+{size}s\b", text, re.IGNORECASE):
        return None
    each = [
        replace(made, figures={**made.figures, "size": word(one)}, count=None)
        for one in (str(many), size)
    ]
    return asked(text, "count", f"{many} of size {size}, or hooks of both sizes?", [made, *each])


def _spelt_size(text: str, made: Described) -> Question | None:
    """ "Asst sizes one pack" has no size 1: a number in words is hardly a size."""
    size, _, rest = made.words_of("size").partition(" ")
    if made.kind is not Kind.PART or not size.isdecimal() or rest in UNITS:
        return None
    if size in re.findall(r"\d+", text):
        return None
    without = {key: figure for key, figure in made.figures.items() if key != "size"}
    packets = replace(made, figures=without, packs=int(size), count=None)
    so_many = replace(packets, packs=None, count=int(size))
    ways = [packets, *([] if made.packs or made.count else [so_many]), made]
    return asked(text, "packs", f"Is {size} its size, or how many packets?", ways)


def _inches_or_held(text: str, made: Described) -> Question | None:
    """ "Sleeves, 20 in" are twenty in a packet, or 20 inches long."""
    many, _, unit = made.words_of("size").partition(" ")
    long = unit.startswith("in") and many.isdecimal() and int(many) >= FEW
    boom = "boom" in made.words_of("sort")
    if made.kind is not Kind.PART or not long or boom or not (made.pack and made.pack.because):
        return None
    rest = unit.removeprefix("in").strip()
    figures = {key: figure for key, figure in made.figures.items() if key != "size"}
    figures |= {"size": word(rest)} if rest else {}
    held = replace(made, figures=figures, pack=Figure(int(many), many))
    asks = f"Does a packet hold {many}, or is it {many} inches long?"
    return asked(text, "pack", asks, [held, made])


def _shot_or_tubs(text: str, made: Described) -> Question | None:
    """ "No 9s for the pole, 2" are two shot, or two tubs."""
    loose = _LOOSE_SHOT.search(text)
    if made.words_of("form") != "shot" or not made.count or made.count > FEW or loose:
        return None
    tubs = replace(made, packs=made.count, count=None)
    return asked(text, "packs", f"{made.count} shot, or {made.count} tubs?", [tubs, made])


RULES: tuple[Either, ...] = (
    _inches_or_held,
    _shot_or_tubs,
    _size_or_in_each,
    _hook_or_count,
    _size_or_count,
    _held_or_packets,
    _size_or_held,
    _times,
    _floats_or_mark,
    _grams_or_count,
    _size_and_count,
    _count_or_two_sizes,
    _spelt_size,
    _size_and_packet,
    _count_or_size,
    _one_packet_or_many,
)
