"""Line gets the maker whose print its strain is."""

from alembic import op

revision = "5"
down_revision = "4"

LINE = """CREATE TABLE line (
    item_id INTEGER NOT NULL,
    material VARCHAR NOT NULL,
    sort VARCHAR NOT NULL,
    diameter_mm FLOAT,
    diameter_said VARCHAR NOT NULL,
    breaks_at_kg FLOAT,
    strain_said VARCHAR NOT NULL,
    colour VARCHAR NOT NULL,
    maker VARCHAR NOT NULL,
    PRIMARY KEY (item_id),
    FOREIGN KEY(item_id) REFERENCES item (id)
)"""


def upgrade() -> None:
    """Build the table of line anew with a column for the maker, which nobody has said so far."""
    run = op.get_bind().exec_driver_sql
    run("CREATE TEMP TABLE old AS SELECT *, '' AS maker FROM main.line")
    run("DROP TABLE main.line")
    run(LINE)
    names = [row[1] for row in run("PRAGMA main.table_info(line)").fetchall()]
    columns = ", ".join(names)
    run(f"INSERT INTO main.line ({columns}) SELECT {columns} FROM temp.old")
    run("DROP TABLE temp.old")
