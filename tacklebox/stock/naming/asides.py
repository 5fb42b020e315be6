"""What is said beside a thing and carries none of its figures: "off the sale shelf", "for when the barbel
turn up", "made by a lad down the club", "sit lovely in a tow".

It is cut out of the phrase whole, so that it can be kept word for word as a note and throws nothing off.
"""

import re
from dataclasses import dataclass

from tacklebox.stock.naming.everyday import EVERYDAY, JOINING
from tacklebox.stock.naming.hand import FILLERS
from tacklebox.stock.naming.lexicon import PACKETS, PIECES, all_known, vocabulary
from tacklebox.stock.naming.notes import without_maker
from tacklebox.stock.naming.numbers import FRACTIONS, HOW_MANY, ONES, TENS
from tacklebox.stock.naming.slips import is_near_slip
from tacklebox.stock.naming.talk import says_first
from tacklebox.stock.naming.tokens import SPOKEN_UNITS, UNITS, tokenise

LEAST_TOLD = 4  # words of the trade alone that tell something: "a bit stiff to open"
MOST_CUT = 6  # asides of one phrase
_OPENERS = frozenset(
    "for off from because cos coz when while where which who that but if as like with made came come comes "
    "enough supposed meant in on at under over by swapped nicked".split()
)
_BEFORE_OPENERS = frozenset(
    "bought given found left good great ok handy perfect ideal best".split()
)
_ARTICLES = frozenset("a an the my our his her this that".split())
_WITHIN = frozenset("in on as over by off at under".split())  # these may join figures, too
_FEW = frozenset(("one", "ones", "couple"))  # of them: what is told of is no more than a part
_BY_NUMBER = frozenset("peg pegs swim drawer bay kit section".split())
_OF_RIGS = frozenset(
    "made with on in like as".split()
)  # a rig that is named, and nothing told of one
_TELLS_WHY = frozenset("but because cos coz so".split())
_MONEY = frozenset("quid pence pound pounds fiver tenner p".split())
_PUTS_RIGHT = re.compile(
    r"\b(?:sorry|no\s+wait|wait|i\s+mean|i\s+meant|make\s+(?:it|that)|correction|scratch\s+that|or\s+rather)\b"
    r"|\bnot\W+\.?\d|\d\s*(?P<unit>[a-z]{1,2})\b\W+no\W+[\d.]+\s*(?P=unit)\b",
    re.IGNORECASE,
)
_NUMBERS = frozenset((*ONES, *TENS, *HOW_MANY, *FRACTIONS, "hundred"))
_WORD = re.compile(
    r"[^\W\d_][^\W_]*(?:['’-][^\W\d_]+)*['’]?|[,;:]|\s[-–—]+\s|\.{2,}|[!?]+|[^\s,;]+"
)
_APART = re.compile(r"[,;:]|\s*[-–—]+\s*|\.{2,}|[!?]+")
_SO_MANY = re.compile(rf",\s*(?:\d{{1,3}}|{'|'.join(sorted(_NUMBERS))})$", re.IGNORECASE)
_A_RIG = re.compile(r"\b(?<!hair )rigs?\b", re.IGNORECASE)  # is more than what is read here
_SHUT = re.compile(r"""[()"“”]""")


@dataclass(frozen=True, slots=True)
class Aside:
    """Words of a phrase from ``start`` to ``end`` that carry no figure of the thing.

    ``plain``: they are talk beyond doubt, since they are opened like it or stand between commas.
    """

    text: str
    start: int
    end: int
    plain: bool

    @property
    def is_told(self) -> bool:
        """Whether it is more than words of the trade: "for the bream" alone is a use of the thing."""
        joined = [word for word in self.text.lower().split() if word in JOINING]
        return is_strange(self.text) or (len(joined) > 1 and len(self.text.split()) >= LEAST_TOLD)


