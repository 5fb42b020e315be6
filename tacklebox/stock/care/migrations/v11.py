"""A float may have no mark and a feeder no weight: nobody knows what it takes, or what it weighs."""

from alembic import op

revision = "11"
down_revision = "10"

KINDS = {
    "float": """CREATE TABLE float (
    item_id INTEGER NOT NULL,
    shape VARCHAR NOT NULL,
    mark VARCHAR NOT NULL,
    capacity_g FLOAT,
    carries_said VARCHAR NOT NULL,
    body VARCHAR NOT NULL,
    material VARCHAR NOT NULL,
    stem VARCHAR NOT NULL,
    tip VARCHAR NOT NULL,
    tip_diameter_mm FLOAT,
    tip_diameter_said VARCHAR NOT NULL,
    tip_length_mm FLOAT,
    tip_length_said VARCHAR NOT NULL,
    colour VARCHAR NOT NULL,
    PRIMARY KEY (item_id),
    FOREIGN KEY(item_id) REFERENCES item (id)
)""",
    "feeder": """CREATE TABLE feeder (
    item_id INTEGER NOT NULL,
    shape VARCHAR NOT NULL,
    fitting VARCHAR NOT NULL,
    mass_g FLOAT,
    mass_said VARCHAR NOT NULL,
    size VARCHAR NOT NULL,
    volume_ml FLOAT,
    volume_said VARCHAR NOT NULL,
    PRIMARY KEY (item_id),
    FOREIGN KEY(item_id) REFERENCES item (id)
)""",
}


def upgrade() -> None:
    """Build both tables anew; of all so far the figure is known."""
    run = op.get_bind().exec_driver_sql
    for kind, table in KINDS.items():
        run(f'CREATE TEMP TABLE old AS SELECT * FROM main."{kind}"')
        run(f'DROP TABLE main."{kind}"')
        run(table)
        columns = [row[1] for row in run(f'PRAGMA main.table_info("{kind}")').fetchall()]
        names = ", ".join(f'"{name}"' for name in columns)
        run(f'INSERT INTO main."{kind}" ({names}) SELECT {names} FROM temp.old')
        run("DROP TABLE temp.old")
