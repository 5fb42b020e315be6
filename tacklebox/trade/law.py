"""Lead and the law, and the cautions that every angler is owed.

What stands here is what is usual in the United Kingdom; elsewhere other law applies. The
fishery's own board, the byelaws in force and the law of the land always come first.
"""

import math
from dataclasses import dataclass
from datetime import date

from tacklebox.errors import AskedWronglyError
from tacklebox.trade.judgement import Fact, Judgement, Outcome
from tacklebox.trade.quantities import MASS_LIMIT_G, write_mass
from tacklebox.trade.shot import weight_material
from tacklebox.trade.sources import COMMON, LEAD_LAW, PRINTED, Basis, Source, published

LEAD_FREE_UP_TO_G = 0.06
LEAD_BANNED_UP_TO_G = 28.35
POWER_LINE_LEAST_M = 30

LEAD_SHOT_RULE = published('Angling Times, "Anglers warned off illegal leads"')
POWER_LINE_SAFETY = published("Energy Networks Association, angler safety")
FISHERY_BYELAWS = published("Environment Agency, national fisheries byelaws")
DEFERS = "the fishery's own rules, the byelaws in force and the law of the land come first"


def lead_is_banned(mass_g: float) -> bool:
    """Whether a lead weight of that mass may not be used to weight fishing line in the UK.

    Banned: over 0.06 g and up to 28.35 g (one ounce). In shot sizes lead is left only in No 8
    and smaller. Arguments: mass in g, above 0. Raises AskedWronglyError otherwise. Source:
    SI 1986/1992, The Control of Pollution (Anglers' Lead Weights) Regulations 1986.

    >>> [lead_is_banned(mass_g) for mass_g in (0.06, 0.08, 28.35, 30.0)]
    [False, True, True, False]
    """
    if not 0 < mass_g <= MASS_LIMIT_G:
        raise AskedWronglyError(
            f"a weight of {mass_g:g} g makes no sense.",
            right=f"It weighs above 0, up to {MASS_LIMIT_G:g} g.",
        )
    over = mass_g > LEAD_FREE_UP_TO_G and not math.isclose(mass_g, LEAD_FREE_UP_TO_G)
    up_to = mass_g <= LEAD_BANNED_UP_TO_G or math.isclose(mass_g, LEAD_BANNED_UP_TO_G)
    return over and up_to


def judge_lead(material: str, mass_g: float, what: str) -> Judgement:
    """Whether a weight of that material is one the lead regulations forbid.

    Arguments: material by name, mass of one weight in g, ``what`` the weight is in words
    ("AAA shot"). Raises AskedWronglyError for an unknown material or a mass of 0 or less.
    Source: SI 1986/1992.

    >>> judge_lead("lead", 0.8, "AAA shot").outcome.value
    'will not do'
    >>> judge_lead("tin", 0.8, "AAA shot").outcome.value
    'sound'
    """
    name = weight_material(material).name
    banned = lead_is_banned(mass_g) and name == "lead"
    facts = (
        Fact(f"{what}: mass of one", mass_g, "g", PRINTED),
        Fact("lead allowed up to", LEAD_FREE_UP_TO_G, "g", LEAD_LAW),
        Fact("lead banned up to", LEAD_BANNED_UP_TO_G, "g", LEAD_LAW),
        Fact("lead shot allowed", "No 8 and smaller", "", LEAD_SHOT_RULE),
    )
    about, formula = "lead", "lead, mass over 0.06 g and up to 28.35 g"
    if banned:
        says = (
            f"{what} of lead, {write_mass(mass_g)}: lead from over 0.06 g to 28.35 g may not weight "
            f"a line in the UK ({LEAD_LAW.citation}); use tin or tungsten. Elsewhere: {DEFERS}"
        )
        return Judgement(about, Outcome.WILL_NOT_DO, says, formula, facts)
    if name == "lead":
        says = (
            f"{what} of lead, {write_mass(mass_g)}: outside the sizes banned in the UK "
            f"({LEAD_LAW.citation}), but {DEFERS}, and some ban all lead"
        )
    else:
        says = f"{what} of {name} is no lead"
    return Judgement(about, Outcome.SOUND, says, formula, facts)


@dataclass(frozen=True, slots=True)
class Caution:
    """A caution in a sentence, and who says so."""

    about: str
    says: str
    source: Source


POWER_LINES = Caution(
    "power lines",
    f"Keep at least {POWER_LINE_LEAST_M} m from overhead power lines: rods, poles and wet line "
    "conduct, and current can jump a gap.",
    POWER_LINE_SAFETY,
)
CLOSE_SEASON = Caution(
    "close season",
    "In England and Wales the coarse close season on rivers, streams and drains runs from "
    "15 March to 15 June inclusive; most stillwaters and canals are open unless their owner closes "
    f"them. A rod licence is needed from the age of 13. For the day itself {DEFERS}.",
    FISHERY_BYELAWS,
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
CAUTIONS = (POWER_LINES, CLOSE_SEASON, LINE_LITTER, FREE_RUNNING)


def caution_for(method: str) -> Caution:
    """The caution that matters most to a method: power lines, or what a fish may be left towing.

    >>> caution_for("pole").about, caution_for("feeder").about
    ('power lines', 'trailing tackle')
    """
    return FREE_RUNNING if method == "feeder" else POWER_LINES


def in_close_season(day: date) -> bool:
    """Whether a day falls in the coarse close season of running water, England and Wales.

    15 March to 15 June, both included; rivers, streams and drains. Most stillwaters and
    canals are open unless their owner closes them. Source: Environment Agency, national fisheries
    byelaws; the byelaws in force come first.

    >>> in_close_season(date(2026, 3, 14)), in_close_season(date(2026, 3, 15))
    (False, True)
    >>> in_close_season(date(2026, 6, 15)), in_close_season(date(2026, 6, 16))
    (True, False)
    """
    return (3, 15) <= (day.month, day.day) <= (6, 15)
