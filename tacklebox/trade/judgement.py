"""What a check hands back: an outcome, a sentence, and the figures behind it."""

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from tacklebox.trade.sources import COMPUTED, Basis, Source
from tacklebox.trade.units_first import IMPERIAL, first, show_length, show_strain

if TYPE_CHECKING:
    from tacklebox.trade.pictured import Pictured


class Outcome(StrEnum):
    """The three outcomes of a check, best first."""

    SOUND = "sound"
    DOUBTFUL = "doubtful"
    FAILS = "fails"


_LONG_MM = 100.0  # less than that is told in mm, whatever is told first
_SEVERITY = {Outcome.SOUND: 0, Outcome.DOUBTFUL: 1, Outcome.FAILS: 2}


def worst(outcomes: "list[Outcome]") -> Outcome:
    """The outcome of several checks together is that of the worst one.

    >>> worst([Outcome.SOUND, Outcome.FAILS, Outcome.DOUBTFUL]).value
    'fails'
    >>> worst([]).value
    'sound'
    """
    return max(outcomes, key=_SEVERITY.__getitem__, default=Outcome.SOUND)


class Check(StrEnum):
    """Which check a judgement is of; what is decided on, whatever its words are."""

    BREAKS_FIRST = "breaks first"
    COMES_FREE = "comes free"
    STEP = "step"
    JOIN = "join"
    HOOK_AND_LINE = "hook and line"
    HOOK_KNOT = "hook knot"
    ELASTIC = "elastic"
    FLOAT = "float"
    FLOAT_HELD = "float held"
    BULK = "bulk"
    SHOT_ORDER = "order of shot"
    CASTING = "casting"
    LEAD = "lead"
    WINDER = "winder"


@dataclass(frozen=True, slots=True)
class Fact:
    """One figure that a judgement used: its name, value with unit, and origin."""

    name: str
    value: float | str
    unit: str
    source: Source

    @property
    def shown(self) -> str:
        """The value no finer than what it rests on, without its unit.

        >>> from tacklebox.trade.sources import MEASURED, MEMORY, weakest
        >>> Fact("tip that shows", 7.326, "mm", weakest([MEMORY])).shown
        '7'
        >>> Fact("line", 1.5563, "kg", MEASURED).shown
        '1.56'
        """
        if isinstance(self.value, str):
            return self.value
        rough = self.source.citation == COMPUTED or self.source.basis is Basis.MEMORY
        if rough and self.unit == "mm" and (self.source.citation or self.value >= 1):
            return f"{round(self.value)}"
        if self.unit == "%":
            return f"{self.value:.2g}"
        rough = rough or self.unit == "kg" or self.source.basis is Basis.MEASURED
        return f"{self.value:.3g}" if rough else f"{self.value:.4g}"

    def __str__(self) -> str:
        """
        >>> from tacklebox.trade.sources import MEASURED, PRINTED
        >>> from tacklebox.trade.units_first import in_units
        >>> facts = (Fact("line", 1.556, "kg", MEASURED), Fact("tip", 25.0, "mm", PRINTED))
        >>> with in_units("imperial"):
        ...     [str(fact) for fact in facts]
        ['line 3.4 lb (1.56 kg) (own measurement)', 'tip 25 mm (as printed on the packet)']
        """
        words = (self.name, self._told, f"({self.source})")
        return " ".join(word for word in words if word)

    @property
    def _told(self) -> str:
        """The value with its unit, and before it in the one that is told first where that is another."""
        plain = f"{self.shown} {self.unit}".strip()
        if isinstance(self.value, str) or first() != IMPERIAL:
            return plain
        if self.unit == "kg":
            return f"{show_strain(self.value)} ({plain})"
        length_mm = self.value * {"m": 1000, "mm": 1}.get(self.unit, 0)
        return f"{show_length(length_mm)} ({plain})" if length_mm >= _LONG_MM else plain


@dataclass(frozen=True, slots=True)
class Judgement:
    """One check's verdict.

    ``about`` names the check for the angler and ``key`` for whatever decides on it; ``says`` is
    the verdict in one line, ``remedy`` what would make it better ("" where nothing is to be
    done). ``why`` is more for who asks for it, ``formula`` how the number came about, ``facts``
    the figures that went in, ``pictured`` what it can be drawn from. Where ``dull``, a sound verdict is
    told only to who asks why.
    """

    about: str
    outcome: Outcome
    says: str
    formula: str = ""
    facts: tuple[Fact, ...] = ()
    key: Check | None = None
    remedy: str = ""
    why: str = ""
    dull: bool = False
    pictured: "Pictured | None" = None

    @property
    def line(self) -> str:
        """The verdict and, where there is one, its remedy: what is said without asking why."""
        return f"{self.says}; {self.remedy}" if self.remedy else self.says

    @property
    def is_shown(self) -> bool:
        """Whether it is told without asking why."""
        return not self.dull or self.outcome is not Outcome.SOUND

    @property
    def rests_on(self) -> Basis | None:
        """The class of the weakest figure behind it; None where there is none."""
        return min((f.source.basis for f in self.facts), key=list(Basis).index, default=None)

    @property
    def rests_on_memory_alone(self) -> bool:
        """Whether no figure behind it is better than "from memory"."""
        return bool(self.facts) and all(f.source.basis is Basis.MEMORY for f in self.facts)