@dataclass(frozen=True, slots=True)
class _Piece:
    """One word, figure or sign of a phrase."""

    text: str
    start: int
    end: int

    @property
    def is_word(self) -> bool:
        return self.text[:1].isalpha()

    @property
    def word(self) -> str:
        """In small letters, without an ending 's: "one's" is one."""
        return self.text.lower().replace("’", "'").removesuffix("'s")

    @property
    def is_figure(self) -> bool:
        """Whether it is a number in figures, a price, or a number with what it counts: "four-inch"."""
        digits = any(letter.isdigit() for letter in self.text)
        spoken = "-" in self.text and any(part in _NUMBERS for part in self.word.split("-"))
        return (digits and self.word not in ("f1", "f1s")) or self.text.startswith("£") or spoken

    @property
    def is_strange(self) -> bool:
        return self.is_word and is_strange(self.text)


def asides(text: str) -> tuple[Aside, ...]:
    """What is said beside the thing, in the order in which it stands; nothing where figures are put right.

    >>> [one.text for one in asides("8 lb mono, two spools off the sale shelf £4")]
    ['off the sale shelf']
    >>> [one.text for one in asides("6 lb mono 200 m same stuff our kid swears by, 18 barbless, sinks ok")]
    ['same stuff our kid swears by', 'sinks ok']
    """
    if _PUTS_RIGHT.search(text):
        return ()
    found: list[Aside] = []
    for chunk in _chunks(text):
        if _is_talk(chunk):
            found.append(_aside(text, chunk, plain=True))
            continue
        found += _opened(text, chunk)
    return tuple(_together(text, found)[:MOST_CUT])


def without(text: str, cut: tuple[Aside, ...]) -> str:
    """The phrase without these; where they stood, what was before is parted from what is behind."""
    rest = text
    for one in sorted(cut, key=lambda aside: -aside.start):
        before, behind = rest[: one.start].rstrip(" ,;:"), rest[one.end :].lstrip(" ,;:")
        if _SO_MANY.search(before):
            before = f"{before} of them"  # "..., ten on a foam wheel"
        joint = ":" if rest[one.end :].lstrip().startswith(":") else ","  # a list that is headed
        rest = f"{before}{joint} {behind}" if before and behind else f"{before}{behind}"
    return rest.strip(" ,;:.!?")


def is_strange(said: str) -> bool:
    """Whether a word is among these that no kind of tackle knows."""
    return not all_known(tokenise(said.replace("’", "'")))


def counts(said: str) -> bool:
    """Whether a number of more than a couple is among the words."""
    words = re.findall(r"[^\W_]+", said.lower())
    return any(w in _NUMBERS - _FEW or w.isdecimal() for w in words)


def has_number(said: str) -> bool:
    """Whether a figure, a number in words or a unit is among the words."""
    words = re.findall(r"[^\W_]+", said.lower())
    return any(
        word in _NUMBERS or word in SPOKEN_UNITS or any(letter.isdigit() for letter in word)
        for word in words
    )


def _chunks(text: str) -> list[list[_Piece]]:
    """The phrase between its commas and dashes; what holds brackets or quotes is left as it is."""
    every: list[list[_Piece]] = [[]]
    for found in _WORD.finditer(text):
        if _APART.fullmatch(found.group()):
            every.append([])
        else:
            every[-1].append(_Piece(found.group(), found.start(), found.end()))
    return [chunk for chunk in every if chunk and not any(_SHUT.search(p.text) for p in chunk)]


