"""The signs that words are made of, looked at where they come in and where they go out.

A face sends all that it shows through ``written_out``, as the last thing before it is shown: signs that steer
a terminal, turn words round or cannot be seen may come from anywhere, a name in the box, a file, an option,
what a refusal repeats of it. What it is given it shows to ``refuse_no_words`` before anything reads it.
"""

import re
from typing import Any
from unicodedata import category

from tacklebox.errors import AskedWronglyError

MOST_LETTERS = 65_536  # of one field or option
_LONG_NUMBER = re.compile(r"[0-9]{101}")
# C0, C1 and delete, save for tabs and line ends; signs of direction, of no width, of no line; halves of
# signs. An escape in JSON says the same of each.
_STEERING = re.compile(
    "[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u00ad\u061c\u180e\u200b-\u200f\u2028-\u202e\u2060-\u206f"
    "\ufeff\ufff9-\ufffb\U000e0000-\U000e007f\ud800-\udfff]|\r(?!\n)"
)


def tidy(text: str) -> str:
    """The text without control characters, which a terminal would obey, and with single spaces."""
    return " ".join("".join(" " if category(c) == "Cc" else c for c in text).split())


def written_out(text: str) -> str:
    r"""The text with each such sign as its number, as JSON writes it.

    >>> written_out("\x1b[2Jclear \u202eme")
    '\\u001b[2Jclear \\u202eme'
    >>> written_out("No 8 × 3\n")
    'No 8 × 3\n'
    """
    return _STEERING.sub(_number, text)


def _number(found: "re.Match[str]") -> str:
    units = found.group().encode("utf-16-be", "surrogatepass")
    return "".join(f"\\u{units[at : at + 2].hex()}" for at in range(0, len(units), 2))


def all_written_out(answer: Any) -> Any:
    """An answer as what JSON knows, every text in it ``written_out``.

    >>> all_written_out({"name": ["\\u202e", 1]})
    {'name': ['\\\\u202e', 1]}
    """
    if isinstance(answer, str):
        return written_out(answer)
    if isinstance(answer, dict):
        return {written_out(key): all_written_out(value) for key, value in answer.items()}
    if isinstance(answer, list | tuple):
        return [all_written_out(each) for each in answer]
    return answer


def refuse_no_words(said: str, field: str = "") -> None:
    """Raise AskedWronglyError for what no reading of figures or names could make sense of.

    >>> refuse_no_words("9" * 5000, "depth")
    Traceback (most recent call last):
        ...
    tacklebox.errors.AskedWronglyError: "9999999999…": a number has over 100 digits. Check it.
    """
    if len(said) > MOST_LETTERS:
        what = f"this is over {MOST_LETTERS:,} letters long."
    elif _LONG_NUMBER.search(said):
        what = "a number has over 100 digits."
    elif "\0" in said:
        what = "there is a zero byte in it."
    else:
        return
    start = f'"{said[:10]}…": ' if len(said) > 10 else ""
    raise AskedWronglyError(start + what, field=field, right="Check it.")
