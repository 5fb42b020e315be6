"""The rows of a recipe's form: what each has to fill in, what may be picked there, and moving them."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

KINDS = ("choose", "part", "along", "branch", "shot")
MOST_ROWS = 60
ON_THE_CHAIN = (
    "line", "hook", "hooklength", "elastic", "connector", "swivel", "link swivel", "snap link",
    "feeder", "bomb",
)  # fmt: skip
ON_THE_LINE = (
    "float", "feeder", "bomb", "bead", "stop", "float stop", "swivel", "link swivel", "run ring",
    "adaptor", "bait band",
)  # fmt: skip
WAYS_HELD = (
    "one point", "two points", "slides", "runs free", "in line", "on its stem", "in a loop", "fixed",
)  # fmt: skip
PLACES = ("at the float", "bulk", "spread", "droppers")
AT_A_PLACE: Mapping[str, tuple[str, ...]] = {
    "at the float": (),
    "bulk": ("at",),
    "spread": ("from", "to"),
    "droppers": ("at", "apart"),
}
ENDS = ("hook", "hooklength")
HOLDING = ("3 silicone tubes", "2 silicone tubes", "2 float rubbers or silicone tubes")
BY_SIZE = "of."  # shot for one size: "of.4×12"


@dataclass(frozen=True)
class FormRow:
    """One row as it is filled in, by its keys in the file; a tick is "1" or "".

    ``was`` is its place among those of its kind in the file, counted from 0, "" for a new one: its notes
    go with it. ``parts`` are a branch's.
    """

    values: Mapping[str, str] = field(default_factory=dict)
    was: str = ""
    parts: tuple["FormRow", ...] = ()

    def __getitem__(self, key: str) -> str:
        return self.values.get(key, "")


Rows = Mapping[str, tuple[FormRow, ...]]


@dataclass(frozen=True)
class RowField:
    """What a row has to fill in: "words", with what is ``known`` suggested; "pick" of what is known; or a
    "tick". Of what is known, ``chosen`` are names of choices, whose size goes there."""

    key: str
    way: str = "words"
    known: tuple[str, ...] = ()
    chosen: tuple[str, ...] = ()


@dataclass(frozen=True)
class FormNames:
    """What rows may name: choices of sizes and of lengths, lines, and all that a branch may hang from."""

    sizes: tuple[str, ...]
    lengths: tuple[str, ...]
    lines: tuple[str, ...]
    bearers: tuple[str, ...]
    each_size: tuple[str, ...]  # that can be chosen: "4×12"


def named(rows: Rows) -> Rows:
    """The rows with a name for each part that has none: what it is, numbered where that is taken."""
    taken = {
        row["name"]
        for kind in ("part", "along", "branch")
        for each in rows.get(kind, ())
        for row in (*(() if kind == "branch" else (each,)), *each.parts)
        if row["name"]
    }

    def name_of(row: FormRow) -> FormRow:
        if row["name"] or not row["is"]:
            return row
        ways = (row["is"] if n == 1 else f"{row['is']} {n}" for n in range(1, len(taken) + 2))
        name = next(way for way in ways if way not in taken)
        taken.add(name)
        return replace(row, values={"name": name, **row.values, **{"name": name}})

    return {
        kind: tuple(
            replace(_branch_named(row, n), parts=tuple(map(name_of, row.parts)))
            if kind == "branch"
            else name_of(row)
            for n, row in enumerate(each, 1)
        )
        for kind, each in rows.items()
    }


def _branch_named(row: FormRow, number: int) -> FormRow:
    name = row["name"] or f"branch {number}"
    return replace(row, values={**row.values, "name": name})


def names_in(rows: Rows) -> FormNames:
    """What rows may name."""
    choices = [(row["name"], sizes_in(row["any_of"])) for row in rows.get("choose", ())]
    full = named(rows)
    chain, along = full.get("part", ()), full.get("along", ())
    others = (part for branch in full.get("branch", ()) for part in branch.parts)
    return FormNames(
        tuple(name for name, sizes in choices if name and sizes),
        tuple(name for name, sizes in choices if name and not sizes),
        tuple(row["name"] for row in chain if row["is"] == "line"),
        tuple(row["name"] for row in (*chain, *along, *others) if row["name"]),
        tuple(dict.fromkeys(size for _, sizes in choices for size in sizes)),
    )


def sizes_in(said: str) -> list[str]:
    """Sizes parted by commas, or by "or"."""
    return [word for part in re.split(r"[,;]|\sor\s", said) if (word := " ".join(part.split()))]


def fields_of(kind: str, row: FormRow, names: FormNames) -> tuple[RowField, ...]:
    """What a row of a kind has to fill in, in the order that it is asked; "branch.part" is a branch's."""
    if kind == "choose":
        return tuple(RowField(key) for key in ("name", "usual", "from", "to", "any_of"))
    if kind == "branch":
        bearers = tuple(
            name for name in names.bearers if name not in {p["name"] for p in row.parts}
        )
        return (RowField("name"), RowField("from", "pick", bearers), RowField("weak_link", "tick"))
    if kind == "shot":
        return tuple(_shot(row, names))
    return tuple(_along(row, names) if kind == "along" else _part(row, names))


