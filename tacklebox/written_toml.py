"""A TOML text as its tables and keys are written, each with the notes above it.

A note, a line that begins with #, belongs to the key or the heading below it.
"""

import json
import re
import tomllib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from tacklebox.reading_toml import read_toml

_BARE = re.compile(r"[A-Za-z0-9_-]+")
_LINES = re.compile(r"[^\n]*\n|[^\n]+")


@dataclass
class WrittenKey:
    """A key with its value as it is written, and the notes above it."""

    notes: str
    text: str
    key: str
    value: Any


@dataclass
class WrittenTable:
    """A table as it is written: notes, heading, keys; the root has no heading."""

    notes: str = ""
    head: str = ""
    path: tuple[str, ...] = ()
    is_list: bool = False
    entries: list[WrittenKey] = field(default_factory=list)

    @property
    def text(self) -> str:
        return self.notes + self.head + "".join(e.notes + e.text for e in self.entries)

    @property
    def value(self) -> dict[str, Any]:
        return read_toml("".join(entry.text for entry in self.entries))


def read_tables(text: str) -> tuple[list[WrittenTable], str]:
    """The blocks of a whole TOML text, and the notes under the last."""
    blocks, notes, begun = [WrittenTable()], "", ""
    ended = text if text.endswith("\n") or not text else f"{text}\n"
    for line in _LINES.findall(ended):
        plain = line.strip()
        if not begun and (not plain or plain.startswith("#")):
            notes += line
        elif not begun and plain.startswith("["):
            path, is_list = _path(line)
            blocks.append(WrittenTable(notes, line, path, is_list))
            notes = ""
        else:
            begun += line
            try:
                value = read_toml(begun)
            except tomllib.TOMLDecodeError:
                continue  # it goes on in the next line
            key = next(iter(value))
            blocks[-1].entries.append(WrittenKey(notes, begun, key, value[key]))
            notes = begun = ""
    return blocks, notes


def _path(head: str) -> tuple[tuple[str, ...], bool]:
    """The names in a heading, and whether it is one of a list."""
    names: list[str] = []
    found: Any = read_toml(head)
    while isinstance(found, dict) and found:
        name, found = next(iter(found.items()))
        names.append(name)
    return tuple(names), isinstance(found, list)


def heading(path: Sequence[str], *, is_list: bool) -> str:
    names = ".".join(n if _BARE.fullmatch(n) else json.dumps(n, ensure_ascii=False) for n in path)
    return f"[[{names}]]" if is_list else f"[{names}]"


def change_keys(block: WrittenTable, values: Mapping[str, Any]) -> None:
    """Keys set and taken away; one that stays as it is keeps its lines."""
    order, now = list(values), block.value
    for key, value in values.items():
        there = [entry for entry in block.entries if entry.key == key]
        if value is None or value in ("", [], {}):
            block.entries = [entry for entry in block.entries if entry.key != key]
        elif not there:
            block.entries.insert(_place_of_key(block, key, order), written_key(key, value))
        elif now[key] != value:
            first, *others = there
            first.text = (
                _rewritten(first.text, key, value) if not others else written_key(key, value).text
            )
            first.notes += "".join(other.notes for other in others)
            first.value = value
            block.entries = [entry for entry in block.entries if entry not in others]


def _place_of_key(block: WrittenTable, key: str, order: Sequence[str]) -> int:
    """Where a new key stands: after those that are named before it, else before those named after."""
    here = [entry.key for entry in block.entries]
    before = [n for n, k in enumerate(here, 1) if k in order[: order.index(key)]]
    after = [n for n, k in enumerate(here) if k in order[order.index(key) :]]
    return max(before) if before else min(after, default=len(here))


def written_key(key: str, value: Any) -> WrittenKey:
    import tomlkit

    document = tomlkit.document()
    document.append(key, _item(value))
    return WrittenKey("", tomlkit.dumps(document).rstrip("\n") + "\n", key, value)


def _rewritten(text: str, key: str, value: Any) -> str:
    """A key's line with another value; what is written behind it stays."""
    import tomlkit

    document = tomlkit.parse(text)
    document[key] = _item(value)
    return tomlkit.dumps(document)


def _item(value: Any) -> Any:
    import tomlkit

    if isinstance(value, Mapping):
        table = tomlkit.inline_table()
        table.update(value)
        return table
    return tomlkit.item(value)
