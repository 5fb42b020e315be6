"""TOML read, whoever wrote it: what would take a reader long, or those after it too deep, is none."""

import re
import tomllib
from typing import Any

# A key of over ten names joined by dots, in a line or heading, or in an inline table.
_KEY = r"""(?:[\w-]+|"[^"\n]*"|'[^'\n]*')"""
_DEEP = re.compile(rf"(?:^|[\[{{,])[ \t]*(?:{_KEY}[ \t]*\.[ \t]*){{10}}", re.MULTILINE)
_MOST_DEEP = 50  # of lists and tables in one another


def read_toml(text: str) -> dict[str, Any]:
    """What a text of TOML says. Raises tomllib.TOMLDecodeError for what is none, and nothing else.

    >>> read_toml("a" + ".a" * 20_000 + " = 1")
    Traceback (most recent call last):
        ...
    tomllib.TOMLDecodeError: keys are nested too deep (at line 1)
    """
    if line := line_too_deep(text):
        raise tomllib.TOMLDecodeError(f"keys are nested too deep (at line {line})")
    try:
        raw = tomllib.loads(text)
    except tomllib.TOMLDecodeError:
        raise
    except RecursionError:
        raise tomllib.TOMLDecodeError("it is nested too deep") from None
    except ValueError:  # thousands of digits
        raise tomllib.TOMLDecodeError("a number is too long") from None
    if _is_deep(raw):
        raise tomllib.TOMLDecodeError("it is nested too deep")
    return raw


def line_too_deep(text: str) -> int:
    """The line, counted from 1, with a key of too many names; 0 where there is none."""
    found = _DEEP.search(text)
    return text.count("\n", 0, found.start() + 1) + 1 if found else 0


def _is_deep(raw: dict[str, Any]) -> bool:
    level: list[Any] = [raw]
    for _ in range(_MOST_DEEP):
        below = (one.values() if isinstance(one, dict) else one for one in level)
        level = [each for one in below for each in one if isinstance(each, dict | list)]
        if not level:
            return False
    return True
