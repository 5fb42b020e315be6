"""A recipe as a form: its rows filled in, looked at and written, its notes kept."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

from tacklebox.desk.asking import resolved_with
from tacklebox.desk.checking import RigChecked
from tacklebox.desk.looking import look_at
from tacklebox.desk.opening import Desk
from tacklebox.desk.own_files import (
    FieldFaultsError,
    file_name,
    keys_as_fields,
    refuse_changed,
    stem_of,
)
from tacklebox.desk.recipe_rows import (
    BY_SIZE,
    KINDS,
    FormNames,
    FormRow,
    Rows,
    fields_of,
    named,
    names_in,
    sizes_in,
)
from tacklebox.errors import AskedWronglyError, BenchError, ManyFaultsError
from tacklebox.reading_toml import read_toml

if TYPE_CHECKING:
    from tacklebox.editing import TableRow
    from tacklebox.rigs.recipes.file import Recipe
    from tacklebox.rigs.recipes.resolved import Resolved

WORDS = ("name", "makes", "method", "for", "notes", "fish", "fished")
TICKS = ("free_running", "in_place", "tried_by_hand", "weak_link")
WINDER = ("length", "width")
OLDER = {"in_place": "there", "branch": "side"}  # what earlier versions called it
RIG, HOOKLENGTH = "rig", "hooklength"


@dataclass(frozen=True)
class RecipeForm:
    """A recipe as it is filled in: ``values`` by its keys ("winder.length"), ``rows`` by their kind.

    ``recipe`` is the file of the angler's own that it is written over, "" for a new one, which is begun
    from the recipe ``like``, or from the starting file for what it ``makes``. ``version`` is the mark of
    the file that it was filled from.
    """

    recipe: str
    like: str
    makes: str
    values: Mapping[str, str]
    rows: Rows
    version: str

    def __getitem__(self, key: str) -> str:
        return self.values.get(key, "")


@dataclass(frozen=True)
class FormLookedAt:
    """A form as it would be written: its faults by field ("part 2.length"), else its drawing and checks.

    ``remarks`` are of what may be chosen and would not do then.
    """

    faults: Mapping[str, str]
    svg: str
    checked: RigChecked | None
    remarks: tuple[str, ...]


def form(desk: Desk, recipe: str = "", *, like: str = "", makes: str = RIG) -> RecipeForm:
    """The form of a recipe of one's own; a shipped one, or ``like``, begins a new one.

    Raises AskedWronglyError where there is no such recipe, or its file is no TOML or no recipe's at all.
    """
    from tacklebox.editing import version_of

    own = recipe if recipe and desk.recipes.is_own(recipe) else ""
    begun = "" if own else recipe or like
    text = _begun_from(desk, own, begun, makes)
    values, rows = _filled(own or begun or "recipe", text)
    if not own:
        values["name"] = name_of_ones_own(desk, values["name"]) if begun else _new_name(desk, makes)
    return RecipeForm(own, begun, makes, values, rows, version_of(text))


def look(desk: Desk, said: RecipeForm) -> FormLookedAt:
    """What would be written, looked at: what is wrong with it, else its drawing and what the checks say.

    Raises AskedWronglyError for a file that is no longer what the form was filled from.
    """
    try:
        _, recipe, resolved = _made(desk, said, said.recipe or "new")
        seen = look_at(desk, resolved)
    except FieldFaultsError as error:
        return FormLookedAt(error.by_field, "", None, ())
    return FormLookedAt({}, seen.svg, seen.checked, tuple(_remarks(desk, recipe)))


def draw_verdict(desk: Desk, said: RecipeForm, what: str, which: int = 1) -> str:
    """What a verdict on the form rests on, drawn as ``verdict_pictures.draw_verdict`` does, as SVG.

    Raises FieldFaultsError for a form that is wrong, and as that does.
    """
    from tacklebox.desk.verdict_pictures import picture_of

    _, _, resolved = _made(desk, said, said.recipe or "new")
    return picture_of(desk, resolved, what, which=which)


def write(desk: Desk, said: RecipeForm) -> str:
    """Write the form as a file of one's own and return its name; a new one is named after what it is
    called. Notes go with what they are about.

    Raises FieldFaultsError naming the fields that are wrong ("branch 1.part 2.mass"), AskedWronglyError
    for a file that is no longer what the form was filled from, CannotBeDoneError where it cannot be written.
    """
    text, _, _ = _made(desk, said, said.recipe or "new")
    files = desk.recipes.files
    if said.recipe and desk.recipes.is_own(said.recipe):
        files.write_over(said.recipe, text)
        return said.recipe
    return write_named(desk, said["name"], text)


def write_named(desk: Desk, name: str, text: str) -> str:
    """Write a new file, named after what the recipe is called; the same sent twice is one file."""
    files = desk.recipes.files
    twin = next((n for n in files.names() if files.is_own(n) and files.read(n)[1] == text), None)
    if twin:
        return twin
    stem = file_name(name, files)
    files.write_new(stem, text)
    return stem


def name_of_ones_own(desk: Desk, name: str) -> str:
    """What a copy is called, unasked: as no other recipe is."""
    taken = set(desk.recipes.names())
    ways = (
        f"{name}, my own" if n == 1 else f"{name}, my own {n}" for n in range(1, len(taken) + 2)
    )
    return next(way for way in ways if stem_of(way) not in taken)


def _new_name(desk: Desk, makes: str) -> str:
    """What a new one is called until he names it, so that it is drawn from the start."""
    name = f"New {makes}"
    return name_of_ones_own(desk, name) if stem_of(name) in desk.recipes.names() else name


def _begun_from(desk: Desk, own: str, like: str, makes: str) -> str:
    """The text that a form is filled from, and that its changes are made in."""
    from tacklebox.rigs.recipes import starting

    if own or like:
        return desk.recipes.files.read(own or like)[1]
    return starting.HOOKLENGTH if makes == HOOKLENGTH else starting.RIG


def _filled(stem: str, text: str) -> tuple[dict[str, str], Rows]:
    """What a form has of a file. Raises AskedWronglyError for one that no form can show."""
    from tacklebox.rigs.recipes.file import parse_recipe

    try:
        raw = read_toml(text)
        tables = {kind: _tables(raw, kind) for kind in KINDS}
    except (ValueError, TypeError, AttributeError, RecursionError):
        parse_recipe(text, stem)
        raise
    values = {key: _said(raw.get(key)) for key in (*WORDS, "hooklengths", "free_running")}
    winder = raw.get("winder") or {}
    values |= {f"winder.{key}": _said(winder.get(key)) for key in WINDER}
    return values, {kind: tuple(_rows(each)) for kind, each in tables.items()}


def _tables(raw: Mapping[str, Any], kind: str) -> list[dict[str, Any]]:
    found = raw.get(kind, raw.get(OLDER.get(kind, kind), {} if kind == "choose" else []))
    if kind == "choose":
        return [{"name": name, **dict(each)} for name, each in found.items()]
    return [dict(each) for each in found]


def _rows(tables: list[dict[str, Any]]) -> Iterator[FormRow]:
    for number, table in enumerate(tables):
        values: dict[str, str] = {}
        for key, value in table.items():
            if isinstance(value, dict):
                values |= {f"{BY_SIZE}{size}": _said(words) for size, words in value.items()}
            elif key != "part":
                values["in_place" if key == OLDER["in_place"] else key] = _said(value)
        parts = tuple(_rows([dict(part) for part in table.get("part", [])]))
        yield FormRow(values, str(number), parts)


def _said(value: Any) -> str:
    """A value of the file as the form has it."""
    if isinstance(value, bool):
        return "1" if value else ""
    if isinstance(value, list):
        return ", ".join(map(str, value))
    return "" if value is None else str(value)


def _made(desk: Desk, said: RecipeForm, stem: str) -> tuple[str, "Recipe", "Resolved"]:
    """The form as a file's text, read again, and with its usual choices made."""
    from tacklebox.editing import with_rows, with_values
    from tacklebox.rigs.recipes.file import parse_recipe

    begun = _begun_from(desk, said.recipe, said.like, said.makes)
    refuse_changed(begun, said.version)
    raw = read_toml(begun)
    rows = {kind: _each_once(of_kind) for kind, of_kind in named(said.rows).items()}
    faults: dict[str, str] = dict(_faults_of_rows(rows))
    can_name = names_in(rows)
    names = {OLDER["branch"] if k == "branch" and OLDER["branch"] in raw else k: k for k in KINDS}
    tables = {
        name: [_table_row(kind, row, can_name, _tables(raw, kind), faults, f"{kind} {n}")
               for n, row in enumerate(rows.get(kind, ()), 1)]
        for name, kind in names.items()
    }  # fmt: skip
    text = with_rows(with_values(begun, _own_values(said, raw)), tables)
    recipe, resolved = None, None
    try:
        with keys_as_fields():
            recipe = parse_recipe(text, stem)
            if not any(field.endswith((".name", ".usual")) for field in faults):
                resolved = resolved_with(desk.recipes, recipe, {})  # else much follows from that
    except FieldFaultsError as error:
        faults = {_field(key, rows): says for key, says in error.by_field.items()} | faults
    except AskedWronglyError as error:  # of the hooklength that goes with it
        faults = {"hooklengths": str(error)} | faults
    if faults or recipe is None or resolved is None:
        heading = f"{said['name'] or 'This recipe'} cannot be used."
        raise FieldFaultsError(faults, ManyFaultsError(heading, list(faults.values())))
    return text, recipe, resolved


