"""A notebook's shorthand: "3/ bomb 30g" for three of them, "D6" for a drawer, "= 4lb", and whose it is."""

import re

from tacklebox.stock.naming.plainly.rules import Rules, rules
from tacklebox.stock.naming.turns import FEW

_HOOK_TO = r"(?:size\s+)?\d{1,2}s?\s+to\s+0?\.\d+(?:\s*mm)?"
_HOLDER = r"(?:pkts?|packets?|pks?|packs?|tubs?|bags?|boxe?s?)"
_WHOSE = r"(?:our\s+kid['’]?s|bro['’]?s|brother['’]?s|(?:gran)?dad['’]?s|uncle['’]?s|mate['’]?s)"


def so_many(found: re.Match[str]) -> str:
    """ "3/ pkt float stops" as three packets of them, "3/ bomb" as three bombs."""
    holder = found["holder"]
    return f"{found['before']}{found['many']} {'packets of ' if holder else 'x '}"


def mixed_dust(found: re.Match[str]) -> str:
    """ "Dust shot mixed 8 9 10" as a mixed tub of them."""
    return f"{found[1]} shot, unmarked (note: dust nos {' '.join(re.findall('[0-9]+', found[2]))})"


RULES: Rules = rules(
    (
        rf"^(?P<many>{FEW})\s*x?\s*(?P<one>{_HOOK_TO})\s+(?P<what>hook\s?lengths|h/ls|hooks\s+to\s+nylon)\s*(?:,|and|&|\+)?\s*"
        rf"(?P<more>{FEW})\s*x?\s*(?P<other>{_HOOK_TO})$",
        r"\g<many> x \g<what> \g<one> and \g<more> x \g<what> \g<other>",
    ),
    (
        rf"(?P<before>^|(?<=[+&,])\s*)(?P<many>\d{{1,2}})/\s+(?:(?P<holder>{_HOLDER})\s+(?:of\s+)?)?(?=\S)",
        so_many,
    ),
    (r"(?<=,)\s*(?:d|dwr|drw|drawer)\.?\s?(\d{1,2})$", r" (note: drawer \1)"),
    (r"\s=\s(?=[\d.]+\s*(?:lb|kg|oz|mm)\b)", " "),
    (r"\bhlf\b(?=\s+(?:gone|used|full|empty|left|a\b))", "half"),
    (r"\b1\s*\+\s*(?:an?\s+)?spare$", "2 of them (note: 1 and a spare)"),
    (r"(\d\s*g)\s+olives?\b", r"\1 olivettes"),
    (r"(?<=[a-z\d])[,\s]+(\d{1,3})\s?nr\b", r", \1 of them"),
    (r"\bfigure\s+(?:of\s+)?(?:8|eight)\s+(swivels?)\b", r"\1 (note: figure of eight)"),
    (
        r"^(?:dust(?:\s+shot)?)[,\s]+(mixed|assorted|asst)\s+((?:no\.?\s*)?\d{1,2}(?:[\s,/]+\d{1,2})+)",
        mixed_dust,
    ),
    (r"\s*\+\s*(\d\s+spare\s+(?:discs?|tips?|inserts?|caps?|bases?|bristles?))$", r" (note: \1)"),
    (r"\b((?:river|canal|lake|pond|commercial)\s+(?:jobs|ones))$", r"(note: \1)"),
    (r"\b([2-9])\s+pk\s+(?=£?\d+\.\d\d\s+(?:each|ea)\b)", r"\1 packets "),
    (r"\b((?:size|sz)\s*\d{1,2}s?)\s+x[\s-]+strong\b", r"\1 extra strong"),
    (r"\bea\.(?=\s|,|$)", "each"),
    (
        r"^dead\s*weights?\s+(for\s+(?:the\s+|my\s+)?(?:open[\s-]end(?:er)?s|cages|block[\s-]?ends))\b",
        r"clip on leads (note: \1)",
    ),
    (r"\b(\d)\s*sp\b(?=\s+(?:ea|each|of)\b)", r"\1 spool"),
    (r"\bsil\.?\s+(?=tub)", "silicone "),
    (r"\bsq\.\s+(?=pear|lead|bomb)", "square "),
    (r"^refill\s+(?:pots|tubs|packs)\s*[:,]\s*(?=no\b|bb\b|aaa\b)", "shot, "),
    (
        r"\b(\d\s*(?:g|oz))\s*(?:\+|and|plus)\s*(?:an?\s+)?spare$",
        r"\1, 2 of them (note: one spare)",
    ),
    (r"\b(1|one)\s+(pkt|packet|pack)\s+(\d{2})$", r"\1 \2 of \3"),
    (r"^(?:rigs?)\s+(?:size\s+)?(\d\d)s?$", r"hooklengths size \1"),
    (
        r"(?<!\w)(\d{1,2})\s+each\s+((?:glass|wire|carbon|cane|bristle|fibre)\s+(?:stem|tip)s?)$",
        r"\2, \1 of each",
    ),
    (
        r"\b(beads|stops|swivels|links|bands|clips|sleeves)\s+([2-9])\s*x\s*(5|6|8|10|12|15|20)\b(?!\s*(?:mm|g|x))",
        r"\1 \2 packets of \3",
    ),
    (r"\bpole\s+feeder(s?)\b", r"feeder\1 (note: pole)"),
    (
        r"^((?:plummets|bombs|leads|feeders|cages|olivettes)\b[^,\d]*?)\s*x\s*2\s+([\d/.]+\s*(?:oz|g)?)\s+(?:and|&|\+)\s+([\d/.]+\s*(?:oz|g))$",
        r"\1 \2 and \3, one of each",
    ),
    (r"\b(?:hlf|half|1/2)\s+(?:spl|spool)\s+(left|gone|used)\b", r"half a spool \1"),
    (r"^(?:1/2|half)\s+(?:spl|spool)\s+(?!of\b)", "half a spool of "),
    (rf"^(?P<whose>{_WHOSE})\s+(?P<what>[a-z\d][^,]*)", r"\g<what> (note: \g<whose>)"),
    (
        rf"(?<!\bmy)(?<!\bwere)(?<!\bher)(?<!\bme)(?:\s*,|\s+[-–])?\s+({_WHOSE}(?:\s+old\s+ones?)?)(?=\s*(?:,|$))",
        r" (note: \1)",
    ),
    (r"(?<=[a-z)\d])(?<!not)(?<!maker),?\s+(mine|his|ours|hers)$", r" (note: \1)"),
    (r"(?<=[a-z)]),?\s+(buy)$", r" (note: \1)"),
    (rf"^(\d)\s+((?:[a-z]+\s+){{1,3}}){_HOLDER}\b(?=\s*,)", r"\1 packets of \2"),
    (
        r"^([a-z][a-z\s]*(?:swivels?|links?|hooks?|beads?)),\s*(\d{1,2}),\s*(?=(?:pack|packet|pkt)\s+of\s+\d)",
        r"\1 size \2, ",
    ),
    (r"^(?!.*\d)(.*)\bfor\s+(?=(?:packets|packs)$)", r"\1four "),
    (r"\b(number\s+[a-z]+)\s+styles\b", r"\1 styls"),
    (r"\bq\s?stops?\b", "quickstops"),
    (
        r"^(winders\b.*?)\s+(\d{1,2}),\s*(\d{1,2}\s+(?:(?:still\s+)?empty|of\s+(?:them|'?em)\s+with\s+rigs\s+on))$",
        r"\1, \2 of them (note: \3)",
    ),
    (
        r"\b((?:\d+|two|three|four)\s+(?:pks?|pkts|packs|packets|reels|spools|tubs)(?:\s+\d+\s*g)?),?\s+((?:\d|one|two)\s+(?:open|opn|opened|started))$",
        r"\1 (note: \2)",
    ),
    (r"^(\d)\s?pk\s+(?=\d{2}s\b)", r"\1 packets of "),
    (
        r"\ban?\s+(heavy|light)\s+(?:and|&)\s+an?\s+(heavy|light)(?:\s+one)?\b",
        r"2 of them (note: of two weights)",
    ),
    (
        r"^(?:2|two)\s+(?!x\b)(?P<what>[a-z].*?)\s+(?P<one>\d\d)\s*/\s*(?P<other>\d\d)\s*(?P<unit>g)$",
        r"\g<what> \g<one>\g<unit> and \g<other>\g<unit>, one of each",
    ),
)
