"""A reading may be of a bait: how far it sank in how many seconds, with no item of stock behind it."""

from alembic import op

revision = "8"
down_revision = "7"

MEASUREMENT = """CREATE TABLE measurement (
    id INTEGER NOT NULL,
    item_id INTEGER,
    what VARCHAR NOT NULL,
    breaks_at_kg FLOAT,
    mass_g FLOAT,
    knot VARCHAR NOT NULL,
    count INTEGER NOT NULL,
    takes_back INTEGER,
    "on" DATE NOT NULL,
    action_id INTEGER,
    bait VARCHAR NOT NULL,
    distance_mm FLOAT,
    seconds FLOAT,
    water_c FLOAT,
    PRIMARY KEY (id),
    FOREIGN KEY(item_id) REFERENCES item (id),
    FOREIGN KEY(takes_back) REFERENCES measurement (id),
    FOREIGN KEY(action_id) REFERENCES action (id)
)"""
MORE = "'' AS bait, NULL AS distance_mm, NULL AS seconds, NULL AS water_c"
INDEXES = (
    "CREATE INDEX ix_measurement_item_id ON measurement (item_id)",
    "CREATE INDEX ix_measurement_action_id ON measurement (action_id)",
)


def upgrade() -> None:
    """Build the table of readings anew; all so far are of items."""
    run = op.get_bind().exec_driver_sql
    run(f"CREATE TEMP TABLE old AS SELECT *, {MORE} FROM main.measurement")
    run("DROP TABLE main.measurement")
    run(MEASUREMENT)
    columns = [row[1] for row in run("PRAGMA main.table_info(measurement)").fetchall()]
    names = ", ".join(f'"{name}"' for name in columns)
    run(f"INSERT INTO main.measurement ({names}) SELECT {names} FROM temp.old")
    run("DROP TABLE temp.old")
    for sql in INDEXES:
        run(sql)
