"""Recipe files: how a rig or hooklength is made, as an angler writes it in TOML.

This module knows the file's shape; ``resolving`` puts figures to it. Files of earlier versions say
``there`` for ``in_place`` and ``side`` for ``branch``; both are read as ever.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from difflib import get_close_matches
from functools import lru_cache
from pathlib import Path
from typing import Annotated, Any, Literal

from pydantic import AliasChoices, BaseModel, ConfigDict, Field

from tacklebox.datafiles import MOST_NAMED, DataFiles, StrictModel, parse_toml
from tacklebox.errors import AskedWronglyError

Text = Annotated[str, Field(min_length=1, max_length=400)]
Held = Literal[
    "runs free", "in line", "slides", "one point", "two points", "in a loop", "on its stem", "fixed"
]
Place = Literal["at the float", "bulk", "spread", "droppers"]


class _Asking(BaseModel):
    """Keys that are not named here ask for figures of the item ("diameter", "strain", …)."""

    model_config = ConfigDict(extra="allow", frozen=True, strict=True)

    @property
    def asks(self) -> dict[str, Any]:
        """What is asked of the item's figures, by key."""
        return dict(self.model_extra or {})


class Choice(StrictModel):
    """What is chosen when tying: a length in a range, or one of several sizes."""

    usual: Text
    low: Text | None = Field(default=None, alias="from")
    high: Text | None = Field(default=None, alias="to")
    any_of: tuple[Text, ...] = ()


class ChainPart(_Asking):
    """A part from rod to hook. ``in_place``: on the reel or pole already, not taken from stock."""

    name: Text
    is_: Text = Field(alias="is")
    length: Text | None = None
    top: Text | None = None
    bottom: Text | None = None
    loop: Text | None = None
    in_place: bool = Field(default=False, validation_alias=AliasChoices("in_place", "there"))


class AlongPart(_Asking):
    """Something that is on a line: a float, a running feeder, a bead, a stop.

    ``bore`` is what the line runs through it by; ``seat`` says that a bead or swivel is pushed into
    it; ``tried_by_hand``, that what gives way under pull did so. ``held_by`` is what holds a float
    on its line, and how many pieces: "3 silicone tubes".
    """

    name: Text
    is_: Text = Field(alias="is")
    on: Text
    held: Held
    held_by: Text | None = None
    at: Text | None = None
    count: int = Field(default=1, ge=1, le=50)
    bore: Text | None = None
    seat: Literal["push fit"] | None = None
    tried_by_hand: bool = False


class WrittenBranch(StrictModel):
    """A branch that hangs from a named part; a weak link is meant to go first."""

    name: Text
    hangs_from: Text = Field(alias="from")
    part: tuple[ChainPart, ...] = Field(min_length=1)
    weak_link: bool = False


class ShotGroup(StrictModel):
    """Shot or an olivette at one kind of place; ``of`` may differ with a chosen size."""

    place: Place
    of: Text | dict[str, Text]
    at: Text | None = None
    apart: Text | None = None
    low: Text | None = Field(default=None, alias="from")
    high: Text | None = Field(default=None, alias="to")
    material: Text | None = None


class Recipe(StrictModel):
    """A whole recipe file.

    ``fish`` is what it is for where that decides something ("carp"); ``free_running`` asks that
    every weight on it comes free; ``fished`` is how deep: "off bottom", "dead depth", "over 2 in".
    """

    stem: str
    name: Text
    makes: Literal["rig", "hooklength"]
    method: Literal["float", "feeder", "pole"]
    purpose: Text = Field(alias="for")
    notes: Text | None = None
    fish: Literal["carp", "F1"] | None = None
    free_running: bool = False
    hooklengths: tuple[Text, ...] = ()
    fished: Text | None = None
    choose: dict[str, Choice] = Field(default_factory=dict)
    part: tuple[ChainPart, ...] = Field(min_length=1)
    along: tuple[AlongPart, ...] = ()
    branch: tuple[WrittenBranch, ...] = Field(
        default=(), validation_alias=AliasChoices("branch", "side")
    )
    shot: tuple[ShotGroup, ...] = ()
    winder: dict[str, Text] | None = None


_KEYS = {
    "": ("name", "makes", "method", "for", "notes", "fish", "free_running", "hooklengths", "fished",
         "choose", "part", "along", "branch", "shot", "winder"),
    "choose": ("usual", "from", "to", "any_of"),
    "branch": ("name", "from", "part", "weak_link"),
    "shot": ("place", "of", "at", "apart", "from", "to", "material"),
}  # fmt: skip


@lru_cache(maxsize=200)  # a page of all recipes reads each; the same text is the same recipe
def parse_recipe(text: str, stem: str) -> Recipe:
    """A recipe from its TOML text. Raises ManyFaultsError naming file, key, and what was expected."""
    return parse_toml(Recipe, text, stem, "recipe", _KEYS)


_NEAR = 0.75  # of a mistyped word's letters


def _words_of(name: str) -> frozenset[str]:
    """What a recipe is called, word by word: "Pellet wagglers" is "waggler-pellet"."""
    words = re.findall(r"[a-z0-9]+", name.lower().removesuffix(".toml"))
    return frozenset(word.removesuffix("s") for word in words if word not in ("rig", "rigs"))


@dataclass(frozen=True)
class Shelf:
    """Where recipes stand: the box's own folder first, then the shipped ones."""

    own: Path | None = None

    @property
    def files(self) -> DataFiles:
        """The recipe files."""
        return DataFiles("recipes", "recipe", self.own)

    def names(self) -> list[str]:
        """The names of all recipes, in alphabetical order."""
        return self.files.names()

    def is_own(self, name: str) -> bool:
        """Whether the angler's own recipe serves that name."""
        return self.files.is_own(name)

    def load(self, name: str) -> Recipe:
        """The recipe of that name, or of that title. Raises AskedWronglyError if there is none or it is
        faulty."""
        try:
            stem, text = self.files.read(name)
        except AskedWronglyError as unknown:
            if name.strip().removesuffix(".toml") in self.names():
                raise
            stem, text = self.files.read(self._meant_by(name, unknown))
        return parse_recipe(text, stem)

    def _meant_by(self, said: str, unknown: AskedWronglyError) -> str:
        """The one recipe whose name or title is made of those words, in any order; of those that only have
        them among others, he is told."""
        words = _words_of(said)
        called = [(stem, (_words_of(stem), _words_of(title))) for stem, title in self._titles()]
        same = [stem for stem, names in called if words in names]
        if len(same) == 1:
            return same[0]
        known = sorted(frozenset().union(*(each for _, names in called for each in names)))
        mended = {(get_close_matches(word, known, 1, _NEAR) or [word])[0] for word in words}
        near = same or [stem for stem, names in called if any(mended <= each for each in names)]
        if not (words and near):
            raise unknown
        offered = " or ".join(f'"{stem}"' for stem in near[:MOST_NAMED])
        raise AskedWronglyError(
            f'there is no recipe "{said[:60]}".', right=f"Did you mean {offered}?"
        )

    def _titles(self) -> Iterator[tuple[str, str]]:
        recipes, _ = self.files.load_each(self.load)
        return ((recipe.stem, recipe.name) for recipe in recipes)
