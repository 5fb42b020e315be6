"""What is left of a thing after a season, and in what state: "five and a half packets, ten in a full one",
"one good one chipped", "3m pack less a metre", "the third one nearly bare"."""

import re

from tacklebox.stock.naming.numbers import count_of
from tacklebox.stock.naming.plainly.rules import Rules, rules
from tacklebox.stock.naming.turns import FEW, PACKET, PACKETS

_MANY = rf"(?:{FEW}|\d{{1,3}})"
_STATE = (
    r"(?:glued|repaired|mended|odd|spare|iffy|swapped|old|tatty|worn|split|knotted|mangled|chipped|bent|rusty"
    r"|squashed|cracked|broken|faded|scuffed|dodgy|loose|open|opened|sealed|full|new|bare|empty|rigged)"
)
_SHOT = r"(?:no\.?\s*\d{1,2}|bb|aaa|ssg|ab|swan)'?s?"


def so_many_and_a_half(found: re.Match[str]) -> str:
    """ "Five and a half packets of 18s, ten in a full one" are 55."""
    held = count_of(found["held"])
    many = count_of(found["packs"]) * held + held // 2
    return f"{found['what']}, pack of {held}, {many} of them"


def and_one_more(found: re.Match[str]) -> str:
    """ "5 plus a swapped one" are six, "one and a spare" two."""
    note = " ".join(found.group().strip(" ,-–").split())
    return f", {count_of(found['many']) + 1} of them (note: {note})"


def in_two_states(found: re.Match[str]) -> str:
    """ "One good one chipped" are two, "three + 1 glued up" four."""
    many = count_of(found["one"]) + count_of(found["more"])
    note = " ".join(found.group().strip(" ,-–").split()).replace(",", "")
    return f", {many} of them (note: {note})"


def less_so_much(found: re.Match[str]) -> str:
    """ "3m pack less a metre" has two metres left."""
    off = count_of(found["off"])
    left = int(found["long"]) - off
    return f"{found['long']} m, {left} m left" if left > 0 else found.group()


def full_and_begun(found: re.Match[str]) -> str:
    """ "10 in a packet, 1 full 1 with 3 in" are 13."""
    held, more = int(found["held"]), int(found["more"])
    return f"pack of {held}, {held + more} of them"


def packets_and_a_half(found: re.Match[str]) -> str:
    """ "10 in a pack, have 2 and a half" are 25."""
    held, packs = int(found["held"]), int(found["packs"])
    return f"pack of {held}, {packs * held + held // 2} of them"


