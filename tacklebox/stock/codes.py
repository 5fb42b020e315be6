"""Rig codes: short, read by eye, typed by cold fingers, with a check character.

A code is a payload of three characters or more and the check character of ISO/IEC 7064
MOD 37,36 over it. Letters that look like a digit or like one another are never used; a
payload whose check character would be one of those is passed over.
"""

import re
from collections.abc import Iterable
from difflib import SequenceMatcher

from stdnum.iso7064 import mod_37_36

from tacklebox.errors import AskedWronglyError

LETTERS = "ACDEFHJKLMNPRTWXY"  # without B8 G6 I1 O0 Q0 S5 Z2 U V
ALPHABET = "0123456789" + LETTERS
SHORTEST = 3
NEAR = 0.7  # of the ratio that SequenceMatcher tells
_MEANT = str.maketrans({"O": "0", "Q": "0", "I": "1", "S": "5", "B": "8", "Z": "2", "G": "6"})


def _payload(number: int) -> str:
    """The n-th payload: a letter first, so that no code is taken for an item's number."""
    digits: list[str] = []
    while len(digits) < SHORTEST - 1 or number >= len(LETTERS):
        number, digit = divmod(number, len(ALPHABET))
        digits.append(ALPHABET[digit])
    return LETTERS[number] + "".join(reversed(digits))


def next_code(after: int) -> tuple[int, str]:
    """The first usable code with a number beyond ``after`` (−1 for the very first).

    >>> next_code(-1)
    (1, 'A01T')
    """
    number = after + 1
    while True:
        payload = _payload(number)
        check = mod_37_36.calc_check_digit(payload)
        if check in ALPHABET:
            return number, payload + check
        number += 1


def read_code(text: str) -> str:
    """The code as typed, letters that look like digits put right.

    Raises AskedWronglyError when it is no code, or its check character does not fit.

    >>> read_code("ao1-t")
    'A01T'
    """
    plain = text.upper().replace("-", "").replace(" ", "").translate(_MEANT)
    if not SHORTEST < len(plain) <= 12 or any(c not in ALPHABET for c in plain):
        raise AskedWronglyError(
            f'"{text[:40]}" is no code.', right="A code is on the label, like A01T."
        )
    if not mod_37_36.is_valid(plain):
        raise AskedWronglyError(
            f'"{text.strip()}" is mistyped: its last character does not fit the others.',
            right="Look at the label again.",
        )
    return plain


def each_code(typed: Iterable[str]) -> list[str]:
    """The words that are typed for codes, one for each; blanks, commas and semicolons part them.

    Words that make a code only together are one code, typed with blanks in it.

    >>> each_code(["A01T A02R,a03p", "a0 1t"])
    ['A01T', 'A02R', 'a03p', 'a0 1t']
    """
    found: list[str] = []
    for text in typed:
        words = [word for word in re.split(r"[\s,;]+", text) if word]
        is_one = not all(map(_is_code, words)) and _is_code(text)
        found += [text] if is_one or not words else words
    return found


def _is_code(text: str) -> bool:
    try:
        read_code(text)
    except AskedWronglyError:
        return False
    return True


def near_codes(typed: str, known: list[str], most: int = 3) -> list[str]:
    """Codes in the box that are nearest to what was typed, best first."""
    plain = typed.upper().replace("-", "").replace(" ", "").translate(_MEANT)
    scored = [
        (SequenceMatcher(None, plain, code).ratio(), code)
        for code in known
        if _most_alike(plain, code) >= NEAR
    ]
    return [code for score, code in sorted(scored, reverse=True) if score >= NEAR][:most]


def _most_alike(one: str, other: str) -> float:
    """What the ratio is at most: that of the letters alone, in whatever order; quick to tell."""
    shared = sum(min(one.count(letter), other.count(letter)) for letter in set(one))
    return 2 * shared / max(len(one) + len(other), 1)
