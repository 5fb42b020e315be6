"""Hooklengths are items: each that was tied with a code of its own becomes a batch of one.

What it is tied from makes the item. Tying it added one; what became of it since takes that away again, in
the action by which it did. ``batch`` gets ``forced_because``.
"""

import json
from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from alembic import op
from sqlalchemy import Connection

revision = "6"
down_revision = "5"

BATCH = """CREATE TABLE batch (
    id INTEGER NOT NULL,
    code VARCHAR NOT NULL,
    code_number INTEGER NOT NULL,
    item_id INTEGER NOT NULL,
    action_id INTEGER NOT NULL,
    recipe VARCHAR NOT NULL,
    tied_on DATE NOT NULL,
    tied INTEGER NOT NULL,
    "left" INTEGER NOT NULL,
    labelled_on DATE,
    forced_because VARCHAR NOT NULL,
    snapshot VARCHAR NOT NULL,
    PRIMARY KEY (id),
    UNIQUE (code),
    UNIQUE (code_number),
    FOREIGN KEY(item_id) REFERENCES item (id),
    FOREIGN KEY(action_id) REFERENCES action (id)
)"""
INDEXES = (
    "CREATE INDEX ix_batch_action_id ON batch (action_id)",
    "CREATE INDEX ix_batch_item_id ON batch (item_id)",
)
OF_THE_HOOK = ("size", "size_order", "end", "eye", "barb", "wire", "bend", "colour")
OF_THE_LINE = ("material", "diameter_mm", "diameter_said", "breaks_at_kg", "strain_said")
READY, UNTIED = "ready", "untied"
# Why one is no longer in stock, by what it became.
WHY = {"lost": "lost", "worn out": "thrown out", "stripped": "thrown out", UNTIED: "corrected"}
USUAL_PACKET = 10
KG_PER_QUARTER_POUND = 0.45359237 / 4


def upgrade() -> None:
    """Bring the tables to version 6; what they hold stays."""
    connection = op.get_bind()
    run = connection.exec_driver_sql
    run("CREATE TEMP TABLE old AS SELECT *, '' AS forced_because FROM main.batch")
    run("DROP TABLE main.batch")
    run(BATCH)
    columns = [row[1] for row in run("PRAGMA main.table_info(batch)").fetchall()]
    names = ", ".join(f'"{name}"' for name in columns)
    run(f"INSERT INTO main.batch ({names}) SELECT {names} FROM temp.old")
    run("DROP TABLE temp.old")
    for sql in INDEXES:
        run(sql)
    convert_rows(connection)


@dataclass
class _Rig:
    """A hooklength as it was kept: its row, what it took, what it was at last."""

    row: Mapping[str, Any]
    uses: Sequence[tuple[int, str, int]]  # item, part, amount
    figures: Mapping[str, Any]
    words: str

    @property
    def id(self) -> int:
        return int(self.row["id"])


@dataclass(order=True)
class _Event:
    """One more or one less, in an action; ``order`` puts what comes before what goes."""

    action: int
    order: int
    by: int = field(compare=False)
    why: str = field(compare=False)
    reason: str = field(compare=False, default="")


def convert_rows(connection: Connection) -> None:
    """Make batches of one of tied hooklengths, in tables that have the columns already.

    One whose hook and line are not in the box stays what it is.
    """
    rigs = list(_hooklengths(connection))
    if not rigs:
        return
    actions = {
        number: (on, undoes is not None or redoes is not None)
        for number, on, undoes, redoes in connection.exec_driver_sql(
            'SELECT id, "on", undoes, redoes FROM action'
        )
    }
    events = _events(connection, rigs, {n for n, (_, turned) in actions.items() if turned})
    by_words: dict[str, list[_Rig]] = defaultdict(list)
    for rig in rigs:
        by_words[rig.words].append(rig)
    for words, alike in by_words.items():
        item, is_new = _item(connection, words, alike[0], actions)
        for rig in alike:
            _make_batch(connection, rig, item)
        _write_events(connection, alike, item, events, actions)
        if is_new:
            _withdraw(connection, alike, item, events)
    _note_what_did_well(connection, rigs)
    for rig in rigs:
        _forget_rig(connection, rig)


