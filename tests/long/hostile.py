"""Hostile command lines and files, made from ordinary ones by rule: the same ones each time.

Each ordinary line is given with every option that it knows. In one place of it stands something hostile,
or a file that it reads is hostile.
"""

import shlex
import sqlite3
from collections.abc import Iterator, Mapping, Sequence
from contextlib import closing
from dataclasses import dataclass, field
from pathlib import Path
from random import Random

from tacklebox.boxfolder import DATABASE_NAME
from tacklebox.matches.water.record import record_key
from tests.long.hostile_words import DAMAGE, LISTS, RECORDS, TABLES, WORDS
from tests.long.ordinary_lines import DAY, LINES, OWN, READS

_NAMES = {"recipes": "mine", "venues": "pond", "matches": "open", "labels": "mine", "bags": "open"}


@dataclass(frozen=True)
class Case:
    """A command line, what is hostile about it, and what stands in files: beside the box and in it."""

    name: str
    words: Sequence[str]
    beside: Mapping[str, bytes] = field(default_factory=dict)
    inside: Mapping[str, bytes] = field(default_factory=dict)
    sql: str = ""


def cases(count: int) -> list[Case]:
    """So many of all, a good share of each sort, the same ones each time."""
    by_sort = [list(sort()) for sort in (_of_words, _of_lists, _of_tables, _of_damage)]
    chosen: list[Case] = []
    for sort, share in zip(by_sort, (0.6, 0.08, 0.14, 0.18), strict=True):
        chosen += Random(15).sample(sort, min(len(sort), round(count * share)))
    return chosen


def _of_words() -> Iterator[Case]:
    for line in LINES:
        words = shlex.split(line)
        first = 2 if words[0] in _GROUPS else 1
        for at in range(first, len(words)):
            if words[at].startswith("--"):
                continue
            for name, hostile in WORDS.items():
                said = [*words]
                head, equals, _ = said[at].partition("=")
                put = f"{head}={hostile}" if equals and not hostile.startswith("mine=") else hostile
                said[at] = put
                yield Case(f"{line.split(' --')[0]}: {name} for {words[at]}", said)
                if said[at - 1].startswith("--"):
                    joined = [*said[: at - 1], f"{said[at - 1]}={hostile}", *said[at + 1 :]]
                    yield Case(f"{line.split(' --')[0]}: {name} joined for {words[at]}", joined)


_GROUPS = {line.split()[0] for line in LINES if line.split()[0] in (
    "stock", "recipe", "rigs", "hooklengths", "reels", "paper", "venue", "match", "measure", "shot",
)}  # fmt: skip


def _of_lists() -> Iterator[Case]:
    for name, data in LISTS.items():
        for line in ("import", "look", "import --as-printed", "import --json", "look --json"):
            command, _, more = line.partition(" ")
            words = shlex.split(f"stock {command} {{out}}/stock.csv {more}")
            yield Case(f"{line}: {name}", words, beside={"stock.csv": data})

    for name, data in RECORDS.items():
        for more in ("", " --correct", " --json"):
            words = shlex.split(f"match debrief been --from {{out}}/record.txt{more}")
            yield Case(f"debrief{more}: {name}", words, beside={"record.txt": data})


def _of_tables() -> Iterator[Case]:
    for kind, lines in OWN.items():
        for name, data in TABLES.items():
            for line in lines:
                file = {f"{kind}/{_NAMES[kind]}.toml": data}
                yield Case(f"{line}: {name} in {kind}", shlex.split(line), inside=file)


def _of_damage() -> Iterator[Case]:
    for name, sql in DAMAGE.items():
        for line in READS:
            yield Case(f"{line}: {name}", shlex.split(line), sql=sql)


def damage(database: Path, sql: str) -> None:
    """Do to the database what no rule of it would let happen."""
    connection = sqlite3.connect(database, isolation_level=None)
    triggers = connection.execute("SELECT name, sql FROM sqlite_master WHERE type = 'trigger'")
    rules = triggers.fetchall()
    connection.execute("PRAGMA writable_schema = ON")
    connection.execute("PRAGMA ignore_check_constraints = ON")
    connection.execute("PRAGMA foreign_keys = OFF")
    is_of_rules = "TRIGGER" in sql
    if not is_of_rules:
        for name, _ in rules:
            connection.execute(f"DROP TRIGGER {name}")
    connection.executescript(sql.replace("{trigger}", rules[0][0]))
    if not is_of_rules:
        for _, made in rules:
            connection.execute(  # as text, since the tables may not bear them any more
                "INSERT INTO sqlite_master (type, name, tbl_name, rootpage, sql)"
                " VALUES ('trigger', ?, ?, 0, ?)",
                (made.split()[2], _table_of(made), made),
            )
    connection.close()


def _table_of(trigger: str) -> str:
    words = trigger.replace("\n", " ").split()
    return words[words.index("ON") + 1].strip('"')


def lay_out(case: Case, box: Path, out: Path, codes: Mapping[str, str]) -> list[str]:
    """Put what the case needs into its place; hands back the words of the command."""
    for name, data in case.beside.items():
        (out / name).write_bytes(data.replace(b"record | been", _record_of(box)))
    for name, data in case.inside.items():
        (box / name).parent.mkdir(exist_ok=True)
        (box / name).write_bytes(data)
    if case.sql:
        damage(box / DATABASE_NAME, case.sql)
        (out / "damaged.sqlite3").write_bytes((box / DATABASE_NAME).read_bytes())
    return [_put(word, out, codes) for word in case.words]


def _record_of(box: Path) -> bytes:
    """The line by which a record of the match that has been is known to be of this box."""
    with closing(sqlite3.connect(box / DATABASE_NAME)) as connection:
        (mark,) = connection.execute("SELECT box FROM identity").fetchone()
    return f"record | {record_key(mark, 'been', DAY)}".encode()


def _put(word: str, out: Path, codes: Mapping[str, str]) -> str:
    for name, code in (*codes.items(), ("out", str(out))):
        word = word.replace(f"{{{name}}}", code)
    return word
