"""The tables of a box: items by kind, the movements of stock, and what was tied.

Every item has one row in ``item`` and one in the table of its kind. Amounts are integers
of the item's smallest unit: millimetres of line and elastic, pieces of all else. Masses, lengths and
strains carry their unit in the field's name.
"""

from datetime import date, datetime
from enum import StrEnum
from typing import ClassVar

from sqlalchemy import Dialect, Index, String, text
from sqlalchemy.types import TypeDecorator
from sqlmodel import CheckConstraint, Field, SQLModel, and_, col, not_


class Kind(StrEnum):
    """What kinds of item there are."""

    LINE = "line"
    HOOK = "hook"
    HOOKLENGTH = "hooklength"
    FLOAT = "float"
    WEIGHT = "weight"
    FEEDER = "feeder"
    PART = "part"
    ELASTIC = "elastic"
    WINDER = "winder"


UNMARKED = "unmarked"  # said where nobody knows what a float takes, what a feeder weighs, which hook or shot
MEASURED_KINDS = (Kind.LINE, Kind.ELASTIC)  # counted in mm; all others in pieces


class Why(StrEnum):
    """Why an amount changed."""

    BOUGHT = "bought"
    COUNTED = "counted"
    TIED = "tied"
    LOADED = "loaded"  # on a reel or a top kit
    LOST = "lost"
    GIVEN_BACK = "given back"
    THROWN_OUT = "thrown out"
    CORRECTED = "corrected"
    LEVEL = "level"  # set for what is not counted; its reason is the level


class State(StrEnum):
    """What a tied rig or hooklength is."""

    READY = "ready"
    STRIPPED = "stripped"
    LOST = "lost"
    WORN_OUT = "worn out"
    UNTIED = "untied"  # the tying itself was undone
    CHANGED = "changed"  # at the water: another is written as made from it


class BoxRow(SQLModel):
    """Any table's row; pydantic's share of it is made when first asked for, not on import."""

    model_config = {"defer_build": True}


class Item(BoxRow, table=True):
    """A kind of thing in stock: what all kinds have in common.

    ``withdrawn``: the action that added it is undone, so it is not in stock and its name is free.
    ``retired``: the angler took it out of use; its history stays. ``level`` is "plenty", "low" or "out"
    for what is not counted, "" for what is.
    """

    __table_args__ = (
        CheckConstraint("on_hand >= 0", name="never_below_zero"),
        Index(
            "one_item_of_a_name",
            "name",
            unique=True,
            sqlite_where=text("NOT withdrawn AND NOT retired"),
        ),
    )

    id: int | None = Field(default=None, primary_key=True)
    kind: str = Field(index=True)
    words: str = Field(index=True)  # the figures as one line, see stock.notation
    name: str  # the words, unless the angler named it
    place: str = ""
    pack_size: int  # mm or pieces in one packet, spool or card
    pack_price_cents: int | None = None
    minimum: int = 0  # what the angler wants to have at least
    on_hand: int = 0  # the sum of its movements, kept by the database itself
    last_movement: int = 0  # the number of the last movement in that sum
    added_on: date
    withdrawn: bool = False
    retired: bool = False
    level: str = ""
    note: str = ""  # what decides nothing: what it is for, a maker's word
    pack_said: str = ""  # the packet as it was said: "100 yd"

    @property
    def measured(self) -> bool:
        """Whether the amount is a length in mm rather than a number of pieces."""
        return self.kind in MEASURED_KINDS

    @property
    def on_reel(self) -> bool:
        """Whether it is wound on a reel, by its place: rigs hang on it but are not cut from it."""
        return "reel" in self.place.lower().split()


# An item that is in lists, on labels and in rigs.
IN_USE = and_(not_(col(Item.withdrawn)), not_(col(Item.retired)))
RETIRED = and_(not_(col(Item.withdrawn)), col(Item.retired))


class Figures(BoxRow):
    """The figures of one kind; ``item_id`` links them to the item.

    A column that ends in ``_said`` holds a figure's words as they were said, "" where nobody said them.
    """

    of_kind: ClassVar[Kind]


class _LineMaterial(TypeDecorator[str]):
    """A line's material; braid stands in every database, of whatever version, under its older name."""

    impl = String
    cache_ok = True

    def process_bind_param(self, value: str | None, dialect: Dialect) -> str | None:  # noqa: ARG002
        return "gel-spun" if value == "braid" else value

    def process_result_value(self, value: str | None, dialect: Dialect) -> str | None:  # noqa: ARG002
        return "braid" if value == "gel-spun" else value


