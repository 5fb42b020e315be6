"""How many are left of a packet, where it is told by what is there or by what is used: "7 left out of 10",
"8 left", "think I've used 3", "6 gone", "one packet and 4 loose"."""

import re

from tacklebox.stock.naming.numbers import spoken_number
from tacklebox.stock.naming.said_figures import SPOKEN

_PACKET = r"(?:packet|pack|pkt|pk|card|bag|box|tub|tin|wallet|set)"
_DOZENS = r"(?:half\s+)?(?:a\s+)?(?:couple|dozen)"
_MANY = (
    rf"(?<![\w./×-])(?<!size\s)(?<!no\s)(?<!x\s)(?:\d{{1,3}}|{SPOKEN}|{_DOZENS})(?![\w/×-]|\.\d)"
)
_ABOUT = r"(?:\b(?:about|roughly|approx\.?|around|some|maybe|probably|only|just|say)\s+)*"
# What is said before it: "but I think I've only", "must have".
_SO = (
    r"(?:\b(?:i'?ve|i'?d|i|have|has|had|but|and|think|reckon|already|so|must|well|got|still|there'?s"
    r"|there\s+are|which|with)\s+)*"
)
_THEM = r"(?:\s+of\s+(?:them|em|it|these|those))?"
_ENDS = r"(?=\s*(?:[,;.]|$))"
_IN_IT = rf"(?:\s+(?:in|on)\s+(?:it|there|(?:the|this|that)\s+(?:\w+\s+)?{_PACKET}))?"
_OF_HELD = (
    rf"(?:in|out\s+of|of|from)\s+(?:(?:the|an?|my)\s+)?(?:{_PACKET}\s+(?:of\s+)?)?(?P<held>{_MANY})"
)
_USED = r"(?:used|gone|lost|missing|snapped)"
_OF_THOSE = (
    rf"(?:\s+[a-z]{{3,}}s)?\s+{_USED}(?:\s+(?:on|at|in)\s+[a-z ]+)?"  # "three hooks used on Sunday"
)
_PATTERNS = (
    # "7 left out of 10", "6 left of a pack of 8", "7 of the 10 left", "7 out of 10 left"
    rf"{_SO}{_ABOUT}(?P<left>{_MANY}){_THEM}\s+left\s+{_OF_HELD}(?:\s+of\b)?",
    rf"{_SO}{_ABOUT}(?P<left>{_MANY})\s+{_OF_HELD}\s+left\b",
    # "4 floats left from a set of 6"
    rf"{_SO}{_ABOUT}(?P<left>{_MANY})(?P<thing>(?:\s+(?!left\b)[\w./]+){{1,5}}?)\s+left\s+(?=out|from){_OF_HELD}",
    # "7 in the packet now, was 10", "7 left, was 10"
    rf"(?:^|,\s*|(?<=[a-z])\s+){_SO}{_ABOUT}(?P<left>{_MANY})(?:{_IN_IT}\s+now|\s+left{_IN_IT})\s*,?\s*(?:it\s+)?(?:was|were|had)\s+(?P<held>{_MANY}){_ENDS}",
    rf"(?:^|,\s*|(?<=[a-z])\s+){_SO}{_ABOUT}(?P<left>{_MANY}){_IN_IT}\s+now{_ENDS}",
    # "but i'm down to 30"
    rf"(?:,\s*|\s)(?:(?:but|and|now|i'?m|we'?re|its|it'?s)\s+)*down\s+to\s+(?:(?:the|my)\s+last\s+)?(?P<left>{_MANY}){_ENDS}",
    # ", 8 left", "10 left in the pkt", "box of 50, 30 odd left"
    rf"(?:^|,\s*|(?<=[a-z])\s+-\s+|(?<=[a-z])\s+(?=(?:but|about|only|with|still|just)\b)|(?<=[a-z]{{3}})\s+){_SO}{_ABOUT}(?P<left>{_MANY})(?:\s+odd)?{_THEM}"
    rf"\s+(?:left|remaining){_IN_IT}{_ENDS}",
    # "only used 2", "think i've lost about 3 of them"
    rf"[,\s]\s*{_SO}{_ABOUT}\b(?<!part )(?:used|lost|broken?|snapped|gave|lent|sold)\s+{_ABOUT}"
    rf"(?P<used>{_MANY})(?!\s+(?:packs?|packets?|pkts?)){_THEM}(?:\s+(?:out|so\s+far|already|up|(?:to|away)\b[^,]*))*{_ENDS}",
    # "6 gone", "with 2 used", "minus 2", "less the 3 i used"
    rf"(?:,\s*|\s-\s*|\s(?=(?:but|with|and)\b)){_SO}{_ABOUT}(?P<used>{_MANY}){_THEM}\s+(?:(?:are|is|been)\s+)?(?:already\s+)?{_USED}(?:\s+already)?{_ENDS}",
    rf"[,\s]\s*(?:minus|less|bar)\s+(?:the\s+)?(?P<used>{_MANY})(?:\s+(?:i|that|i'?ve)\s+[^,\d]*|{_OF_THOSE})?{_ENDS}",
    rf"(?:,\s*)?\ball\s+but\s+(?P<used>{_MANY})(?:\s+of\s+them)?(?:\s+(?:are\s+)?(?:still\s+)?(?:there|left|in\s+it))?{_ENDS}",
    # "1 full packet and 4 loose", "a packet of 10 plus 3"
    rf"(?<=[a-z])(?P<packet>\s+of\s+{_MANY})?\s+(?:and|plus|\+|&)\s+{_ABOUT}(?P<more>{_MANY})"
    r"\s+(?:more\s+)?(?:loose|odd|singles?|spare|over)\b(?:\s+ones)?",
    rf"(?P<packet>\b(?:packets?|packs?|pkts?|boxe?s?)(?:\s+of\s+{_MANY})?)\s+(?:and|plus|\+|&)\s+(?P<more>{_MANY})"
    r"(?=\s*(?:,|$)|\s+(?:of\s+(?:them|em|these|those)|left)\b)",
    # "a packet of 10 and 3 size 16"
    rf"(?P<packet>\b(?:packet|pack|pkt|box)\s+of\s+{_MANY})\s+(?:and|plus|\+|&)\s+(?P<more>{_MANY})(?!\s+(?:packs?|packets?|pkts?|of\s+(?!them|em)))",
)
_HOW_MANY = [re.compile(pattern, re.IGNORECASE) for pattern in _PATTERNS]


