"""A few letters made of all that something says: where one sign of it changes, they are others."""

import hashlib
import json
from collections.abc import Mapping

CHECK = "check"
_CONSONANTS = "BCDFGHJKLMNPQRSTVWXZ"  # no word, and no month, can be made of them
_LETTERS = 6


def check_letters(text: str) -> str:
    """The letters that belong to a text: one other text in 64 million has the same.

    >>> check_letters("0.125 g"), check_letters("125 g")
    ('TRKXKK', 'HJXWSQ')
    """
    number = int.from_bytes(hashlib.blake2b(text.encode(), digest_size=8).digest())
    letters = ""
    for _ in range(_LETTERS):
        number, at = divmod(number, len(_CONSONANTS))
        letters += _CONSONANTS[at]
    return letters


def as_checked_json(said: Mapping[str, object]) -> str:
    """What is said, as JSON with its check in it."""
    return _as_json({**said, CHECK: check_letters(_as_json(said))})


def is_as_written(said: Mapping[str, object]) -> bool:
    """Whether what ``as_checked_json`` wrote is as it was; what has no check counts as such."""
    rest = {key: value for key, value in said.items() if key != CHECK}
    return CHECK not in said or said[CHECK] == check_letters(_as_json(rest))


def _as_json(said: Mapping[str, object]) -> str:
    return json.dumps(said, ensure_ascii=False, sort_keys=True)
