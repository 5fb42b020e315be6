"""Hooks may be of no one size and shot of no one mark: a tin of several sizes, or of none that is known."""

from alembic import op

revision = "12"
down_revision = "11"

KINDS = {
    "hook": """CREATE TABLE hook (
    item_id INTEGER NOT NULL,
    size VARCHAR NOT NULL,
    size_order FLOAT,
    "end" VARCHAR NOT NULL,
    eye VARCHAR NOT NULL,
    barb VARCHAR NOT NULL,
    wire VARCHAR NOT NULL,
    bend VARCHAR NOT NULL,
    colour VARCHAR NOT NULL,
    PRIMARY KEY (item_id),
    FOREIGN KEY(item_id) REFERENCES item (id)
)""",
    "weight": """CREATE TABLE weight (
    item_id INTEGER NOT NULL,
    form VARCHAR NOT NULL,
    mark VARCHAR NOT NULL,
    mass_g FLOAT,
    material VARCHAR NOT NULL,
    PRIMARY KEY (item_id),
    FOREIGN KEY(item_id) REFERENCES item (id)
)""",
}


def upgrade() -> None:
    """Build both tables anew; of all so far the size is known."""
    run = op.get_bind().exec_driver_sql
    for kind, table in KINDS.items():
        run(f'CREATE TEMP TABLE old AS SELECT * FROM main."{kind}"')
        run(f'DROP TABLE main."{kind}"')
        run(table)
        columns = [row[1] for row in run(f'PRAGMA main.table_info("{kind}")').fetchall()]
        names = ", ".join(f'"{name}"' for name in columns)
        run(f'INSERT INTO main."{kind}" ({names}) SELECT {names} FROM temp.old')
        run("DROP TABLE temp.old")