def without_pieces_left(text: str) -> tuple[str, str, int] | None:
    """The words without it, "left", "used" or "more", and how many; None where none of that is said.

    >>> without_pieces_left("hooks size 10, 7 left out of 10"), without_pieces_left("16s, 8 left")
    (('hooks size 10, pack of 10', 'left', 7), ('16s', 'left', 8))
    >>> without_pieces_left("swivels 22, bag of 10, think ive used 3"), without_pieces_left("used 3")
    (('swivels 22, bag of 10', 'used', 3), None)
    >>> without_pieces_left("1 packet and 4 loose 18s")
    ('1 packet 18s', 'more', 4)
    """
    for one in _HOW_MANY:
        found = one.search(text)
        groups = found.groupdict() if found else {}
        thing = f", {groups['thing'].strip()}" if groups.get("thing") else ""
        if found is None or not re.search(
            r"\w", f"{text[: found.start()]}{thing}{text[found.end() :]}"
        ):
            continue
        how, many = next((key, found[key]) for key in ("left", "used", "more") if groups.get(key))
        held = f", pack of {groups['held']}" if groups.get("held") else groups.get("packet") or ""
        held = held if held[:1] in (",", " ", "") else f" {held}"
        rest = f"{text[: found.start()].rstrip(' ,')}{thing}{held} {text[found.end() :].strip()}".strip(
            " ,"
        )
        return rest, how, _number(many)
    return None


def _number(said: str) -> int:
    if said.isdecimal():
        return int(said)
    if said.lower().endswith(("couple", "dozen")):
        return 2 if said.lower().endswith("couple") else 6 if "half" in said.lower() else 12
    spoken = spoken_number(said.lower().replace("-", " ").split(), 0)
    return int(spoken[0]) if spoken else 0
