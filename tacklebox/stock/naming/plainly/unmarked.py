"""Floats, feeders and leads of which nobody knows what they take or weigh, whatever is said of that: "no
weight on it", "size rubbed off", "don't know what they take"."""

from tacklebox.stock.naming.plainly.rules import Rules, rules
from tacklebox.stock.tables import UNMARKED

_THEM = (
    r"^(?=.*\b(?:floats?|wagg?l?e?r?s?|quills?|sticks?|dibbers?|avons?|bolos?|chubbers?|sliders?|windbeaters?"
    r"|antennas?|peacocks?|bodied|hooks?|spades?|shots?|olivettes?|styls?|\w*feeders?|methods?|hybrids?|cages?|bombs?|led?gers?|leads?|bullets?)\b)"
    r"(?P<before>.*?)"
)
_FIGURE = (
    r"(?:weights?|sizes?|loads?|loadings?|capacity|capacities|shotting|ratings?|marks?|markings?"
    r"|numbers?|grams?)\b"
)
_LOST = (
    r"(?:un(?:known|marked|readable|stated|clear|sure)|illegible|rubbed\s+off|worn\s+(?:off|away)"
    r"|faded|missing|gone|come\s+off|n/?k|cannot\s+be\s+read|can'?t\s+(?:read|see|tell|make\s+out)"
    r"|(?:not|never)\s+(?:known|marked|given|stated|shown|stamped|legible|on\s+(?:it|them|any)))"
)
_NOT_KNOWN = (
    r"(?:don'?t|do\s+not|dunno|didn'?t|no\s+idea|not\s+sure|unsure|can'?t|cannot|never|forget"
    r"|forgotten|(?:god|who)\s+knows)"
)
_TOLD_OF_IT = (
    r"(?:on|marked|given|stated|stamped|known|shown|printed|it|them|any|the|tag|side|body|or|size"
    r"|load|weight)"
)
_ASKED = r"(?:what|how|the|its|their|which|much|heavy|big)"
_THEY = rf"(?:{_FIGURE}|they|it|these|that|those|each)"
_TAKE = r"(?:takes?|carr(?:y|ies)|weighs?|are|is|shot|they|it|do|does|load)"


def _of_them(said: str) -> tuple[str, str]:
    return rf"{_THEM}[\s,(]*\b{said}\)?", rf"\g<before>, {UNMARKED}"


RULES: Rules = rules(
    (r"\b(?:home|hand)[\s-]+made\b", "homemade"),
    (r"[\s,]*\bno\s+lead\s+(?:on|in|fitted)\b(?:\s+it\b)?", ", no lead"),
    _of_them(rf"(?:the\s+)?{_FIGURE}\s+(?:(?:is|are|all|has|have)\s+)*{_LOST}\b"),
    _of_them(rf"(?:of\s+)?(?:an?\s+)?(?:unknown|unmarked|no)\s+{_FIGURE}(?:\s+{_TOLD_OF_IT}\b)*"),
    _of_them(
        rf"(?:i\s+)?{_NOT_KNOWN}\s+(?:(?:know|say|tell|remember|recall|read|of|see)\s+)?"
        rf"(?:{_ASKED}\s+)*{_THEY}\b(?:\s+{_TAKE}\b)*"
    ),
    _of_them(
        r"(?:unweighed|unstamped|(?:not|nothing)\s+(?:marked|stamped|weighed|printed|written|on)\b"
        r"(?:\s+on)?(?:\s+(?:it|them|any))?)\b"
    ),
    _of_them(
        r"(?<!make )(?<!maker )(?<!brand )unknown\b(?!\s+(?:make|maker|brand|age|number|quantity))"
    ),
)
