"""A recipe as text: read, and written again with what is wrong told by its line."""

import tomllib
from dataclasses import dataclass

from tacklebox.desk.asking import resolved_with
from tacklebox.desk.opening import Desk
from tacklebox.desk.own_files import refuse_changed
from tacklebox.desk.recipe_forms import name_of_ones_own, write_named
from tacklebox.errors import AskedWronglyError, BenchError, KeyFaultError, ManyFaultsError
from tacklebox.reading_toml import line_too_deep, read_toml


@dataclass(frozen=True)
class RecipeText:
    """A recipe's file as it is written; ``recipe`` is the angler's own that it is written over, "" for a
    new one, which is begun from ``like``. ``version`` is the file's mark."""

    recipe: str
    like: str
    text: str
    version: str


@dataclass(frozen=True)
class LineFault:
    """What is wrong in a line, counted from 1."""

    line: int
    says: str


class TextFaultsError(AskedWronglyError):
    """Faults of a text, each by its line."""

    def __init__(self, faults: tuple[LineFault, ...]) -> None:
        self.faults = faults
        super().__init__("\n".join(f"Line {fault.line}: {fault.says}" for fault in faults))


def text_of(desk: Desk, recipe: str) -> RecipeText:
    """The text of one's own recipe; of a shipped one with a name of one's own, to begin a new one.

    Raises AskedWronglyError where there is no such recipe.
    """
    from tacklebox.editing import version_of, with_values

    stem, text = desk.recipes.files.read(recipe)
    if desk.recipes.is_own(stem):
        return RecipeText(stem, "", text, version_of(text))
    name = name_of_ones_own(desk, desk.recipes.load(stem).name)
    return RecipeText("", stem, with_values(text, {"name": name}), "")


def write_text(desk: Desk, text: str, recipe: str = "", *, version: str = "") -> str:
    """Write a text over one's own recipe, or as a new one, and return its name.

    Raises TextFaultsError for what is no recipe, AskedWronglyError for a file that is no longer what the
    text was taken from, CannotBeDoneError where it cannot be written.
    """
    files = desk.recipes.files
    whole = text.replace("\r\n", "\n").rstrip("\n") + "\n"
    if recipe:
        refuse_changed(files.read(recipe)[1], version)
    name = _checked(desk, whole, recipe or "new")
    if recipe:
        files.write_over(recipe, whole)
        return recipe
    return write_named(desk, name, whole)


def faults_of(desk: Desk, text: str) -> tuple[LineFault, ...]:
    """What is wrong in a text, by line; nothing where it could be written."""
    try:
        _checked(desk, text, "new")
    except TextFaultsError as error:
        return error.faults
    return ()


def _checked(desk: Desk, text: str, stem: str) -> str:
    """The name of the recipe in the text, which can be tied with its usual choices."""
    from tacklebox.editing import line_of
    from tacklebox.rigs.recipes.file import parse_recipe

    try:
        recipe = parse_recipe(text, stem)
        resolved_with(desk.recipes, recipe, {})
    except ManyFaultsError as error:
        keyed = [fault for fault in error.faults if isinstance(fault, KeyFaultError)]
        found = [LineFault(line_of(text, fault.key), str(fault)) for fault in keyed]
        raise TextFaultsError(tuple(sorted(found, key=lambda fault: fault.line))) from None
    except BenchError as error:
        line = _line_of_slip(text) or line_of(text, "hooklengths")
        raise TextFaultsError((LineFault(line, f"{error.what} {error.right}".strip()),)) from None
    return recipe.name


def _line_of_slip(text: str) -> int:
    """Where a text is no TOML; 0 where it is."""
    from tomlkit import parse
    from tomlkit.exceptions import ParseError

    try:
        read_toml(text)
    except tomllib.TOMLDecodeError as slip:
        known = getattr(slip, "lineno", 0)  # from Python 3.14 on
        if known:
            return int(known)
        if at := line_too_deep(text):
            return at
        try:
            parse(text)
        except ParseError as error:
            return int(error.line)
        except (ValueError, RecursionError):
            return 1
        return 1
    return 0
