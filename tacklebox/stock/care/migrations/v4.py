"""Figures are kept as they were said, and hooklengths, batches, reels and top kits come.

Each kind's table gets the words of its figures and what else anglers say of it; line may be known by its
strain alone. Items get a note, the packet's own words, ``retired`` and ``level``.
"""

from fractions import Fraction

from alembic import op
from sqlalchemy import Connection

revision = "4"
down_revision = "3"

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
    retired BOOLEAN NOT NULL,
    level VARCHAR NOT NULL,
    note VARCHAR NOT NULL,
    pack_said VARCHAR NOT NULL,
    PRIMARY KEY (id),
    CONSTRAINT never_below_zero CHECK (on_hand >= 0)
)"""
# Each with what its new columns hold for rows of before.
KINDS = {
    "line": (
        """CREATE TABLE line (
    item_id INTEGER NOT NULL,
    material VARCHAR NOT NULL,
    sort VARCHAR NOT NULL,
    diameter_mm FLOAT,
    diameter_said VARCHAR NOT NULL,
    breaks_at_kg FLOAT,
    strain_said VARCHAR NOT NULL,
    colour VARCHAR NOT NULL,
    PRIMARY KEY (item_id),
    FOREIGN KEY(item_id) REFERENCES item (id)
)""",
        "'' AS sort, '' AS diameter_said, '' AS strain_said",
    ),
    "hook": (
        """CREATE TABLE hook (
    item_id INTEGER NOT NULL,
    size VARCHAR NOT NULL,
    size_order FLOAT NOT NULL,
    "end" VARCHAR NOT NULL,
    eye VARCHAR NOT NULL,
    barb VARCHAR NOT NULL,
    wire VARCHAR NOT NULL,
    bend VARCHAR NOT NULL,
    colour VARCHAR NOT NULL,
    PRIMARY KEY (item_id),
    FOREIGN KEY(item_id) REFERENCES item (id)
)""",
        "'' AS eye, '' AS bend, '' AS colour",
    ),
    "float": (
        """CREATE TABLE float (
    item_id INTEGER NOT NULL,
    shape VARCHAR NOT NULL,
    mark VARCHAR NOT NULL,
    capacity_g FLOAT NOT NULL,
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
        "'' AS carries_said, '' AS body, '' AS material, '' AS stem, '' AS tip, '' AS tip_diameter_said, "
        "'' AS tip_length_said, '' AS colour",
    ),
    "feeder": (
        """CREATE TABLE feeder (
    item_id INTEGER NOT NULL,
    shape VARCHAR NOT NULL,
    fitting VARCHAR NOT NULL,
    mass_g FLOAT NOT NULL,
    mass_said VARCHAR NOT NULL,
    size VARCHAR NOT NULL,
    volume_ml FLOAT,
    volume_said VARCHAR NOT NULL,
    PRIMARY KEY (item_id),
    FOREIGN KEY(item_id) REFERENCES item (id)
)""",
        "'' AS fitting, '' AS mass_said, '' AS size, '' AS volume_said",
    ),
    "part": (
        """CREATE TABLE part (
    item_id INTEGER NOT NULL,
    sort VARCHAR NOT NULL,
    size VARCHAR NOT NULL,
    breaks_at_kg FLOAT,
    strain_said VARCHAR NOT NULL,
    PRIMARY KEY (item_id),
    FOREIGN KEY(item_id) REFERENCES item (id)
)""",
        "'' AS strain_said",
    ),
    "elastic": (
        """CREATE TABLE elastic (
    item_id INTEGER NOT NULL,
    grade FLOAT NOT NULL,
    grade_to FLOAT,
    core VARCHAR NOT NULL,
    colour VARCHAR NOT NULL,
    PRIMARY KEY (item_id),
    FOREIGN KEY(item_id) REFERENCES item (id)
)""",
        "NULL AS grade_to, '' AS core",
    ),
    "winder": (
        """CREATE TABLE winder (
    item_id INTEGER NOT NULL,
    length_mm FLOAT NOT NULL,
    length_said VARCHAR NOT NULL,
    width_mm FLOAT NOT NULL,
    width_said VARCHAR NOT NULL,
    colour VARCHAR NOT NULL,
    PRIMARY KEY (item_id),
    FOREIGN KEY(item_id) REFERENCES item (id)
)""",
        "'' AS length_said, '' AS width_said, '' AS colour",
    ),
}
NEW = (
    """CREATE TABLE hooklength (
    item_id INTEGER NOT NULL,
    size VARCHAR NOT NULL,
    size_order FLOAT NOT NULL,
    "end" VARCHAR NOT NULL,
    eye VARCHAR NOT NULL,
    barb VARCHAR NOT NULL,
    wire VARCHAR NOT NULL,
    bend VARCHAR NOT NULL,
    colour VARCHAR NOT NULL,
    material VARCHAR NOT NULL,
    diameter_mm FLOAT,
    diameter_said VARCHAR NOT NULL,
    breaks_at_kg FLOAT,
    strain_said VARCHAR NOT NULL,
    length_mm FLOAT,
    length_said VARCHAR NOT NULL,
    bait VARCHAR NOT NULL,
    PRIMARY KEY (item_id),
    FOREIGN KEY(item_id) REFERENCES item (id)
)""",
    """CREATE TABLE batch (
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
    snapshot VARCHAR NOT NULL,
    PRIMARY KEY (id),
    UNIQUE (code),
    UNIQUE (code_number),
    FOREIGN KEY(item_id) REFERENCES item (id),
    FOREIGN KEY(action_id) REFERENCES action (id)
)""",
    """CREATE TABLE batchuse (
    id INTEGER NOT NULL,
    batch_id INTEGER NOT NULL,
    item_id INTEGER NOT NULL,
    part VARCHAR NOT NULL,
    amount INTEGER NOT NULL,
    PRIMARY KEY (id),
    FOREIGN KEY(batch_id) REFERENCES batch (id),
    FOREIGN KEY(item_id) REFERENCES item (id)
)""",
    """CREATE TABLE reel (
    id INTEGER NOT NULL,
    name VARCHAR NOT NULL,
    what VARCHAR NOT NULL,
    item_id INTEGER,
    loaded_mm INTEGER NOT NULL,
    loaded_on DATE,
    retired BOOLEAN NOT NULL,
    withdrawn BOOLEAN NOT NULL,
    PRIMARY KEY (id),
    FOREIGN KEY(item_id) REFERENCES item (id)
)""",
)
INDEXES = (
    "CREATE INDEX ix_item_kind ON item (kind)",
    "CREATE INDEX ix_item_words ON item (words)",
    "CREATE UNIQUE INDEX one_item_of_a_name ON item (name) WHERE NOT withdrawn AND NOT retired",
    "CREATE INDEX ix_batch_action_id ON batch (action_id)",
    "CREATE INDEX ix_batch_item_id ON batch (item_id)",
    "CREATE INDEX ix_batchuse_batch_id ON batchuse (batch_id)",
    "CREATE INDEX ix_batchuse_item_id ON batchuse (item_id)",
    "CREATE INDEX ix_reel_item_id ON reel (item_id)",
    "CREATE UNIQUE INDEX one_reel_of_a_name ON reel (name) WHERE NOT withdrawn",
)
G_PER_OZ, KG_PER_LB, MM_PER_INCH, MM_PER_YARD = 28.349523125, 0.45359237, 25.4, 914.4


