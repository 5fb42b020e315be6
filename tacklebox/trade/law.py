"""Lead and the law, the close season, and the cautions that every angler is owed.

What stands here holds in England and Wales, the supply of lead in Great Britain; elsewhere other
law applies. The fishery's own board, the byelaws in force and the law of the land always come
first.
"""

import math
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from tacklebox.trade.judgement import Check, Fact, Judgement, Outcome
from tacklebox.trade.limits import within
from tacklebox.trade.quantities import MASS_LIMIT_G, write_mass
from tacklebox.trade.shot import weight_material
from tacklebox.trade.sources import (
    BY_ITEM,
    COMMON,
    LEAD_SUPPLY,
    LEAD_USE_ENGLAND,
    LEAD_USE_WALES,
    PRINTED,
    Basis,
    Source,
    published,
)
from tacklebox.trade.units_first import given_length, given_mass

LEAD_FREE_UP_TO_G = 0.06
LEAD_BANNED_UP_TO_G = 28.35
POWER_LINE_LEAST_M = 30
LICENCE_FROM_AGE = 13

POWER_LINE_SAFETY = published("Energy Networks Association, angler safety")
BYELAWS_ENGLAND = published("Environment Agency, National fisheries byelaws")
BYELAWS_WALES = published("Natural Resources Wales, fishing byelaws")
ROD_LICENCE = published("GOV.UK, national rod fishing byelaws")
DEFERS = "the fishery's own rules, the byelaws in force and the law of the land come first"


class Country(StrEnum):
    """Whose rules a water lies under, as far as they are known here."""

    ENGLAND = "England"
    WALES = "Wales"
    ELSEWHERE = "elsewhere"


def byelaws_of(country: Country | None) -> str:
    """Who made the fisheries byelaws that hold at a water; both, where its country is not known.

    >>> byelaws_of(Country.WALES)
    'Natural Resources Wales, fishing byelaws'
    """
    return _cited(country, BYELAWS_ENGLAND, BYELAWS_WALES)


def _cited(country: Country | None, england: Source, wales: Source) -> str:
    if country is Country.ENGLAND:
        return england.citation
    if country is Country.WALES:
        return wales.citation
    return f"{england.citation}; in Wales {wales.citation}"


def lead_may_not_be_used(mass_g: float) -> bool:
    """Whether a lead weight of that mass may not be fished with in England and Wales.

    Allowed: up to 0.06 g, which is shot No 14 to No 8, and over 28.35 g. In Wales lead built
    into swim feeders, self-cocking floats, lead-cored line and lures is excepted. Argument: mass
    in g, above 0. Raises AskedWronglyError otherwise. Sources: GOV.UK, Freshwater rod fishing
    rules; Natural Resources Wales, Fishing with rods and lead.

    >>> [lead_may_not_be_used(mass_g) for mass_g in (0.06, 0.08, 28.35, 30.0)]
    [False, True, True, False]
    """
    return _in_the_band(mass_g)


def lead_may_not_be_supplied(mass_g: float) -> bool:
    """Whether a lead weight of that mass may not be sold or given away in Great Britain for
    weighting lines.

    Prohibited: over 0.06 g and up to 28.35 g. Argument: mass in g, above 0. Raises
    AskedWronglyError otherwise. Source: SI 1986/1992, The Control of Pollution (Anglers' Lead
    Weights) Regulations 1986, regulation 4.

    >>> [lead_may_not_be_supplied(mass_g) for mass_g in (0.06, 0.08, 28.35, 30.0)]
    [False, True, True, False]
    """
    return _in_the_band(mass_g)


def lead_banned_up_to() -> str:
    """The heaviest lead that may not be used, as the law gives it, with his unit beside.

    >>> lead_banned_up_to()
    '28.35 g'
    """
    return given_mass(f"{LEAD_BANNED_UP_TO_G:g} g", LEAD_BANNED_UP_TO_G)


