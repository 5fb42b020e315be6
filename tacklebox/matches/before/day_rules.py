"""A venue's rules on a day: close season, groundbait, keepnets, and what only an angler can judge."""

from datetime import date

from tacklebox.matches.before.rulings import About, Rule, Ruling, Verdict
from tacklebox.matches.files.venue import NetRules, Rules, Venue
from tacklebox.stock.dates import write_day
from tacklebox.trade.keepnet import Keepnet, judge_keepnet
from tacklebox.trade.law import DEFERS, Season, byelaws_of, season_at


def judge_day(venue: Venue, on: date | None, groundbait_g: float | None = None) -> list[Ruling]:
    """What is judged once for a day at the venue: close season, groundbait, keepnet, plain words."""
    rulings = [_season(venue, on)] if on else []
    groundbait = judge_groundbait(venue, groundbait_g)
    rulings += [groundbait] if groundbait else []
    in_words = [Rule(About.KEEPNET, words) for words in venue.keepnet.words(venue.under)]
    in_words += [Rule(About.IN_WORDS, words) for words in venue.read]
    return rulings + [Ruling(rule, Verdict.CHECK_YOURSELF) for rule in in_words]


def judge_groundbait(venue: Venue, mass_g: float | None) -> Ruling | None:
    """So much dry groundbait by the venue's limit, None where it has none; with no mass, it is to be
    weighed."""
    limit = venue.rules.groundbait_limit_g
    if limit is None:
        return None
    rule = groundbait_rule(venue.rules)
    if mass_g is None:
        return Ruling(rule, Verdict.CHECK_YOURSELF, says="weigh it before it is mixed")
    says = f"{_kg(mass_g)}, weighed dry"
    if mass_g <= limit:
        return Ruling(rule, Verdict.ALLOWED, "groundbait", says)
    leave = f"leave {_kg(mass_g - limit)} at home"
    return Ruling(rule, Verdict.NOT_ALLOWED, "groundbait", says, leave)


def groundbait_rule(rules: Rules) -> Rule:
    """The venue's limit as it is called."""
    return Rule(About.GROUNDBAIT, f"groundbait at most {rules.groundbait_limit}")


def _kg(mass_g: float) -> str:
    """Groundbait is spoken of in kg."""
    return f"{round(mass_g / 1000, 3):g} kg"


def judge_net(venue: Venue | None, net: Keepnet, nets: int | None = None) -> list[Ruling]:
    """Every rule on keepnets, the byelaws' and the venue's; what nobody measured is left to read.

    ``nets`` is how many are to be used at a time, where that is known.
    """
    asks = venue.keepnet if venue else NetRules()
    by_venue = f"rule of {venue.name}" if venue else ""
    judged = []
    for rule in judge_keepnet(net, asks.asked):
        by = by_venue if rule.by_venue else byelaws_of(venue.under if venue else None)
        judged.append(_net_ruling(f"{rule.asks} ({by})", rule.passes, rule.has, rule.asks))
    if asks.nets:
        right = f"at most {asks.nets} at a time"
        passes, has = (None, "") if nets is None else (nets <= asks.nets, f"{nets} keepnets")
        judged.append(_net_ruling(f"{right} ({by_venue})", passes, has, right))
    if asks.fish_per_net:
        most = Rule(
            About.KEEPNET, f"keepnet at most {asks.fish_per_net} of fish in each ({by_venue})"
        )
        judged.append(Ruling(most, Verdict.CHECK_YOURSELF, says="change nets before it is full"))
    return judged


def _net_ruling(asks: str, passes: bool | None, has: str, right: str) -> Ruling:
    rule = Rule(About.KEEPNET, f"keepnet {asks}")
    if passes is None:
        return Ruling(rule, Verdict.CHECK_YOURSELF, says="nobody measured it: do, or look")
    if passes:
        return Ruling(rule, Verdict.ALLOWED, says=has)
    return Ruling(rule, Verdict.NOT_ALLOWED, says=has, remedy=right)


def _season(venue: Venue, on: date) -> Ruling:
    rule, by = Rule(About.CLOSE_SEASON, "close season"), byelaws_of(venue.under)
    day = write_day(on)
    running = venue.water == "river"
    season = season_at(on, running=running, keeps_it=venue.close_season, country=venue.under)
    if season is Season.OUTSIDE:
        return Ruling(rule, Verdict.ALLOWED, says=f"{day} is outside 15 March to 15 June")
    if season is Season.CLOSED:
        says = f"{day} lies in 15 March to 15 June ({by}); {DEFERS}"
        return Ruling(rule, Verdict.NOT_ALLOWED, "the day", says, "from 16 June")
    if season is Season.OPEN_BY_VENUE:
        says = f"open on {day}, as the venue's file says; {DEFERS}"
        return Ruling(rule, Verdict.ALLOWED, "the day", says)
    if venue.country == "elsewhere":
        return Ruling(
            rule, Verdict.CHECK_YOURSELF, "the day", f"ask what the law there says; {DEFERS}"
        )
    says = (
        f"ask the owner about {day}: the Broads, some SSSIs and some owners keep 15 March to "
        f"15 June on {venue.water}s too ({by}); {DEFERS}"
    )
    return Ruling(rule, Verdict.CHECK_YOURSELF, "the day", says)