class Line(Figures, table=True):
    """Line on a spool: its diameter, the strain printed, or both; None where it is not known.

    ``sort`` is what else it is: sinking, a leader. Prints of one ``maker`` err together.
    """

    of_kind = Kind.LINE
    item_id: int | None = Field(default=None, primary_key=True, foreign_key="item.id")
    material: str = Field(sa_type=_LineMaterial)
    sort: str = ""
    diameter_mm: float | None = None
    diameter_said: str = ""
    breaks_at_kg: float | None = None
    strain_said: str = ""
    colour: str = ""
    maker: str = ""


class Hook(Figures, table=True):
    """Hooks of one size; ``size_order`` grows with the hook (size 20 is −20, 1/0 is 1).

    A tin of several sizes, or of none that is known, is "unmarked" and has no order.
    """

    of_kind = Kind.HOOK
    item_id: int | None = Field(default=None, primary_key=True, foreign_key="item.id")
    size: str
    size_order: float | None
    end: str = ""
    eye: str = ""
    barb: str = ""
    wire: str = ""
    bend: str = ""
    colour: str = ""


class Hooklength(Figures, table=True):
    """Hooks to nylon: a hook, the line it is tied to by diameter or strain, perhaps a length.

    ``bait`` is how the bait is held: a hair, a band.
    """

    of_kind = Kind.HOOKLENGTH
    item_id: int | None = Field(default=None, primary_key=True, foreign_key="item.id")
    size: str
    size_order: float
    end: str = ""
    eye: str = ""
    barb: str = ""
    wire: str = ""
    bend: str = ""
    colour: str = ""
    material: str = Field(sa_type=_LineMaterial)
    diameter_mm: float | None = None
    diameter_said: str = ""
    breaks_at_kg: float | None = None
    strain_said: str = ""
    length_mm: float | None = None
    length_said: str = ""
    bait: str = ""


class Float(Figures, table=True):
    """A float: capacity as marked, in grams of shot; body, stem and tip where known.

    ``carries_said`` are grams that were said beside the mark. One of which nobody knows what it takes is
    "unmarked" and has no capacity.
    """

    of_kind = Kind.FLOAT
    item_id: int | None = Field(default=None, primary_key=True, foreign_key="item.id")
    shape: str
    mark: str
    capacity_g: float | None
    carries_said: str = ""
    body: str = ""
    material: str = ""
    stem: str = ""
    tip: str = ""
    tip_diameter_mm: float | None = None
    tip_diameter_said: str = ""
    tip_length_mm: float | None = None
    tip_length_said: str = ""
    colour: str = ""


class Weight(Figures, table=True):
    """Split shot and styls (``form`` "shot", "styl") by mark, or olivettes by mass.

    A tub of several sizes, or of none that is known, is "unmarked" and has no mass.
    """

    of_kind = Kind.WEIGHT
    item_id: int | None = Field(default=None, primary_key=True, foreign_key="item.id")
    form: str
    mark: str
    mass_g: float | None
    material: str


class Feeder(Figures, table=True):
    """A feeder or bomb by its empty mass, of which nobody knows "unmarked" is said; ``fitting`` is "in line"
    or "elasticated"."""

    of_kind = Kind.FEEDER
    item_id: int | None = Field(default=None, primary_key=True, foreign_key="item.id")
    shape: str
    fitting: str = ""
    mass_g: float | None
    mass_said: str = ""
    size: str = ""
    volume_ml: float | None = None
    volume_said: str = ""


class Part(Figures, table=True):
    """A small part: swivel, snap link, bead, stop, float adaptor, connector."""

    of_kind = Kind.PART
    item_id: int | None = Field(default=None, primary_key=True, foreign_key="item.id")
    sort: str
    size: str = ""
    breaks_at_kg: float | None = None
    strain_said: str = ""


class Elastic(Figures, table=True):
    """Pole elastic by its grade; a band of grades goes up to ``grade_to``. ``core``: solid or hollow."""

    of_kind = Kind.ELASTIC
    item_id: int | None = Field(default=None, primary_key=True, foreign_key="item.id")
    grade: float
    grade_to: float | None = None
    core: str = ""
    colour: str = ""


class Winder(Figures, table=True):
    """A winder's length and width."""

    of_kind = Kind.WINDER
    item_id: int | None = Field(default=None, primary_key=True, foreign_key="item.id")
    length_mm: float
    length_said: str = ""
    width_mm: float
    width_said: str = ""
    colour: str = ""