def _is_talk(chunk: list[_Piece]) -> bool:
    """Whether all between two commas is talk: nothing but words, of which some are none of the trade's."""
    said = " ".join(piece.text for piece in chunk)
    if any(p.is_figure for p in chunk) or says_first(said) or chunk[0].start == 0:
        return False
    words = [piece.word for piece in chunk if piece.is_word]
    of_some = words[1:2] == ["of"] and words[2:3] in (["them"], ["em"], ["these"])
    some = words[3:] if of_some else words  # "half of them squashed flat"
    counts = any(word in _NUMBERS - _FEW or word in _MONEY for word in some)
    if not some or counts or _names_maker(chunk) or _A_RIG.search(said):
        return False
    strange = [piece for piece in chunk if piece.is_strange]
    joined = sum(word in JOINING for word in words) + any(p.word in EVERYDAY for p in strange)
    joined += any(piece.text.lower().replace("’", "'").endswith("'s") for piece in chunk)
    if joined < 2 and any(is_near_slip(piece.word) for piece in strange):
        return False
    if not strange:
        first = next((word for word in words if word not in _ARTICLES), "")
        of_packets = first in PACKETS or {"each", "both"} & set(words)
        return not of_packets and joined > 1 and len(words) >= LEAST_TOLD
    return len(strange) > 1 or (joined > 0 and len(words) > 1)


def _opened(text: str, chunk: list[_Piece]) -> list[Aside]:
    """What within a chunk opens like talk: "off the sale shelf", "in a baccy tin"; and words in a row."""
    found: list[Aside] = []
    at = 0
    while at < len(chunk):
        end = _end_of_opened(chunk, at) if _opens(chunk, at) else _end_of_strange(chunk, at)
        apart = end == at == 1 and _counts_so_many(chunk[0].word)
        if apart and is_strange(" ".join(piece.text for piece in chunk)):  # "seven usable"
            end = _end_of_plain(chunk)
        run = chunk[at:end]
        said = " ".join(piece.text for piece in run)
        other = _A_RIG.search(said) and run[0].word in _OF_RIGS
        if run and not other and not says_first(said):
            found.append(_aside(text, run, plain=_opens(chunk, at)))
            at = end
        else:
            at += 1
    return found


def _opens(chunk: list[_Piece], at: int) -> bool:
    """Whether talk opens here: never between figures, "10 in a packet", "18 on 0.12"."""
    word, behind = chunk[at].word, chunk[at + 1].word if at + 1 < len(chunk) else ""
    if word in ("no", "not", "without"):
        return _is_lacking(chunk, at)
    if word == "and":
        return behind.split("'")[0] in ("they", "it", "i", "you", "we", "he", "she")
    if word in _BEFORE_OPENERS:
        return behind in (*_OPENERS, "over") and behind not in ("in", "with")
    if word not in _OPENERS or _names_maker(chunk[at:]):
        return False
    if not behind or behind in PACKETS or behind in ("each", "it", "em", "them"):
        return False
    if word == "for" and any(piece.word in _MONEY for piece in chunk[at + 1 : at + 3]):
        return False  # "3 for a tenner"
    before = chunk[at - 1].word if at else ""
    if word not in _WITHIN or (word == "off" and behind in _ARTICLES):  # "2 off the bargain bin"
        return True
    in_packet = (
        behind in ("a", "the", "each") and at + 2 < len(chunk) and chunk[at + 2].word in PACKETS
    )
    counted = before.isdecimal() or before in _NUMBERS
    if in_packet:
        return not counted and before != "left"
    return behind not in _NUMBERS and not (counted and behind not in _ARTICLES)


def _is_lacking(chunk: list[_Piece], at: int) -> bool:
    """Whether it is told what there is none of: "no discs"; never "5 no", "no 8", "no barb", "not loaded"."""
    behind = chunk[at + 1] if at + 1 < len(chunk) else None
    if behind is None or not behind.is_word or behind.word.startswith(("barb", "toxic", "lead")):
        return False
    if chunk[at].word == "not":
        return behind.is_strange or behind.word in EVERYDAY
    return not (at and _counts_so_many(chunk[at - 1].word))


def _names_maker(chunk: list[_Piece]) -> bool:
    return bool(without_maker(" ".join(piece.text for piece in chunk))[1])


