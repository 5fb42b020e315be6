"""What exports of older boxes lack, and how their rows become those of today."""

from collections.abc import Sequence

from sqlalchemy import Connection

from tacklebox.stock.care.aswritten import check_all
from tacklebox.stock.care.schema import of_sqlite
from tacklebox.stock.care.triggers import RULES

# By the version that brought them: tables, columns that were called otherwise, and new columns with
# the cell that stands for all rows of before.
_TABLES = {
    "change": 3,
    **dict.fromkeys(("hooklength", "batch", "batchuse", "reel"), 4),
    "setting": 7,
}
_RENAMED = {3: {"item": {"keep_at_least": "minimum"}}}
_ADDED = {
    3: {
        "item": {"withdrawn": "0"},
        "action": {"redoes": "", "key": ""},
        "measurement": {"action_id": ""},
    },
    4: {
        "item": {"retired": "0", "level": "", "note": "", "pack_said": ""},
        "line": {"sort": "", "diameter_said": "", "strain_said": ""},
        "hook": {"eye": "", "bend": "", "colour": ""},
        "float": {
            **dict.fromkeys(("carries_said", "body", "material", "stem", "tip"), ""),
            **dict.fromkeys(("tip_diameter_said", "tip_length_said", "colour"), ""),
        },
        "feeder": {"fitting": "", "mass_said": "", "size": "", "volume_said": ""},
        "part": {"strain_said": ""},
        "elastic": {"grade_to": "", "core": ""},
        "winder": {"length_said": "", "width_said": "", "colour": ""},
    },
    5: {"line": {"maker": ""}},
    6: {"batch": {"forced_because": ""}},
    7: {"reel": {"backing": ""}},
    8: {"measurement": {"bait": "", "distance_mm": "", "seconds": "", "water_c": ""}},
    9: {
        "debrief": dict.fromkeys(("section", "place", "points", "water_c", "record"), ""),
    },
}


def had_table(table: str, version: int) -> bool:
    """Whether a box of that version had the table."""
    return version >= _TABLES.get(table, 0)


def heading_of_today(
    table: str, heading: Sequence[str], version: int
) -> tuple[list[str], list[str]]:
    """The heading with the names of today and the columns that came since, and these ones' cells."""
    names = list(heading)
    cells: list[str] = []
    for since, renamed in _RENAMED.items():
        if version < since:
            names = [renamed.get(table, {}).get(name, name) for name in names]
    for since, added in _ADDED.items():
        if version < since:
            names += added.get(table, {})
            cells += added.get(table, {}).values()
    return names, cells


def bring_rows_up_to_date(connection: Connection, version: int) -> None:
    """What the steps since that version do with rows, for rows that were read from an export."""
    if version >= 6:
        return
    from tacklebox.stock.care.migrations import v3, v4, v6

    run = connection.exec_driver_sql
    for rule in RULES:
        run(f"DROP TRIGGER {rule.split()[2]}")
    for step, convert_rows in ((3, v3.convert_rows), (4, v4.convert_rows), (6, v6.convert_rows)):
        if version < step:
            convert_rows(connection)
    check_all(of_sqlite(connection))
    for rule in RULES:
        run(rule)