def _each_once(rows: tuple[FormRow, ...]) -> tuple[FormRow, ...]:
    """Rows of which no two are the same table of the file: the second is a new one."""
    seen, once = {""}, []
    for row in rows:
        was = "" if row.was in seen else row.was
        parts = row.parts if was else tuple(replace(part, was="") for part in row.parts)
        once.append(replace(row, was=was, parts=_each_once(parts)))
        seen.add(was)
    return tuple(once)


def _own_values(said: RecipeForm, raw: Mapping[str, Any]) -> dict[str, Any]:
    """The recipe's own keys as its file has them."""
    values: dict[str, Any] = {key: _plain(said[key]) or None for key in WORDS}
    values["notes"] = said["notes"].replace("\r\n", "\n").strip() or None
    values["free_running"] = True if said["free_running"] else None
    values["hooklengths"] = sizes_in(said["hooklengths"]) or None
    values = {key: raw[key] if _is_same(raw, key, said[key]) else v for key, v in values.items()}
    winder = {f"winder.{key}": _plain(said[f"winder.{key}"]) or None for key in WINDER}
    return values | (winder if any(winder.values()) else {"winder": None})


def _plain(words: str) -> str:
    return " ".join(words.split())


def _is_same(before: Mapping[str, Any], key: str, said: str) -> bool:
    """Whether a field says what the file has; then that stays as it is written there."""
    return key in before and _plain(_said(before[key])) == _plain(said)


