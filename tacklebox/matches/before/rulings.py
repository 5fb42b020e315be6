"""What is said of a rule: allowed, not allowed, or check it yourself."""

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum


class Verdict(StrEnum):
    """The three answers, mildest first."""

    ALLOWED = "allowed"
    CHECK_YOURSELF = "check this yourself"
    NOT_ALLOWED = "not allowed"


class About(StrEnum):
    """What a rule is about; what is decided on, whatever its words are."""

    HOOK_SIZE = "hook size"
    BARBS = "barbs"
    BRAID = "braid"
    MAIN_LINE = "main line"
    FREE_RUNNING = "free running"
    HOOKLENGTH = "hooklength"
    METHODS = "methods"
    MATERIALS = "materials"
    CLOSE_SEASON = "close season"
    GROUNDBAIT = "groundbait"
    KEEPNET = "keepnet"
    IN_WORDS = "in words"  # what only an angler can judge
    EVERY_RULE = "every rule"


@dataclass(frozen=True, slots=True)
class Rule:
    """A rule: what it is about, and how it is called where it is judged."""

    about: About
    words: str

    def __str__(self) -> str:
        return self.words


@dataclass(frozen=True, slots=True)
class InBox:
    """Another item in the box that would do for a part."""

    item: int
    name: str


@dataclass(frozen=True)
class Ruling:
    """One rule's answer: the part it is about ("" for the day), what it has, and what would pass.

    ``in_box`` is an item that would pass, where the box has one.
    """

    rule: Rule
    verdict: Verdict
    part: str = ""
    says: str = ""
    remedy: str = ""
    in_box: InBox | None = None


def worst_verdict(rulings: Iterable[Ruling]) -> Verdict:
    """The answer of all rulings together is that of the worst one."""
    order = list(Verdict)
    return max((r.verdict for r in rulings), key=order.index, default=Verdict.ALLOWED)
