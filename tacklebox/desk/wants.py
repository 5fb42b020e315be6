"""What is wanted: so many rigs or hooklengths of each recipe, and what is chosen for them.

One reading for all that asks it: what runs low, tie sheets, a venue's judgement, a match's wants.
"""

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from tacklebox.desk.asking import in_field, resolved_recipe
from tacklebox.desk.opening import Desk
from tacklebox.errors import AskedWronglyError, nearest_word
from tacklebox.stock.amounts import read_amount

if TYPE_CHECKING:
    from tacklebox.matches.before.low import Want
    from tacklebox.matches.files.match import Match, WantedRig
    from tacklebox.rigs.recipes.file import Shelf
    from tacklebox.rigs.recipes.resolved import Resolved

MOST_WANTED = 500
_MOST_WORDS_OF_A_COUNT = 3  # "half a dozen"
_MOST_SHOWN = 20  # letters of what is no count


def wants_of(desk: Desk, wanted: Mapping[str, str], choices: Mapping[str, str]) -> "list[Want]":
    """So many of each recipe, by its name, in the order of the mapping.

    Raises AskedWronglyError for a count that is none, and as ``resolve_wants``.
    """
    if not wanted and not choices:
        return []
    from tacklebox.matches.before.low import Want
    from tacklebox.rigs.recipes.read_once import ReadOnce

    counts = [_count(name, said) for name, said in wanted.items()]
    rigs = resolve_wants(ReadOnce(desk.box.recipes), list(wanted), choices)
    return [Want(rig, count) for rig, count in zip(rigs, counts, strict=True)]


def want_in_words(said: str) -> tuple[str, str]:
    """What is wanted and how many, where the number stands first; no number, where none does.

    >>> want_in_words("three pole canal"), want_in_words("half a dozen of hooklength-fine")
    (('pole canal', 'three'), ('hooklength-fine', 'half a dozen'))
    >>> want_in_words("pole canal")
    ('pole canal', '')
    """
    words = said.split()
    for end in range(min(_MOST_WORDS_OF_A_COUNT, len(words) - 1), 0, -1):
        count = " ".join(words[:end])
        try:
            read_amount(count, measured=False)
        except AskedWronglyError:
            continue
        return " ".join(words[end + (words[end] == "of" and len(words) > end + 1) :]), count
    return said.strip(), ""


def wanted_rigs(
    desk: Desk, wanted: Mapping[str, str], choices: Mapping[str, str]
) -> "tuple[WantedRig, ...]":
    """The same as they stand in a match's file. Raises as ``wants_of``."""
    if not wanted and not choices:
        return ()
    from tacklebox.matches.files.match import MOST_OF_ONE, WantedRig

    counts = [_count(name, said, MOST_OF_ONE) for name, said in wanted.items()]
    resolve_wants(desk.recipes, list(wanted), choices)
    found = []
    for name, count in zip(wanted, counts, strict=True):
        known = _known_choices(desk.recipes, name, choices.get("hooklength"))
        own = {choice: value for choice, value in choices.items() if choice in known}
        recipe = desk.recipes.load(name).stem
        found.append(WantedRig(recipe=recipe, count=count, choose=own))
    return tuple(found)


def _count(name: str, said: str, most: int = MOST_WANTED) -> int:
    digits = said.strip()
    try:
        if 1 <= (count := read_amount(digits, measured=False)) <= most:
            return count
    except AskedWronglyError:
        pass
    shown = digits if len(digits) <= _MOST_SHOWN else f"{digits[:_MOST_SHOWN]}…"
    raise AskedWronglyError(
        f'"{shown}" is no count.',
        field=f"wanted.{name}",
        right=f"A whole number from 1 to {most}.",
    )


def wants_of_match(desk: Desk, match: "Match") -> "list[tuple[WantedRig, Resolved]]":
    """The wants of a match with their recipes.

    Raises AskedWronglyError as ``resolve_wants``, naming the file and the want, and where two
    wants come to the same rig.
    """
    from tacklebox.matches.before.plan import refuse_overlap
    from tacklebox.rigs.recipes.read_once import ReadOnce

    recipes, wants = ReadOnce(desk.box.recipes), []
    for number, want in enumerate(match.want, 1):
        try:
            (rig,) = resolve_wants(recipes, [want.recipe], want.choose)
        except AskedWronglyError as error:
            raise _in_file(error).at(f"{match.stem}.toml, want {number}") from None
        wants.append((want, rig))
    try:
        refuse_overlap(wants)
    except AskedWronglyError as error:
        raise error.at(f"{match.stem}.toml") from None
    return wants


def _in_file(error: AskedWronglyError) -> AskedWronglyError:
    """The fault in the words of a file, where a recipe or choice is a key and no field."""
    head, _, choice = error.field.partition(".")
    if head == "recipe":
        return AskedWronglyError(error.what, where=error.where, right=error.right)
    if head != "set":
        return error
    return AskedWronglyError(error.what, where=f"choose.{choice}", right=error.right)


def resolve_wants(
    recipes: "Shelf", names: Sequence[str], choices: Mapping[str, str]
) -> "list[Resolved]":
    """Each recipe with those of the choices that it, or its hooklength, lets one make.

    Raises AskedWronglyError for a choice that none of them knows, naming its field.
    """
    known = [_known_choices(recipes, name, choices.get("hooklength")) for name in names]
    for choice in choices:
        if not any(choice in each for each in known):
            raise _not_chosen(choice, names, sorted({name for each in known for name in each}))
    resolved = []
    for name, each in zip(names, known, strict=True):
        try:
            own = {choice: value for choice, value in choices.items() if choice in each}
            resolved.append(resolved_recipe(recipes, name, own))
        except AskedWronglyError as error:
            raise (error.at(name) if len(names) > 1 else error) from None
    return resolved


def _known_choices(recipes: "Shelf", name: str, hooklength: str | None) -> set[str]:
    from tacklebox.rigs.recipes.plumbed import OVER, PLUMBED, takes_depth

    recipe = in_field("recipe", recipes.load, name)
    own = {*recipe.choose, *((PLUMBED, OVER) if takes_depth(recipe) else ())}
    if not recipe.hooklengths:
        return own
    below = hooklength if hooklength in recipe.hooklengths else recipe.hooklengths[0]
    return {"hooklength", *own, *recipes.load(below or "").choose}


def _not_chosen(choice: str, names: Sequence[str], known: Sequence[str]) -> AskedWronglyError:
    if not names:
        what, right = "no recipe is named that it could be chosen for.", "Name one."
    else:
        what = f'"{choice}" is not chosen in {" or ".join(names)}.'
        right = nearest_word(choice, known) if known else "Nothing is chosen there."
    return AskedWronglyError(what, field=f"set.{choice}", right=right)
