"""Every change belongs to an action, an undo is told from doing again, and a box knows itself.

``item`` gets ``withdrawn`` and its ``keep_at_least`` becomes ``minimum``; ``action`` gets ``redoes`` and
``key``; ``measurement`` gets ``action_id``; ``change`` and ``identity`` come. What was "taken apart" is
"stripped", what was "spent" is "worn out".
"""

import secrets

from alembic import op
from sqlalchemy import Connection

revision = "3"
down_revision = "2"

ITEM = """CREATE TABLE item (
    id INTEGER NOT NULL,
    kind VARCHAR NOT NULL,
    words VARCHAR NOT NULL,
    name VARCHAR NOT NULL,
    place VARCHAR NOT NULL,
    pack_size INTEGER NOT NULL,
    pack_price_cents INTEGER,
    minimum INTEGER NOT NULL,
    on_hand INTEGER NOT NULL,
    last_movement INTEGER NOT NULL,
    added_on DATE NOT NULL,
    withdrawn BOOLEAN NOT NULL,
    PRIMARY KEY (id),
    CONSTRAINT never_below_zero CHECK (on_hand >= 0)
)"""
ACTION = """CREATE TABLE action (
    id INTEGER NOT NULL,
    what VARCHAR NOT NULL,
    "on" DATE NOT NULL,
    written_at DATETIME NOT NULL,
    undoes INTEGER,
    redoes INTEGER,
    "key" VARCHAR,
    PRIMARY KEY (id),
    FOREIGN KEY(undoes) REFERENCES action (id),
    FOREIGN KEY(redoes) REFERENCES action (id),
    UNIQUE ("key")
)"""
MEASUREMENT = """CREATE TABLE measurement (
    id INTEGER NOT NULL,
    item_id INTEGER NOT NULL,
    what VARCHAR NOT NULL,
    breaks_at_kg FLOAT,
    mass_g FLOAT,
    knot VARCHAR NOT NULL,
    count INTEGER NOT NULL,
    takes_back INTEGER,
    "on" DATE NOT NULL,
    action_id INTEGER,
    PRIMARY KEY (id),
    FOREIGN KEY(item_id) REFERENCES item (id),
    FOREIGN KEY(takes_back) REFERENCES measurement (id),
    FOREIGN KEY(action_id) REFERENCES action (id)
)"""
NEW = (
    """CREATE TABLE change (
    id INTEGER NOT NULL,
    action_id INTEGER NOT NULL,
    table_name VARCHAR NOT NULL,
    row_key VARCHAR NOT NULL,
    column_name VARCHAR NOT NULL,
    was VARCHAR NOT NULL,
    became VARCHAR NOT NULL,
    PRIMARY KEY (id),
    FOREIGN KEY(action_id) REFERENCES action (id)
)""",
    "CREATE INDEX ix_change_action_id ON change (action_id)",
    """CREATE TABLE identity (
    id INTEGER NOT NULL,
    box VARCHAR NOT NULL,
    stamp VARCHAR NOT NULL,
    changes INTEGER NOT NULL,
    PRIMARY KEY (id),
    CONSTRAINT one_row CHECK (id = 1)
)""",
)
INDEXES = (
    "CREATE INDEX ix_item_kind ON item (kind)",
    "CREATE INDEX ix_item_words ON item (words)",
    "CREATE UNIQUE INDEX one_item_of_a_name ON item (name) WHERE NOT withdrawn",
    "CREATE INDEX ix_action_reversals ON action (id)"
    " WHERE undoes IS NOT NULL OR redoes IS NOT NULL",
    "CREATE INDEX ix_measurement_item_id ON measurement (item_id)",
    "CREATE INDEX ix_measurement_action_id ON measurement (action_id)",
)
# An item whose every movement is of an action that is undone now, or of an undo: it came by an action that
# was undone. What was done with it is kept with the last of them.
WITHDRAWN = """
    SELECT (SELECT action_id FROM movement WHERE id = i.last_movement) AS action_id,
           'item', i.id, 'withdrawn', '0', '1'
    FROM item i WHERE i.on_hand = 0 AND i.last_movement > 0 AND NOT EXISTS (
        SELECT 1 FROM movement m JOIN action a ON a.id = m.action_id
        WHERE m.item_id = i.id AND a.undoes IS NULL AND a.redoes IS NULL
          AND a.id NOT IN (SELECT undone FROM temp.undone))"""