def _shot(row: FormRow, names: FormNames) -> list[RowField]:
    from tacklebox.trade.shot import WEIGHT_MATERIALS

    filled = [
        key.removeprefix(BY_SIZE) for key, said in row.values.items() if said and BY_SIZE in key
    ]
    sizes = dict.fromkeys((*names.each_size, *filled))
    return [
        RowField("place", "pick", PLACES),
        RowField("of"),
        *(RowField(f"{BY_SIZE}{size}") for size in sizes),
        *(RowField(key, known=names.lengths) for key in AT_A_PLACE.get(row["place"], ())),
        RowField("material", "pick", ("", *(material.name for material in WEIGHT_MATERIALS))),
    ]


def _part(row: FormRow, names: FormNames) -> list[RowField]:
    is_ = row["is"].strip().lower()
    fields = [RowField("is", "pick", _sorts(ON_THE_CHAIN)), RowField("name")]
    if is_ == "hooklength":
        return fields
    fields += _asks(is_, names)
    if is_ == "line":
        fields += [
            RowField("length", known=names.lengths),
            RowField("top", "pick", ("", *_knots())),
            RowField("bottom", "pick", ("", *_knots())),
            RowField("loop"),
        ]
    return [*fields, RowField("in_place", "tick")]


def _along(row: FormRow, names: FormNames) -> list[RowField]:
    is_ = row["is"].strip().lower()
    fields = [
        RowField("is", "pick", _sorts(ON_THE_LINE)),
        RowField("name"),
        RowField("on", "pick", names.lines),
        RowField("held", "pick", WAYS_HELD),
        RowField("at", known=names.lengths),
        *_asks(is_, names),
    ]
    if is_ == "float":
        fields.append(RowField("held_by", known=HOLDING))
    elif is_ not in ("feeder", "bomb"):
        fields += [
            RowField("bore"), RowField("seat", "pick", ("", "push fit")), RowField("tried_by_hand", "tick"),
        ]  # fmt: skip
    return [*fields, RowField("count")]


def _asks(is_: str, names: FormNames) -> list[RowField]:
    """What may be asked of an item of that kind."""
    from tacklebox.errors import AskedWronglyError
    from tacklebox.stock.asks import ASKABLE, known_words, read_is

    try:
        kind, extra = read_is(is_)
    except AskedWronglyError:
        return []
    keys = [key for key in ASKABLE[kind] if key not in extra and key != "sort"]
    return [RowField(key, known=known_words(kind, key), chosen=names.sizes) for key in keys]


def _sorts(first: Sequence[str]) -> tuple[str, ...]:
    """All that a part may be, the usual first."""
    from tacklebox.stock.asks import PART_SORTS

    return tuple(dict.fromkeys((*first, *sorted(PART_SORTS))))


def _knots() -> tuple[str, ...]:
    from tacklebox.trade.knots import KNOTS

    return tuple(knot.name for knot in KNOTS)


NEW: Mapping[str, FormRow] = {
    "choose": FormRow(),
    "part": FormRow({"is": "line"}),
    "along": FormRow({"is": "bead", "held": "runs free"}),
    "branch": FormRow({}, "", (FormRow({"is": "feeder"}),)),
    "shot": FormRow({"place": "bulk"}),
}


