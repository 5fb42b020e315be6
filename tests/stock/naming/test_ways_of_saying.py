"""Every sort of thing, said to be so many in every way that anglers say it: what is taken at once is right,
and where it is asked the right reading is offered.

What is meant stands beside each way of saying it, so nothing here is what the code answered. The ways are
those that strangers used when they wrote what is in their boxes; common practice.
"""

from collections.abc import Callable, Mapping
from itertools import permutations
from typing import TypeVar

from tacklebox.errors import AskedWronglyError
from tacklebox.stock.naming.described import Described
from tacklebox.stock.naming.reading import read
from tacklebox.stock.naming.writing import write_with_pack

Meant = TypeVar("Meant")
Figure = tuple[str, str, str]
# Each with its kind and the figure that must stay what it is.
PIECES = {
    "size 14 swivels": ("part", "size", "14"),
    "4mm bait bands": ("part", "size", "4 mm"),
    "small float stops": ("part", "size", "small"),
    "medium quick change beads": ("part", "size", "medium"),
    "link swivels size 12": ("part", "size", "12"),
    "plummets 20g": ("part", "size", "20 g"),
    "18 barbless spade hooks": ("hook", "size", "18"),
    "size 16 wide gape hooks": ("hook", "size", "16"),
    "16 to 0.12 hooklengths": ("hooklength", "size", "16"),
    "30g cage feeders": ("feeder", "mass", "30 g"),
    "1/2oz bombs": ("feeder", "mass", "1/2 oz"),
    "1 1/2 oz flat leads": ("feeder", "mass", "1 1/2 oz"),
    "4x12 pole floats": ("float", "mark", "4×12"),
    "3AAA insert wagglers": ("float", "mark", "3AAA"),
    "0.4g pole floats": ("float", "mark", "0.4 g"),
    "0.5g olivettes": ("weight", "mass", "0.5 g"),
    "18cm winders": ("winder", "length", "18 cm"),
}
SO_MANY = {
    3: "{} x3|{} x 3|{}, 3 off|{} (3)|{} - 3 of|3 x {}|3 {}|three {}|{}, three|{}, 3 left|{}, 3 of them"
    "|got 3 {}|{} qty 3|{} 3 no|{}: 3|{} and 2 spares|{} box 2, x3|{} 3 in drawer 4|{} 3 from 1998",
    2: "{}, a couple|a pair of {}|{} pair|{} both of them|{} plus a spare|{} + one spare",
    6: "{}, half a dozen|half a dozen {}|packet of 10 {}, 4 used",
    7: "{}, bag of ten, seven left",
    8: "{} pkt of 10, 2 missing",
    10: "{} pack of 10|{} pk10|{} pk 10|{}, 10 in a packet",
    12: "{} x2 packs of 6|{}, 2pk x 6|{} 2 pks (6)|pkt {}, twelve in there",
    14: "{} 1 full pkt of 10 and 4 loose|{} pkt 10 + 4 loose",
    20: "2 packs of 10 {}|{} 2 packs of 10|{}, 2 pkts of 10|2 packets {}, 10 in each|{} 10 per pack, 2 packs"
    "|{} pack of 10 x2|{} 2 x 10|{} 2x10pk|{} bag of 10, 2 bags|2x pack of 10 {}|two bags of ten {}",
    23: "2 unopened packs of 10 {} and 3 loose",
    25: "{} 10 to a pack, got two and a half packs",
}
# What is said beside it, of which nothing says how many there are.
BESIDE = (
    "for the canal|in the blue box|bought last week|mate gave me them|never used|good for F1s|drawer 2"
    "|for peg 12|need more|one bent|old stock|spare|from the shop in town|for 2 rods|cost a bomb|love em"
    "|from 1998|in tobacco tin 3|river index R7|made '86"
    "|nearly new|going rusty|christmas present from our lass"
)
SAID_WITH_IT = {
    3: "{} x3|3 {}",
    12: "{} x2 packs of 6",
}
SPOOLS = {
    "6lb nylon": ("line", "strain", "6 lb"),
    "0.14mm nylon": ("line", "diameter", "0.14 mm"),
    "0.12 fluoro": ("line", "diameter", "0.12 mm"),
    "8lb braid": ("line", "strain", "8 lb"),
    "size 10 hollow elastic": ("elastic", "grade", "10"),
    "no 5 elastic": ("elastic", "grade", "5"),
}
# How many spools of 100 m, and how much is left where that is not all, in m.
OF_100_M = {
    (1, None): "{} 100m|100m {}",
    (
        2,
        None,
    ): "2 spools {} 100m|{} 2 x 100m|{}, 100m spool, 2 of|2 x 100m {}|two 100m spools of {}|{} 100m x2"
    "|{} 100 metres, two spools",
    (1, 50): "{} 100m, half left|half a 100m spool of {}",
    (1, 40): "{}, 40m left of 100m",
    (1, 70): "{} 100m spool, about 30m used",
    (1, 75): "{} 100m, quarter gone",
    (1, 60): "{} spool of 100m, opened, 60m left",
    (1, 20): "{} 100m, only 20m on it",
}
# Price of each in pence, of three.
PRICED = {
    120: "{} x3 £1.20 each|3 {} at £1.20 each|{}, 3 of, £1.20 ea|{} £1.20 each, 3 of them"
    "|three {} £3.60 the lot|3 {}, £3.60 for all three|{} 3 @ 120p|{} paid 3.60 for the three"
    "|{} 3 no. @ £1.20 = £3.60|{} x3 3.60 all three|{} £3.60 for the three",
    85: "3 {} 85p each|{} 85p, got 3",
}
# Two things at once, three of one and two of the other.
TWO_THINGS = (
    *("3 {} and 2 {}", "{} x3, {} x2", "{} x3 and {} x2", "3 {}, 2 {}", "three {} and two {}"),
    *("3 x {} + 2 x {}", "{} (3) and {} (2)"),
    *("{} 3 off, {} 2 off", "{}, three, and {}, two", "{} x3 {} x2", "{} (3), {} (2)"),
)
TWO_OF_EACH = ("{} and {}, 2 of each", "{} & {} - 2 of each", "{} + {}, two of each")
# One thing in three sizes.
LISTED = {
    "cage feeders": ("feeder", "mass", "20 g|30 g|40 g"),
    "bombs": ("feeder", "mass", "1/4 oz|1/2 oz|3/4 oz"),
    "olivettes": ("weight", "mass", "0.3 g|0.5 g|1 g"),
    "pole floats": ("float", "mark", "4×10|4×12|4×14"),
    "swivels": ("part", "size", "10|12|14"),
    "barbless hooks": ("hook", "size", "16|18|20"),
    "hollow elastic": ("elastic", "grade", "8|10|12"),
    "bait bands": ("part", "size", "3 mm|4 mm|5 mm"),
}
# What there is of each of the three, 0 where nobody says it.
OF_EACH = {
    (
        0,
        0,
        0,
    ): "{t} {a}, {b} and {c}|{t} {a} {b} {c}|{t} {a}/{b}/{c}|{t}: {a}, {b}, {c}|{a}, {b} and {c} {t}"
    "|{t} {a}, {b}, {c}, one of each",
    (2, 2, 2): "{t} {a}, {b} and {c}, two of each|2 each of {a}, {b} and {c} {t}",
    (2, 1, 3): "{t} {a} x2, {b} x1, {c} x3|{t}, 2 x {a}, 1 x {b}, 3 x {c}",
}


