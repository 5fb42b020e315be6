"""The words of anglers, looked up with hyphens, spaces and plurals left out of account."""

import re
from collections.abc import Iterable, Mapping
from functools import lru_cache

from tacklebox.stock.naming.hand import FILLERS, Lexicon
from tacklebox.stock.naming.tokens import LEADING, UNITS, Token
from tacklebox.stock.naming.words import WORDS
from tacklebox.stock.tables import Kind


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


# "Link ledger" is a lead on a link.
NEVER_TURNED = ("ledger link", "leger link")


def _noun_first(kind: str, role: str) -> dict[str, tuple[str, str]]:
    """Names of several words as a list has them, the noun first: "swivels, barrel", "bead quick change"."""
    found = {}
    for meaning, forms in WORDS[kind][role].items():
        for form in forms.split(", "):
            *others, noun = form.split()
            if others and form not in NEVER_TURNED:
                found[_letters(f"{noun} {' '.join(others)}")] = (role, meaning)
    return found


LEXICON = {**LEXICON, Kind.PART: {**_noun_first(Kind.PART, "sort"), **LEXICON[Kind.PART]}}

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
    "pack packs packet packets pkt pkts pk pks card cards box boxes bx bxs tub tubs bag bags spool spools "
    "reels spl spls tray trays dispenser dispensers refill refills pot pots pouch pouches strip "
    "strips bundle bundles poke pokes".split()
)
SPOOLS = frozenset("spool spools spl spls reels".split())  # line and elastic come on them
TUBS = frozenset("tub tubs refill refills dispenser dispensers".split())  # shot comes in them
PIECES = frozenset("pcs pc pieces count ct".split())


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


@lru_cache(maxsize=1)
def telling() -> frozenset[str]:
    """Those words without what is only ever a note: a slip of the pen is not taken for one."""
    notes = {
        word
        for roles in WORDS.values()
        for form in ", ".join(roles.get("note", {}).values()).split(", ")
        for word in form.split()
    }
    others = {
        word
        for roles in WORDS.values()
        for role, meanings in roles.items()
        if role != "note"
        for form in ", ".join(meanings.values()).split(", ")
        for word in form.split()
    }
    only_notes = notes - others
    return frozenset(word for word in vocabulary() if word.removesuffix("s") not in only_notes)


def all_known(tokens: Iterable[Token]) -> bool:
    """Whether every word among the tokens is one that some kind understands."""
    return all(token.kind != "word" or token.text in vocabulary() for token in tokens)