def upgrade() -> None:
    """Bring the tables to version 4; what they hold stays."""
    connection = op.get_bind()
    run = connection.exec_driver_sql
    _rebuild(connection, "item", ITEM, "0 AS retired, '' AS level, '' AS note, '' AS pack_said")
    for table, (create, more) in KINDS.items():
        _rebuild(connection, table, create, more)
    for sql in (*NEW, *INDEXES):
        run(sql)
    convert_rows(connection)


def convert_rows(connection: Connection) -> None:
    """Give figures of before the words that they plainly came with, in tables that have the columns.

    A strain that is no round number of grams and is one of hundredths of a pound was said in pounds; what
    is unclear stays as it is, and is written in its usual unit. A stop was a float stop.
    """
    run = connection.exec_driver_sql
    for table in ("line", "part"):
        _say_strains(connection, table)
    for item, mass in run("SELECT item_id, mass_g FROM feeder").fetchall():
        if said := _ounces(mass):
            whole = float(sum(Fraction(part) for part in said.split()[:-1])) * G_PER_OZ
            run(
                "UPDATE feeder SET mass_said = ?, mass_g = ? WHERE item_id = ?",
                (said, _in_15_digits(whole), item),
            )
            _reword(connection, item, f"{_plain(mass, 3)} g", said)
    for column in ("length", "width"):
        for item, size in run(f"SELECT item_id, {column}_mm FROM winder").fetchall():
            if said := _inches(size):
                run(f"UPDATE winder SET {column}_said = ? WHERE item_id = ?", (said, item))
                _reword(connection, item, _length_of_before(size), said)
    _say_packets(connection)
    for (item,) in run("SELECT item_id FROM part WHERE sort = 'stop'").fetchall():
        run("UPDATE part SET sort = 'float stop' WHERE item_id = ?", (item,))
        _reword(connection, item, "stop", "float stop")
    for (item,) in run("SELECT item_id FROM line WHERE material = 'gel-spun'").fetchall():
        _reword(connection, item, "gel-spun", "braid")


