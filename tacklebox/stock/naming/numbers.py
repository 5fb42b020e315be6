"""Numbers as they are spoken, turned into figures: "point one two", "one and a half", "a dozen"."""

import re
from collections.abc import Container
from math import gcd

ONES = {
    word: number
    for number, word in enumerate(
        "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen "
        "fifteen sixteen seventeen eighteen nineteen".split()
    )
}
TENS = {
    word: 10 * number
    for number, word in enumerate(
        "twenty thirty forty fifty sixty seventy eighty ninety".split(), 2
    )
}
_NAMED = (["no"], ["number"], ["nos"], ["size"])  # "number ones"
NOUGHTS = {"nought": "0", "naught": "0", "zero": "0", "oh": "0", "o": "0"}
FRACTIONS = {
    **{"half": "1/2", "halves": "1/2", "halfs": "1/2", "quarter": "1/4", "quarters": "1/4"},
    **{"third": "1/3", "thirds": "1/3", "eighth": "1/8", "eighths": "1/8"},
    **{"sixteenth": "1/16", "sixteenths": "1/16"},
}
HOW_MANY = {
    **{"dozen": 12, "doz": 12, "dz": 12, "dozens": 12, "couple": 2, "pair": 2, "pr": 2, "pairs": 2},
    **{"brace": 2, "trio": 3, "score": 20, "gross": 144},
}
_HYPHENED = re.compile(r"(?<![\w-])(?:\d+|[a-z]+)(?:-[a-z]+)+(?![\w-])", re.IGNORECASE)


def _singular(word: str) -> tuple[str, bool]:
    """A number's word without its plural, and whether it had one: "sixes", "twenties"."""
    for ending, instead in (("ies", "y"), ("es", ""), ("s", "")):
        stem = word.removesuffix(ending) + instead
        if word.endswith(ending) and (stem in ONES or stem in TENS):
            return stem, True
    return word, False


def _digit(word: str) -> str | None:
    if word in NOUGHTS:
        return NOUGHTS[word]
    if word.isdecimal() and word.isascii():
        return word
    return str(ONES[word]) if word in ONES and ONES[word] < 10 else None


def _whole(words: list[str], at: int) -> tuple[int, int, bool] | None:
    """A whole number in words from ``at``: its value, where it ends, whether it is a plural."""
    word, plural = _singular(words[at])
    if word in ONES:
        value, end = ONES[word], at + 1
    elif word in TENS:
        value, end = TENS[word], at + 1
        hyphen = words[end : end + 1] == ["-"]  # "twenty-two"
        if not plural and end + hyphen < len(words):
            unit, plural_unit = _singular(words[end + hyphen])
            if 0 < ONES.get(unit, 0) < 10:
                value, end, plural = value + ONES[unit], end + hyphen + 1, plural_unit
    elif words[at] == "a" and words[at + 1 : at + 2] == ["hundred"]:
        value, end = 1, at + 1
    elif words[at] == "hundred":  # "hundred metres"
        value, end = 1, at
    else:
        return None
    if words[end : end + 1] == ["hundred"]:
        value, end = 100 * value, end + 1
        rest = (
            _whole(words, end + 1)
            if words[end : end + 1] == ["and"] and end + 1 < len(words)
            else None
        )
        if rest and rest[0] < 100:
            value, end = value + rest[0], rest[1]
    return value, end, plural


_COUNTED = frozenset(
    "packs packets pkts spools cards tubs bags boxes inch inches in off of pound pounds lb".split()
)


def _after_point(words: list[str], at: int, least: int = 2) -> tuple[str, int]:
    """The decimals after "point": digit by digit, or as one number ("point ten", "point 12"); behind the
    ``least`` of them a number of something else may stand: "point one nine four packs"."""
    digits, end = "", at
    while end < len(words) and (digit := _digit(words[end])) is not None:
        follows = words[end + 1 : end + 2]
        if len(digits) >= least and follows and follows[0] in _COUNTED:
            break
        if len(digits) > 1 and follows == ["hundred"]:  # "point one six two hundred metres"
            break
        digits, end = digits + digit, end + 1
    if not digits and at < len(words) and (whole := _whole(words, at)) and whole[0] < 100:
        return str(whole[0]), whole[1]
    return digits, end


