"""What a check hands back: an outcome, a sentence, and the figures behind it."""

from dataclasses import dataclass
from enum import StrEnum

from tacklebox.trade.sources import Basis, Source


class Outcome(StrEnum):
    """The three outcomes of a check, best first."""

    SOUND = "sound"
    LOOK_AGAIN = "look again"
    WILL_NOT_DO = "will not do"


_SEVERITY = {Outcome.SOUND: 0, Outcome.LOOK_AGAIN: 1, Outcome.WILL_NOT_DO: 2}


def worst(outcomes: "list[Outcome]") -> Outcome:
    """The outcome of several checks together is that of the worst one.

    >>> worst([Outcome.SOUND, Outcome.WILL_NOT_DO, Outcome.LOOK_AGAIN]).value
    'will not do'
    >>> worst([]).value
    'sound'
    """
    return max(outcomes, key=_SEVERITY.__getitem__, default=Outcome.SOUND)


@dataclass(frozen=True, slots=True)
class Fact:
    """One figure that a judgement used: its name, value with unit, and origin."""

    name: str
    value: float | str
    unit: str
    source: Source

    def __str__(self) -> str:
        value = self.value if isinstance(self.value, str) else f"{self.value:.4g}"
        return f"{self.name} {value}{' ' + self.unit if self.unit else ''} ({self.source})"


@dataclass(frozen=True, slots=True)
class Judgement:
    """One check's verdict.

    ``about`` names the check, ``says`` is a sentence for the angler, ``formula`` how the
    number came about, ``facts`` the figures that went in.
    """

    about: str
    outcome: Outcome
    says: str
    formula: str = ""
    facts: tuple[Fact, ...] = ()

    @property
    def rests_on_memory_alone(self) -> bool:
        """Whether no figure behind it is better than "from memory"."""
        return bool(self.facts) and all(f.source.basis is Basis.MEMORY for f in self.facts)
