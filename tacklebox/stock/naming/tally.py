"""What is there once what was lost, lent or opened is reckoned in: "had six, one left in the tree so 5",
"2 packets of 8 but one has 3 gone", "bag of 12, 2 bags, one opened with nine in".

The sum takes the place of what it was reckoned from, which stays as a note.
"""

import re

from tacklebox.stock.naming.numbers import count_of
from tacklebox.stock.naming.turns import ENDS, GONE, LEFT, MANY, PACKET, PACKETS, saying

_HAD = r"(?:i\s+|i'?d\s+)?(?:got|did|had|bought|purchased|tied|made|have)"
_LOST = r"(?:lost|lent|gave|trod|broke|used|snapped|cracked|binned|dropped|filled|put|wound|spooled|snagged)"
_LESS = rf"(?:less|minus|but|{_LOST}|one|two|three|1|2|3)"
_NOW = r"(?:\s+(?:left|here|now|in\s+hand|to\s+go|good|usable))*"
_SO = saying(  # "had six, one left in the tree so 5", "less 3 lost, so 17"
    rf"[,\s]+(?P<aside>(?:{_HAD}\s+{MANY}(?!\s*(?:of|{PACKETS})\b)\b[^;]*?|{_LESS}\b[^,;]*?))"
    r"(?:,?\s+(?:so(?:\s+say)?|therefore|hence|(?:which\s+|that\s+)?(?:leaves|leaving))|[,\s]+call\s+it)"
    rf"(?:\s+(?:only|that'?s|there'?s|there\s+are|i'?ve|got|just|me|with|call\s+it|the))*\s+(?P<many>{MANY}){_NOW}{ENDS}"
)
_THEN = saying(  # "but i've lost 4 on the carpet, 21 of them"
    rf"[,\s]+(?P<aside>(?:(?:but\s+|and\s+)?(?:i'?ve\s+|i\s+)?{_LOST}\b[^;]*?|but\b[^;,]*?)),\s*(?P<many>{MANY})\s+of\s+them$"
)
_NOW_SO_MANY = saying(  # "had 5 but left one in the snag, 4 now"
    rf"[,\s]+(?P<aside>(?:had|got|bought)\s+{MANY}\b[^;]*?),\s*(?P<many>{MANY})\s+now$"
)
_MORE_LOST = saying(rf"[,\s]+(?P<aside>(?:left|lost)\s+(?:another|a\s+further)\s+{MANY}\b[^,;]*)")
_FIRST = saying(
    rf"\b(?:tied|made|did|got|had|bought)(?:\s+up)?\s+{MANY}\s+(?=[a-z])(?!(?:g|oz|lb|mm|cm|m|in)\b)"
)
_PACKETS_OF = saying(rf"\b(?P<packets>{MANY})\s+{PACKETS}\s+of\s+(?P<held>{MANY})")
_LIES = saying(rf",\s*{MANY}\s+(?P<place>(?:on|in)\s+(?:the|a|my)\s+[a-z]+)$")
_PACKETS_FIRST = saying(rf"(?:{_HAD}\s+)?(?P<packets>{MANY})\s+{PACKETS}\b")
_ONE_HAS = saying(  # "2 packets of 8 but one has 3 gone"
    rf"{_PACKETS_OF.pattern}[\s,]+(?:but|and)?\s*(?:one|1)(?:'?s)?(?:\s+(?:{PACKET}|of\s+(?:them|em)))?"
    rf"\s+(?:has|had|is|with|got)\s+(?P<used>{MANY})\s+{GONE}\b"
)
_HELD = saying(
    rf"\b(?:{PACKET}|tray)s?\s+of\s+(?P<of>{MANY})|\b(?P<each>{MANY})\s+(?:in|per|to)\s+(?:(?:a|the|each)\s+)?{PACKET}\b"
)
_IN_IT = r"(?:\s+left)?(?:\s+in(?:\s+it)?)?"
_OPENED = saying(  # "2 bags, one opened with nine in"
    rf"[,\s]+(?:(?:i'?ve\s+|i\s+)?(?:got|had)\s+)?(?P<packets>{MANY})\s+{PACKETS}(?:\s+(?:of\s+)?(?P<of>\d{{1,3}}|ten))?[\s,]+"
    rf"(?:but\s+|and\s+)?(?:one|1)(?:'?s)?"
    rf"(?:\s+of\s+(?:them|em)|\s+{PACKET})?(?:\s+(?:is|was|has\s+been|been))?\s+(?:open(?:e?d)?|started|part\s+used)"
    r"(?:\s+with(?:\s+(?:about|only))?|[\s,]+(?:and|n|&)(?:\s+there'?s)?|,(?=\s+\S+\s+left\b))?"
    rf"(?:\s+only)?\s+(?P<left>{MANY}){_IN_IT}(?:,?\s+so\s+(?:say\s+)?{MANY}(?:\s+(?:left|in\s+all|all\s+told))?)?{ENDS}"
)
_AND_ONE_OPENED = saying(  # "6 packets of 8 and one opened", which is none of the six
    rf"{PACKETS}\s+(?:of\s+)?\w+\s+and\s+(?:one|1)\s+(?:open|started|part)"
)
_ONE_HOLDS = saying(  # "2 packets of 10 but one only has 7 left in"
    rf"[,\s]+(?P<packets>{MANY})\s+{PACKETS}\s+(?:of\s+)?(?P<of>\d{{1,3}})[\s,]+(?:but\s+|and\s+)?(?:one|1)"
    rf"(?:\s+of\s+(?:them|em)|\s+{PACKET})?\s+(?:only\s+)?(?:has|has\s+got|got|with)(?:\s+only)?\s+(?P<left>{MANY})"
    rf"\s+(?:left(?:\s+in)?(?:\s+it)?|in(?:\s+it)?){ENDS}"
)
_ONE_AND_OTHER = saying(  # "2 packs, ten in one and only 7 left in the other"
    rf"[,\s]+(?:2|two)\s+{PACKETS}[\s,]+(?P<of>{MANY})\s+(?:left\s+)?in\s+(?:one|the\s+first)\s+and\s+(?:only\s+)?"
    rf"(?P<left>{MANY})\s+(?:left\s+)?in\s+(?:the|t)\s*other{ENDS}"
)
_SOME_USED = saying(  # "two cards of 6, one stop used", "one pkt of ten opened and two gone"
    rf"[,\s]+(?P<packets>{MANY})\s+{PACKETS}\s+of\s+(?P<of>{MANY})(?P<aside>(?:\s+opened)?[,\s]+(?:but\s+|and\s+)?"
    rf"(?P<used>{MANY})(?:\s+(?:stop|bead|hook|swivel|link|band|float|bomb)s?)?\s+{GONE}){ENDS}"
)
_AN_ODD = saying(  # "2 cards of 6 and an odd 3"
    rf"[,\s]+(?P<packets>{MANY})\s+{PACKETS}\s+of\s+(?P<of>\d{{1,3}})\s+(?:and|plus|&)\s+(?:an\s+)?odd\s+(?P<left>{MANY}){ENDS}"
)
_BUT_ONE = saying(  # "box of 20 but ones snapped"
    rf"[,\s]+{PACKET}\s+of\s+(?P<held>\d{{1,3}})[\s,]+(?P<aside>but\s+(?:one|1)'?s?\s+(?:(?:is|has|been)\s+)*"
    rf"(?:{GONE}|snapped|cracked|on\s+(?:a|the|my)\s+(?:rig|rod|pole))\b[^,;]*)$"
)
_ONE_GONE = saying(  # "had 2 packets but one's gone to the grandson"
    rf"[,\s]+(?:had|got)\s+(?P<packets>{MANY})\s+{PACKETS}[\s,]+(?P<aside>but\s+(?:one|1)(?:'s|\s+is|\s+has)?\s+gone\b[^,;]*)$"
)
_FULL_AND = saying(  # "6 to a packet and i've one full and one with 2 in"
    rf"[,\s]+(?:and\s+)?(?:i'?ve\s+|i\s+have\s+)?(?:got\s+)?(?P<packets>{MANY})\s+(?:full|unopened|sealed|new)(?:\s+ones?)?\s+and\s+(?:one|another)"
    rf"\s+with\s+(?:only\s+)?(?P<left>{MANY}){_IN_IT}{ENDS}"
)
_OPENED_ONE = saying(  # "2 packs of 10, opened one, 7 left in it"
    rf"[,\s]+(?P<packets>{MANY})\s+{PACKETS}\s+of\s+(?P<of>{MANY})[\s,]+(?:but\s+|and\s+)?(?:i'?ve\s+|i\s+)?(?:opened|started)\s+one[\s,]+"
    rf"(?:and\s+|so\s+)?(?:there'?s\s+|theres\s+|got\s+)?(?P<left>{MANY})\s+left(?:\s+in(?:\s+(?:it|there|that))?)?{ENDS}"
)
_HALF = saying(  # "three packs but one's half empty"
    rf"[,\s]+(?P<packets>{MANY})\s+{PACKETS}[\s,]+(?P<aside>(?:but|and|though)\s+(?:one|1)(?:'?s|\s+is)?(?:\s+of\s+(?:them|em))?"
    rf"\s+(?:about\s+|only\s+)?half\s+(?:empty|full|gone|used))$"
)
_SPOOLS = saying(  # "two 100m spools, one full and one with about 20m on"
    rf"\b(?P<packets>{MANY})\s+(?P<long>\d+)\s*(?P<unit>m|metres?|yds?|yards?)\s+spools?[\s,]+(?P<aside>(?:but\s+)?(?:one|1)\s+(?:is\s+)?"
    r"(?:full|new|sealed|unopened)[\s,]+(?:and\s+)?(?:one|1|the\s+other)\s+(?:has\s+|with\s+)?(?:about\s+|only\s+|maybe\s+)?"
    rf"(?P<left>\d+)\s*(?:m|metres?|yds?|yards?)(?:\s+(?:left|on|in))*(?:\s+it)?)$"
)
_AND_ANOTHER = saying(  # "two packets of 8 and one with 3 left"
    rf"[,\s]+(?P<packets>{MANY})\s+(?:full\s+)?{PACKETS}\s+of\s+(?P<of>{MANY})[\s,]+(?:and|plus|&)\s+(?:one|another)"
    rf"\s+with\s+(?:only\s+)?(?P<left>{MANY}){_IN_IT}{ENDS}"
)
_HAD_LOST = saying(  # "had 8, trod on 1"
    rf"[,\s]+(?P<aside>(?:had|got|bought|did|tied|made)\s+(?P<had>{MANY}),?\s+(?:but\s+)?(?:i'?ve\s+|i\s+)?"
    rf"(?:trod\s+on|lost|broke|snapped|cracked|binned|gave\s+away)\s+(?P<used>{MANY}))(?:\s+of\s+them)?$"
)
_HAD_GONE = saying(  # "made 12, two gone already"
    rf"[,\s]+(?P<aside>(?:had|got|bought|made|tied|did)\s+(?P<had>{MANY}),?\s+(?:but\s+)?(?P<used>{MANY})"
    rf"(?:\s+(?:are|is))?\s+{GONE}(?:\s+(?:already|now|since))?)$"
)
_ONE_LOW = saying(  # "two tubs, one about a quarter left"
    r",\s*(?P<aside>(?:one|1)\s+(?:is\s+)?(?:(?:about|only|nearly)\s+)*(?:an?\s+)?(?:quarter|half|third|low|empty|two\s+thirds|\d/\d(?!\s*(?:lb|oz|in)\b))\b[^,;]*)$"
)
_OTHER_GONE = saying(  # "lent t'other one to a mate"
    r"[,;]\s*(?P<aside>(?:i\s+)?(?:lent|gave|sold|lost)\s+(?:the\s+|t['’]?)other\b[^,;]*)"
)
_DONE = saying(  # "did the tips black myself"
    r"[,;]\s*(?P<aside>(?:i\s+)?(?:did|painted|dipped|whipped|varnished|trimmed)\s+(?:the|them|these|all)\b[^,;\d]*)$"
)
_WAS_LEFT = saying(  # "was ten, eight left"
    rf"[,\s]+(?P<aside>(?:there\s+)?(?:was|were)\s+{MANY})[\s,]+(?:now\s+)?(?P<many>{MANY})(?:\s+(?:good|usable)(?:\s+(?:ones|'?uns))?)?\s+left{ENDS}"
)
_IN_PLACES = saying(  # "2 in the feeder bag 1 in the jacket"
    rf"[,\s]+(?P<aside>(?P<here>{MANY})\s+(?:in|on)\s+(?:the|my)\s+[a-z\s]+?(?:,|\s+and|\s+n)?\s+(?P<there>{MANY})\s+(?:still\s+)?(?:in|on)\s+(?:the|my)\s+[a-z\s]+)$"
)
_ALSO_LOST = saying(rf",\s*(?P<aside>(?:(?:i'?ve|i)\s+)?{MANY}\s+{GONE}\b[^,;]*)")
_LEFT_OF = saying(rf"{MANY}\s+{LEFT}\s+(?:out\s+)?of\s+{MANY}")
_HERE = saying(rf"^had\s+{MANY}\s+(?P<of>.+?),\s*(?P<many>{MANY})\s+(?:here|in\s+hand)$")
_LENGTH = r"(?P<long>\d+(?:\.\d+)?)\s*(?P<unit>m|mtrs?|metres?|yds?|yards?)\b"
_MEASURED_BY = saying(r"\b(?:line|mono|nylon|braid|fluoro\w*|spools?|elastic|lastic|lacky)\b")
MOST_PACKETS_USED = 4
MOST_COUNTED = 20  # of spools; a greater number is a length
_CALL_IT = saying(  # "3 m, cut a bit off so call it 2.4"
    rf"(?P<was>{_LENGTH})(?P<between>.*?)[,\s]+(?P<aside>[a-z][^,;\d]*?)\s+so\s+(?:call\s+it|say)"
    r"\s+(?P<now>\d+(?:\.\d+)?)(?:\s*(?:m|mtrs?|metres?|yds?|yards?))?$"
)