def _in_the_band(mass_g: float) -> bool:
    within(mass_g, 0, MASS_LIMIT_G, "a weight", "g", above=True)
    over = mass_g > LEAD_FREE_UP_TO_G and not math.isclose(mass_g, LEAD_FREE_UP_TO_G)
    up_to = mass_g <= LEAD_BANNED_UP_TO_G or math.isclose(mass_g, LEAD_BANNED_UP_TO_G)
    return over and up_to


def judge_lead(
    material: str,
    mass_g: float | None,
    what: str,
    *,
    country: Country | None = None,
    mass_source: Source = BY_ITEM,
) -> Judgement:
    """Whether a weight of that material may be fished with, by the rules on using lead.

    Arguments: material by name, mass of one weight in g or None where it is of no one size, ``what`` the
    weight is in words ("AAA shot"), and the water's country where it is known. Raises AskedWronglyError for
    an unknown material or a mass of 0 or less. Sources as for ``lead_may_not_be_used``.

    >>> judge_lead("lead", 0.8, "AAA shot").outcome is Outcome.SOUND
    False
    >>> judge_lead("tin", 0.8, "AAA shot").outcome is Outcome.SOUND
    True
    """
    name = weight_material(material).name
    about, formula = "lead", "lead, mass over 0.06 g and up to 28.35 g"
    if name != "lead":
        facts: tuple[Fact, ...] = (Fact(f"{what}: material", name, "", PRINTED),)
        return Judgement(
            about, Outcome.SOUND, f"{what} of {name} is no lead", formula, facts, Check.LEAD
        )
    cited = _cited(country, LEAD_USE_ENGLAND, LEAD_USE_WALES)
    only = f"only up to {LEAD_FREE_UP_TO_G:g} g (No 14 to No 8) and above {lead_banned_up_to()} ({cited})"
    if mass_g is None:
        says = (
            f"{what} of lead, of no one size: in England and Wales lead may be used {only}; leave out what "
            f"lies between. Elsewhere: {DEFERS}"
        )
        return Judgement(about, Outcome.DOUBTFUL, says, formula, (), Check.LEAD)
    facts = (
        Fact(f"{what}: mass of one", mass_g, "g", mass_source),
        Fact("lead may be used up to", LEAD_FREE_UP_TO_G, "g", LEAD_USE_ENGLAND),
        Fact("and above", LEAD_BANNED_UP_TO_G, "g", LEAD_USE_ENGLAND),
    )
    if lead_may_not_be_used(mass_g):
        says = (
            f"{what} of lead, {write_mass(mass_g)}: in England and Wales lead may be used {only}; "
            f"use tin or tungsten. Elsewhere: {DEFERS}"
        )
        return Judgement(about, Outcome.FAILS, says, formula, facts, Check.LEAD)
    says = (
        f"{what} of lead, {write_mass(mass_g)}: a size that may still be used in England and Wales "
        f"({cited}), but {DEFERS}, and some ban all lead"
    )
    return Judgement(about, Outcome.SOUND, says, formula, facts, Check.LEAD)


@dataclass(frozen=True, slots=True)
class Caution:
    """A caution in a sentence, and who says so."""

    about: str
    says: str
    source: Source


def power_lines_away() -> str:
    """How far power lines are kept away from at least, with his unit beside.

    >>> power_lines_away()
    '30 m'
    """
    return given_length(f"{POWER_LINE_LEAST_M} m", 1000.0 * POWER_LINE_LEAST_M, least=True)


def power_lines() -> Caution:
    """How far to keep from power lines, in the units that are told first.

    >>> power_lines().source.citation
    'Energy Networks Association, angler safety'
    """
    return Caution(
        "power lines",
        f"Keep at least {power_lines_away()} from overhead power lines: rods, poles and wet line "
        "conduct, and current can jump a gap.",
        POWER_LINE_SAFETY,
    )