# Printing a label was no action: it goes with the tying, or with what took that back or did it again.
LABELLED = """
    SELECT coalesce((SELECT max(id) FROM action WHERE undoes = t.action_id OR redoes = t.action_id),
                    t.action_id) AS action_id,
           'tied', t.id, 'labelled_on', 'null', json_quote(t.labelled_on)
    FROM tied t WHERE t.labelled_on IS NOT NULL"""
SHEETS = f"""
    SELECT coalesce((SELECT max(action_id) FROM ({LABELLED})), (SELECT max(id) FROM action)),
           'sheetinuse', paper, 'next_free', '1', json_quote(next_free)
    FROM sheetinuse WHERE next_free <> 1"""
REMEMBER = f"""INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
    {WITHDRAWN} UNION ALL {LABELLED} UNION ALL {SHEETS} ORDER BY 1"""


def upgrade() -> None:
    """Bring the tables to version 3; what they hold stays."""
    connection = op.get_bind()
    run = connection.exec_driver_sql
    _rebuild(connection, "item", ITEM, "keep_at_least AS minimum, 0 AS withdrawn")
    _rebuild(connection, "action", ACTION, "NULL AS redoes, NULL AS key")
    _rebuild(connection, "measurement", MEASUREMENT, "NULL AS action_id")
    for sql in (*NEW, *INDEXES):
        run(sql)
    run("INSERT INTO identity VALUES (1, ?, ?, 0)", (secrets.token_hex(16), secrets.token_hex(16)))
    convert_rows(connection)


def convert_rows(connection: Connection) -> None:
    """Give rows of version 2 their meaning of version 3, in tables that have the columns already."""
    run = connection.exec_driver_sql
    for table, column in (
        *(("tied", "state"), ("statechange", "was"), ("statechange", "became")),
        ("debriefrig", "became"),
    ):
        for was, now in (("taken apart", "stripped"), ("spent", "worn out")):
            run(f"UPDATE {table} SET {column} = ? WHERE {column} = ?", (now, was))
    undone = _tell_undo_from_redo(connection)
    run("CREATE TEMP TABLE undone (undone INTEGER)")
    for number in undone:
        run("INSERT INTO temp.undone VALUES (?)", (number,))
    run(REMEMBER)
    run(
        "UPDATE item SET withdrawn = 1 WHERE id IN"
        " (SELECT CAST(row_key AS INTEGER) FROM change WHERE table_name = 'item')"
    )
    run("DROP TABLE temp.undone")


def _rebuild(connection: Connection, table: str, create: str, more: str) -> None:
    """Build a table anew under its name; what other tables point at stays where it is."""
    run = connection.exec_driver_sql
    run(f"CREATE TEMP TABLE old AS SELECT *, {more} FROM main.{table}")
    run(f"DROP TABLE main.{table}")
    run(create)
    columns = [row[1] for row in run(f"PRAGMA main.table_info({table})").fetchall()]
    names = ", ".join(f'"{name}"' for name in columns)
    run(f"INSERT INTO main.{table} ({names}) SELECT {names} FROM temp.old")
    run("DROP TABLE temp.old")


def _tell_undo_from_redo(connection: Connection) -> set[int]:
    """An undo of an undo was doing again: each names the first action of its chain. Hands back those
    that are undone now."""
    run = connection.exec_driver_sql
    first: dict[int, int] = {}  # of each reversal, the action that it is about in the end
    again: dict[int, bool] = {}
    undone: set[int] = set()
    for number, undoes in run(
        "SELECT id, undoes FROM action WHERE undoes IS NOT NULL ORDER BY id"
    ).fetchall():
        first[number] = first.get(undoes, undoes)
        again[number] = undoes in again and not again[undoes]
        if again[number]:
            run("UPDATE action SET undoes = NULL, redoes = ? WHERE id = ?", (first[number], number))
            undone.discard(first[number])
        else:
            run("UPDATE action SET undoes = ? WHERE id = ?", (first[number], number))
            undone.add(first[number])
    return undone
