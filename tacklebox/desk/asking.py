"""Reading what was asked: each fault names the field that it lies in."""

from collections.abc import Callable, Mapping
from datetime import date
from typing import TYPE_CHECKING, TypeVar

from tacklebox.errors import AskedWronglyError, FaultsOfFields, nearest_word

if TYPE_CHECKING:
    from tacklebox.desk.opening import Desk
    from tacklebox.rigs.recipes.file import Recipe, Shelf
    from tacklebox.rigs.recipes.resolved import Resolved

PAGES = ("a4", "a5")
S = TypeVar("S")
T = TypeVar("T")


def in_field(name: str, read: Callable[[S], T], given: S) -> T:
    """What is read from what a field was given; a fault names the field."""
    try:
        return read(given)
    except AskedWronglyError as error:
        raise error.in_field(name) from None


def past_day(desk: "Desk", said: str, field: str = "on") -> date:
    """The day on which something was done, today where nothing is said."""
    from tacklebox.stock.dates import read_past_date

    return in_field(field, lambda text: read_past_date(text, desk.today()), said)


def any_day(desk: "Desk", said: str, field: str = "on") -> date:
    """A day, past or coming, today where nothing is said."""
    from tacklebox.stock.dates import read_day

    today = desk.today()
    return in_field(field, lambda text: read_day(text, today), said) if said.strip() else today


def page_size(said: str, field: str = "page") -> str:
    """A page that lists and sheets are printed on, by its name."""
    size = said.strip().lower()
    if size not in PAGES:
        raise AskedWronglyError(
            f'"{said}" is no page size.', field=field, right=nearest_word(said, PAGES)
        )
    return size


def count_of(said: int, most: int, field: str = "count") -> int:
    """How many: from 1 to ``most``. Raises AskedWronglyError, naming the field."""
    from tacklebox.trade.limits import within

    return within(said, 1, most, "a number of them", field=field)


def how_many(said: str, field: str = "count") -> int:
    """So many of something, in figures or as it is said: "4", "a dozen"."""
    from tacklebox.stock.amounts import read_amount

    return in_field(field, lambda words: read_amount(words, measured=False), said)


def celsius(said: str, field: str = "water") -> float:
    """The temperature of the water in °C, the usual one where nothing is said."""
    from tacklebox.trade.limits import within
    from tacklebox.trade.quantities import read_number
    from tacklebox.trade.water import FISHED_C, USUAL_C

    words = said.lower().replace("°", "").strip().removesuffix("c").strip()
    if not words:
        return USUAL_C
    if words.startswith(("-", "−")):
        raise AskedWronglyError(
            f"water of {said} is ice.", field=field, right="Give it between 0 and 30 °C."
        )
    return within(in_field(field, read_number, words), *FISHED_C, "water", "°C", field=field)


def chances(sound_from: str, doubtful_from: str) -> tuple[float, float]:
    """From which chances a rig is sound, and doubtful; in percent, the usual where nothing is said."""
    from tacklebox.trade.breaks_first import DOUBTFUL_FROM, SOUND_FROM

    faults = FaultsOfFields("these chances are none to go by.")
    sound = doubtful = DOUBTFUL_FROM
    with faults.of("sound_from"):
        sound = _chance(sound_from, SOUND_FROM, "sound_from")
    with faults.of("doubtful_from"):
        doubtful = _chance(doubtful_from, min(DOUBTFUL_FROM, sound), "doubtful_from")
    faults.refuse()
    if doubtful > sound:
        raise AskedWronglyError(
            f"{doubtful_from} % is above the {100 * sound:g} % from which a rig is sound.",
            field="doubtful_from",
            right="Give it the lower of the two.",
        )
    return sound, doubtful


def _chance(said: str, usual: float, field: str) -> float:
    from tacklebox.trade.quantities import read_number

    if not said.strip():
        return usual
    chance = in_field(field, read_number, said.strip().removesuffix("%")) / 100
    if not 0 < chance < 1:
        raise AskedWronglyError(
            f"{said} is no chance to go by.",
            field=field,
            right='Write percent between 0 and 100, like "95".',
        )
    return chance


def items_to_use(desk: "Desk", said: Mapping[str, str]) -> dict[str, int]:
    """The items that are to serve a part, by the part's name; each by its number or by words, or by the
    name of the reel or top kit that it is on."""
    if not said:
        return {}
    from tacklebox.stock.finding import find
    from tacklebox.stock.reels import list_reels

    found = {}
    with desk.box.reading() as session:
        on_reels = {loaded.reel.name.casefold(): loaded.item for loaded in list_reels(session)}
        for part, words in said.items():
            item = on_reels.get(words.strip().casefold())
            item = item or in_field(f"use.{part}", lambda w: find(session, w), words)
            found[part] = item.id or 0
    return found


def resolved_recipe(shelf: "Shelf", name: str, choices: Mapping[str, str]) -> "Resolved":
    """A recipe with its choices made, and its hooklength's.

    A choice that the rig does not know is its hooklength's; one that neither knows is a fault.
    """
    return resolved_with(shelf, in_field("recipe", shelf.load, name), choices)


def resolved_with(shelf: "Shelf", recipe: "Recipe", choices: Mapping[str, str]) -> "Resolved":
    """The same of a recipe that need not be on the shelf; its hooklengths are."""
    from tacklebox.rigs.recipes.resolving import resolve

    if not recipe.hooklengths:
        return resolve(recipe, dict(choices))
    own = dict(choices)
    wanted = own.pop("hooklength", recipe.hooklengths[0])
    if wanted not in recipe.hooklengths:
        raise AskedWronglyError(
            f'"{wanted}" does not go with {recipe.name}.',
            field="set.hooklength",
            right="Choose one of: " + ", ".join(recipe.hooklengths) + ".",
        )
    try:
        below = shelf.load(wanted)
    except AskedWronglyError as error:
        raise error.at(f"{recipe.stem}.toml, hooklengths") from None
    passed_on = {k: own.pop(k) for k in list(own) if k not in recipe.choose and k in below.choose}
    return resolve(recipe, own, resolve(below, passed_on))