def _end_of_opened(chunk: list[_Piece], at: int) -> int:
    """Where what opens there ends: before a figure, a number that counts, or a packet; else at once."""
    end = at + 1
    while end < len(chunk):
        piece, word = chunk[end], chunk[end].word
        if _is_numbered(chunk, end):  # "at peg twelve"
            end += 1
            continue
        if piece.is_figure or not piece.is_word or word in UNITS or _is_of_packets(chunk, end):
            break
        if word == "for" and any(one.word in _MONEY for one in chunk[end + 1 : end + 4]):
            break
        if chunk[at].word in _TELLS_WHY and end > at + 1 and _is_last_figure(chunk, end):
            return len(chunk)  # "but tested at 4lb"
        if word in _NUMBERS and chunk[end - 1].word not in (*_OPENERS, "a", "the", "of", "or"):
            break
        end += 1
    while end > at + 1 and chunk[end - 1].word in ("x", "of", "and", "size", "no", "number"):
        end -= 1
    says = any(piece.word not in JOINING for piece in chunk[at + 1 : end])
    return end if says else at


def _is_last_figure(chunk: list[_Piece], at: int) -> bool:
    """Whether one figure ends what is said, with its unit at most, behind "at", "to" or "of"."""
    figures = [piece for piece in chunk[at:] if piece.is_figure]
    return len(figures) == 1 and chunk[at].word in ("at", "to", "of") and len(chunk) - at <= 3


def _is_numbered(chunk: list[_Piece], at: int) -> bool:
    """Whether a place goes by that number: "peg 12", "drawer three"."""
    return chunk[at - 1].word in _BY_NUMBER and (
        chunk[at].text.isdecimal() or chunk[at].word in _NUMBERS
    )


def _is_of_packets(chunk: list[_Piece], at: int) -> bool:
    """Whether packets are named: "packets of", "pkt 10"; a tin or a box that it lies in is no packet."""
    behind = chunk[at + 1].word if at + 1 < len(chunk) else ""
    word = chunk[at].word
    return word in PACKETS | PIECES and (behind == "of" or _counts_so_many(behind))


def _counts_so_many(word: str) -> bool:
    return word in _NUMBERS or any(letter.isdigit() for letter in word)


def _end_of_plain(chunk: list[_Piece]) -> int:
    """Where the words behind a number end, if all of them are strange: what those are like; else at once."""
    behind = chunk[1:]
    strange = all(piece.is_strange and not is_near_slip(piece.word) for piece in behind)
    strange &= behind[:1] != [] and behind[0].word != "off"  # "ten off"
    priced = any(piece.word in _MONEY for piece in behind)
    return len(chunk) if behind and strange and not priced and chunk[0].start else 1


def _end_of_strange(chunk: list[_Piece], at: int) -> int:
    """Where several strange words in a row, with plain ones between them, end what is said; else at once."""
    if not chunk[at].is_strange:
        return at
    end, strange = at, 0
    for later in range(at, len(chunk)):
        piece, word = chunk[later], chunk[later].word
        opens = _opens(chunk, later) and _end_of_opened(chunk, later) > later
        if strange and opens and chunk[at].start:
            return later  # "bit springy off the spool"
        plain = word in FILLERS or word in EVERYDAY or word not in vocabulary()
        if piece.is_figure or word in _NUMBERS:
            return end if strange > 1 and chunk[at].start == 0 else at  # "our lad left me ten"
        if not piece.is_word or not plain or word in _MONEY:
            return at
        if is_near_slip(word) and piece.is_strange:
            return at
        strange, end = strange + piece.is_strange, later + 1
    return len(chunk) if strange > 1 else at


def _aside(text: str, run: list[_Piece], *, plain: bool) -> Aside:
    start, end = run[0].start, run[-1].end
    return Aside(" ".join(text[start:end].split()).rstrip(".!?"), start, end, plain)


def _together(text: str, found: list[Aside]) -> list[Aside]:
    """Asides that follow one another within the same breath are one."""
    made: list[Aside] = []
    for one in found:
        before = made[-1] if made else None
        if before and not text[before.end : one.start].strip():
            said = " ".join(text[before.start : one.end].split())
            made[-1] = Aside(said, before.start, one.end, before.plain)
        else:
            made.append(one)
    return made