def _table_row(
    kind: str,
    row: FormRow,
    names: FormNames,
    tables: list[dict[str, Any]],
    faults: dict[str, str],
    place: str,
) -> "TableRow":
    """A row as the file has it; what cannot be put there at all is a fault of its field."""
    from tacklebox.editing import TableRow

    was = int(row.was) if row.was.isdecimal() and int(row.was) < len(tables) else None
    before = tables[was] if was is not None else {}
    known = [field.key for field in fields_of(kind, row, names)]
    values: dict[str, Any] = {}
    for key in known:
        if key.startswith(BY_SIZE):
            continue
        called = OLDER[key] if key in OLDER and OLDER[key] in before else key
        is_same = _is_same(before, called, row[key])
        values[called] = before[called] if is_same else _kept(key, row[key], faults, place)
    by_size = {k.removeprefix(BY_SIZE): _plain(row[k]) for k in known if BY_SIZE in k}
    by_size = {size: said for size, said in by_size.items() if said}
    if by_size and values.get("of"):
        faults[f"{place}.of"] = "Say it once here, or for each size below; not both."
    values |= {"of": by_size} if by_size else {}
    if any(_plain(row[key]) != _plain(_said(before.get(key))) for key in ("is", "place")):
        # what is another thing now has not what the old one had
        values |= {key: None for key in before if key not in (*values, "part", "name")}
    below = {}
    if kind == "branch":
        parts = [dict(part) for part in before.get("part", [])]
        below["part"] = [
            _table_row("branch.part", part, names, parts, faults, f"{place}.part {n}")
            for n, part in enumerate(row.parts, 1)
        ]
    if kind == "choose":
        name = place if f"{place}.name" in faults else row["name"]
        return TableRow({k: v for k, v in values.items() if k != "name"}, was, name)
    return TableRow(values, was, below=below)


