"""Things that go by a name of the angler's own: "part 'quiver tip 1 oz'".

What names no kind of tackle is kept so when he says that it should be: counted, found and bought by
that name, and by no figure.
"""

import re
from dataclasses import replace

from tacklebox.stock.naming.described import Described, Question, assumed, each_reading, word
from tacklebox.stock.naming.numbers import count_of
from tacklebox.stock.naming.tokens import UNITS
from tacklebox.stock.naming.turns import NUMBER, saying
from tacklebox.stock.naming.usual import CHOICE
from tacklebox.stock.naming.words import WORDS
from tacklebox.stock.tables import Kind

LONGEST = 60
_SAID = saying(
    r"""\bpart\s+(?:["“](?P<double>[^"“”]*\w[^"“”]*)["”]|['‘](?P<single>[^'‘’]*\w[^'‘’]*)['’](?!\w))"""
)
_UNQUOTED = saying(
    r"^(?P<before>(?:\d{1,4}\s*x\s+)?)part\s+(?!(?:used|full|loaded|opened|worn|spools?|reels?|packets?|packs?|pkts?|tubs?|bags?|boxe?s?)\b)(?P<name>.+)$"
)
_BEFORE = saying(
    rf"^(?:an?\s+)?(?P<many>{NUMBER})(?:\s*(?:x|off|pcs|of)\b|\s+(?:pieces|packs?|packets?|bags?|boxe?s?)\b)*(?:\s+of\b)?\s+"
)
_AFTER = saying(
    r"(?:,\s*(?P<last>\d{1,2})|[\s,(]+x\s*(?P<times>\d{1,4})|[\s,(]+(?P<many>\d{1,4})\s*(?:off|pcs?|pces?|pieces))\)?$"
)
STAND_IN = "disgorger"  # comes singly and has no figure of its own


def without_own(text: str) -> tuple[str, str]:
    """The words with a usual part's name for the own one, and that; "" where there is none.

    >>> without_own("2 x part 'loop tyer'"), without_own("hook 18"), without_own("part loop tyer")
    (('2 x disgorger', 'loop tyer'), ('hook 18', ''), ('disgorger', 'loop tyer'))
    """
    found = _SAID.search(text)
    if found is None:
        plain = _UNQUOTED.match(text)
        made = own_thing(plain.group("name")) if plain else None
        if plain is None or made is None:
            return text, ""
        many = f" x {made.count}" if made.count else ""
        return f"{plain.group('before')}{STAND_IN}{many}", made.words_of("sort")
    name = found.group("double") or found.group("single")
    rest = f"{text[: found.start()]}{STAND_IN}{text[found.end() :]}"
    return rest, " ".join(name.split())[:LONGEST]


def with_own(made: Described | Question, name: str) -> Described | Question:
    """What was read, under the own name."""

    def named(one: Described) -> Described:
        if one.kind is not Kind.PART or one.words_of("sort") != STAND_IN:
            return one
        return replace(one, figures={**one.figures, "sort": word(name)})

    return each_reading(made, named)


def is_own(made: Described) -> bool:
    """Whether it goes by a name of his own."""
    return made.kind is Kind.PART and made.words_of("sort") not in WORDS[Kind.PART]["sort"]


def write_own(name: str) -> str:
    """The name as it is read back."""
    return f'part "{name}"' if "'" in name else f"part '{name}'"


def _is_unit(text: str) -> bool:
    """Whether a unit stands first: "6 inch" are no six."""
    return text.split(" ")[0].lower() in UNITS


def own_thing(text: str) -> Described | None:
    """What the words would be as a thing of its own, None where no name is left of them.

    >>> made = own_thing("2 x quiver tip 1oz")
    >>> made.words_of("sort"), made.count
    ('quiver tip 1oz', 2)
    """
    name, count = text.replace('"', "").strip(), None
    if after := _AFTER.search(name):
        name, count = name[: after.start()], int(after["last"] or after["times"] or after["many"])
    elif (before := _BEFORE.match(name)) and not _is_unit(name[before.end() :]):
        said = before.group("many")
        name, count = (
            name[before.end() :],
            None if said.lower() in ("a", "an") else count_of(said) or 1,
        )
    name = " ".join(name.split()).strip(" ,;")
    letters = re.findall(r"[^\W\d_]{2,}", name.lower())
    if all(word in UNITS for word in letters) or len(name) > LONGEST:
        return None
    return Described(Kind.PART, {"sort": word(name)}, assumed(1, "1", CHOICE), count=count)
