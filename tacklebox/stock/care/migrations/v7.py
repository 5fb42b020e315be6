"""Reels get their backing, and a retired one's name is free; what the angler sets for the whole box comes."""

from alembic import op

revision = "7"
down_revision = "6"

REEL = """CREATE TABLE reel (
    id INTEGER NOT NULL,
    name VARCHAR NOT NULL,
    what VARCHAR NOT NULL,
    item_id INTEGER,
    loaded_mm INTEGER NOT NULL,
    loaded_on DATE,
    backing VARCHAR NOT NULL,
    retired BOOLEAN NOT NULL,
    withdrawn BOOLEAN NOT NULL,
    PRIMARY KEY (id),
    FOREIGN KEY(item_id) REFERENCES item (id)
)"""
SETTING = """CREATE TABLE setting (
    name VARCHAR NOT NULL,
    said VARCHAR NOT NULL,
    PRIMARY KEY (name)
)"""
INDEXES = (
    "CREATE INDEX ix_reel_item_id ON reel (item_id)",
    "CREATE UNIQUE INDEX one_reel_of_a_name ON reel (name) WHERE NOT withdrawn AND NOT retired",
)


def upgrade() -> None:
    """Build the table of reels anew with a column for the backing, which nobody has said so far."""
    run = op.get_bind().exec_driver_sql
    run("CREATE TEMP TABLE old AS SELECT *, '' AS backing FROM main.reel")
    run("DROP TABLE main.reel")
    run(REEL)
    columns = ", ".join(row[1] for row in run("PRAGMA main.table_info(reel)").fetchall())
    run(f"INSERT INTO main.reel ({columns}) SELECT {columns} FROM temp.old")
    run("DROP TABLE temp.old")
    for sql in (SETTING, *INDEXES):
        run(sql)
