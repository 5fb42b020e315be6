"""What stands beside a thing's figures and is none of them: notes of the angler's own, and its maker.

Who made it is said as "maker A", "made by Nobody & Sons", 'make "Nowhere 3"'. A name ends where a figure, a
comma or a word of the trade begins; in quotes it may hold anything.
"""

import re
from dataclasses import replace

from tacklebox.stock.naming.described import Described, Question, each_reading, word
from tacklebox.stock.naming.lexicon import all_known, vocabulary
from tacklebox.stock.naming.tokens import Token, tokenise
from tacklebox.stock.naming.turns import saying
from tacklebox.stock.naming.usual import TUBES, usual_pack
from tacklebox.stock.tables import Kind

_RIGHT_IN_BRACKETS = saying(r"\(\s*no[,\s]+(?:sorry|it'?s|that'?s\s+wrong)\b")
_BRACKETS = re.compile(r"\([^()]*\)")
_SO_MANY = saying(
    r"^(.*\d.*?)\s*\((?:x\s*)?(\d{1,4})(?:\s*(?:off|of|no\.?|x|in\s+all|of\s+them))?\)$"
)
_PATTERN = saying(
    r"\b(?:with\s+)?(pattern|code|ref|model|series)\.?\s+(?:no\.?|number|nr\.?|#)?\s*([a-z-]*\d[\w-]*)(?![\w-])(?!\s*(?:(?:per|in|to|an?)\s+)?(?:packs?|packets?|pkts?|pks?|box(?:es)?)\b)"
)
_MAKER = re.compile(
    r"""\b(?P<by>maker|make|made\s+by(?!\s+(?:an?|my|the|our|his|me|some)\s)|brand(?!\s+new))\b(?!['’])\s*:?\s*
    (?:["“](?P<quoted>[^"“”]*\w[^"“”]*)["”]|['‘](?P<single>[^'‘’]*\w[^'‘’]*)['’](?!\w)|(?P<bare>[^\W\d][\w&'’.-]*(?:\s+(?:&\s*)?[^\W\d][\w&'’.-]*)*))""",
    re.IGNORECASE | re.VERBOSE,
)


_PLAINLY_NOTES = saying(  # since when, where, its place in a book
    r"[,\s]+[-–(]?\s*(?P<note>(?:since|from|dated|made|bought|tied)\s+(?:in\s+)?(?:19[5-9]\d|20[0-2]\d)"
    r"|in\s+(?:the\s+|my\s+|an?\s+)?(?:[a-z]+\s+)?(?:tin|drawer|tray|shelf|wallet)\s+(?:no\.?\s*)?\d{1,2}"
    r"|in\s+(?:the\s+|my\s+)?[a-z]+\s+box\s+(?:no\.?\s*)?\d{1,2}"
    r"|(?:[a-z]+\s+)?(?:index|code|ref|page|bin)\s+(?:no\.?\s*)?[a-z]{0,3}-?\d{1,4})\)?(?=\s*(?:[,;]|$))"
)


def with_plain_notes(text: str) -> str:
    """The words with what is plainly a note told as one, so that nothing in it is read.

    >>> with_plain_notes("3AAA waggler, from 1998"), with_plain_notes("bombs 10g in tin 3, x4")
    ('3AAA waggler (note: from 1998)', 'bombs 10g (note: in tin 3), x4')
    """
    if "(note:" in text.lower():
        return text
    return _PLAINLY_NOTES.sub(r" (note: \g<note>)", text)


def without_notes(text: str) -> tuple[str, str]:
    """The words without the notes that stand in brackets, and those."""
    found = [one for one in _BRACKETS.findall(text) if _is_note(one)]
    plain = _BRACKETS.sub(lambda one: " " if _is_note(one.group()) else one.group(), text)
    return " ".join(plain.split()), "".join(f" {note}" for note in found)


def _is_note(brackets: str) -> bool:
    if _RIGHT_IN_BRACKETS.match(brackets):
        return False
    return brackets.lower().startswith("(note:") or not all_known(tokenise(brackets))


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

    def made_by(one: Described) -> Described:
        if one.kind is Kind.LINE:
            return replace(one, figures={**one.figures, "maker": word(maker)})
        return (
            one if write_maker(maker) in one.note.split(", ") else _noted(one, write_maker(maker))
        )

    return each_reading(made, made_by)


def with_note(made: Described | Question, note: str) -> Described | Question:
    return each_reading(made, lambda one: _noted(one, note))


def _noted(made: Described, note: str) -> Described:
    if note in made.note.split(", "):
        return made
    noted = replace(made, note=", ".join(n for n in (made.note, note) if n))
    if made.words_of("sort") in TUBES and made.pack and made.pack.because:
        return replace(noted, pack=usual_pack(made.kind, dict(made.figures), noted.note))
    return noted


def is_maker(text: str) -> bool:
    """Whether the words name a maker and nothing else."""
    return bool(_MAKER.fullmatch(text.strip()))


def without_maker(text: str) -> tuple[str, str]:
    """The words without the maker, and his name, "" where none is named.

    >>> without_maker("nylon 0.14 maker Nobody & Sons sinking 4 lb")
    ('nylon 0.14   sinking 4 lb', 'Nobody & Sons')
    """
    found = _MAKER.search(text)
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
    for further in more:
        if further.group() != "&" and _is_known(further.group()):
            break
        end = further.end()
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
