"""Recipes: what can be tied, what each asks for, a starting file of one's own, and its drawing."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from tacklebox.desk.answers import Fault
from tacklebox.desk.asking import in_field, resolved_recipe
from tacklebox.desk.opening import Desk
from tacklebox.errors import AskedWronglyError

if TYPE_CHECKING:
    from tacklebox.outputs import Target
    from tacklebox.rigs.recipes.file import Recipe
    from tacklebox.rigs.recipes.resolved import Resolved, Segment


# Points: width, height and size of words; the smaller the room, the larger is tackle in it.
MOST_STEPS = 40  # of a slider
ON_PAPER, ON_SCREEN = (300.0, 420.0), (230.0, 400.0, 11.5)


@dataclass(frozen=True)
class RecipeName:
    """A recipe as it stands in a list; ``own`` is one of the angler's own."""

    recipe: str
    name: str
    purpose: str
    makes: str  # "rig" or "hooklength"
    method: str  # "float", "feeder" or "pole"
    own: bool


@dataclass(frozen=True)
class RecipeList:
    """All recipes by name, and what is wrong with those that cannot be read; ``faulty`` names them."""

    recipes: tuple[RecipeName, ...]
    faults: tuple[Fault, ...]
    faulty: tuple[str, ...] = ()


@dataclass(frozen=True)
class Chosen:
    """What is chosen when a recipe is tied: one of several sizes, or a length in a range, which is passed
    through in ``steps``."""

    name: str
    usual: str
    any_of: tuple[str, ...]
    lowest: str
    highest: str
    steps: tuple[str, ...] = ()


@dataclass(frozen=True)
class Asked:
    """A part of a recipe, rod to hook, and what it asks of stock.

    ``where``: the branch point of a part on a side branch, the line that a thing is on. ``length``
    is a line's when it is tied, in words.
    """

    part: str
    asks: str
    kind: str  # "chain", "branch", "along" or "shot"
    knots: tuple[str, ...] = ()
    where: str = ""
    held: str = ""
    length: str = ""


@dataclass(frozen=True)
class RecipePage:
    """A recipe with its usual choices made; ``takes_depth``: its depth may be told by a plumbed one."""

    recipe: str
    name: str
    purpose: str
    makes: str
    method: str
    notes: str
    own: bool
    choices: tuple[Chosen, ...]
    parts: tuple[Asked, ...]
    hooklengths: tuple[str, ...]
    takes_depth: bool
    called: Mapping[str, str]  # what its hooklengths are called, by recipe


@dataclass(frozen=True)
class Started:
    """A starting file that was written."""

    recipe: str
    file: Path


@dataclass(frozen=True)
class Drawn:
    """A recipe drawn as stock serves it now."""

    recipe: str
    name: str
    svg: str


def listed(desk: Desk) -> RecipeList:
    """All recipes; the angler's own win over shipped ones of the same name."""
    recipes = desk.recipes
    found, faults = recipes.files.load_each(recipes.load)
    loaded = {recipe.stem for recipe in found}
    return RecipeList(
        tuple(
            RecipeName(r.stem, r.name, r.purpose, r.makes, r.method, recipes.is_own(r.stem))
            for r in found
        ),
        tuple(Fault.of(error) for error in faults),
        tuple(name for name in recipes.names() if name not in loaded),
    )


def show(desk: Desk, recipe: str) -> RecipePage:
    """What a recipe asks for. Raises AskedWronglyError if there is none of the name or it is faulty."""
    from tacklebox.rigs.recipes.plumbed import takes_depth

    resolved = resolved_recipe(desk.recipes, recipe, {})
    file = resolved.recipe
    return RecipePage(
        recipe=file.stem,
        name=file.name,
        purpose=file.purpose,
        makes=file.makes,
        method=file.method,
        notes=file.notes or "",
        own=desk.recipes.is_own(file.stem),
        choices=tuple(_choices(file)),
        parts=tuple(_parts(resolved)),
        hooklengths=file.hooklengths,
        takes_depth=takes_depth(file),
        called={name: _name_of(desk, name) for name in file.hooklengths},
    )


def _name_of(desk: Desk, recipe: str) -> str:
    """What a hooklength is called; one that cannot be read is told of where it is chosen."""
    try:
        return desk.recipes.load(recipe).name
    except AskedWronglyError:
        return recipe


def _choices(recipe: "Recipe") -> Iterator[Chosen]:
    for name, choice in recipe.choose.items():
        steps = () if choice.any_of else lengths_between(choice.low, choice.usual, choice.high)
        low, high = choice.low or "", choice.high or ""
        yield Chosen(name, choice.usual, choice.any_of, low, high, steps)


