"""Money as spoken: "a pound the pair", "was 8.99 down to 6.99", "six pound instead of nine"."""

import re

from tacklebox.stock.naming.numbers import count_of
from tacklebox.stock.naming.plainly.rules import Rules, rules
from tacklebox.stock.naming.turns import FEW, MANY, NUMBER, PACKET, PACKETS, SPOKEN

_FEW = rf"(?:an?|{SPOKEN}|{FEW})"
_DICTATED = (
    r"(?:one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|thirteen|fourteen|fifteen"
    r"|sixteen|seventeen|eighteen|nineteen|twenty)"
)
_PENCE = (
    r"(?:(?:ninety|seventy|forty|twenty)[\s-](?:nine|five)|ten|twenty|thirty|forty|fifty|sixty|seventy"
    r"|eighty|ninety)"
)
_POUNDS = rf"(?P<pounds>{_FEW})"
_FOR_WHAT = (
    r"(?=(?:the|a|for\s+the|per)\s+(?:pair|lot|set|two|three|four|packet|pack|pkt|pk|spool|box|bag|tub)\b"
    r"|each\b|apiece\b|ea\b)"
)

_PRICE = r"\d{1,3}\.\d\d"
_LISTED_AT = r"(?:rrp|list\s+price|full\s+price|normally|usually)"
_PAID_NOW = (
    r"[\s,]+(?:but\s+)?(?:(?:i\s+)?(?:only\s+)?paid|cost\s+(?:me)?|got\s+(?:it|them)\s+(?:for|at)|sale\s+price"
    r"|(?:reduced|marked\s+down|knocked\s+down|down|cut)(?:\s+to)?|now)\s+"
)


def in_pounds(found: re.Match[str]) -> str:
    return f"£{count_of(found['pounds'])} "


def in_so_many_pounds(found: re.Match[str]) -> str:
    """ "ten pound off the internet" as what it cost."""
    return f"£{count_of(found[1])} "


def pounds_and_ninety(found: re.Match[str]) -> str:
    """ "nineteen ninety five" as £19.95."""
    return f", £{count_of(found[1])}.9{5 if found[2].lower() == 'five' else 9}"


def in_pounds_and_a_half(found: re.Match[str]) -> str:
    return f"£{count_of(found['pounds'])}.50 "


def for_all_of_them(found: re.Match[str]) -> str:
    """ "£7 for two" is the price of all, where it was said before that they are two."""
    before = map(count_of, re.findall(MANY, found.string[: found.start()], re.IGNORECASE))
    return f"{found['paid']} the lot" if count_of(found["many"]) in before else found.group()


def paid_instead_of(found: re.Match[str]) -> str:
    """ "£3.50 instead of £5 so I got three" as what was paid, with the old price as a note."""
    many = f", {found['many']} of them" if found["many"] else ""
    return f"{found['paid']}{many} (note: {found['note']})"


def in_pounds_and_pence(found: re.Match[str]) -> str:
    """ "swivels pkt of 10 two pound ten" as what they cost."""
    return f"{found['of']} £{count_of(found['pounds'])}.{count_of(found['pence'])}"


def as_dictated(found: re.Match[str]) -> str:
    """ "One ninety nine for ten" as a packet of ten at £1.99, "bag of a hundred one twenty five" as £1.25."""
    said = found.groupdict()
    price = f"£{count_of(said['pounds'])}.{count_of(said['pence'].replace('-', ' ')):02d}"
    many = f", pack of {count_of(said['many'])}" if said.get("many") else ""
    return f"{said.get('of') or ''}{many}, {price}"


def as_dictated_for(found: re.Match[str]) -> str:
    """ "Four ninety nine for the two" as £4.99 for them."""
    pence = count_of(found["pence"].replace("-", " "))
    return f", £{count_of(found['pounds'])}.{pence:02d}{found['of']}"


def in_pounds_for_it(found: re.Match[str]) -> str:
    """ "Box of 20 five pound" as £5."""
    return f"{found[1]}, £{count_of(found[2])}"