_A_SHARE = saying(  # what the length then says in figures
    r"\b(?:about\s+|nearly\s+)?(?:half|a\s+third|a\s+quarter)\s+an?\s+(?:spool|reel)(?:\s+of\b|\s+left\b)?"
)


_NOTHING_LEFT = saying(r"^(?:0|-\d+)\s+single\b|,\s*(?:0|-\d+)\s+of\s+them")


def reckoned(text: str) -> str:
    """The words with the sum in the place of what it was reckoned from.

    >>> reckoned("bombs 1/2 oz, had six, one left in the tree so 5")
    'bombs 1/2 oz, 5 of them (note: had six, one left in the tree)'
    >>> reckoned("hooks 18, 2 pkts of 8 but 1 has 3 gone")
    '13 single hooks 18, pack of 8'
    >>> reckoned("swivels 14, bag of 12, 2 bags, one opened with nine in")
    '21 single swivels 14, bag of 12'
    """
    made = _reckoned(text)
    return text if _NOTHING_LEFT.search(made) else made


def _reckoned(text: str) -> str:
    if found := _ONE_HAS.search(text):
        held = count_of(found["held"])
        many = count_of(found["packets"]) * held - count_of(found["used"])
        return f"{many} single {_without(text, found, f'pack of {held}')}"
    if opened := _of_opened(text):
        return opened
    if found := _IN_PLACES.search(text):
        many = count_of(found["here"]) + count_of(found["there"])
        return f"{_without(text, found, f'{many} of them')} (note: {found['aside']})"
    if found := _WAS_LEFT.search(text):
        return f"{_without(text, found, found['many'] + ' of them')} (note: {found['aside']})"
    if found := _HAD_LOST.search(text) or _HAD_GONE.search(text):
        many = count_of(found["had"]) - count_of(found["used"])
        return f"{_without(text, found, f'{many} of them')} (note: {found['aside']})"
    if (found := _ONE_LOW.search(text)) and re.search(
        PACKETS, text[: found.start()], re.IGNORECASE
    ):
        return f"{text[: found.start()]} (note: {found['aside']})"
    if found := _SO.search(text) or _THEN.search(text) or _NOW_SO_MANY.search(text):
        return _with_sum(text, found)
    if found := _MORE_LOST.search(text) or _OTHER_GONE.search(text) or _DONE.search(text):
        return f"{_without(text, found, '')} (note: {found['aside']})"
    if _LEFT_OF.search(text) and (found := _ALSO_LOST.search(text)):
        return f"{_without(text, found, '')} (note: {found['aside']})"
    if found := _HERE.match(text):
        return f"{found['many']} {found['of']}"
    if found := _CALL_IT.search(text):
        was = f"{text[: found.start()]}{found['was']}{_A_SHARE.sub('', found['between'])}"
        was = _A_SHARE.sub("", was).strip(" ,")
        return f"{was}, {found['now']} {found['unit']} left (note: {found['aside']})"
    return text


