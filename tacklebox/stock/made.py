"""The tables of a box for what was made from its items: rigs, batches of hooklengths, debriefs.

They stand apart from the items' own, so that a list of stock need not wait for them.
"""

from datetime import date

from sqlmodel import Field

from tacklebox.stock.tables import BoxRow, State


class Tied(BoxRow, table=True):
    """A tied rig or hooklength. ``snapshot`` is what the label is drawn from."""

    id: int | None = Field(default=None, primary_key=True)
    code: str = Field(unique=True)
    code_number: int = Field(unique=True)
    recipe: str = Field(index=True)
    kind: str
    state: str = Field(default=State.READY.value, index=True)
    tied_on: date
    labelled_on: date | None = None
    forced_because: str = ""
    snapshot: str
    action_id: int = Field(foreign_key="action.id")


class TiedUse(BoxRow, table=True):
    """What one tied rig took from stock; ``comes_back`` when the rig is stripped."""

    id: int | None = Field(default=None, primary_key=True)
    tied_id: int = Field(foreign_key="tied.id", index=True)
    item_id: int = Field(foreign_key="item.id", index=True)
    part: str
    amount: int
    comes_back: bool = False


class Batch(BoxRow, table=True):
    """Hooklengths of one item that were tied together: how many were ``tied``, and how many are ``left``.

    ``snapshot`` is what the wallet label is drawn from; ``recipe`` is "" for those that were there already.
    ``forced_because`` is why they were tied although a check failed.
    """

    id: int | None = Field(default=None, primary_key=True)
    code: str = Field(unique=True)
    code_number: int = Field(unique=True)
    item_id: int = Field(foreign_key="item.id", index=True)
    action_id: int = Field(foreign_key="action.id", index=True)
    recipe: str = ""
    tied_on: date
    tied: int
    left: int
    labelled_on: date | None = None
    forced_because: str = ""
    snapshot: str


class BatchUse(BoxRow, table=True):
    """What the tying of one batch took from stock, for all of it."""

    id: int | None = Field(default=None, primary_key=True)
    batch_id: int = Field(foreign_key="batch.id", index=True)
    item_id: int = Field(foreign_key="item.id", index=True)
    part: str
    amount: int


class StateChange(BoxRow, table=True):
    """A tied rig that became something else, written by the database itself (see stock.care.triggers)."""

    id: int | None = Field(default=None, primary_key=True)
    tied_id: int = Field(foreign_key="tied.id", index=True)
    action_id: int = Field(foreign_key="action.id", index=True)
    was: str
    became: str


class SheetInUse(BoxRow, table=True):
    """The next free place on the part-used sheet of a paper."""

    paper: str = Field(primary_key=True)
    next_free: int


class Debrief(BoxRow, table=True):
    """What was told of a match afterwards. ``corrects`` is the debrief that it stands in for.

    ``record`` is what was tapped at the water, as ``matches.water.record`` reads it.
    """

    id: int | None = Field(default=None, primary_key=True)
    action_id: int = Field(foreign_key="action.id", index=True)
    match: str = Field(index=True)
    venue: str
    on: date
    peg: str = ""
    section: str = ""
    place: int | None = None
    points: float | None = None
    water_c: float | None = None
    weight_g: float | None = None
    notes: str = ""
    record: str = ""
    corrects: int | None = Field(default=None, foreign_key="debrief.id")


class DebriefRig(BoxRow, table=True):
    """One rig that was taken to a match: it came "back", was "lost" or "worn out"."""

    id: int | None = Field(default=None, primary_key=True)
    debrief_id: int = Field(foreign_key="debrief.id", index=True)
    tied_id: int = Field(foreign_key="tied.id", index=True)
    became: str
    did_well: bool = False


class Setting(BoxRow, table=True):
    """Something that the angler set for the whole box, in his words; "" is as usual."""

    name: str = Field(primary_key=True)
    said: str = ""