RULES: Rules = rules(
    (
        rf"^(?P<packs>{_MANY})\s*(?:and\s+a\s+half|1/2)\s+{PACKETS}\s+(?:of\s+)?(?P<what>.*?),\s*(?P<held>{_MANY})\s+in\s+(?:an?\s+)?(?:full\s+)?(?:one|{PACKET})$",
        so_many_and_a_half,
    ),
    (
        rf"[\s,–-]+(?P<many>{_MANY})\s+(?:plus|and|\+|&)\s+an?\s+(?:{_STATE}|other)(?:\s+one)?$",
        and_one_more,
    ),
    (
        rf"[\s,–-]+(?P<one>{FEW})\s+(?:good|fine|ok|sound|proper)(?:\s+ones?)?[,\s]+(?:and\s+|\+\s+|plus\s+|&\s+)?(?P<more>{FEW})\s+{_STATE}(?:\s+up)?(?:\s+ones?)?$",
        in_two_states,
    ),
    (
        rf"[\s,–-]+(?P<one>{FEW})\s*(?:\+|&|plus|and)\s*(?P<more>{FEW})\s+(?:glued|repaired|mended|iffy|swapped|tatty|worn|split|mangled|scuffed)(?:\s+up)?(?:\s+ones?)?$",
        in_two_states,
    ),
    (
        r"\b(?P<long>\d+)\s*m(?:etres?)?\s+(?:pack|packet|pkt|spool|length)\s+less\s+(?P<off>an?|one|two|\d)\s*(?:m|mtr|metres?)\b",
        less_so_much,
    ),
    (
        r"\b(\d+)\s*(m|yds?|yards)\s+left\s+(?:on|of|from|in)\s+(?:an?\s+|the\s+)?(\d+)\s*(?:m|yds?|yards)\s+(?:spool|reel)\b",
        r"\3 \2 spool, \1 \2 left",
    ),
    (
        rf"\b(\d\s+{PACKETS})\s*\(((?:1|one)\s+(?:opened|open|started|part\s+used)[^()]*)\)",
        r"\1 (note: \2)",
    ),
    (
        r"[,\s]+((?:1|one)\s+(?:sealed|full|new|unopened)[,\s]+(?:and\s+)?(?:1|one|the\s+other)\s+(?:about\s+|nearly\s+)?(?:1/4|1/2|quarter|half|part|empty|third)(?:\s+(?:full|gone|used))?)$",
        r" (note: \1)",
    ),
    (
        r",\s*((?:the\s+)?(?:first|second|third|fourth|last|other)\s+one(?:'s|\s+is)?\s+(?:nearly|almost|about|only|just)\s+[a-z][^,\d]*)$",
        r" (note: \1)",
    ),
    (
        r"(?<=x\d),\s*((?:1|one|2|two|3|three)\s+(?:no|without|missing|got\s+no|has\s+no|with\s+no)\s+(?:an?\s+|the\s+|its\s+)?[a-z]+(?:\s+[a-z]+)?)$",
        r" (note: \1)",
    ),
    (
        r",\s*((?:1|one)\s+(?:is\s+)?down\s+to\s+(?:about\s+)?\d+\s*(?:m|metres?|yds?)?)$",
        r" (note: \1)",
    ),
    (
        r",\s*([^,]*\d[^,]*\s+(?:nil|none(?:\s+left)?|run\s+out|all\s+gone|finished))$",
        r" (note: \1)",
    ),
    (
        r"\b(?:tub|box|pot|tin)\s+with\s+(?:about\s+|only\s+)?(?P<many>an?\s+dozen|\d{1,3}|half\s+a\s+dozen)(?:\s+or\s+so)?(?:\s+(?:left|in))?(?:\s+(?:in\s+)?it)?$",
        r"\g<many> of them",
    ),
    (
        rf"[,\s]+((?:{_SHOT}\s*(?:&|and|,|\+)\s*)+{_SHOT}\s+(?:are\s+)?(?:all\s+)?(?:gone|empty|used|missing|used\s+up))$",
        r" (note: \1)",
    ),
    (
        rf"\b(?P<tube>silicone?(?:\s+(?:tube|tubing|sleeve))?\b[^,/&]*?)[,\s]+(?P<many>{FEW})\s+(?P<bits>bits|lengths|pieces|strips)\s+(?P<long>(?:about|abt|of|of\s+about)?\s*\d+\s*(?:in|inch|inches|cm|ft|m|\"))(?:\s+each)?$",
        r"\g<tube> x \g<many> (note: \g<bits> \g<long>)",
    ),
    (
        r"(?<=[a-z\d])[,\s]+(\d{1,3})\s+(in\s+(?:the\s+)?(?:bottom|back|lid|side|corner|end)\b[^,\d]*)$",
        r", \1 of them (note: \2)",
    ),
    (
        rf"\b({FEW}\s+(?:strips|cards|packets|packs|pkts|tubs|bags))\s+(and\s+a\s+bit)$",
        r"\1 (note: \2)",
    ),
    (
        rf"\b(?P<held>\d{{1,3}})\s+in\s+(?:an?\s+)?{PACKET},\s*(?:1|one)\s+full[,\s]+(?:and\s+)?(?:1|one)\s+with\s+(?P<more>\d{{1,3}})(?:\s+(?:left\s+)?in(?:\s+it)?)?$",
        full_and_begun,
    ),
    (
        rf"\b(?P<held>\d{{1,3}})\s+in\s+an?\s+{PACKET}[,\s]+(?:have|got)\s+(?P<packs>\d)\s*(?:and\s+a\s+half|1/2)(?:\s+{PACKETS})?$",
        packets_and_a_half,
    ),
    (rf"(?<![\d.])([1-9])\.5\s+({PACKETS})\b", r"\1 and a half \2"),
    (
        rf"\b(spool|packet|pack|card)\s+({FEW})\s+of\s+(?:them|'?em)\s+(?=[a-z])",
        r"\1, \2 packets, ",
    ),
    (r"\b((?:1|one)\s+(?:pkt|packet|pack)),?\s+(\d\s+(?:gone|used|missing))$", r"\1 (note: \2)"),
    (r"(?<!\d)[\s,]+(with\s+rigs\s+on)$", r" (note: \1)"),
    (
        r"^(?=.*\belas\w*\b)(.*?)[,\s]+(\d)\s+(lgths|lengths)(?=\s*$|,)",
        r"\1, \2 packets (note: \3)",
    ),
    (
        r",\s*(\d{1,3})\s+(in\s+(?:the\s+|my\s+|an?\s+)?(?:hook\s?length|rig|hook|feeder|float|pole|canal|river|match|side|top|seat)\s+(?:box|wallet|tray|drawer|tin|case|tube))$",
        r", \1 of them (note: \2)",
    ),
    (
        r"^(?=.*\b(?:fl[uo]+ro\w*|mono|nylon|line|braid)\b)(.*\b\d+\s*(m|yds?|yards)),?\s+(?:about\s+|abt\s+|only\s+)?(\d+)\s+left$",
        r"\1, \3 \2 left",
    ),
    (r"\b(\d|one|two|three|four)\s+and\s+a\s+half\s+(?:strips|cards)\b", r"\1 and a half packets"),
    (r"\s(\d{1,2})\s*\((?:pack|packet)\s+of\s+(\d{1,3})\)$", r", pack of \2, \1 left"),
    (
        r"\b(\d)\s*\+\s*(\d)\s+([a-z]+\s+ones)$",
        lambda found: f"{int(found[1]) + int(found[2])} of them (note: {found[2]} {found[3]})",
    ),
    (r"[,\s]+((?:one|1)\s+with\s+(?:an?\s+|the\s+)?needle)$", r" (note: \1)"),
    (r"\bdiamond\s+eye\s+(swivels?|adaptors?)\b", r"\1 (note: diamond eye)"),
    (r"[\s,]+(no\s+o[\s-]?rings?)$", r" (note: \1)"),
)
