"""How a rig falls, as it is asked: the bait, the water, how it is fished, what is otherwise beside it."""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from tacklebox.desk.asking import celsius, in_field, items_to_use, resolved_recipe
from tacklebox.errors import AskedWronglyError

if TYPE_CHECKING:
    from tacklebox.desk.opening import Desk
    from tacklebox.rigs.checking.falling import Fished
    from tacklebox.rigs.fitting import Fit
    from tacklebox.stock.measured import Measured
    from tacklebox.trade.settling.rig import FallingRig, Note
    from tacklebox.trade.settling.sizes import FallingBait

BARE = ("none", "bare", "bare hook", "no bait")
_TIMED = re.compile(r"^(?P<far>.+?[a-z])[\s,]*(?:in\s+)?(?P<time>[\d.,/½¼¾ ]+)\s*s(?:ec\w*)?$")
_MANY_WEIGHED = re.compile(r"^(?P<mass>.+?)\s+(?:for|of)\s+(?P<count>\d+)$")
_OFF_BY = re.compile(r"^off(?: (?:the )?(?:bottom|deck|bed))?(?: by)? (?P<by>\d.*)$")
_WIND = re.compile(r"^(?P<number>[-−]?[\d.,/ ]+?)\s*(?P<unit>m/s|mph|km/h)?$", re.IGNORECASE)
_M_S = {"m/s": 1.0, "mph": 0.44704, "km/h": 1 / 3.6}  # NIST SP 811, appendix B
_TIME = re.compile(r"^(?P<number>.+?)\s*(?P<unit>s|sec\w*|min\w*|h|hours?|days?)?$")
_SECONDS = {"m": 60.0, "h": 3600.0, "d": 86400.0}
_MOVED = re.compile(r"^bulk (?:moved )?(?P<way>up|down) (?:by )?(?P<by>.+)$")
_BULK_AT = re.compile(r"^(?:all in a |all )?bulk at (?P<at>.+)$")


@dataclass(frozen=True)
class Fishing:
    """How a rig is fished, in words; what is left empty is as usual, or as the recipe says.

    ``bait`` may be "none"; ``sinks`` is his own timing of it ("1 m in 24 s", "floats"), ``hook_mass``
    his weighing ("0.2 g for 20"), ``float_mass`` that of the float itself. ``fished``: "off bottom",
    "off bottom by 10 cm", "dead depth", "over 2 in"; or ``plumbed``, the water's depth. ``seen``: how
    little of the tip he sees move ("4 mm"), or ``away``, how far off it is. ``seconds``: how long it is
    looked at. ``wind`` blows from the float towards where the line was laid.
    """

    bait: str = ""
    sinks: str = ""
    hook_mass: str = ""
    float_mass: str = ""
    fished: str = ""
    plumbed: str = ""
    water: str = ""
    wind: str = ""
    seen: str = ""
    away: str = ""
    seconds: str = ""


@dataclass(frozen=True)
class FallQuestion:
    """A recipe, what is chosen and which item serves which part, and how it is fished.

    ``held``: a tight line to the pole or the rod keeps the float in its place, where it else drifts as the
    rig draws it.
    """

    recipe: str
    choices: Mapping[str, str] = field(default_factory=dict)
    use: Mapping[str, str] = field(default_factory=dict)
    fishing: Fishing = Fishing()
    held: bool = False


@dataclass(frozen=True)
class FallingPattern:
    """One rig that is to fall: what is otherwise with it, its recipe, the rig, and what to know."""

    what: str
    recipe: str
    name: str
    chosen: Mapping[str, str]
    fished: str
    rig: "FallingRig"
    notes: "tuple[Note, ...]"


def pattern_of(desk: "Desk", asked: FallQuestion, what: str = "as it is") -> FallingPattern:
    """The rig of a question. Raises AskedWronglyError, naming the field."""
    from tacklebox.rigs.checking.falling import falling_rig, float_to_hook_mm
    from tacklebox.rigs.tying.tie import fit_and_check
    from tacklebox.trade.settling.rig import Note

    resolved = resolved_recipe(desk.recipes, asked.recipe, asked.choices)
    fit = fit_and_check(desk.box, resolved, 1, items_to_use(desk, asked.use)).fit
    reach_mm = float_to_hook_mm(fit)
    set_, words = _set(asked, reach_mm, fit)
    falling = falling_rig(fit, set_)
    notes = falling.notes
    if reach_mm == 0 and (asked.fishing.fished or asked.fishing.plumbed):
        notes = (*notes, Note("no depth", "a rig without float is not set to a depth"))
    return FallingPattern(
        what, asked.recipe, resolved.recipe.name, dict(resolved.chosen), words, falling.rig, notes
    )


