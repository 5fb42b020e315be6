"""A debrief gets section, place, points, the water's temperature, and the record of what was tapped there."""

from alembic import op

revision = "9"
down_revision = "8"

DEBRIEF = """CREATE TABLE debrief (
    id INTEGER NOT NULL,
    action_id INTEGER NOT NULL,
    "match" VARCHAR NOT NULL,
    venue VARCHAR NOT NULL,
    "on" DATE NOT NULL,
    peg VARCHAR NOT NULL,
    section VARCHAR NOT NULL,
    place INTEGER,
    points FLOAT,
    water_c FLOAT,
    weight_g FLOAT,
    notes VARCHAR NOT NULL,
    record VARCHAR NOT NULL,
    corrects INTEGER,
    PRIMARY KEY (id),
    FOREIGN KEY(action_id) REFERENCES action (id),
    FOREIGN KEY(corrects) REFERENCES debrief (id)
)"""
MORE = "'' AS section, NULL AS place, NULL AS points, NULL AS water_c, '' AS record"
INDEXES = (
    "CREATE INDEX ix_debrief_action_id ON debrief (action_id)",
    'CREATE INDEX ix_debrief_match ON debrief ("match")',
)


def upgrade() -> None:
    """Build the table of debriefs anew; of those so far nobody said any of it."""
    run = op.get_bind().exec_driver_sql
    run(f"CREATE TEMP TABLE old AS SELECT *, {MORE} FROM main.debrief")
    run("DROP TABLE main.debrief")
    run(DEBRIEF)
    columns = [row[1] for row in run("PRAGMA main.table_info(debrief)").fetchall()]
    names = ", ".join(f'"{name}"' for name in columns)
    run(f"INSERT INTO main.debrief ({names}) SELECT {names} FROM temp.old")
    run("DROP TABLE temp.old")
    for sql in INDEXES:
        run(sql)
