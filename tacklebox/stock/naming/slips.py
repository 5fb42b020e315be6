"""Slips of the pen and words without their vowels, with what was likely meant."""

from collections.abc import Iterator
from difflib import get_close_matches
from functools import lru_cache
from string import ascii_lowercase

from tacklebox.stock.naming.everyday import EVERYDAY
from tacklebox.stock.naming.hand import FILLERS
from tacklebox.stock.naming.lexicon import LEXICON, telling
from tacklebox.stock.naming.numbers import FRACTIONS, ONES, TENS

MOST_LIKELY = 3
LEAST_OF_A_SLIP = 4  # letters; shorter words are near too many


def likely_words(slip: str, *, alone: bool = False) -> list[str]:
    """The words that a slip of the pen was likely meant to be, the likeliest first; the first letter is
    seldom wrong. Where it stands ``alone`` nothing else tells, so that it must be nearer.

    >>> likely_words("flaot")[0], likely_words("hooklegnth")[0], likely_words("off")
    ('float', 'hooklength', [])
    """
    return list(_likely_words(slip, alone))


@lru_cache(maxsize=1024)  # one strange word is looked up for every way to read the rest
def _likely_words(slip: str, alone: bool) -> tuple[str, ...]:
    if len(slip) < 3 or slip in EVERYDAY:
        return ()
    words = sorted(
        word
        for word in telling() | _spoken()
        if word[0] == slip[0] and len(word) > 1 and word not in FILLERS
    )
    likely = [word for word in words if sorted(word) == sorted(slip)][:1]
    if not likely and slip.endswith("s"):  # "flaots"
        likely = [f"{word}s" for word in words if sorted(word) == sorted(slip[:-1])][:1]
    if likely and likely[0] in _exchanged(slip):
        return tuple(likely)
    if len(slip) >= LEAST_OF_A_SLIP and not alone:
        one_off = {word for word in words if len(word) >= LEAST_OF_A_SLIP} & set(_one_off(slip))
        likely += get_close_matches(slip, sorted(one_off), n=MOST_LIKELY, cutoff=0)
    if not likely:
        likely = get_close_matches(slip, words, n=1, cutoff=0.8 if len(slip) < 6 else 0.82)
        likely = likely or [w for w in words if w.startswith(slip) and len(w) > 3][:1]
        likely = likely or sorted((word for word in words if _shortens(slip, word)), key=len)[:1]
        likely = likely or get_close_matches(slip, _joined(), n=1, cutoff=0.85)
    return tuple(dict.fromkeys(likely))


def is_near_slip(word: str) -> bool:
    """Whether it is likely a slip of a word that decides: one letter off, two exchanged, no vowels."""
    if len(word) < LEAST_OF_A_SLIP or word in EVERYDAY:
        return False
    if not set(word) & set("aeiouy"):
        return True  # its vowels left out: "frgd"
    return any(
        near in telling() and len(near) >= LEAST_OF_A_SLIP and near not in FILLERS
        for near in _one_off(word)
    )


def _one_off(word: str) -> Iterator[str]:
    """Every spelling that one slip away: a letter left out, put in, taken for another, two exchanged."""
    for at in range(1, len(word) + 1):
        before, after = word[:at], word[at:]
        yield before + after[1:]
        yield from (before + letter + after[1:] for letter in ascii_lowercase)
        yield from (before + letter + after for letter in ascii_lowercase)
        if len(after) > 1:
            yield before + after[1] + after[0] + after[2:]


def _exchanged(word: str) -> set[str]:
    """The word with two letters exchanged that stand side by side."""
    return {f"{word[:at]}{word[at + 1]}{word[at]}{word[at + 2 :]}" for at in range(len(word) - 1)}


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
