"""What stands beside a thing's figures and is none of them: notes of the angler's own, and its maker."""

import re
from dataclasses import replace

from tacklebox.stock.naming.described import Described, Question, word
from tacklebox.stock.naming.lexicon import all_known
from tacklebox.stock.naming.makers import is_maker, without_maker, write_maker
from tacklebox.stock.naming.tokens import Token, tokenise
from tacklebox.stock.tables import Kind

_SO_MANY = re.compile(
    r"^(.*\d.*?)\s*\((?:x\s*)?(\d{1,4})(?:\s*(?:off|of|no\.?|x|in\s+all|of\s+them))?\)$",
    re.IGNORECASE,
)
_PATTERN = re.compile(
    r"\b(?:with\s+)?(pattern|code|ref|model|series)\.?\s+(?:no\.?|number|nr\.?|#)?\s*([a-z-]*\d[\w-]*)",
    re.IGNORECASE,
)


def without_own_notes(text: str) -> tuple[tuple[Token, ...], str, str]:
    """The tokens, the notes and the maker: what stands in brackets and is no word of the trade is a note."""
    notes = []

    def keep(found: re.Match[str]) -> str:
        inside = found.group(1).strip()
        own = re.sub(r"^note:\s*", "", inside, flags=re.IGNORECASE)
        if own == inside and (is_maker(inside) or all_known(tokenise(inside))):
            return f" {inside} "
        notes.append(own)
        return " "

    plain = _SO_MANY.sub(r"\1 x \2", text)  # "hooks 18 (25)"
    plain = re.sub(r"\(([^()]*)\)", keep, plain)
    for named in _PATTERN.finditer(plain):
        notes.append(f"{named.group(1).lower()} {named.group(2)}")
    plain = _PATTERN.sub(" ", plain)
    plain, maker = without_maker(plain)
    return tokenise(plain), ", ".join(notes), maker


def with_maker(made: Described | Question, maker: str) -> Described | Question:
    """A maker is a figure of line, whose print is his; of all else he is a note."""
    if isinstance(made, Question):
        named = (with_maker(one, maker) for one in made.readings)
        return replace(made, readings=tuple(one for one in named if isinstance(one, Described)))
    if made.kind is Kind.LINE:
        return replace(made, figures={**made.figures, "maker": word(maker)})
    note = write_maker(maker)
    if note in made.note.split(", "):
        return made
    return replace(made, note=", ".join(n for n in (made.note, note) if n))


def with_note(made: Described | Question, note: str) -> Described | Question:
    if isinstance(made, Described):
        return replace(made, note=", ".join(n for n in (made.note, note) if n))
    noted = (
        replace(one, note=", ".join(n for n in (one.note, note) if n)) for one in made.readings
    )
    return replace(made, readings=tuple(noted))