def _fraction(words: list[str], at: int) -> tuple[str, int] | None:
    """A fraction from ``at``: "half", "three quarters", "quarter of an"; the article goes with it."""
    count, end = 1, at
    whole = _whole(words, at)
    if whole and whole[1] < len(words) and words[whole[1]] in FRACTIONS:
        count, end = whole[0], whole[1]
    if end >= len(words) or words[end] not in FRACTIONS:
        return None
    below = FRACTIONS[words[end]].split("/")[1]
    if end > at and (count >= int(below) or gcd(count, int(below)) > 1):
        return None  # "eight quarter ounce bombs", "two half ounce feeders"
    end += 1
    if words[end : end + 2] in (["of", "an"], ["of", "a"]):
        end += 2
    elif words[end : end + 1] in (["an"], ["a"]):
        end += 1
    return f"{count}/{below}", end


def spoken_number(words: list[str], at: int) -> tuple[str, int, bool] | None:
    """The number that the words say from ``at``: in figures, where it ends, whether it is a plural.

    >>> spoken_number("point one two".split(), 0), spoken_number("twenty twos".split(), 0)
    (('0.12', 3, False), ('22', 2, True))
    >>> spoken_number("one and a half".split(), 0), spoken_number("three quarters".split(), 0)
    (('1 1/2', 4, False), ('3/4', 2, False))
    """
    if words[at] == "point":
        digits, end = _after_point(words, at + 1)
        return (f"0.{digits}", end, False) if digits else None
    if words[at] in NOUGHTS and words[at + 1 : at + 2] == ["point"]:
        return spoken_number(words, at + 1)
    if words[at] in ("oh", "nought", "naught"):  # "oh nine" is 0.09, "oh one two" is 0.12
        digits, end = _after_point(words, at + 1, 1)
        return (f"0.{digits.rjust(2, '0')}", end, False) if 0 < len(digits) < 3 else None
    if fraction := _fraction(words, at):
        return (*fraction, False)
    whole = _whole(words, at)
    if whole is None or (words[at] == "ones" and words[at - 1 : at] not in _NAMED):
        return None  # "fine wire ones"
    value, end, plural = whole
    if words[end : end + 1] == ["point"]:
        digits, after = _after_point(words, end + 1)
        return (f"{value}.{digits}", after, False) if digits else (str(value), end, plural)
    if (
        words[end : end + 2] == ["and", "a"]
        and end + 2 < len(words)
        and words[end + 2] in FRACTIONS
    ):
        return f"{value} {FRACTIONS[words[end + 2]]}", end + 3, False
    return str(value), end, plural


def dictated(text: str) -> str:
    """A phrase of which every number is spoken, with all of them in figures; any other as it is.

    >>> dictated("bombs three quarter ounce four and two one ounce"), dictated("bombs 1 oz two")
    ('bombs 3/4 ounce 4 and 2 1 ounce', 'bombs 1 oz two')
    """
    if re.search(r"\d", text):
        return text
    words = text.lower().split()
    said: list[str] = []
    at = 0
    while at < len(words):
        found = spoken_number(words, at)
        said.append(f"{found[0]}{'s' * found[2]}" if found else words[at])
        at = found[1] if found else at + 1
    return " ".join(said)


def count_of(said: str) -> int:
    """How many a number in figures or in words is, 0 for none.

    >>> count_of("12"), count_of("twenty-five"), count_of("half a dozen"), count_of("two dozen")
    (12, 25, 6, 24)
    """
    if said.isdecimal():
        return int(said)
    words = said.lower().replace("-", " ").split()
    if words in (["a"], ["an"]):
        return 1
    if words and words[-1] in HOW_MANY:
        many = HOW_MANY[words[-1]]
        return many // 2 if words[0] == "half" else many * (count_of(" ".join(words[:-1])) or 1)
    spoken = spoken_number(words, 0) if words else None
    return int(spoken[0]) if spoken and spoken[0].isdecimal() else 0


def without_hyphens(text: str, units: Container[str]) -> str:
    """Numbers in words as they are read, with spaces between them and the units: "ounce-and-a-half".

    >>> without_hyphens("four two-and-a-half-ounce open-enders", ("ounce",))
    'four two and a half ounce open-enders'
    >>> without_hyphens("four ounce-and-a-quarter cages", ("ounce",))
    'four 1 1/4 ounce cages'
    """

    def parted(found: re.Match[str]) -> str:
        said = found.group().lower().split("-")
        if said[0] in units and said[1:3] == ["and", "a"] and said[3:] and said[3] in FRACTIONS:
            return f"1 {FRACTIONS[said[3]]} {said[0]}"
        number = any(_is_number(word) or word in units for word in said)
        return found.group().replace("-", " ") if number else found.group()

    return _HYPHENED.sub(parted, text)


def _is_number(word: str) -> bool:
    single = _singular(word)[0]
    return single in ONES or single in TENS or word in FRACTIONS or word in ("double", "triple")
