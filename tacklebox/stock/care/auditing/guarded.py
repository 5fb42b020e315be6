"""What the file is made of: the tables, indexes and rules of a box, and nothing else."""

import sqlite3
from collections.abc import Iterator
from functools import cache

from tacklebox.stock.care import schema
from tacklebox.stock.care.triggers import RULES

Fault = tuple[str, str]


def judge_rules(box: sqlite3.Connection) -> Iterator[Fault]:
    """Each rule is there as it was made, and no other."""
    kept = dict(box.execute("SELECT name, sql FROM sqlite_master WHERE type = 'trigger'"))
    for rule in RULES:
        name = rule.split()[2]
        if name not in kept:
            yield f"rule {name}", "it is missing"
        elif _plain(kept.pop(name)) != _plain(rule):
            yield f"rule {name}", "it was changed"
    for name in kept:
        yield f"rule {name!s:.60}", "no box has it"
    made = box.execute("SELECT sql FROM sqlite_master WHERE name = 'item'").fetchone()
    if made and "never_below_zero" not in made[0]:
        yield "rule never_below_zero", "it is missing"


def judge_tables(box: sqlite3.Connection) -> Iterator[Fault]:
    """Each table is made as ours are, and there is nothing else; an index may be missing."""
    ours = _made_anew(schema.SCHEMA_VERSION)
    query = """SELECT type, name, sql FROM sqlite_master
        WHERE type <> 'trigger' AND sql IS NOT NULL AND name NOT LIKE 'sqlite~_%' ESCAPE '~'"""
    for sort, name, sql in box.execute(query):
        if name not in ours:
            yield "file", f"the {sort} {name!s:.60} is none of a box"
        elif _plain(sql) != ours[name]:
            yield "file", f"the {sort} {name} is made otherwise"


@cache
def _made_anew(_version: int) -> dict[str, str]:
    """The tables and indexes of a new box, by their names."""
    from sqlalchemy import create_engine

    engine = create_engine("sqlite://")
    with engine.connect() as connection:
        schema.make_tables(connection)
        rows = connection.exec_driver_sql(
            "SELECT name, sql FROM sqlite_master WHERE sql IS NOT NULL"
        )
        made = {name: _plain(sql) for name, sql in rows}
    engine.dispose()
    return made


def _plain(sql: str) -> str:
    return " ".join(sql.split())