def test_two_things_at_once() -> None:
    some = [*PIECES][2::4]  # part, hook, feeder, float
    found = []
    for one, other in permutations(some, 2):
        for way in TWO_THINGS:
            readings = readings_of(phrase := way.format(one, other))
            for thing, many in ((one, 3), (other, 2)):
                meant = [made for made in readings if is_meant(made, PIECES[thing])]
                if not any(pieces(made, many) or made.packs == many for made in meant):
                    found.append(f"{phrase}: {', '.join(map(write_with_pack, readings))}")
    assert found == []


def test_two_of_each() -> None:
    found = []
    for one, other in permutations([*PIECES][2::4], 2):
        for way in TWO_OF_EACH:
            readings = readings_of(phrase := way.format(one, other))
            for thing in (one, other):
                meant = [made for made in readings if is_meant(made, PIECES[thing])]
                if not any(pieces(made, 2) or made.packs == 2 for made in meant):
                    found.append(f"{phrase}: {', '.join(map(write_with_pack, readings))}")
    assert found == []


def test_one_thing_in_three_sizes() -> None:
    found = []
    for thing, (kind, key, sizes) in LISTED.items():
        for many, said in OF_EACH.items():
            for way in said.split("|"):
                plain = [size.replace(" ", "").replace("×", "x") for size in sizes.split("|")]
                phrase = way.format(t=thing, **dict(zip("abc", plain, strict=True)))
                readings = readings_of(phrase)
                for size, of in zip(sizes.split("|"), many, strict=True):
                    meant = [made for made in readings if is_meant(made, (kind, key, size))]
                    if not any(not of or pieces(made, of) or made.packs == of for made in meant):
                        found.append(f"{phrase}: {', '.join(map(write_with_pack, readings))}")
    assert found == []