def lengths_between(low: str | None, usual: str, high: str | None) -> tuple[str, ...]:
    """Lengths from low to high at which a slider stops, in the unit of the usual one, which is among them.

    >>> lengths_between("90 cm", "1 m", "2 m")[:4], lengths_between("4 in", "6 in", "8 in")[-3:]
    (('90 cm', '95 cm', '1 m', '105 cm'), ('7 in', '7.5 in', '8 in'))
    """
    from tacklebox.trade.quantities import MM_PER_INCH, read_length_mm, write_length

    try:
        ends = [read_length_mm(said) for said in (low or "", usual, high or "")]
    except AskedWronglyError:
        return ()
    unit = MM_PER_INCH if usual.rstrip().endswith(("in", '"', "ft")) else 1.0
    sizes = (0.5, 1, 2, 6, 12) if unit == MM_PER_INCH else (5, 10, 50, 100, 500)
    across = (ends[2] - ends[0]) / unit
    step = unit * next((size for size in sizes if across / size <= MOST_STEPS), sizes[-1])
    said = dict(zip(ends, (low or "", usual, high or ""), strict=True))
    for n in range(int(ends[0] / step) + 1, int(ends[2] / step) + 1):
        if all(abs(n * step - end) > step / 2 for end in ends):
            said[n * step] = (
                f"{n * step / unit:g} in" if unit == MM_PER_INCH else write_length(n * step)
            )
    return tuple(words for _, words in sorted(said.items()))


def _parts(resolved: "Resolved") -> Iterator[Asked]:
    from tacklebox.stock.asked import asked_words

    yield from _chain(resolved.chain, "chain")
    for branch in resolved.branches:
        yield from _chain(branch.chain, "branch", branch.hangs_from)
    for thing in resolved.along:
        yield Asked(
            thing.name, asked_words(thing.need.ask), "along", where=thing.on, held=thing.held
        )
        if thing.held_by:
            yield Asked(
                thing.held_by.part, asked_words(thing.held_by.ask), "along", where=thing.name
            )
    for group in resolved.shot:
        yield Asked("shot", group.words, "shot")


def _chain(chain: "Sequence[Segment]", kind: str, where: str = "") -> Iterator[Asked]:
    from tacklebox.stock.asked import asked_words
    from tacklebox.trade.quantities import write_length

    for segment in chain:
        knots = tuple(knot.name for knot in (segment.top, segment.bottom) if knot)
        length = write_length(segment.length_mm) if segment.length_mm else ""
        yield Asked(segment.name, asked_words(segment.need.ask), kind, knots, where, length=length)


def start(desk: Desk, recipe: str, *, hooklength: bool = False, like: str = "") -> Started:
    """Write a commented starting file for a recipe of one's own, or a copy of the recipe ``like``.

    The copy keeps all notes; only the name on its label is its own. Raises AskedWronglyError for a name
    that is none here or is taken, a recipe that is not there or is faulty, CannotBeDoneError where it cannot
    be written.
    """
    from tacklebox.rigs.recipes.starting import write_copy, write_starting_file

    if like and hooklength:
        raise AskedWronglyError(
            "a copy is what its recipe makes.", field="hooklength", right="Leave it out."
        )
    folder = desk.box.recipes
    if like:
        in_field("like", desk.recipes.load, like)

    def write(name: str) -> Path:
        if like:
            return write_copy(folder, name, like)
        return write_starting_file(folder, name, hooklength=hooklength)

    file = in_field("recipe", write, recipe)
    return Started(file.stem, file)


def file_of(desk: Desk, recipe: str) -> Path | None:
    """The angler's own file of that recipe; None where it is a shipped one."""
    return desk.box.recipes / f"{recipe}.toml" if desk.recipes.is_own(recipe) else None


def draw(
    desk: Desk,
    recipe: str,
    choices: Mapping[str, str],
    to: "Target | None" = None,
    *,
    replace: bool = False,
    glance: bool = False,
) -> Drawn:
    """Draw a recipe as stock serves it now, and write the SVG where it is to go.

    At a ``glance`` it has no words, and is as the recipe asks for it, whatever is in stock.

    Raises AskedWronglyError for a recipe or choice that is not there, and as ``write_aside``.
    """
    from tacklebox.outputs import SVG, write_aside
    from tacklebox.printing.drawing.rig import drawing_svg, glance_svg
    from tacklebox.rigs.fitting import unfitted
    from tacklebox.rigs.tying.describe import describe, describe_fit
    from tacklebox.rigs.tying.tie import fit_and_check

    resolved = resolved_recipe(desk.recipes, recipe, choices)
    if glance:
        svg = glance_svg(describe_fit(unfitted(resolved), "", ""))
    else:
        checked = fit_and_check(desk.box, resolved)
        svg = drawing_svg(describe(checked, "", desk.today()), *ON_PAPER)
    if to is not None:
        with write_aside(to, SVG, overwrite=replace) as aside:
            aside.write(svg.encode())
    return Drawn(resolved.recipe.stem, resolved.recipe.name, svg)
