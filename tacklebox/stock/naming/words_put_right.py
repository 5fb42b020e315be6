"""A word of what a thing is that is put right in the same breath: "barbless no barbed", "red, sorry green".

Two words are rivals where one kind of tackle knows both as the same sort of thing, a colour, an end.
"""

import re
from collections.abc import Sequence

from tacklebox.stock.naming.hand import singular
from tacklebox.stock.naming.lexicon import LEXICON

_DECIDES = frozenset(
    "barb end eye wire bend colour core material shape size fitting sort body stem tip loose form".split()
)
_PLAINLY = (
    r"sorry|oops|whoops|i\s+me(?:an|ant)|meant(?:\s+to\s+say)?|make\s+(?:that|it)|actually|correction|(?:scrub|scrap|scratch|strike|forget)\s+that|wait|hang\s+on"
    r"|(?:i\s+)?tell\s+a\s+lie|should\s+(?:be|say)|or\s+rather|nope|my\s+(?:mistake|error)"
)
_SAID = re.compile(
    rf"(?<=[a-z])(?P<sign>[\s,;.?–-]+)(?:(?P<plainly>(?:no[\s,]+)?(?:{_PLAINLY})(?:[\s,]+(?:{_PLAINLY}|no))*)|(?P<no>no))"
    r"[\s,]+(?:(?:the|its|it's|they're|a)\s+)?(?P<new>[a-z]{3,})(?P<after>[\s,]+(?:i\s+mean|sorry|it\s+says))?(?![a-z])",
    re.IGNORECASE,
)
_TAKEN_BACK = re.compile(r"^[a-z][a-z\s'-]{2,40}\?\s*no[\s,]+(?=[a-z])", re.IGNORECASE)
_NOT = re.compile(r"[\s,]+not\s+(?P<old>[a-z]{3,})(?![a-z])", re.IGNORECASE)
_AGAIN = re.compile(r"\s+(?P<figure>\d[\w.]*)(?=\s*(?:,|$|\s))")
_NOUN_AGAIN = re.compile(r"\s+([a-z]+)(?:\s+(?:sorry|i\s+mean))?", re.IGNORECASE)
_WORD = re.compile(r"[a-z]{3,}", re.IGNORECASE)


def words_put_right(text: str) -> str:
    """The words with what was put right in the place of the slip.

    >>> words_put_right("16 spade barbless no barbed"), words_put_right("elastic 8 red, sorry green")
    ('16 spade barbed', 'elastic 8 green')
    >>> words_put_right("18s eyed not spade, fine"), words_put_right("eyed, no barb")
    ('18s eyed, fine', 'eyed, no barb')
    """
    text = _TAKEN_BACK.sub("", text)
    for found in _SAID.finditer(text):
        earlier = list(_WORD.finditer(text, 0, found.start()))
        beside = earlier[-1:] if earlier and earlier[-1].end() == found.start() else []
        sure = found["plainly"] or found["after"]
        named = _NOUN_AGAIN.match(text, found.end())  # "wire stem? no carbon stem"
        if beside and named and named.group(1).lower() == beside[0].group().lower():
            beside, end = earlier[-2:-1], named.end()
        else:
            end = found.end()
        for old in reversed(earlier if sure else beside):
            if _are_rivals(old.group(), found["new"]):
                start = _start_of_name(text, earlier, old)
                new = f"{text[:start]}{found['new']}{text[old.end() : found.start()]}"
                return words_put_right(f"{new}{_without_again(text[end:], new)}")
    for found in _NOT.finditer(text):  # "waggler not loaded" says more than what it is not
        others = _WORD.finditer(text, 0, found.start())
        if any(_are_rivals(other.group(), found["old"], _DECIDES - {"shape"}) for other in others):
            return words_put_right(f"{text[: found.start()]}{text[found.end() :]}")
    return text


def _start_of_name(text: str, earlier: Sequence[re.Match[str]], old: re.Match[str]) -> int:
    """Where a name of two words begins that the slip ends: "pellet waggler" is one."""
    at = earlier.index(old)
    before = earlier[at - 1] if at else None
    if before is None or text[before.end() : old.start()].strip(" -"):
        return old.start()
    name = singular(f"{before.group()}{old.group()}".lower())
    return before.start() if any(name in known for known in LEXICON.values()) else old.start()


def _without_again(rest: str, before: str) -> str:
    """The rest without a figure that was only said again: "eyed 14s, scratch that, spade 14s"."""
    again = _AGAIN.match(rest)
    return rest[again.end() :] if again and again["figure"] in before.split() else rest


def _are_rivals(one: str, other: str, roles: frozenset[str] = _DECIDES) -> bool:
    """Whether a kind knows both, in one role and with two meanings."""
    for known in LEXICON.values():
        first, second = (
            known.get(word) or known.get(singular(word)) for word in (one.lower(), other.lower())
        )
        if (
            first
            and second
            and first[0] == second[0]
            and first[0] in roles
            and first[1] != second[1]
        ):
            return True
    return False