def _of_opened(text: str) -> str:
    """Packets of which one is opened, with what is in them all; "" where nothing is said of that."""
    if found := _BUT_ONE.search(text):
        held = int(found["held"])
        note = f"pack of {held} (note: {found['aside']})"
        return f"{held - 1} single {_without(text, found, note)}"
    if found := _ONE_GONE.search(text):
        left = count_of(found["packets"]) - 1
        return (
            _without(text, found, f"{left} packet{'s' * (left > 1)} (note: {found['aside']})")
            if left
            else ""
        )
    if found := _SOME_USED.search(text):
        held = count_of(found["of"])
        many = count_of(found["packets"]) * held - count_of(found["used"])
        note = f"pack of {held} (note: {found['aside'].strip(' ,')})"
        return f"{many} single {_without(text, found, note)}"
    if found := _ONE_AND_OTHER.search(text):
        held = count_of(found["of"])
        many = held + count_of(found["left"])
        return f"{many} single {_without(text, found, f'pack of {held}')}"
    if others := _of_one_and_others(text):
        return others
    held_in = _HELD.search(text)
    held = count_of(held_in["of"] or held_in["each"]) if held_in else 0
    if found := _AN_ODD.search(text):
        held, whole = int(found["of"]), count_of(found["packets"])
    elif found := _OPENED.search(text) or _ONE_HOLDS.search(text):
        held = count_of(found["of"]) if found["of"] else held
        one_more = _AND_ONE_OPENED.search(found.group()) and count_of(found["packets"]) > 2
        whole = count_of(found["packets"]) - (not one_more)
    elif found := _FULL_AND.search(text):
        whole = count_of(found["packets"])
    if not found or not held:
        return ""
    kept = held_in and not found.start() <= held_in.start() < found.end()
    pack = "" if kept else f"pack of {held}"
    return f"{whole * held + count_of(found['left'])} single {_without(text, found, pack)}"