def _hooklengths(connection: Connection) -> Iterator[_Rig]:
    run = connection.exec_driver_sql
    rows = run("SELECT * FROM tied WHERE kind = 'hooklength' ORDER BY id").mappings().fetchall()
    hooks = {r["item_id"]: r for r in run("SELECT * FROM hook").mappings()}
    lines = {r["item_id"]: r for r in run("SELECT * FROM line").mappings()}
    uses: dict[int, list[tuple[int, str, int]]] = defaultdict(list)
    for tied, item, part, amount in run(
        "SELECT tied_id, item_id, part, amount FROM tieduse ORDER BY id"
    ):
        uses[tied].append((item, part, amount))
    for row in rows:
        taken = uses[row["id"]]
        hook = next((hooks[item] for item, _, _ in taken if item in hooks), None)
        line = next((lines[item] for item, _, _ in taken if item in lines), None)
        if hook is None or line is None:
            continue
        figures = {key: hook[key] for key in OF_THE_HOOK} | {key: line[key] for key in OF_THE_LINE}
        length = json.loads(row["snapshot"]).get("length_mm") or None
        figures |= {"length_mm": length, "length_said": "", "bait": ""}
        yield _Rig(dict(row), taken, figures, _words(figures))


def _diameter(figures: Mapping[str, Any]) -> str:
    if figures["diameter_mm"] is None:
        return ""
    text = f"{figures['diameter_mm']:.3f}"
    return figures["diameter_said"] or f"{text[:-1] if text.endswith('0') else text} mm"


def _strain(figures: Mapping[str, Any]) -> str:
    kg = figures["breaks_at_kg"]
    if kg is None or figures["strain_said"]:
        return str(figures["strain_said"])
    quarters = kg / KG_PER_QUARTER_POUND
    if abs(quarters - round(quarters)) < 1e-6 and round(quarters) > 0:
        return f"{round(quarters) / 4:g} lb"
    return f"{_plain(kg, 3)} kg"


def _length(mm: float | None) -> str:
    if mm is None:
        return ""
    if mm < 99.95:
        return f"{_plain(mm, 1)} mm"
    return f"{_plain(mm / 10, 1)} cm" if mm < 2999.5 else f"{_plain(mm / 1000, 2)} m"


def _plain(value: float, most: int) -> str:
    text = f"{value:.{most}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def _words(figures: Mapping[str, Any]) -> str:
    wire, material = figures["wire"], figures["material"]
    pieces = [
        *("hooklength", figures["size"], figures["barb"]),
        f"{figures['eye']} eye" if figures["eye"] else figures["end"],
        f"{wire} wire" if wire and wire != "forged" else wire,
        *(figures["bend"], figures["colour"], "to"),
        {"nylon": "", "gel-spun": "braid"}.get(material, material),
        *(_diameter(figures), _strain(figures), _length(figures["length_mm"])),
    ]
    return " ".join(piece for piece in pieces if piece)


def _events(
    connection: Connection, rigs: Sequence[_Rig], turned: set[int]
) -> dict[int, list[_Event]]:
    """What became of each rig, as one more and one less."""
    run = connection.exec_driver_sql
    debriefs = run('SELECT id, action_id, "match", corrects FROM debrief ORDER BY id').fetchall()
    said: dict[int, dict[int, str]] = defaultdict(dict)
    for debrief, tied, became in run("SELECT debrief_id, tied_id, became FROM debriefrig"):
        said[debrief][tied] = became
    changes: dict[int, list[tuple[int, str, str]]] = defaultdict(list)
    for tied, action, was, became in run(
        "SELECT tied_id, action_id, was, became FROM statechange ORDER BY id"
    ):
        changes[tied].append((action, was, became))
    of_debriefs = {action for _, action, _, _ in debriefs}
    found = {}
    for rig in rigs:
        own = []
        for number, action, match, corrects in debriefs:
            if said[corrects].get(rig.id) in WHY:
                own.append(_Event(action, 0, 1, "corrected"))
            if said[number].get(rig.id) in WHY:
                own.append(_Event(action, 1, -1, WHY[said[number][rig.id]], match))
        turns = list(_turns(changes[rig.id], turned))
        own += [event for event in turns if event.action not in of_debriefs]
        if not _comes_to(own, rig):  # the debriefs do not tell it all
            own = turns
        tied = _Event(rig.row["action_id"], 0, 1, "tied")
        found[rig.id] = [tied, *sorted(own)]
    return found