def _new(kind: str, rows: Rows) -> FormRow:
    """A new row, as far as it follows from the others: a thing is on the line that is named first."""
    lines = names_in(rows).lines if kind == "along" else ()
    return replace(NEW[kind], values={**NEW[kind].values, "on": lines[0]}) if lines else NEW[kind]


def moved(rows: Rows, move: str) -> tuple[Rows, str]:
    """The rows after a move, and the place of the row that it was about, as in "part 2".

    A move is "up part 2", "down shot 1", "to-4 part 2", "out branch 1.part 2" or "add along"; what is no
    such move leaves the rows, and its place is "".
    """
    what, _, where = move.partition(" ")
    head, dot, below = where.partition(".")
    kind, number = _place(head)
    if kind not in KINDS:
        return rows, ""
    of_kind = rows.get(kind, ())
    if dot:
        if kind != "branch" or not 1 <= number <= len(of_kind) or _place(below)[0] != "part":
            return rows, ""
        branch = of_kind[number - 1]
        parts, at = _moved(branch.parts, what, _place(below)[1], NEW["part"])
        changed = replace(branch, parts=parts)
        of_kind = (*of_kind[: number - 1], changed, *of_kind[number:])
        return {**rows, kind: of_kind}, f"{kind} {number}.part {at}" if at else ""
    of_kind, at = _moved(of_kind, what, number, _new(kind, rows))
    return {**rows, kind: of_kind}, f"{kind} {at}" if at else ""


def row_at(rows: Rows, where: str) -> FormRow | None:
    """The row of a place like "part 2" or "branch 1.part 2"; None where there is none."""
    head, _, below = where.partition(".")
    kind, number = _place(head)
    of_kind: tuple[FormRow, ...] = rows.get(kind, ())
    if below and 1 <= number <= len(of_kind):
        of_kind, number = of_kind[number - 1].parts, _place(below)[1]
    return of_kind[number - 1] if 1 <= number <= len(of_kind) else None


def put_back(rows: Rows, where: str, row: FormRow) -> Rows:
    """The rows with one that was taken away in its place again."""
    head, _, below = where.partition(".")
    kind, number = _place(head)
    of_kind = rows.get(kind, ())
    if kind not in KINDS or not 1 <= number <= len(of_kind) + 1:
        return rows
    if not below:
        return {**rows, kind: (*of_kind[: number - 1], row, *of_kind[number - 1 :])}
    if number > len(of_kind):
        return rows
    branch, place = of_kind[number - 1], max(_place(below)[1], 1)
    parts = (*branch.parts[: place - 1], row, *branch.parts[place - 1 :])
    return {**rows, kind: (*of_kind[: number - 1], replace(branch, parts=parts), *of_kind[number:])}


def _place(said: str) -> tuple[str, int]:
    kind, _, digits = said.partition(" ")
    is_number = digits.isascii() and digits.isdecimal() and len(digits) < 4
    return kind, int(digits) if is_number else 0


def _moved(
    of_kind: tuple[FormRow, ...], what: str, number: int, new: FormRow
) -> tuple[tuple[FormRow, ...], int]:
    """The rows after the move, and where the row is then; 0 where nothing was moved."""
    if what == "add" and len(of_kind) < MOST_ROWS:
        ends = bool(of_kind) and of_kind[-1]["is"] in ENDS  # nothing goes below the hook
        place = len(of_kind) - ends
        return (*of_kind[:place], new, *of_kind[place:]), place + 1
    if not 1 <= number <= len(of_kind):
        return of_kind, 0
    place, others = number - 1, (*of_kind[: number - 1], *of_kind[number:])
    if what == "out":
        return others, min(number, len(others))
    places = {"up": place - 1, "down": place + 1}
    if drawn_to := _place(what.replace("to-", "to ", 1))[1]:
        places[what] = drawn_to - 1
    if what in places:
        to = min(max(places[what], 0), len(others))
        return (*others[:to], of_kind[place], *others[to:]), to + 1
    return of_kind, 0
