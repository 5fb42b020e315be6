"""What a rig that is named is made of: "rig 4x14, 0.12 to 0.10, 20 hook" has a float, a line and a
hooklength. One of them may be meant."""

import re

from tacklebox.stock.naming.turns import saying

_NOT_OF_PARTS = saying(  # a hooklength named by its use, a slip, what is only wanted
    r"\brigs?\s+(?:hook\s*-?\s*l[a-z]*|h/?ls?)\b|\blien\b|\b(?:want|wanted|need|needed|worth)\b"
)
_POLE_MARK = saying(r"(?<![\w.])[34]\s*[x×]\s*(?:\d{2}|8|9)(?!\d)")
_GRAMS = saying(r"(?<![\w.])\d*\.?\d+\s*g(?:ms?|rams?)?\b")
_SHOT = saying(r"(?<![\w.])\d\s*(?:bb|aaa|ssg|swan)\b")
_THICK = r"0?\.[0-4]\d"
_BOTTOM = saying(
    rf"\b(?:to|bottom|hook\s?length|hook\s?link)\s+(?:an?\s+)?(?P<thick>{_THICK})(?!\d)"
)
_MAIN = saying(
    rf"(?<![\d.])(?P<thick>{_THICK})\s+main\b|(?<![\d.])(?<!to )(?<!to a )(?P<first>{_THICK})(?!\d|\s*g)"
)
_HOOK = saying(
    r"\b(?:hook|size|to\s+an?)\s+(?P<after>\d{2})(?![\d.])"
    r"|(?<![\d.x×])(?P<sized>\d{2})s(?=\s*(?:[,-]|$))"
    r"|(?<![\d.x×])(?<![x×] )(?P<before>\d{2})s?\s+(?:hook|hk|b/?less|barbless|eyed|spade|to\s+0?\.\d)"
)


def parts_of_a_rig(text: str) -> tuple[str, ...]:
    """The parts that the words of a rig name, the float first.

    >>> parts_of_a_rig("pole rigs 4x14, 0.12 to 0.10, 20 hook")
    ('pole float 4x14', 'rig line 0.12', 'hooklength 20 to 0.10')
    """
    if _NOT_OF_PARTS.search(text):
        return ()
    parts: list[str] = []
    if mark := _POLE_MARK.search(text) or _GRAMS.search(text):
        parts.append(f"pole float {mark.group()}")
    elif mark := _SHOT.search(text):
        parts.append(f"waggler {mark.group()}")
    main, bottom, hook = _MAIN.search(text), _BOTTOM.search(text), _HOOK.search(text)
    size = (hook["after"] or hook["sized"] or hook["before"]) if hook else ""
    if main:
        parts.append(f"rig line {main['thick'] or main['first']}")
    elif bottom and parts and not size:  # "0.2g to 0.10"
        parts.append(f"rig line {bottom['thick']}")
    if size and bottom and not (main and main.start("thick") == bottom.start("thick")):
        parts.append(f"hooklength {size} to {bottom['thick']}")
    elif size:
        parts.append(f"hook {size}")
    return tuple(re.sub(r"\s+", " ", part) for part in parts)