def _say_strains(connection: Connection, table: str) -> None:
    run = connection.exec_driver_sql
    for item, strain in run(f"SELECT item_id, breaks_at_kg FROM {table}").fetchall():
        if strain is not None and (said := _pounds(strain)):
            run(
                f"UPDATE {table} SET strain_said = ?, breaks_at_kg = ? WHERE item_id = ?",
                (said, _in_15_digits(strain), item),
            )
            _reword(connection, item, _strain_of_before(strain), said)


def _say_packets(connection: Connection) -> None:
    """A spool of so many yards, where it is that to the millimetre and no tenth of a metre."""
    run = connection.exec_driver_sql
    for item, pack in run(
        "SELECT id, pack_size FROM item WHERE kind IN ('line', 'elastic')"
    ).fetchall():
        yards = round(pack / MM_PER_YARD)
        if pack % 100 and yards and abs(pack - yards * MM_PER_YARD) <= 0.5:
            run("UPDATE item SET pack_said = ? WHERE id = ?", (f"{yards} yd", item))


def _reword(connection: Connection, item: int, was: str, now: str) -> None:
    """Put the new words of a figure in the item's, and in its name where that is the same."""
    run = connection.exec_driver_sql
    words, name = run("SELECT words, name FROM item WHERE id = ?", (item,)).fetchone() or ("", "")
    made = f" {words} ".replace(f" {was} ", f" {now} ", 1).strip()
    run("UPDATE item SET words = ? WHERE id = ?", (made, item))
    taken = run(
        "SELECT 1 FROM item WHERE name = ? AND NOT withdrawn AND id <> ?", (made, item)
    ).fetchone()
    if name == words and not taken:
        run("UPDATE item SET name = ? WHERE id = ?", (made, item))
        run(
            """UPDATE change SET became = json_quote(?) WHERE id = (SELECT max(id) FROM change
                 WHERE table_name = 'item' AND column_name = 'name' AND row_key = ?)""",
            (made, str(item)),
        )


def _plain(value: float, most: int) -> str:
    text = f"{value:.{most}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def _in_15_digits(value: float) -> float:
    """As many digits as a spreadsheet keeps of an exported figure."""
    return float(f"{value:.15g}")


def _is_whole(value: float) -> bool:
    return abs(value - round(value)) < 1e-6


def _pounds(kg: float) -> str:
    """The strain in lb or oz where it plainly came from there, else ""."""
    if _is_whole(kg * 1000):
        return ""
    if _is_whole(kg / KG_PER_LB * 100):
        return f"{_plain(kg / KG_PER_LB, 2)} lb"
    ounces = kg / KG_PER_LB * 16
    if _is_whole(ounces):
        return (
            f"{round(ounces) // 16} lb {round(ounces) % 16} oz"
            if ounces > 16
            else f"{ounces:.0f} oz"
        )
    return ""


def _strain_of_before(kg: float) -> str:
    """How version 3 wrote a strain: quarter pounds in lb, all else in kg."""
    quarters = kg / KG_PER_LB * 4
    if abs(quarters - round(quarters)) < 1e-6 and round(quarters) > 0:
        return f"{round(quarters) / 4:g} lb"
    return f"{_plain(kg, 3)} kg"


def _ounces(g: float) -> str:
    """The mass in sixteenths of an ounce, where it is one to the milligram and no round number of grams."""
    sixteenths = round(g / G_PER_OZ * 16)
    if _is_whole(g * 10) or not sixteenths or abs(g - sixteenths * G_PER_OZ / 16) > 0.0006:
        return ""
    whole, rest = divmod(Fraction(sixteenths, 16), 1)
    return " ".join(str(part) for part in (whole, rest) if part) + " oz"


def _inches(mm: float) -> str:
    """The length in quarters of an inch, where it is that and no whole number of millimetres."""
    quarters = mm / MM_PER_INCH * 4
    if _is_whole(mm) or not _is_whole(quarters):
        return ""
    whole, rest = divmod(Fraction(round(quarters), 4), 1)
    return " ".join(str(part) for part in (whole, rest) if part) + " in"


def _length_of_before(mm: float) -> str:
    """How version 3 wrote a length up to 3 m."""
    return f"{_plain(mm, 1)} mm" if mm < 99.95 else f"{_plain(mm / 10, 1)} cm"


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