FIGURES: dict[str, type[Figures]] = {
    table.of_kind: table
    for table in (Line, Hook, Hooklength, Float, Weight, Feeder, Part, Elastic, Winder)
}


class Action(BoxRow, table=True):
    """One thing the angler did: every change of the box belongs to one.

    ``undoes`` and ``redoes`` name the action that it reverses or does again. ``key`` is the call's own
    mark, so that what is sent twice is done once.
    """

    __table_args__ = (
        Index(
            "ix_action_reversals",
            "id",
            sqlite_where=text("undoes IS NOT NULL OR redoes IS NOT NULL"),
        ),
    )

    id: int | None = Field(default=None, primary_key=True)
    what: str
    on: date
    written_at: datetime
    undoes: int | None = Field(default=None, foreign_key="action.id")
    redoes: int | None = Field(default=None, foreign_key="action.id")
    key: str | None = Field(default=None, unique=True)


class Change(BoxRow, table=True):
    """One cell that an action changed, written by the database itself (see stock.care.triggers).

    ``table_name``, ``row_key`` and ``column_name`` say which; ``was`` and ``became`` are its value as JSON.
    """

    id: int | None = Field(default=None, primary_key=True)
    action_id: int = Field(foreign_key="action.id", index=True)
    table_name: str
    row_key: str
    column_name: str
    was: str
    became: str


class Movement(BoxRow, table=True):
    """One change of one item's amount. Never changed, never deleted."""

    id: int | None = Field(default=None, primary_key=True)
    item_id: int = Field(foreign_key="item.id", index=True)
    action_id: int = Field(foreign_key="action.id", index=True)
    amount: int
    why: str
    on: date
    reason: str = ""


class Measurement(BoxRow, table=True):
    """One reading of the angler's own, of an item or of a bait. Never changed, never deleted.

    ``what`` is "pull" (``breaks_at_kg``; ``knot`` "" for plain line), "weighing" (``mass_g`` of
    ``count`` together), "bucket" (``mass_g`` that a float carried), "stretch" (``mass_g`` that an
    elastic pulled), "sinking" (a ``bait`` that sank ``distance_mm`` in so many ``seconds``, in water of
    ``water_c``) or "taken back", which takes back the reading ``takes_back``. Readings kept
    before version 3 of the box have no action.
    """

    id: int | None = Field(default=None, primary_key=True)
    item_id: int | None = Field(default=None, foreign_key="item.id", index=True)
    what: str
    breaks_at_kg: float | None = None
    mass_g: float | None = None
    knot: str = ""
    count: int = 1
    takes_back: int | None = Field(default=None, foreign_key="measurement.id")
    on: date
    action_id: int | None = Field(default=None, foreign_key="action.id", index=True)
    bait: str = ""
    distance_mm: float | None = None
    seconds: float | None = None
    water_c: float | None = None


class Reel(BoxRow, table=True):
    """A reel or a top kit (``what``), and what is on it: which item, how much, since when, over what
    ``backing``, where one was said.

    ``withdrawn``: the action that added it is undone.
    """

    __table_args__ = (
        Index(
            "one_reel_of_a_name",
            "name",
            unique=True,
            sqlite_where=text("NOT withdrawn AND NOT retired"),
        ),
    )

    id: int | None = Field(default=None, primary_key=True)
    name: str
    what: str
    item_id: int | None = Field(default=None, foreign_key="item.id", index=True)
    loaded_mm: int = 0
    loaded_on: date | None = None
    backing: str = ""
    retired: bool = False
    withdrawn: bool = False


class Identity(BoxRow, table=True):
    """The box itself, in one row.

    ``box`` is its own mark for good; ``stamp`` is made anew when another state takes the place of this
    one (restore, import), and ``changes`` grows with each write. Together the last two tell whether what
    was read still holds.
    """

    __table_args__ = (CheckConstraint("id = 1", name="one_row"),)

    id: int | None = Field(default=None, primary_key=True)
    box: str
    stamp: str
    changes: int = 0


class AsWritten(BoxRow, table=True):
    """A check of each cell of a row, kept by the database itself (see stock.care.aswritten)."""

    __table_args__ = {"sqlite_with_rowid": False}

    table_name: str = Field(primary_key=True)
    row_key: str = Field(primary_key=True)
    checks: bytes