def test_so_many() -> None:
    some = {thing: PIECES[thing] for thing in [*PIECES][::2]}
    assert faults(SO_MANY, some, pieces) == []


def test_so_many_with_something_said_beside_it() -> None:
    ways = {
        many: "|".join(
            f"{way}, {more}" for way in said.split("|") for more in BESIDE.split("|")[::2]
        )
        for many, said in SAID_WITH_IT.items()
    }
    some = {
        thing: PIECES[thing]
        for thing in {kind: thing for thing, (kind, *_) in PIECES.items()}.values()
    }
    assert faults(ways, some, pieces) == []


def test_so_many_spools_and_what_is_left() -> None:
    assert faults(OF_100_M, SPOOLS, spools) == []


def test_what_each_cost() -> None:
    loose = {thing: figure for thing, figure in PIECES.items() if figure[0] != "hooklength"}
    assert faults(PRICED, loose, price) == []


def faults(
    ways: Mapping[Meant, str],
    things: Mapping[str, Figure],
    says: Callable[[Described, Meant], bool],
) -> list[str]:
    """The phrases of which no reading is what is meant, with what they were read as."""
    found = []
    for thing, figure in things.items():
        for meant, said in ways.items():
            for phrase in (way.format(thing) for way in said.split("|")):
                readings = readings_of(phrase)
                if not any(is_meant(one, figure) and says(one, meant) for one in readings):
                    found.append(f"{phrase}: {', '.join(map(write_with_pack, readings))}")
    return found


def readings_of(phrase: str) -> tuple[Described, ...]:
    """What was taken at once, alone, or all that is offered."""
    try:
        return read(phrase).readings
    except AskedWronglyError:
        return ()


def is_meant(made: Described, figure: Figure) -> bool:
    kind, key, words = figure
    return str(made.kind) == kind and made.words_of(key) == words


def pieces(made: Described, many: int) -> bool:
    """So many pieces, or so many packets of which nobody says what they hold."""
    held = made.pack_size if made.pack and not made.pack.because else 1
    in_all = made.count if made.count is not None else (made.packs or 1) * (held or 1)
    return in_all == many


def spools(made: Described, meant: tuple[int, int | None]) -> bool:
    left = round(float(made.left.value) / 1000) if made.left else None
    return ((made.packs or 1), left) == meant and made.pack_size == 100_000


def price(made: Described, pence: int) -> bool:
    return made.price_cents == pence
