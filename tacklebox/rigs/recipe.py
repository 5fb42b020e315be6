"""Recipe files: how a rig or hooklength is made, as an angler writes it in TOML.

This module knows the file's shape; ``rigs.resolve`` puts figures to it.
"""

import re
import tomllib
from dataclasses import dataclass
from pathlib import Path
from typing import Annotated, Any, Literal

from pydantic import BaseModel, ConfigDict, Field, ValidationError

from tacklebox.errors import AskedWronglyError, ManyFaultsError, nearest_word
from tacklebox.shipped import shipped_folder

MOST_BYTES = 64 * 1024
NAME = re.compile(r"^[a-z0-9][a-z0-9-]{0,59}$")

Text = Annotated[str, Field(min_length=1, max_length=400)]
Held = Literal["runs free", "in line", "one point", "two points"]
Place = Literal["at the float", "bulk", "spread", "droppers"]


class _Strict(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True, strict=True)


class _Asking(BaseModel):
    """Keys that are not named here ask for figures of the item ("diameter", "strain", …)."""

    model_config = ConfigDict(extra="allow", frozen=True, strict=True)

    @property
    def asks(self) -> dict[str, Any]:
        """What is asked of the item's figures, by key."""
        return dict(self.model_extra or {})


class Choice(_Strict):
    """What is chosen when tying: a length in a range, or one of several sizes."""

    usual: Text
    low: Text | None = Field(default=None, alias="from")
    high: Text | None = Field(default=None, alias="to")
    any_of: tuple[Text, ...] = ()


class ChainPart(_Asking):
    """A part from rod to hook. ``there``: on the reel or pole already, not taken from stock."""

    name: Text
    is_: Text = Field(alias="is")
    length: Text | None = None
    top: Text | None = None
    bottom: Text | None = None
    loop: Text | None = None
    there: bool = False


class AlongPart(_Asking):
    """Something that is on a line: a float, a running feeder, a bead, a stop."""

    name: Text
    is_: Text = Field(alias="is")
    on: Text
    held: Held
    at: Text | None = None
    count: int = Field(default=1, ge=1, le=50)


class Side(_Strict):
    """A side branch that hangs from a named part."""

    name: Text
    hangs_from: Text = Field(alias="from")
    part: tuple[ChainPart, ...] = Field(min_length=1)


class ShotGroup(_Strict):
    """Shot or an olivette at one kind of place; ``of`` may differ with a chosen size."""

    place: Place
    of: Text | dict[str, Text]
    at: Text | None = None
    apart: Text | None = None
    low: Text | None = Field(default=None, alias="from")
    high: Text | None = Field(default=None, alias="to")
    material: Text | None = None


class Recipe(_Strict):
    """A whole recipe file."""

    stem: str
    name: Text
    makes: Literal["rig", "hooklength"]
    method: Literal["float", "feeder", "pole"]
    purpose: Text = Field(alias="for")
    notes: Text | None = None
    hooklengths: tuple[Text, ...] = ()
    choose: dict[str, Choice] = Field(default_factory=dict)
    part: tuple[ChainPart, ...] = Field(min_length=1)
    along: tuple[AlongPart, ...] = ()
    side: tuple[Side, ...] = ()
    shot: tuple[ShotGroup, ...] = ()
    winder: dict[str, Text] | None = None


def parse_recipe(text: str, stem: str, where: str) -> Recipe:
    """A recipe from its TOML text. Raises ManyFaultsError naming file, key, and what was expected."""
    try:
        raw = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise AskedWronglyError(f"this is no TOML: {error}.", where=where) from None
    except RecursionError:
        raise AskedWronglyError("this is no TOML: nested too deep.", where=where) from None
    raw["stem"] = stem
    try:
        return Recipe.model_validate(_tuples(raw))
    except ValidationError as error:
        faults = [_fault(e) for e in error.errors(include_url=False)]
        raise ManyFaultsError(f"{where}: this recipe cannot be read.", faults) from None