def _of_one_and_others(text: str) -> str:
    """Packets and another one, or one of which some is left: "two of 8 and one with 3 left"; else ""."""
    if (found := _SPOOLS.search(text)) and count_of(found["packets"]) == 2:
        left, unit = int(found["long"]) + int(found["left"]), found["unit"]
        said = f"{found['long']} {unit}, {left} {unit} left (note: {found['aside']})"
        return _without(text, found, said)
    held_in = _HELD.search(text)
    if (found := _HALF.search(text)) and held_in:
        held = count_of(held_in["of"] or held_in["each"])
        many = (count_of(found["packets"]) - 1) * held + held // 2
        return f"{many} single {_without(text, found, '')} (note: {found['aside']})"
    if found := _OPENED_ONE.search(text):
        held = count_of(found["of"])
        many = (count_of(found["packets"]) - 1) * held + count_of(found["left"])
        return f"{many} single {_without(text, found, f'pack of {held}')}"
    if found := _AND_ANOTHER.search(text):
        held = count_of(found["of"])
        many = count_of(found["packets"]) * held + count_of(found["left"])
        return f"{many} single {_without(text, found, f'pack of {held}')}"
    return ""


def _with_sum(text: str, found: re.Match[str]) -> str:
    before = text[: found.start()].rstrip(" ,")
    if not re.search(r"[a-z]{2}", before, re.IGNORECASE):
        return text
    note, many = f"(note: {found['aside'].strip()})", count_of(found["many"])
    rest = f"{text[found.end() :]} {note}"
    long = list(re.finditer(_LENGTH, before, re.IGNORECASE))
    if long and _MEASURED_BY.search(before) and MOST_COUNTED < many < float(long[-1]["long"]):
        return f"{before}, {many} {long[-1]['unit']} left {rest}"
    packets = _PACKETS_OF.search(before) or _PACKETS_OF.search(found["aside"])
    if packets and 0 < count_of(packets["packets"]) - many < MOST_PACKETS_USED:
        of_each = f", {many} packets of {packets['held']}"  # "5 packets of 10 but I used one, so 4"
        whole = before.replace(packets.group(), "").rstrip(" ,")
        return f"{whole}{of_each} {rest}"
    if packets := _PACKETS_OF.search(before):
        held = count_of(packets["held"])
        return f"{many} single {_without(before, packets, f'pack of {held}')}{rest}"
    packets = _PACKETS_FIRST.match(found["aside"])
    if packets and abs(count_of(packets["packets"]) - many) < MOST_PACKETS_USED:
        return f"{before}, {many} packets {rest}"
    if _HELD.search(before):
        return f"{many} single {before}{rest}"
    if lies := _LIES.search(before):  # "ten on the winder less two, so eight"
        before, rest = before[: lies.start()], f"{rest} (note: {lies['place']})"
    first = _FIRST.search(before)  # "tied up 12 hooklengths ..., 2 came undone, call it 10"
    before = f"{before[: first.start()]}{before[first.end() :]}" if first else before
    return f"{before}, {many} of them{rest}"


def _without(text: str, found: re.Match[str], instead: str) -> str:
    """The words with others in the place of what was found."""
    before, after = text[: found.start()].rstrip(" ,"), text[found.end() :].lstrip()
    return f"{before}{', ' if instead else ''}{instead} {after}".strip()
