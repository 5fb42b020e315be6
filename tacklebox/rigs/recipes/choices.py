"""What is chosen when tying, and the recipe's words turned into figures with it."""

import re
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from fractions import Fraction

from tacklebox.errors import AskedWronglyError, KeyFaultError, nearest_word
from tacklebox.rigs.recipes.file import Choice, Recipe
from tacklebox.stock.asks import FEEDER_SLACK, Ask, read_ask, read_is
from tacklebox.stock.naming.tokens import as_said
from tacklebox.trade.quantities import read_length_mm, read_mass_g

HOOKLENGTH = "hooklength"
_WEIGHTS = ("feeder", "bomb")
_AT = re.compile(r"^\s*(?:(?:tied|set|plumbed|fished)\s+)?(?:at|to|for)\s+", re.IGNORECASE)


def same_size(first: str, second: str) -> bool:
    """Whether two sizes are the same as written, whatever their spaces, case and signs."""

    def plain(text: str) -> str:
        return re.sub(r"\s+", "", text.lower().replace("×", "x"))

    return plain(first) == plain(second)


def choose(recipe: Recipe, wishes: Mapping[str, str]) -> dict[str, str]:
    """What is chosen: the wishes, checked against each choice's range, else the usual value.

    Raises AskedWronglyError for a choice that the recipe does not offer or a value outside its range.
    """
    chosen = {name: choice.usual for name, choice in recipe.choose.items()}
    for name, wish in wishes.items():
        choice = recipe.choose.get(name)
        if choice is None:
            offered = list(recipe.choose) or ["(nothing is chosen in this recipe)"]
            raise AskedWronglyError(
                f'"{name}" is not chosen in the recipe {recipe.name}.',
                field=f"set.{name}",
                right=nearest_word(name, offered),
            )
        chosen[name] = _chosen_value(name, choice, wish)
    return chosen


def _chosen_value(name: str, choice: Choice, wish: str) -> str:
    if choice.any_of:
        for option in choice.any_of:
            if same_size(option, wish):
                return option
        if near := _as_heavy(choice.any_of, wish) if name in _WEIGHTS else "":
            return near
        raise AskedWronglyError(
            f'{name} cannot be "{wish}".',
            field=f"set.{name}",
            right="Choose one of: " + ", ".join(choice.any_of) + ".",
        )
    wish = _AT.sub("", wish)
    try:
        value = read_length_mm(wish)
    except AskedWronglyError as error:
        raise error.in_field(f"set.{name}") from None
    low = read_length_mm(choice.low or choice.usual)
    high = read_length_mm(choice.high or choice.usual)
    if not low - 0.5 <= value <= high + 0.5:
        raise AskedWronglyError(
            f"{name} cannot be {wish}.",
            field=f"set.{name}",
            right=f"From {choice.low} to {choice.high}.",
        )
    return wish if wish[:1].isdigit() and wish[-1:].isalpha() else as_said(wish)


def _as_heavy(options: Sequence[str], wish: str) -> str:
    """The feeder or bomb that is offered nearest to one by ounces, or grams, within a tenth; "" for none."""
    try:
        wished_g = read_mass_g(wish)
        away = {option: abs(wished_g / read_mass_g(option) - 1) for option in options}
    except AskedWronglyError:
        return ""
    near = min(away, key=away.__getitem__)
    return near if away[near] <= FEEDER_SLACK else ""


class FileFaults:
    """Gathers what is wrong, so that an angler can mend a file in one go."""

    def __init__(self) -> None:
        self.found: list[KeyFaultError] = []

    @contextmanager
    def at(self, words: str, key: str = "") -> Iterator[None]:
        """What is wrong here is told with these words, of this key or of the field below it."""
        try:
            yield
        except AskedWronglyError as error:
            place = ".".join(part for part in (key, error.field) if part)
            says = f"{error.what} {error.right}".strip()
            self.found.append(KeyFaultError(f"{words}: {error}", place, says))

    def add(self, says: str, key: str, where: str = "") -> None:
        """A fault of a key, told with where that is."""
        self.found.append(KeyFaultError(f"{where}: {says}" if where else says, key, says))


@contextmanager
def in_key(key: str) -> Iterator[None]:
    """What is wrong here lies in that key of a part."""
    try:
        yield
    except AskedWronglyError as error:
        raise error.in_field(key) from None


_SHARES = {"half": Fraction(1, 2), "third": Fraction(1, 3), "quarter": Fraction(1, 4)}
_TERM = re.compile(
    r"^(?:at )?(?:a )?(?:(\d+/\d+|half|third|quarter)\s+)?(?:of\s+)?(?:the )?([a-z][a-z_-]*)$"
)
_SUM = re.compile(r"\s*(\+)\s*|\s([−-]|plus|minus|less)\s", re.IGNORECASE)


def is_name_of_choice(name: str, *, a_length: bool) -> bool:
    """Whether a choice may be called so; a length is named in sums like "depth + 50 cm".

    >>> is_name_of_choice("depth", a_length=True), is_name_of_choice("1 m", a_length=True)
    (True, False)
    """
    if not a_length:
        return bool(name) and "." not in name
    found = _TERM.fullmatch(name)
    return bool(found and not found.group(1) and found.group(2) == name and name != HOOKLENGTH)


class RecipeFigures:
    """Puts the chosen values into the recipe's words and reads the figures."""

    def __init__(self, chosen: Mapping[str, str], hooklength_mm: float | None) -> None:
        self.chosen = chosen
        self.hooklength_mm = hooklength_mm

    def length_mm(self, text: str) -> float:
        """A length like "40 cm", "depth + 50 cm - hooklength", "half the depth"; never below 0."""
        total, sign = 0.0, 1
        for piece in filter(None, _SUM.split(text.strip())):
            if piece.lower() in ("+", "plus", "-", "−", "minus", "less"):
                sign = 1 if piece.lower() in ("+", "plus") else -1
                continue
            total += sign * self._term_mm(piece.strip(), text)
        if total < 0:
            raise AskedWronglyError(f'"{text}" comes to less than nothing here.')
        return total

    def _term_mm(self, term: str, text: str) -> float:
        named = _TERM.match(term.lower())
        if not named:
            return read_length_mm(term)
        share, name = named.groups()
        factor = _SHARES.get(share) or Fraction(share) if share else Fraction(1)
        if name == HOOKLENGTH and self.hooklength_mm is not None:
            return float(factor) * self.hooklength_mm
        if name not in self.chosen:
            raise AskedWronglyError(
                f'"{name}" in "{text}" is neither chosen in this recipe nor a length.',
                right='Write a length like "40 cm", or the name of a choice.',
            )
        return float(factor) * read_length_mm(self.chosen[name])

    def ask(self, is_: str, asks: Mapping[str, object]) -> Ask:
        """What a part asks of stock, the chosen values put in."""
        with in_key("is"):
            kind, extra = read_is(is_)
        words: dict[str, str] = dict(extra)
        for key, value in asks.items():
            if not isinstance(value, str):
                raise AskedWronglyError(
                    f"{key} is {value!r}.",
                    right=f'Write it in quotes with its unit: {key} = "…".',
                    field=key,
                )
            words[key] = self.chosen.get(value, value)
        try:
            return read_ask(kind, words)
        except AskedWronglyError:
            for key, word in words.items():
                with in_key(key):
                    read_ask(kind, {key: word})
            raise
