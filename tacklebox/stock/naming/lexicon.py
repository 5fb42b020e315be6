"""The words of anglers, looked up with hyphens, spaces and plurals left out of account."""

import re
from collections.abc import Iterable, Mapping
from functools import lru_cache

from tacklebox.stock.naming.hand import FILLERS, Lexicon
from tacklebox.stock.naming.tokens import LEADING, UNITS, Token
from tacklebox.stock.naming.words import WORDS


def _letters(form: str) -> str:
    return re.sub(r"[^a-z\d]", "", form)


def _lexicon(roles: Mapping[str, Mapping[str, str]]) -> Lexicon:
    return {
        _letters(form): (role, meaning)
        for role, meanings in reversed(list(roles.items()))
        for meaning, forms in meanings.items()
        for form in forms.split(", ")
    }


LEXICON: Mapping[str, Lexicon] = {kind: _lexicon(roles) for kind, roles in WORDS.items()}

# Bigger weights by letters; the rest go by number. "AA" is no size: it may be AAA or AB.
MARKS: Mapping[str, str] = {
    _letters(form): mark
    for mark, forms in {
        "SSG": "ssg, swan, swan shot, s s g",
        "AAA": "aaa, triple a, tripple a, 3 a",
        "AB": "ab",
        "BB": "bb, double b, b b",
        "AA": "aa, double a",
    }.items()
    for form in forms.split(", ")
}
MARK_LETTERS: Lexicon = {letters: ("mark", mark) for letters, mark in MARKS.items()}
PACKETS = frozenset(
    "pack packs packet packets pkt pkts pk pks card cards box boxes tub tubs bag bags spool spools "
    "spl tray trays dispenser dispensers refill refills pot pots pouch pouches".split()
)
PIECES = frozenset("pcs pc pieces off".split())


@lru_cache(maxsize=1)
def vocabulary() -> frozenset[str]:
    """Every single word that some kind understands, and its plural."""
    forms = (
        form
        for roles in WORDS.values()
        for meanings in roles.values()
        for said in meanings.values()
        for form in said.split(", ")
    )
    words = {word for form in forms for word in form.split()}
    marks = {"ssg", "swan", "aaa", "triple", "ab", "bb", "double", "to", "pack"}
    words |= marks | PACKETS | PIECES | FILLERS | set(UNITS) | set(LEADING)
    return frozenset(word + ending for word in words for ending in ("", "s"))


def all_known(tokens: Iterable[Token]) -> bool:
    """Whether every word among the tokens is one that some kind understands."""
    return all(token.kind != "word" or token.text in vocabulary() for token in tokens)