def _turns(changes: Sequence[tuple[int, str, str]], turned: set[int]) -> Iterator[_Event]:
    for action, was, became in changes:
        if was != READY and became == READY:
            yield _Event(action, 0, 1, "corrected")
        elif was == READY and became != READY:
            yield _Event(action, 1, -1, "corrected" if action in turned else WHY[became])


def _comes_to(events: Sequence[_Event], rig: _Rig) -> bool:
    left = 1
    for event in sorted(events):
        left += event.by
        if left not in (0, 1):
            return False
    return left == int(rig.row["state"] == READY)


def _item(
    connection: Connection, words: str, rig: _Rig, actions: Mapping[int, tuple[str, bool]]
) -> tuple[int, bool]:
    """The item of those words, made where there is none in use, and whether it was made."""
    run = connection.exec_driver_sql
    known = run(
        """SELECT id FROM item WHERE kind = 'hooklength' AND words = ?
             AND NOT withdrawn AND NOT retired AND level = ''""",
        (words,),
    ).fetchone()
    if known:
        return int(known[0]), False
    name, more = words, 1
    while run(
        "SELECT 1 FROM item WHERE name = ? AND NOT withdrawn AND NOT retired", (name,)
    ).fetchone():
        more += 1
        name = f"{words} ({more})"
    item = {
        "kind": "hooklength",
        "words": words,
        "name": name,
        "pack_size": USUAL_PACKET,
        "added_on": actions[rig.row["action_id"]][0],
    }
    number = _insert(connection, "item", item)
    _insert(connection, "hooklength", {"item_id": number, **rig.figures})
    return number, True


def _insert(connection: Connection, table: str, values: Mapping[str, Any]) -> int:
    """A new row; columns that are not given hold nothing."""
    run = connection.exec_driver_sql
    row = dict(values)
    for _, name, holds, needed, _, is_key in run(f'PRAGMA main.table_info("{table}")').fetchall():
        if name not in row and needed and not is_key:
            row[name] = "" if holds.startswith("VARCHAR") else 0
    names = ", ".join(f'"{name}"' for name in row)
    marks = ", ".join("?" for _ in row)
    return int(
        run(f'INSERT INTO "{table}" ({names}) VALUES ({marks})', tuple(row.values())).lastrowid
    )


def _make_batch(connection: Connection, rig: _Rig, item: int) -> None:
    run = connection.exec_driver_sql
    row, snapshot = rig.row, json.loads(rig.row["snapshot"])
    to = _diameter(rig.figures).removesuffix(" mm") or _strain(rig.figures)
    snapshot |= {"count": 1, "looked_for": f"{rig.figures['size']} · {to}"}
    keys = ("code", "code_number", "action_id", "recipe", "tied_on", "labelled_on")
    number = _insert(
        connection,
        "batch",
        {
            **{key: row[key] for key in keys},
            "forced_because": row["forced_because"],
            "item_id": item,
            "tied": 1,
            "left": 1 if row["state"] == READY else 0,
            "snapshot": json.dumps(snapshot, ensure_ascii=False, sort_keys=True),
        },
    )
    for used, part, amount in rig.uses:
        _insert(
            connection,
            "batchuse",
            {"batch_id": number, "item_id": used, "part": part, "amount": amount},
        )
    run(
        "UPDATE change SET table_name = 'batch', row_key = ? WHERE table_name = 'tied' AND row_key = ?",
        (str(number), str(rig.id)),
    )
    rig.row = {**row, "batch": number}