def _kept(key: str, said: str, faults: dict[str, str], place: str) -> Any:
    """What a field says as the file has it; None for what is not said."""
    words = _plain(said)
    if key in TICKS:
        return True if words else None
    if key == "any_of":
        return sizes_in(said) or None
    if key == "count" and words:
        if not (words.isascii() and words.isdecimal() and len(words) < 4):
            faults[f"{place}.count"] = f'"{words}" is no number. Write it like 2.'
            return None
        return int(words)
    return words or None


def _faults_of_rows(rows: Rows) -> Iterator[tuple[str, str]]:
    """What is wrong with the choices, which nothing that is tied with the usual ones would show."""
    from tacklebox.rigs.recipes.choices import is_name_of_choice, same_size
    from tacklebox.trade.quantities import read_length_mm

    seen: set[str] = set()
    for number, row in enumerate(rows.get("choose", ()), 1):
        name, at = row["name"], f"choose {number}"
        if not is_name_of_choice(name, a_length=not row["any_of"].strip()):
            yield f"{at}.name", "Call it by a word in small letters, like depth or float."
        elif name in seen:
            yield f"{at}.name", f'"{name}" is there already. Give each a name of its own.'
        seen.add(name)
        sizes = sizes_in(row["any_of"])
        if sizes:
            if row["usual"] and not any(same_size(row["usual"], size) for size in sizes):
                yield f"{at}.usual", "It is none of the sizes below. Name one of them."
            continue
        lengths: dict[str, float] = {}
        for key in ("usual", "from", "to"):
            if row[key]:
                try:
                    lengths[key] = read_length_mm(row[key])
                except AskedWronglyError as error:
                    yield f"{at}.{key}", str(error)
        if len(lengths) == 3 and not lengths["from"] <= lengths["usual"] <= lengths["to"]:
            yield f"{at}.usual", f"It is not between {row['from']} and {row['to']}."


def _field(key: str, rows: Rows) -> str:
    """A key of the file as the form's field: "choose.depth.usual" is "choose 1.usual"."""
    key = key.replace(f"{OLDER['branch']} ", "branch ", 1) if key.startswith("side ") else key
    kind, _, rest = key.partition(".")
    if kind != "choose":
        return key
    for number, row in enumerate(rows.get("choose", ()), 1):
        if rest == row["name"] or rest.startswith(f"{row['name']}."):
            return f"choose {number}{rest.removeprefix(row['name'])}"
    return key


def _remarks(desk: Desk, recipe: "Recipe") -> Iterator[str]:
    """What may be chosen and would not do then, each choice tried by itself."""
    from tacklebox.rigs.recipes.read_once import ReadOnce

    wishes = [
        {name: value}
        for name, choice in recipe.choose.items()
        for value in (*choice.any_of, choice.low, choice.high)
        if value
    ]
    wishes += [{HOOKLENGTH: name} for name in recipe.hooklengths[1:]]
    shelf = ReadOnce(desk.box.recipes)
    for wish in wishes:
        try:
            resolved_with(shelf, recipe, wish)
        except ManyFaultsError as error:
            ((name, value),) = wish.items()
            yield f"With {name} {value}: " + " ".join(str(fault) for fault in error.faults)
        except BenchError as error:
            ((name, value),) = wish.items()
            yield f"With {name} {value}: {error}"