def lead_trade() -> Caution:
    """Which lead may not be supplied, in the units that are told first.

    >>> lead_trade().about
    'lead'
    """
    return Caution(
        "lead",
        f"Lead weights over {LEAD_FREE_UP_TO_G:g} g and up to {lead_banned_up_to()} for weighting "
        "lines may not be supplied in Great Britain.",
        LEAD_SUPPLY,
    )


CLOSE_SEASON = Caution(
    "close season",
    "In England and Wales the coarse close season on rivers, streams and drains runs from "
    "15 March to 15 June inclusive. Most still waters and canals are open then, unless their owner "
    "closes them; the Norfolk and Suffolk Broads and some Sites of Special Scientific Interest keep "
    f"it on these too. In Wales the byelaws are those of Natural Resources Wales. For the day {DEFERS}.",
    BYELAWS_ENGLAND,
)
LICENCE = Caution(
    "rod licence",
    f"A rod licence is needed from the age of {LICENCE_FROM_AGE}.",
    ROD_LICENCE,
)
LINE_LITTER = Caution(
    "line litter",
    "Take line ends and old line home, cut small; hooks and knives are sharp.",
    COMMON,
)
FREE_RUNNING = Caution(
    "trailing tackle",
    f"Many fisheries allow only free-running feeders and leads; {DEFERS}.",
    Source(Basis.COMMON, "usual in the match rules of clubs and fisheries"),
)


def cautions() -> tuple[Caution, ...]:
    """All that every angler is owed, in the units that are told first.

    >>> len(cautions())
    6
    """
    return (power_lines(), CLOSE_SEASON, LICENCE, lead_trade(), LINE_LITTER, FREE_RUNNING)


def cautions_for(method: str, makes: str) -> tuple[Caution, ...]:
    """What is told where something was tied: of a feeder rig, what a fish may be left towing.

    Power lines are told where he sets out: on tie sheets and pack lists, with casts and the law.

    >>> [caution.about for caution in cautions_for("feeder", "rig")], cautions_for("pole", "rig")
    (['trailing tackle'], ())
    """
    return (FREE_RUNNING,) if (method, makes) == ("feeder", "rig") else ()


def in_close_season(day: date) -> bool:
    """Whether a day falls between the days of the coarse close season, England and Wales.

    15 March to 15 June, both included. Source: National fisheries byelaws, Environment Agency;
    the byelaws in force come first. Whether a water keeps it is for ``season_at``.

    >>> in_close_season(date(2026, 3, 14)), in_close_season(date(2026, 3, 15))
    (False, True)
    >>> in_close_season(date(2026, 6, 15)), in_close_season(date(2026, 6, 16))
    (True, False)
    """
    return (3, 15) <= (day.month, day.day) <= (6, 15)


class Season(StrEnum):
    """What the close season says of a day at a water."""

    OUTSIDE = "outside the close season"
    CLOSED = "closed"
    OPEN_BY_VENUE = "open, as the venue says"
    ASK = "ask: some keep it, most do not"


def season_at(
    day: date,
    *,
    running: bool,
    keeps_it: bool | None = None,
    country: Country | None = None,
) -> Season:
    """What the coarse close season says of a day at a water.

    ``running``: a river, stream or drain, which keeps it whatever anybody says. A still water or
    canal is closed or open as ``keeps_it`` tells, where the venue says so; else it has to be
    asked, for the Broads, some SSSIs and some owners keep it. Elsewhere than in England and Wales
    it has to be asked always. Source: National fisheries byelaws, Environment Agency.

    >>> may = date(2026, 5, 1)
    >>> [str(season_at(may, running=running)) for running in (True, False)]
    ['closed', 'ask: some keep it, most do not']
    """
    if country is Country.ELSEWHERE:
        return Season.ASK
    if not in_close_season(day):
        return Season.OUTSIDE
    if running or keeps_it:
        return Season.CLOSED
    return Season.ASK if keeps_it is None else Season.OPEN_BY_VENUE
