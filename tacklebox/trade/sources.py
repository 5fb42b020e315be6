"""Where a figure comes from, so that a verdict can say what it rests on."""

import math
from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum


class Basis(StrEnum):
    """What kind of ground a figure stands on, weakest first.

    ``CHOICE`` is a limit or a default that this tool had to set somewhere; ``GIVEN`` is what the
    recipe, the item or the question says, which nobody can doubt.
    """

    MEMORY = "from memory"
    CHOICE = "our choice"
    COMMON = "common practice"
    PRINTED = "as printed on the packet"
    PUBLISHED = "published"
    MEASURED = "own measurement"
    GIVEN = "as given"


@dataclass(frozen=True, slots=True)
class Source:
    """A ground and, where it was published, by whom.

    >>> str(Source(Basis.PUBLISHED, "NIST SP 811, appendix B"))
    'published: NIST SP 811, appendix B'
    >>> str(COMMON)
    'common practice'
    """

    basis: Basis
    citation: str = ""

    def __str__(self) -> str:
        return f"{self.basis}: {self.citation}" if self.citation else str(self.basis)


COMPUTED = "computed"
MEMORY = Source(Basis.MEMORY)
OUR_CHOICE = Source(Basis.CHOICE)
COMMON = Source(Basis.COMMON)
PRINTED = Source(Basis.PRINTED)
MEASURED = Source(Basis.MEASURED)
BY_RECIPE = Source(Basis.GIVEN, "by the recipe")
BY_ITEM = Source(Basis.GIVEN, "by the item")
ASKED = Source(Basis.GIVEN, "in the question")


def weakest(sources: Iterable[Source]) -> Source:
    """What a figure rests on that is computed from others: its class is the weakest of theirs.

    The citation of an input is not carried over, for it gives the input and not the result.
    Raises ValueError where there is no input.

    >>> str(weakest([published("NIST SP 811, appendix B"), MEMORY, PRINTED]))
    'from memory: computed'
    """
    firmness = list(Basis)
    basis = min((source.basis for source in sources), key=firmness.index)
    return Source(basis, COMPUTED)


def published(citation: str) -> Source:
    """A published source by its citation."""
    return Source(Basis.PUBLISHED, citation)


def write_risk(chance: float) -> str:
    """The chance of what is not wanted, in words; never rounded down, so no warning is made less.

    >>> write_risk(5 / 9), write_risk(0.9991), write_risk(0.0)
    ('55.6 %', 'over 99.9 %', 'under 0.1 %')
    """
    if chance < 0.001 - 1e-12:
        return "under 0.1 %"
    tenths = math.ceil(1000 * chance - 1e-9)
    return f"{tenths / 10:.1f} %" if tenths <= 999 else "over 99.9 %"


SHOT_GUIDE = published('Soar Tackle knowledge base, "Guide to float shotting & weights"')
STRUNG_OUT = published('Black Country Fishing, "Shot"')
SHOT_DENSITIES = published('Due West Anglers, "Don\'t overlook split shot"; tables of elements')
FIBRE_DENSITIES = published(
    "textbook values; G. Klust, Netting Materials for Fishing Gear, 2nd ed., FAO 1982"
)
INTERFERENCE = published("O'Connor & Kleyner, Practical Reliability Engineering, ch. 5")
LEAD_SUPPLY = published(
    "SI 1986/1992, The Control of Pollution (Anglers' Lead Weights) Regulations 1986, regulation 4"
)
LEAD_USE_ENGLAND = published("GOV.UK, Freshwater rod fishing rules")
LEAD_USE_WALES = published("Natural Resources Wales, Fishing with rods and lead")
ELASTIC_GUIDE = published("Match Anglers Matches, elastic ratings")
SHOCK_LEADER_RULE = published('Planet Sea Fishing glossary, "Shock leader"')