def _write_events(
    connection: Connection,
    rigs: Sequence[_Rig],
    item: int,
    events: Mapping[int, Sequence[_Event]],
    actions: Mapping[int, tuple[str, bool]],
) -> None:
    """The movements of the item and the changes of its batches, in their order."""
    run = connection.exec_driver_sql
    left = {rig.id: 0 for rig in rigs}
    every = sorted((event, rig.id) for rig in rigs for event in events[rig.id])
    batch = {rig.id: rig.row["batch"] for rig in rigs}
    for event, rig_id in every:
        on = actions[event.action][0]
        last = _insert(
            connection,
            "movement",
            {
                "item_id": item, "action_id": event.action, "amount": event.by, "why": event.why,
                "on": on, "reason": event.reason,
            },
        )  # fmt: skip
        was, left[rig_id] = left[rig_id], left[rig_id] + event.by
        _remember(connection, event.action, "batch", batch[rig_id], "left", was, left[rig_id])
        run(
            "UPDATE item SET on_hand = on_hand + ?, last_movement = ? WHERE id = ?",
            (event.by, last, item),
        )


def _remember(
    connection: Connection, action: int, table: str, row: int, column: str, was: int, became: int
) -> None:
    _insert(
        connection,
        "change",
        {
            "action_id": action, "table_name": table, "row_key": str(row), "column_name": column,
            "was": str(was), "became": str(became),
        },
    )  # fmt: skip


def _withdraw(
    connection: Connection,
    rigs: Sequence[_Rig],
    item: int,
    events: Mapping[int, Sequence[_Event]],
) -> None:
    """An item of which every tying is undone is not in stock, from the undo on."""
    run = connection.exec_driver_sql
    turns = run(
        """SELECT id, coalesce(undoes, redoes), undoes IS NULL FROM action
             WHERE undoes IS NOT NULL OR redoes IS NOT NULL"""
    ).fetchall()
    tyings = {event.action for rig in rigs for event in events[rig.id] if event.why == "tied"}
    turned = [(number, of, bool(again)) for number, of, again in turns if of in tyings]
    done: set[int] = set()
    withdrawn = 0
    for number, of, stands in sorted([*((n, n, True) for n in tyings), *turned]):
        (done.add if stands else done.discard)(of)
        now = 0 if done else 1
        if now != withdrawn:
            _remember(connection, number, "item", item, "withdrawn", withdrawn, now)
            withdrawn = now
    run("UPDATE item SET withdrawn = ? WHERE id = ?", (withdrawn, item))


def _note_what_did_well(connection: Connection, rigs: Sequence[_Rig]) -> None:
    """A hooklength that did well at a match is kept in what was noted of it."""
    run = connection.exec_driver_sql
    codes = {rig.id: rig.row["code"] for rig in rigs}
    well: dict[int, list[str]] = defaultdict(list)
    for debrief, tied in run("SELECT debrief_id, tied_id FROM debriefrig WHERE did_well"):
        if tied in codes:
            well[debrief].append(codes[tied])
    for debrief, those in well.items():
        (notes,) = run("SELECT notes FROM debrief WHERE id = ?", (debrief,)).fetchone() or ("",)
        told = f"hooklength{'s' * (len(those) > 1)} {', '.join(those)} did well"
        run(
            "UPDATE debrief SET notes = ? WHERE id = ?",
            (f"{notes}; {told}" if notes else told, debrief),
        )


def _forget_rig(connection: Connection, rig: _Rig) -> None:
    run = connection.exec_driver_sql
    for table in ("debriefrig", "statechange", "tieduse"):
        run(f"DELETE FROM {table} WHERE tied_id = ?", (rig.id,))
    run("DELETE FROM tied WHERE id = ?", (rig.id,))
