"""What is reckoned from two numbers of a phrase: packets and loose ones, made and lost, bought and free,
long when new and cut off. Each takes what its rule found."""

import re

from tacklebox.stock.naming.numbers import count_of
from tacklebox.stock.naming.plainly.rules import Rules, rules
from tacklebox.stock.naming.turns import FEW, LENGTH, PACKET


def all_of_them(found: re.Match[str]) -> str:
    """ "3 good uns and 1 with the link gone" as four of them."""
    many = count_of(found["good"]) + count_of(found["more"])
    return f", {many} of them (note: {found['more']} {found['note']})"


def one_free(found: re.Match[str]) -> str:
    """ "bought five packets, got 1 free" are six."""
    return f"{count_of(found[1]) + 1} {found[2]}"


def so_many_more(found: re.Match[str]) -> str:
    """ "got 2 and another 2" are four."""
    return f"got {count_of(found[1]) + count_of(found[2])} of them"


def half_of_so_long(found: re.Match[str]) -> str:
    """ "about half left, call it 500m" is half of 1000 m."""
    of_it = f"about half left of {2 * int(found['left'])} {found['unit']}"
    said = re.search(r"\d\s*(?:m|mtrs?|metres?|yds?|yards?)\b", found.string[: found.start()])
    return "about half left" if said else f"{of_it}"


def when_new(found: re.Match[str]) -> str:
    """ "was 600m when new so call it 300 left": what is left is said once."""
    is_half = re.search(r"\bhalf\b", found.string[: found.start()], re.IGNORECASE)
    return found[1] if is_half else f"{found[1]}, {found[2]}m left"


def so_much_left(found: re.Match[str]) -> str:
    """ "spool was 50m but id say 20 left on it" by what it held and what is left."""
    unit = re.sub(r"[\d\s]", "", found[1])
    return f"{found[1]}, {found[2]} {found[3] or unit} left"


def some_rigged(found: re.Match[str]) -> str:
    """ "5 rigged up and 2 bare" are seven."""
    many = count_of(found["one"]) + count_of(found["other"])
    return f"{many} of them (note: {found.group()})"


def so_many_in_all(found: re.Match[str]) -> str:
    """ "three packets, 30 hooks altogether" are ten in each."""
    held, rest = divmod(int(found[2]), max(count_of(found[1]), 1))
    return f"{found[1]} packets of {held}" if held and not rest else found.group()


def so_many_in_packets(found: re.Match[str]) -> str:
    """ "30 in all, three packets" are ten in each."""
    held, rest = divmod(int(found["all"]), max(count_of(found["packs"]), 1))
    return f"{found['packs']} packets of {held}" if held and not rest else found.group()


def winders_of_elastic(found: re.Match[str]) -> str:
    """ "no 6 elastic 5m, 2 winders": as packets of it."""
    before = found.string[: found.start()]
    return (
        f"{found[1]} packets" if re.search(r"\belastic\b", before, re.IGNORECASE) else found.group()
    )


def so_many_packets(found: re.Match[str]) -> str:
    """ "3 bags of BB, one split so call it two" are two bags."""
    many = found["many"] if count_of(found["many"]) < count_of(found["packets"]) else ""
    kept = f"{many} {found['kind']}{found['what']} (note: {found['note']})"
    return kept if many else found.group()


def few_with_the_loose(found: re.Match[str]) -> str:
    """ "Connectors pk3 + 1 loose" are four single ones, no four packets."""
    held, more = count_of(found["held"]), count_of(found["more"])
    return f"{held + more} single {found['what']}, pack of {held}"


def full_and_loose(found: re.Match[str]) -> str:
    """ "1 full box of 25 plus 6 loose" are 31."""
    held, more = count_of(found["held"]), count_of(found["more"])
    return f"pack of {held}, {held + more} of them" if more < held else found.group()


def cut_off(found: re.Match[str]) -> str:
    """ "3 metre pack, cut 1m off" has two metres left."""
    left = int(found["long"]) - int(found["off"])
    return (
        f"{found['long']} m, {left} m left (note: {found['note']})" if left > 0 else found.group()
    )


def packets_and_loose(found: re.Match[str]) -> str:
    """ "2 packs of 10 link swivels size 12 and 3 loose" as what they come to."""
    packs, held, loose = (count_of(found[one]) for one in ("packs", "held", "loose"))
    return f"{found['what']}, pack of {held}, {packs * held + loose} of them"


def empty_and_rigged(found: re.Match[str]) -> str:
    """ "12 empty + 8 with rigs on" are twenty winders."""
    empty, rigged = count_of(found["more"]), count_of(found["good"])
    return f", {empty + rigged} of them (note: {empty} {found['note']}, {rigged} with rigs)"


def loose_and_a_packet(found: re.Match[str]) -> str:
    """ "14 pcs + 1 packet of 10" are 24, in packets of ten."""
    loose, held = count_of(found["loose"]), count_of(found["held"])
    return f"pack of {held}, {loose + held} of them"


def here_and_there(found: re.Match[str]) -> str:
    """ "6 in one bag 14 in the other" are twenty; "5 with plugs, 2 without" are seven."""
    many = count_of(found["one"]) + count_of(found["more"])
    return f", {many} of them (note: {found.group().strip(' ,-–')})"