def in_pounds_alone(found: re.Match[str]) -> str:
    """ "20 notes" as £20."""
    return f"£{count_of(found[1])}"


def in_pounds_and_more(found: re.Match[str]) -> str:
    """ "3 quid the 15" as £3 for them."""
    return f"£{count_of(found[1])} "


def of_paper(found: re.Match[str]) -> str:
    """ "A tenner the lot" as £10."""
    return "£5 " if found[1].lower() == "fiver" else "£10 "


def for_so_many(found: re.Match[str]) -> str:
    """ "Ten winders, £3.50 the ten", "5 packets of 16s and 18s, £8 the ten": what all of them cost."""
    many, before = count_of(found["many"]), found.string[: found.start()]
    named = [count_of(one) for one in re.findall(MANY, before, re.IGNORECASE)]
    each = re.search(r"\b(?:each|both)\b", before, re.IGNORECASE)
    shared = each and any(one > 1 and many % one == 0 for one in named)
    of_all = many in named or shared or many == sum(named)
    return f"{found['paid']} the lot" if of_all else found.group()


RULES: Rules = rules(
    (
        r"[\s,]+(?P<asked>£\d[\d.]*\s+(?:each|ea|a\s+[a-z]+)\s+or\s+[^£]*£[\d.]+)[,\s]+(?:i\s+)?paid\s+(?:the\s+)?(?P<paid>£[\d.]+)$",
        r", \g<paid> the lot (note: \g<asked>)",
    ),
    (
        r"(£\d[\d.]*)\s+(?:down|reduced|cut|knocked\s+down|marked\s+down)\s+to\s+(£\d[\d.]*)",
        r"\2 (note: was \1)",
    ),
    (r"[\s,]+((?:3|three|2|two)\s+for\s+(?:1|2|one|two)\s+(?:deal|offer))\b", r" (note: \1)"),
    (
        r"(?P<packs>\b(?:[2-9]|two|three|four)\s+(?:pkts?|packets|packs))[,\s]+(?:1|one)\s+(?P<one>pkt|packet|pack)\s+(?P<money>\d{2}p|£\d[\d.]*)$",
        r"\g<packs>, \g<money> a \g<one>",
    ),
    (
        r",?\s*\b(\d{1,2}/(?:[3-9]|1[01])d?\s+(?:the|a|per)\s+(?:card|packet|pkt|box|dozen|doz)|\d{1,2}/\d{1,2}d?\s+when\s+(?:i\s+bought\s+(?:it|them)|new))\b",
        r" (note: \1)",
    ),
    (
        r"^(?=.*£)(.*?\b\d\s*(?:pkts|packets|packs|pks))\s*@\s*(\d{1,2})(?=\s*(?:,|$))",
        r"\1 of \2",
    ),
    (
        rf",?\s+(?P<pounds>{_DICTATED})\s+(?P<pence>(?:ninety|forty)[\s-](?:nine|five))(?:\s+for\s+(?P<many>{FEW}))?$",
        as_dictated,
    ),
    (
        rf"\b(?P<of>{PACKET}(?:\s+of\s+(?:an?\s+)?[a-z]+)?|metres)\s+(?P<pounds>{_DICTATED})\s+"
        r"(?P<pence>ten|twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety|(?:twenty|seventy)[\s-]five)$",
        as_dictated,
    ),
    (
        rf",?\s+(?:(?:paid|at|cost(?:\s+me)?)\s+)?(?P<pounds>{_DICTATED})\s+(?P<pence>{_PENCE})(?P<of>\s+(?:for\s+(?:the\s+|all\s+)?(?:two|three|four|five|six|ten|lot|pair|both)|the\s+(?:lot|pair)|each|a\s+{PACKET}))$",
        as_dictated_for,
    ),
    (
        rf"\b(?P<of>(?:metres?|box\s+of\s+\d+|bag\s+of\s+\d+|pack(?:et)?\s+of\s+\d+))\s+(?P<pounds>{_DICTATED})\s+(?P<pence>{_PENCE})$",
        as_dictated,
    ),
    (r"\b(\d{1,3})\s+for\s+(\d{1,2})\s+pound$", r"\1 of them, £\2 the lot"),
    (
        r"\b(?:reduced|down|cut|knocked\s+down)\s+from\s+(£\d[\d.]*)\s+to\s+(£\d[\d.]*)",
        r"\2 (note: was \1)",
    ),
    (r"\b(\d{1,2})\s+in\s+(?:an?\s+|the\s+)?bundle,?\s+(£\d[\d.]*)$", r"\1 of them, \2 the lot"),
    (
        rf"\b(?P<of>(?:bundle|pack(?:et)?|box|bag)\s+of\s+\d+),\s*(?P<pounds>{_DICTATED})\s+(?P<pence>{_PENCE})$",
        as_dictated,
    ),
    (
        r"^(?=.*\beach\b)(.*)\s(£\d[\d.]*)\s+for\s+(?:the|all)\s+(?:\d|two|three|four)$",
        r"\1 \2 the lot",
    ),
    (
        rf"\b({PACKET}\s+of\s+\d+),?\s+({_DICTATED})\s+pounds?$",
        in_pounds_for_it,
    ),
    (
        r"^(?=.*\b(?:job\s+lot|bundle)\b)(?!.*£.*£)(.*\d.*?),?\s+(£\d[\d.]*)$",
        r"\1, \2 the lot",
    ),
    (rf"(?<!ty\s)(?<!ty-)\b({FEW})\s+notes\b", in_pounds_alone),
    (
        rf"(?<!ty\s)(?<!ty-)\b({FEW})\s+quid\s+(?=(?:for\s+)?the\s+(?:{FEW}|lot|set|bag|box|tub)\b)",
        in_pounds_and_more,
    ),
    (
        r"\b(?:for\s+)?(?:an?\s+)?(fiver|tenner)\s+(?=(?:for\s+)?(?:the\s+(?:lot|set)|all)\b)",
        of_paper,
    ),
    (
        rf"(?P<paid>£\d+(?:\.\d\d)?|(?<![\d.])\d{{2}}p)\s+(?:for\s+)?(?:the|all)\s+(?P<many>{NUMBER})(?=\s*(?:\(|$))",
        for_so_many,
    ),
    (r"£(\d{1,3}),(\d\d)(?!\d)", r"£\1.\2"),
    (rf"\b({PACKET}\s+of\s+\d+),?\s+(?:an?\s+)?quid\s+fifty\b", r"\1, £1.50"),
    (r"(?<![£\d.])(\d{1,2}\.\d\d)\s+(?:for\s+)?(?:the\s+|a\s+)?pair$", r"£\1 the pair"),
    (
        r"^(?!.*\b(?:2|two|pair|couple)\b.*£)(.*[a-z]\S*),?\s+(£\d+(?:\.\d\d)?)\s+for\s+the\s+two$",
        r"\1, 2 of them, \2 the lot",
    ),
    (r"(£\d+(?:\.\d\d)?)[,\s]+((?:with\s+)?(?:rcpt|receipt)\b[^,]*)$", r"\1 (note: \2)"),
    (r"(?<![£\d.])(\d{1,2}\.\d\d)\s+quid\b", r"£\1"),
    (r"\bfor\s+a\s+pound\b", "for £1"),
    (
        rf"(£\d+(?:\.\d\d)?)\s+for\s+all(?:\s+(?:{FEW}|of\s+(?:them|em)|the\s+[a-z]+))?\b",
        r"\1 the lot",
    ),
    (
        rf"\b(?:paid|costs?)\s+£?([1-9]\d?\.\d\d)\s+for\s+the\s+({FEW})\b",
        r", \2 of them, £\1 the lot",
    ),
    (
        rf"\b({MANY}\s+{PACKETS}\s+of\s+{MANY})\s+for\s+(?=£|an?\s+(?:fiver|tenner)|\d+\s*(?:quid|p\b))",
        r"\1, ",
    ),
    (
        rf"\b({SPOKEN}|\d{{1,2}})\s+(?:pounds?|quid)\s+(?=(?:off|from)\s+(?:the|an?|my|our)\b)",
        in_so_many_pounds,
    ),
    (r"\b(?:an?\s+)?couple\s+of\s+(?:quid|pounds)\b", "£2"),
    (
        r"\b((?:marked|ticketed|priced|should\s+(?:be|have\s+been))(?:\s+at)?\s+£?\d+(?:\.\d\d)?)[,\s]+but\s+(?:i\s+)?paid\s+(£\d+(?:\.\d\d)?)",
        r"\2 (note: \1)",
    ),
    (r"\b(fiver|tenner|£\d+(?:\.\d\d)?)\s+for\s+the\s+(two|three|four|pair)\b", r"\1 the \2"),
    (r"(?<![£\d.])([1-9]\d?\.\d\d)\s+for\s+(\d{1,2})(?=\s*(?:,|$))", r"£\1 for \2"),
    (
        r"£?\b([1-9]\d?\.\d\d)\s+(?:per|an?\s+(?:packet|pack|pkt)\s+of)\s+(\d{1,3})(?=\s*(?:,|$))",
        r"pack of \2, £\1",
    ),
    (rf",\s*({SPOKEN})\s+ninety[\s-]+(five|nine)(?=\s*(?:,|so\b|$))", pounds_and_ninety),
    (r",?\s*\b(?:got\s+(?:it|them|'?em)\s+)?(?:at\s+)?half\s+price\b", " (note: half price) "),
    (
        r"\b(?:but\s+)?(?:he|she|they)\s+let\s+me\s+have\s+(?:the\s+lot|(?:'em|them)(?:\s+all)?|it\s+all)"
        r"\s+for\s+£?(\d+(?:\.\d\d)?)\b",
        r"£\1 the lot",
    ),
    (r"\s*\(([1-9]\d?\.\d{2}|0?\.[5-9]\d)\)$", r", \1"),
    (r"\b(\d{1,2})\s+pound\s+(\d\d)\s+(?=(?:each|ea|apiece)\b)", r"£\1.\2 "),
    (r"\bfor\s+(\d{1,2})\s+(?:pounds|quid)(?=\s*(?:,|$))", r"for £\1"),
    (r"(£\d+(?:\.\d\d)?)\s+tot(?:al)?\b", r"\1 the lot"),
    (r"(£\d+(?:\.\d\d)?)\s+(?:was|were)\s+£?(\d+(?:\.\d\d)?)\b", r"\1 (note: was £\2)"),
    (rf"(?P<paid>£\d+(?:\.\d\d)?)\s+(?:the|for(?:\s+the)?)\s+(?P<many>{FEW})$", for_all_of_them),
    (r"(?<![£\d.])(\d+\.\d\d)\s+(?:all\s+told|in\s+all|the\s+lot|altogether)$", r"£\1 the lot"),
    (r"(£\d+(?:\.\d\d)?)\s*(?:a\s+|per\s+)?(?:pr|pair)$", r"\1 the pair"),
    # money in words: "one and a half quid", "a pound the pair", "six pound instead of nine"
    (
        rf"\b{_POUNDS}\s+and\s+a\s+half\s+(?:quid\b\s*|pounds?\s+{_FOR_WHAT})",
        in_pounds_and_a_half,
    ),
    (rf"\b{_POUNDS}\s+(?:quid|pounds?)\s+{_FOR_WHAT}", in_pounds),
    (
        rf"\b{_POUNDS}\s+(?:quid|pounds?)\s+instead\s+of\s+(?:{_FEW}|£?\d+(?:\.\d\d)?)"
        r"(?:\s+(?:quid|pounds?))?\b",
        in_pounds,
    ),
    # "£19.99 RRP, paid 14.50", "rrp 5.99 cost me 4.50", "£2.99 reduced to £1.99"
    (
        rf"\b(?P<said>{_LISTED_AT})\s+£?(?P<old>{_PRICE}){_PAID_NOW}£?(?P<paid>{_PRICE})(?![\d.]|\s*[a-z]*\d)",
        r" £\g<paid> (note: \g<said> £\g<old>)",
    ),
    (
        rf"£?(?P<old>{_PRICE})\s*(?P<said>{_LISTED_AT}){_PAID_NOW}£?(?P<paid>{_PRICE})(?![\d.]|\s*[a-z]*\d)",
        r"£\g<paid> (note: \g<said> £\g<old>)",
    ),
    (
        rf"£(?P<old>{_PRICE}){_PAID_NOW}£(?P<paid>{_PRICE})(?![\d.])",
        r"£\g<paid> (note: was £\g<old>)",
    ),
    # "was 8.99 down to 6.99", "rrp £5 now £4"
    (
        r"\s*\b(?:was|were|rrp|from)\s+£?\d{1,3}(?:\.\d\d)?[\s,]+(?:but\s+)?(?:now|(?:reduced|down|cut)(?:\s+to)?"
        r"|i\s+paid|paid|got\s+(?:it|them)\s+(?:for|at))\s+£?(?=\d{1,3}(?:\.\d\d)?(?![\d.]|\s*[a-z]*\d))",
        " £",
    ),
    (r"(?<=[,–-])\s+(\d{1,2})\s+at\s+(?=£)", r" \1 of them at "),
    (r"€\s?(\d+(?:\.\d\d)?)", r"(note: €\1)"),
    (r"\b(?:it\s+)?was\s+in\s+the\s+sale\s+at\s+(?=£)", "in the sale at "),
    (
        rf"(?P<paid>£\d+(?:\.\d\d)?)\s+(?P<note>instead\s+of\s+£?\d+(?:\.\d\d)?)(?:\s+so\s+i\s+got\s+(?P<many>{MANY}))?",
        paid_instead_of,
    ),
    (r"(?<![£\d.])(\d+\.\d\d)\s+(pkt|pk|pack|packet)$", r"£\1 a \2"),
    (r"(?<=[a-z]{3})\s+([1-9]\d?\.\d\d)\s*x\s*(\d)$", r" £\1 each x \2"),
    (r"(£\d+(?:\.\d\d)?)\s+(?:lot|all)$", r"\1 the lot"),
    (r"(?<![£\d.])(\d{1,2}\.\d\d)\s+all$", r"£\1 the lot"),
    (rf"(?<=[a-z]),?\s+({FEW})\s+for\s+(\d+\.\d\d)$", r", \1 of them, £\2 the lot"),
    (  # "£1.80 pack 10": the number says what it holds
        r"(£\d+(?:\.\d\d)?|\d+\s?p)[,\s]+(?:packet|pack|pkt|pk)\s+(\d{1,3})(?=\s*(?:,|$))",
        r"pack of \2, \1",
    ),
    (
        rf"(£\d+(?:\.\d\d)?\s+(?:a|per)\s+{PACKET})[,\s]+(?:got|bought|had)\s+(?P<many>{MANY})$",
        r"\1, \g<many> packets",
    ),
    (
        rf"(£\d+(?:\.\d\d)?)\s+for\s+(\d+)[,\s]+(?:got|bought|had)\s+(?P<many>{MANY})\s+({PACKETS})\b",
        r"\g<many> \4 of \2, \1 a packet",
    ),
    (
        rf"(£\d+(?:\.\d\d)?\s*(?:each|ea|(?:an?|per)\s+{PACKET})),\s*(\d{{1,2}})$",
        r"\1, \2 off",
    ),
    (
        rf"\b(?P<of>(?:swivels|hooks|floats|wagglers|feeders|bombs|beads|stops|winders|bands|links|connectors)\b.*\d)\s+"
        rf"(?P<pounds>{_FEW})\s+pound\s+(?P<pence>ten|twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety)$",
        in_pounds_and_pence,
    ),
)
