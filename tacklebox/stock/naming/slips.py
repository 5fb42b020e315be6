"""Slips of the pen and words without their vowels, with what was likely meant."""

from difflib import get_close_matches
from functools import lru_cache

from tacklebox.stock.naming.hand import FILLERS
from tacklebox.stock.naming.lexicon import LEXICON, telling
from tacklebox.stock.naming.numbers import FRACTIONS, ONES, TENS


def likely_word(slip: str) -> str | None:
    """The word that a slip of the pen was likely meant to be; the first letter is seldom wrong."""
    if len(slip) < 3:
        return None
    words = sorted(
        word
        for word in telling() | _spoken()
        if word[0] == slip[0] and len(word) > 1 and word not in FILLERS
    )
    if turned := [word for word in words if sorted(word) == sorted(slip)]:
        return turned[0]  # "flaot"
    begun = [word for word in words if word.startswith(slip) and len(word) > 3]
    near = get_close_matches(slip, words, n=1, cutoff=0.8 if len(slip) < 6 else 0.82) or begun[:1]
    near = near or sorted((word for word in words if _shortens(slip, word)), key=len)[:1]
    near = near or get_close_matches(slip, _joined(), n=1, cutoff=0.85)
    return near[0] if near else None


@lru_cache(maxsize=1)
def _joined() -> frozenset[str]:
    """Names of several words run together: "microbarbed"."""
    return frozenset(name for kind in LEXICON.values() for name in kind if len(name) > 7)


@lru_cache(maxsize=1)
def _spoken() -> frozenset[str]:
    """Numbers in words that are long enough to tell a slip of."""
    return frozenset(word for word in (*ONES, *TENS, *FRACTIONS) if len(word) > 4)


def _shortens(slip: str, full: str) -> bool:
    """Whether it may be the word with its vowels left out, "fdr" for "feeder": a plural stays one."""
    left = iter(full)
    spelt = [letter for letter in slip if letter not in "aeiou"]
    heard = [letter for letter in full if letter not in "aeiou"]
    most = 2 * len(spelt) > len(heard)  # "loop" is no "lollipop"
    return (
        len(full) > 4 and slip[-1] == full[-1] and most and all(letter in left for letter in slip)
    )
