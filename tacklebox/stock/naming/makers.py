"""Who made it, as said: "maker A", "made by Nobody & Sons", 'make "Nowhere 3"'.

A name ends where a figure, a comma or a word of the trade begins; in quotes it may hold anything.
"""

import re

from tacklebox.stock.naming.lexicon import vocabulary

_SAID = re.compile(
    r"""\b(?P<by>maker|make|made\s+by(?!\s+(?:an?|my|the|our|his|me|some)\s)|brand)\b(?!['’])\s*:?\s*
    (?:["“](?P<quoted>[^"“”]*\w[^"“”]*)["”]|['‘](?P<single>[^'‘’]*\w[^'‘’]*)['’](?!\w)|(?P<bare>[^\W\d][\w&'’.-]*(?:\s+(?:&\s*)?[^\W\d][\w&'’.-]*)*))""",
    re.IGNORECASE | re.VERBOSE,
)


def is_maker(text: str) -> bool:
    """Whether the words name a maker and nothing else."""
    return bool(_SAID.fullmatch(text.strip()))


def without_maker(text: str) -> tuple[str, str]:
    """The words without the maker, and his name, "" where none is named.

    >>> without_maker("nylon 0.14 maker Nobody & Sons sinking 4 lb")
    ('nylon 0.14   sinking 4 lb', 'Nobody & Sons')
    """
    found = _SAID.search(text)
    if found is None:
        return text, ""
    quoted = found.group("quoted") or found.group("single")
    if quoted:
        return f"{text[: found.start()]} {text[found.end() :]}", " ".join(quoted.split())
    first, *more = re.finditer(r"\S+", found.group("bare"))
    is_word = len(first.group()) > 1 and _is_known(first.group())
    if is_word and found.group("by").lower() == "make":
        return text, ""  # "same make nylon" names nobody
    end = first.end()
    for word in more:
        if word.group() != "&" and _is_known(word.group()):
            break
        end = word.end()
    name = found.group("bare")[:end]
    rest = text[found.start("bare") + end :]
    return f"{text[: found.start()]} {rest}", " ".join(name.split())


def _is_known(word: str) -> bool:
    """Whether it is a word of the trade, so that a name that holds it is put in quotes."""
    return word.lower() in vocabulary() or bool(re.fullmatch("maker|made|make|brand", word.lower()))


def write_maker(name: str) -> str:
    """The name as it is read back; what is more than plain words stands in quotes.

    >>> write_maker("A"), write_maker("Dace Gold")
    ('maker A', 'maker "Dace Gold"')
    """
    plain = f"maker {name}"
    return plain if without_maker(f"{plain} line")[1] == name else f'maker "{name}"'
