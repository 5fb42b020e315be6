"""Recipes for many wants, each file read once."""

from dataclasses import dataclass, field

from tacklebox.rigs.recipes.file import Recipe, Shelf


@dataclass(frozen=True)
class ReadOnce(Shelf):
    """A shelf for one question: a recipe that several wants name is read and checked once."""

    _read: dict[str, Recipe] = field(default_factory=dict, compare=False, repr=False)

    def load(self, name: str) -> Recipe:
        """The recipe of that name. Raises AskedWronglyError if there is none or it is faulty."""
        if name not in self._read:
            self._read[name] = super().load(name)
        return self._read[name]