def _set(asked: FallQuestion, reach_mm: float, fit: "Fit") -> "tuple[Fished, str]":
    """How it is fished, as figures and in words."""
    fishing = asked.fishing
    from tacklebox.rigs.checking.falling import Fished

    by_recipe = fit.resolved.fished
    over_mm, words = _over(fishing, reach_mm, str(by_recipe), by_recipe)
    water_c = celsius(fishing.water)
    hook_mg = in_field("hook_mass", _one_hook_mg, fishing.hook_mass) if fishing.hook_mass else None
    float_g = in_field("float_mass", _float_g, fishing.float_mass) if fishing.float_mass else None
    wind = in_field("wind", _wind, fishing.wind) if fishing.wind.strip() else 0.0
    bait = _bait(fishing, fit.measured)
    return Fished(bait, over_mm, water_c, wind, hook_mg, float_g, asked.held), words


def _over(
    fishing: Fishing, reach_mm: float, said: str, by_recipe: object
) -> tuple[float | None, str]:
    from tacklebox.trade.hanging import Depth, FishedDepth, read_fished
    from tacklebox.trade.quantities import read_length_mm
    from tacklebox.trade.units_first import show_length

    if fishing.plumbed:
        if fishing.fished:
            raise AskedWronglyError(
                "how deep it is fished is said twice.",
                field="plumbed",
                right="Say how it is fished, or how deep the water is.",
            )
        deep = in_field("plumbed", read_length_mm, fishing.plumbed)
        return reach_mm - deep, f"in {show_length(deep)} of water"
    by = _OFF_BY.match(" ".join(fishing.fished.lower().split()))
    if by:
        off = in_field("fished", read_length_mm, by["by"])
        return -off, f"{show_length(off)} off bottom"
    how = in_field("fished", read_fished, fishing.fished) if fishing.fished else by_recipe
    assert isinstance(how, FishedDepth)
    return (None if how.depth is Depth.OFF else how.over_mm), str(how) if fishing.fished else said


def _bait(fishing: Fishing, measured: "Measured") -> "FallingBait | None":
    from tacklebox.trade.hanging import USUAL_BAIT
    from tacklebox.trade.settling.sizes import BAITS, bait_named, bait_timed
    from tacklebox.trade.sources import ASKED

    name = fishing.bait.strip().lower() or USUAL_BAIT
    if name in BARE:
        return None
    sinks = " ".join(fishing.sinks.lower().split())
    if not sinks:
        return measured.bait(name) or in_field("bait", bait_named, name)
    if sinks in ("floats", "it floats", "not at all"):
        known = next((bait for bait in BAITS if bait.name == name), BAITS[0])
        return replace(known, name=name, sinks_m_s=-0.01, source=ASKED)

    def timed(words: str) -> "FallingBait":
        return bait_timed(name, *read_timing(words))

    return in_field("sinks", timed, sinks)


def read_timing(words: str) -> tuple[float, float]:
    """How far something sank, in m, and how long it took, in s: "1 m in 24 s"."""
    from tacklebox.trade.quantities import read_length_mm, read_number

    found = _TIMED.match(" ".join(words.lower().split()))
    if not found:
        raise AskedWronglyError(
            f'"{words}" is no timing over a depth.', right='Write it like "1 m in 24 s".'
        )
    seconds = read_number(found["time"])
    if seconds <= 0:
        raise AskedWronglyError("nothing sinks in no time.", right='Write it like "1 m in 24 s".')
    return read_length_mm(found["far"]) / 1000, seconds


def speed_m_s(words: str) -> float:
    """A sinking speed by its timing, in m/s."""
    far_m, seconds = read_timing(words)
    return far_m / seconds


def _one_hook_mg(words: str) -> float:
    """What one hook weighs, in mg: "10 mg", "0.2 g for 20"."""
    from tacklebox.trade.limits import within
    from tacklebox.trade.quantities import read_mass_g
    from tacklebox.trade.settling.sizes import HOOK_LIMIT_MG

    found = _MANY_WEIGHED.match(words.strip())
    count = int(found["count"]) if found else 1
    within(count, 1, 1000, "a number of hooks", hint="About twenty.")
    mass_mg = 1000 * read_mass_g(found["mass"] if found else words) / count
    hint = 'Write what one weighs, "10 mg", or several together, "0.2 g for 20".'
    return within(mass_mg, 0.5, HOOK_LIMIT_MG, "a hook", "mg", hint=hint)


def _float_g(words: str) -> float:
    """What a float itself weighs, in g."""
    from tacklebox.trade.floats import checked_own_mass_g
    from tacklebox.trade.quantities import read_mass_g

    return checked_own_mass_g(read_mass_g(words), words)