def so_many_less(found: re.Match[str]) -> str:
    """ "10 less the 3 with rigs on" are seven."""
    many = count_of(found["all"]) - count_of(found["less"])
    return f", {many} of them (note: {found.group().strip(' ,')})" if many > 0 else found.group()


def so_long_in_all(found: re.Match[str]) -> str:
    """ "20m + 35m ish" of two part spools are 55 m."""
    long = int(found["one"]) + int(found["more"])
    return f"{found['what']}, {long} m left (note: {found['spools']})"


def half_of_a_spool(found: re.Match[str]) -> str:
    """ "Half a spool of 0.12, about 50m left" was 100 m long."""
    left = int(found["left"])
    return f"{found['what']} {2 * left} m, {left} m left"


RULES: Rules = rules(
    (
        r"\b(?P<loose>\d{1,2})\s*(?:pcs|pieces|loose|singles)\s*(?:\+|&|,?\s*and|plus)\s*(?:1|an?|one)\s+(?:full\s+|unopened\s+|new\s+)?"
        rf"{PACKET}\s+of\s+(?P<held>\d{{1,2}})(?:\s+(?:unopened|sealed))?$",
        loose_and_a_packet,
    ),
    (
        rf"[\s,–-]+(?P<one>{FEW})\s+in\s+(?:one|1|an?)(?:\s+{PACKET})?[,\s]+(?:and\s+|&\s+)?(?P<more>{FEW})\s+in\s+(?:t|the\s+|an)?other(?:\s+(?:one|{PACKET}))?$",
        here_and_there,
    ),
    (
        rf"[\s,]+(?P<one>{FEW})\s+with\s+[a-z]+[,\s]+(?:and\s+|&\s+)?(?P<more>{FEW})\s+(?:without|plain|bare)$",
        here_and_there,
    ),
    (
        rf"[\s,]+(?P<one>{FEW})\s+(?:heavy|light)[,\s]+(?:and\s+|&\s+)?(?P<more>{FEW})\s+(?:heavy|light)\b(?:\s+ones?)?",
        here_and_there,
    ),
    (
        rf"[\s,]+(?<!of\s)(?P<all>{FEW})\s+(?:less|minus)\s+(?:the\s+)?(?P<less>{FEW})\b[^,\d£]*$",
        so_many_less,
    ),
    (
        r"^(?:two|2)\s+(?P<spools>part\s+spools)\s+(?:of\s+)?(?P<what>.*?),\s*(?P<one>\d+)\s*m\s*(?:\+|&|and)\s*(?P<more>\d+)\s*m(?:\s*ish)?$",
        so_long_in_all,
    ),
    (
        r"\b(?:one|1|an?)\s+(?:full\s+)?(?P<held>tub|pot)\s+and\s+(?P<more>(?:an?\s+)?(?:bit|part(?:\s+(?:one|used))?))(?:\s+of\s+another)?$",
        r"2 \g<held>s (note: one full and \g<more>)",
    ),
    (
        rf"\b(?P<packs>{FEW})\s+(?P<held>strips|cards)\s+(?:and|\+|&|plus)\s+(?P<more>{FEW}\s+(?:odd|loose|singles?)(?:\s+ones?)?)$",
        r"\g<packs> \g<held> (note: and \g<more>)",
    ),
    (
        rf"\b(?:(?:1|one|an?)\s+)?{PACKET}\s+of\s+(\d{{1,2}})\s*\((\d{{1,2}})\s+(?:left\s+)?(?:on|in)\s+it\)",
        r"pack of \1, \2 left",
    ),
    (
        rf"[\s,]+(?P<good>{FEW})\s*(?:\+|&|and|plus)\s*(?P<more>\d|one|two)\s+"
        r"(?P<note>(?:bent|rusty|broken|brkn|bkn|broke|cracked|damaged|chewed|dodgy|with\s+(?:no|a\s+broken)\s+[a-z]+)(?:\s+ones?)?)$",
        all_of_them,  # "feeder links 4 + 1 bent"
    ),
    (
        rf"\b(?P<all>\d{{2,3}})\s+(?:in\s+all|altogether|all\s+told)[,\s]+(?:in\s+)?(?P<packs>{FEW})\s+(?:pkts|packets|packs|bags)$",
        so_many_in_packets,
    ),
    (
        rf"\b(\d{{1,2}})\s?pk\b[,\s]+(£\S+\s+(?:a|per)\s+{PACKET})[,\s]+(?:bought|got|had)\s+({FEW})$",
        r"\3 packets of \1, \2",
    ),
    (r"(?<![\w.])(\d{1,2})\s?no\.(?=\s+[a-z]|\s*(?:,|$))", r"\1 of them,"),  # "6no."
    (
        rf"^(.*\belastic\s+(?:no\.?\s*)?\d+(?:\s*[-–]\s*\d+)?(?:\s+[a-z]+)*),?\s+({FEW})\s+of\s+({LENGTH})$",
        r"\1, \2 packets of \3",
    ),
    (rf"(?<=[a-z])\s+({FEW})\s+of\s+({LENGTH})\b(?=[,\s]*(?:£|$))", r" \1 x \2"),
)