def _tuples(value: Any) -> Any:
    """TOML gives lists where the frozen models hold tuples."""
    if isinstance(value, list):
        return tuple(_tuples(v) for v in value)
    if isinstance(value, dict):
        return {k: _tuples(v) for k, v in value.items()}
    return value


_KEYS = {
    "Recipe": ("name", "makes", "method", "for", "notes", "hooklengths", "choose", "part", "along",
               "side", "shot", "winder"),
    "choose": ("usual", "from", "to", "any_of"),
    "side": ("name", "from", "part"),
    "shot": ("place", "of", "at", "apart", "from", "to", "material"),
}  # fmt: skip


def _fault(error: Any) -> str:
    place = [p for p in error["loc"] if not (isinstance(p, str) and p.startswith(("str", "dict[")))]
    key = ""
    for step in place:
        key += f" {step + 1}" if isinstance(step, int) else f"{'.' if key else ''}{step}"
    given = error.get("input")
    match error["type"]:
        case "missing":
            return f'"{key}" is missing.'
        case "extra_forbidden":
            table = str(place[0]) if len(place) > 1 else "Recipe"
            known = _KEYS.get(table, _KEYS["Recipe"])
            return f'"{key}" is no key of a recipe. {nearest_word(str(place[-1]), known)}'
        case "literal_error":
            return f'"{key}": {given!r} should be {error["ctx"]["expected"]}.'
        case "string_type":
            return f'"{key}": {given!r} should be text in quotes with its unit, like "40 cm".'
        case "string_too_long":
            return f'"{key}" is too long: at most 400 letters.'
        case "string_too_short" | "too_short":
            return f'"{key}" is empty.'
        case "tuple_type":
            return f'"{key}": {given!r} should be a list, in [ ] (or a table headed [[{key}]]).'
        case "dict_type" | "model_type" | "model_attributes_type":
            return f'"{key}": {given!r} should be a table, headed [{key}].'
        case _:
            return f'"{key}": {error["msg"][0].lower()}{error["msg"][1:]}.'


@dataclass(frozen=True)
class Shelf:
    """Where recipes stand: the box's own folder first, then the shipped ones."""

    own: Path | None = None

    @property
    def folders(self) -> tuple[Path, ...]:
        shipped = shipped_folder("recipes")
        return (self.own, shipped) if self.own else (shipped,)

    def names(self) -> list[str]:
        """The names of all recipes, in alphabetical order."""
        stems = {p.stem for f in self.folders if f.is_dir() for p in f.glob("*.toml")}
        return sorted(s for s in stems if NAME.match(s))

    def is_own(self, name: str) -> bool:
        """Whether the angler's own recipe serves that name."""
        return self.own is not None and (self.own / f"{name}.toml").is_file()

    def load(self, name: str) -> Recipe:
        """The recipe of that name. Raises AskedWronglyError if there is none or it is faulty."""
        stem = name.strip().removesuffix(".toml")
        if not NAME.match(stem):
            raise AskedWronglyError(
                f'"{name[:60]}" is no recipe name.',
                right="Names are small letters, digits and hyphens; `recipe list` shows them.",
            )
        for folder in self.folders:
            path = folder / f"{stem}.toml"
            if path.is_file():
                return parse_recipe(_read(path), stem, path.name)
        raise AskedWronglyError(
            f'there is no recipe "{stem}".', right=nearest_word(stem, self.names())
        )


def _read(path: Path) -> str:
    try:
        if path.stat().st_size > MOST_BYTES:
            raise AskedWronglyError("the file is over 64 kB.", where=path.name)
        return path.read_text(encoding="utf-8")
    except OSError as error:
        raise AskedWronglyError(
            f"the file cannot be read: {error.strerror}.", where=path.name
        ) from None
    except UnicodeDecodeError:
        raise AskedWronglyError(
            "the file is not UTF-8 text.", where=path.name, right="Save it as UTF-8."
        ) from None
