"""What one way of saying a thing is put as."""

import re
from collections.abc import Callable, Iterable

from tacklebox.stock.naming.turns import saying

Instead = str | Callable[[re.Match[str]], str]
Rules = tuple[tuple[re.Pattern[str], Instead], ...]


def rules(*pairs: tuple[str, Instead]) -> Rules:
    """Each way of saying a thing with what it is put as; they are taken in this order."""
    return tuple((saying(pattern), instead) for pattern, instead in pairs)


def put(text: str, every: Iterable[Rules]) -> str:
    """The words with each way of these put as its rule says."""
    for some in every:
        for said, instead in some:
            if said.search(text):  # to put costs far more than to look, and few are there
                text = said.sub(instead, text)
    return text