def _wind(words: str) -> float:
    from tacklebox.trade.limits import within
    from tacklebox.trade.quantities import read_number

    found = _WIND.match(words.strip())
    if not found:
        raise AskedWronglyError(
            f'"{words}" is no wind.', right='Write it like "4 m/s" or "10 mph".'
        )
    number = found["number"].strip()
    sign = -1 if number.startswith(("-", "−")) else 1
    wind = sign * read_number(number.lstrip("-−")) * _M_S[(found["unit"] or "m/s").lower()]
    within(wind, -30, 30, "a wind", "m/s", typed=words)
    return wind


def seen_of(fishing: Fishing) -> float:
    """The least movement of the tip that is seen, in mm."""
    from tacklebox.trade.limits import within
    from tacklebox.trade.quantities import read_length_mm
    from tacklebox.trade.settling.outcome import SEEN_LIMITS_MM, SEEN_MM, seen_mm

    if fishing.seen:

        def read_seen(words: str) -> float:
            return within(read_length_mm(words), *SEEN_LIMITS_MM, "a movement", "mm", typed=words)

        return in_field("seen", read_seen, fishing.seen)
    if fishing.away:
        return in_field("away", lambda far: seen_mm(read_length_mm(far) / 1000), fishing.away)
    return SEEN_MM


def until_of(fishing: Fishing) -> "tuple[float | None, tuple[Note, ...]]":
    """How long it is looked at, in s, None: until it is at rest; and what is said of it."""
    if not fishing.seconds.strip():
        return None, ()
    from tacklebox.trade.settling.fall import nearest_seconds

    return nearest_seconds(in_field("seconds", _seconds, fishing.seconds))


def _seconds(words: str) -> float:
    from tacklebox.trade.quantities import read_number

    plain = words.strip().lower()
    if plain in ("a day", "an hour", "a minute"):
        plain = "1 " + plain.split(" ")[1]
    found = _TIME.match(plain)
    if not found:
        raise AskedWronglyError("a time is a number of seconds.", right='Write it like "20 s".')
    return read_number(found["number"]) * _SECONDS.get((found["unit"] or "s")[0], 1.0)


def beside_of(desk: "Desk", asked: FallQuestion, words: str) -> FallingPattern:
    """The pattern beside the first, by what is otherwise with it.

    "bulk down 10 cm", "bulk at 40 cm", "strung out", "bait caster", "hooklength 20 cm", "hooklength
    hooklength-fine", "recipe waggler-spread". Raises AskedWronglyError.
    """
    plain = " ".join(words.split())
    head, _, rest = plain.partition(" ")
    if head == "bait" and rest:
        return pattern_of(desk, _fishing(asked, bait=rest, sinks=""), plain)
    if head == "hooklength" and rest:
        return pattern_of(desk, replace(asked, choices=_other_hooklength(asked, rest)), plain)
    if head == "recipe" and rest:
        return pattern_of(desk, replace(asked, recipe=rest, choices={}, use={}), plain)
    changed = in_field("beside", _shot_changed, plain.lower())
    first = pattern_of(desk, asked, plain)
    return replace(first, rig=in_field("beside", changed, first.rig))


def _fishing(asked: FallQuestion, **changed: str) -> FallQuestion:
    return replace(asked, fishing=replace(asked.fishing, **changed))


def _other_hooklength(asked: FallQuestion, said: str) -> Mapping[str, str]:
    """The choices with another hooklength: a length of the same, or another by its name."""
    from tacklebox.trade.quantities import read_length_mm

    try:
        read_length_mm(said)
    except AskedWronglyError:
        return {**asked.choices, "hooklength": said}
    return {**asked.choices, "length": said}


def _shot_changed(plain: str) -> "Callable[[FallingRig], FallingRig]":
    from tacklebox.rigs.checking.falling import bulk_moved, bulked, strung_out
    from tacklebox.trade.quantities import read_length_mm

    if plain in ("strung out", "spread", "shirt button", "shirt-button"):
        return strung_out
    moved, put = _MOVED.match(plain), _BULK_AT.match(plain)
    if moved:
        by_mm = read_length_mm(moved["by"]) * (1 if moved["way"] == "up" else -1)
        return lambda rig: bulk_moved(rig, by_mm)
    if put:
        below = put["at"].startswith(("-", "−"))
        at_mm = read_length_mm(put["at"].lstrip("-−")) * (-1 if below else 1)
        return lambda rig: bulked(rig, at_mm)
    raise AskedWronglyError(
        f'"{plain}" is nothing that can be otherwise.',
        right='Write "bulk down 10 cm", "bulk at 40 cm", "strung out", "bait caster", '
        '"hooklength 20 cm" or "recipe NAME".',
    )
