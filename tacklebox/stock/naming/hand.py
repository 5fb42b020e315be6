"""Tokens of a phrase from which a kind's reader takes what it understands."""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from itertools import product

from tacklebox.stock.naming.described import Figure
from tacklebox.stock.naming.tokens import Token
from tacklebox.stock.tables import Kind

Lexicon = Mapping[
    str, tuple[str, str]
]  # letters of a form, run together: its role and what it means
LONGEST_RUN = 4
# Words and signs that say nothing of their own.
FILLERS = frozenset(
    "a an the wee few of with and in at on for some my each apiece set range type style per is as it "
    "? ! @ = - / , : ; ( ) . [ ] "
    "one's approx about roughly around left remaining fishing wallet material qty quantity worth "
    "ones more another them those these this that it its has have still own please any also just only "
    "got further says all from we are i up down which when there now very bought nice good "
    "stuff thing things uns meself myself mesen fresh bit lets see proper decent load last done "
    "should be here shop compartment compartments way ways".split()
)

Figures = dict[str, Figure]


@dataclass(frozen=True, slots=True)
class Doubt:
    """What one figure may be, each with the figures that follow from it, the likeliest first.

    ``missing``: it was not said at all. ``asks`` is the question where the usual one says too little.
    """

    about: str
    choices: tuple[Figures, ...]
    missing: bool = False
    asks: str = ""


@dataclass
class Attempt:
    """A phrase as one kind's reader understood it.

    ``evident``: something in it belongs to this kind alone. ``left``: what was not understood.
    ``fault`` is why it cannot be.
    """

    kind: Kind
    evident: bool = False
    figures: Figures = field(default_factory=dict)
    doubts: list[Doubt] = field(default_factory=list)
    pack: Figure | None = None
    note: str = ""
    left: tuple[Token, ...] = ()
    fault: str = ""

    def doubt(
        self, about: str, choices: Iterable[Figures], *, missing: bool = False, asks: str = ""
    ) -> None:
        """Note that one figure may be several; what is missing is asked first."""
        at = 0 if missing else len(self.doubts)
        self.doubts.insert(at, Doubt(about, tuple(choices), missing, asks))

    @property
    def about(self) -> str:
        """The figure that is asked for first, "" where nothing is in doubt."""
        return self.doubts[0].about if self.doubts else ""

    @property
    def missing(self) -> bool:
        """Whether a figure was not said at all."""
        return any(doubt.missing for doubt in self.doubts)

    def words_of(self, key: str) -> str:
        """A figure as said, or "" where it is not sure."""
        return self.figures[key].words if key in self.figures else ""

    def doubted(self, key: str) -> list[Figure]:
        """What a figure that is in doubt may be."""
        every = (choice for doubt in self.doubts for choice in doubt.choices)
        return [choice[key] for choice in every if key in choice]

    def choices(self) -> Iterator[Figures]:
        """Every way to settle what is in doubt, the likeliest first."""
        for picked in product(*(doubt.choices for doubt in self.doubts)):
            yield {key: figure for choice in picked for key, figure in choice.items()}


class Hand:
    """The tokens not yet understood; a reader takes them out."""

    def __init__(self, tokens: Iterable[Token]) -> None:
        self.left = list(tokens)

    def words(self, lexicon: Lexicon) -> dict[str, list[str]]:
        """Take every word that the lexicon knows, the longest runs first: what they mean, by role."""
        found: dict[str, list[str]] = {}
        kept: list[Token] = []
        at = 0
        while at < len(self.left):
            known = run_at(self.left, at, lexicon)
            if known is None:
                kept.append(self.left[at])
                at += 1
                continue
            (role, value), at = known
            values = found.setdefault(role, [])
            if value not in values:
                values.append(value)
        self.left = kept
        return found

    def take(self, *tests: Callable[[Token], bool]) -> tuple[Token, ...] | None:
        """Take the first run of tokens that meet the tests, one each."""
        first, others = tests[0], tests[1:]
        for at in range(len(self.left) - len(others)):
            if not first(self.left[at]):
                continue
            run = self.left[at : at + len(tests)]
            if all(test(token) for test, token in zip(others, run[1:], strict=True)):
                del self.left[at : at + len(tests)]
                return tuple(run)
        return None

    def one(self, test: Callable[[Token], bool]) -> Token | None:
        """Take the first token that meets the test."""
        run = self.take(test)
        return run[0] if run else None

    def all(self, test: Callable[[Token], bool]) -> list[Token]:
        """Take every token that meets the test."""
        found = [token for token in self.left if test(token)]
        self.left = [token for token in self.left if not test(token)]
        return found

    def rest(self) -> tuple[Token, ...]:
        """What was not understood, words that say nothing left out."""
        return tuple(t for t in self.left if t.kind == "number" or t.text not in FILLERS)


def run_at(
    tokens: Sequence[Token], at: int, lexicon: Lexicon
) -> tuple[tuple[str, str], int] | None:
    """The longest run of words from ``at`` that the lexicon knows: what it means, and where it ends.

    Words are run together, so that "block end", "block-end" and "blockend" are one; a plural is its word,
    within the run too ("swivels, barrel").
    """
    letters, found = "", None
    for end in range(at, min(at + 2 * LONGEST_RUN, len(tokens))):
        token = tokens[end]
        if token.kind == "word" and token.text == "s" and letters and "s" in lexicon:
            break  # "float stop S" is a small one
        if token.kind == "word":
            letters, before = letters + token.text, letters
            known = lexicon.get(letters) or lexicon.get(singular(letters))
            if not known and singular(before):  # "swivels, barrel", "snap links swivels"
                known = lexicon.get(singular(before) + token.text)
                known = known or lexicon.get(singular(before) + singular(token.text))
            if known:
                found = (known, end + 1)
        elif not (letters and token.text in ("-", ".", ",", "/")):
            break
    return found


@lru_cache(maxsize=4096)
def singular(letters: str) -> str:
    for ending in ("es", "s"):
        if (
            letters.endswith(ending)
            and letters[: -len(ending)][-1:] in ("h", "x", "s")
            and ending == "es"
        ):
            return letters[:-2]
    return letters.removesuffix("s")


def is_sign(*texts: str) -> Callable[[Token], bool]:
    """A test for a sign or a word."""
    return lambda token: token.kind != "number" and token.text in texts


def has_unit(*units: str) -> Callable[[Token], bool]:
    """A test for a number with one of the units."""
    return lambda token: token.kind == "number" and token.unit in units


def is_whole(low: int, high: int, *leads: str) -> Callable[[Token], bool]:
    """A test for a whole number without a unit, called by one of the names given ("" for none)."""
    return lambda t: t.whole and t.lead in (leads or ("",)) and low <= t.value <= high
