"""An angler's own file changed key by key and table by table: his notes and the order of his keys stay.

A note, a line that begins with #, belongs to the key or the table below it: it moves and goes with that.
"""

import hashlib
import re
import tomllib
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from tacklebox.reading_toml import read_toml
from tacklebox.written_toml import (
    WrittenTable,
    change_keys,
    heading,
    read_tables,
    written_key,
)

_STEP = re.compile(r"(.*?)(?: (\d+))?")
_STRINGS = re.compile(r"\"(?:\\.|[^\"\\])*\"|'[^']*'")


def version_of(text: str) -> str:
    """The mark of a file's text, by which it is seen that another changed it meanwhile.

    >>> version_of("a = 1") == version_of("a = 1"), version_of("a = 1") == version_of("a = 2")
    (True, False)
    """
    return hashlib.sha256(text.encode()).hexdigest()[:20]


def with_values(text: str, values: Mapping[str, Any]) -> str:
    """TOML with these keys set, by their dotted names; a key or table whose value is None is taken away.

    What stays as it is keeps its line as it was written. Raises tomllib.TOMLDecodeError for text that is
    no TOML.

    >>> old = 'name = "Pond"  # ours\\n'
    >>> print(with_values(old, {"name": "Lake", "rules.barbless": True}), end="")
    name = "Lake"  # ours
    <BLANKLINE>
    [rules]
    barbless = true
    """
    read_toml(text)
    blocks, foot = read_tables(text)
    by_table: dict[tuple[str, ...], dict[str, Any]] = {}
    for name, value in values.items():
        *table, key = name.split(".")
        by_table.setdefault(tuple(table), {})[key] = value
    for path, own in by_table.items():
        _change_table(blocks, path, own)
    for name in (key for key, value in by_table.get((), {}).items() if value is None):
        blocks = [block for block in blocks if block.path[:1] != (name,)]
    return _whole(text, blocks, foot)


def _change_table(
    blocks: list[WrittenTable], path: tuple[str, ...], values: Mapping[str, Any]
) -> None:
    """The keys of one table set, wherever it is written."""
    found = next((b for b in blocks if b.path == path and not b.is_list), None)
    inline = next((e for e in blocks[0].entries if (e.key,) == path), None)
    if found is None and inline is not None:
        kept = {k: v for k, v in ({**inline.value, **values}).items() if v is not None}
        change_keys(blocks[0], {path[0]: kept})
    elif found is not None:
        change_keys(found, values)
    elif any(value is not None for value in values.values()):
        blocks.append(WrittenTable("\n", heading(path, is_list=False) + "\n", path))
        change_keys(blocks[-1], values)


def _whole(text: str, blocks: Sequence[WrittenTable], foot: str) -> str:
    """The changed text, its lines ended as they were."""
    changed = "".join(block.text for block in blocks) + foot
    read_toml(changed)
    is_windows = "\r\n" in text and not re.search(r"(?<!\r)\n", text)
    return re.sub(r"(?<!\r)\n", "\r\n", changed) if is_windows else changed


@dataclass(frozen=True)
class TableRow:
    """One table as it is to stand in a file: its keys in the order that a new one has them.

    ``was`` is which of the tables that are there it is, counted from 0, so that its notes and other keys
    go with it; None is a new one. ``name`` is that of a table ``[choose.depth]``, "" under ``[[part]]``.
    ``below`` are the lists of tables under it. A key whose value is None or empty is taken away.
    """

    values: Mapping[str, Any]
    was: int | None = None
    name: str = ""
    below: Mapping[str, Sequence["TableRow"]] = field(default_factory=dict)


def with_tables(text: str, name: str, rows: Sequence[tuple[int | None, Mapping[str, Any]]]) -> str:
    """``with_rows`` for tables ``[[name]]`` that have none below them.

    >>> old = '[[want]]\\nrecipe = "a"  # first\\n[[want]]\\nrecipe = "b"\\n'
    >>> print(with_tables(old, "want", [(1, {}), (0, {"count": 2})]), end="")
    [[want]]
    recipe = "b"
    [[want]]
    recipe = "a"  # first
    count = 2
    """
    return with_rows(text, {name: [TableRow(values, was) for was, values in rows]})


def with_rows(text: str, rows: Mapping[str, Sequence[TableRow]]) -> str:
    """TOML whose tables of these names are these rows, in this order.

    What stays as it is keeps its lines. Raises tomllib.TOMLDecodeError for text that is no TOML.

    >>> old = 'name = "x"\\n# thin\\n[[part]]\\nis = "line"\\n# sharp\\n[[part]]\\nis = "hook"\\n'
    >>> print(with_rows(old, {"part": [TableRow({}, 1), TableRow({"is": "bead"}), TableRow({}, 0)]}), end="")
    name = "x"
    # sharp
    [[part]]
    is = "hook"
    <BLANKLINE>
    [[part]]
    is = "bead"
    # thin
    [[part]]
    is = "line"
    """
    read_toml(text)
    blocks, foot = read_tables(text)
    names = list(rows)
    for name in names:
        _spread(blocks, name)
    for name in names:
        blocks = _arranged(blocks, (name,), rows[name], names)
    return _whole(text, blocks, foot)


def line_of(text: str, key: str) -> int:
    """The line, from 1, of a key by its name in a fault ("part 2.length"); where the key is missing, that
    of its table, and 1 where that is missing too or the text is no TOML.

    >>> line_of('name = "x"\\n[[part]]\\n# thin\\nis = "line"\\n', "part 1.is")
    4
    """
    try:
        read_toml(text)
    except tomllib.TOMLDecodeError:
        return 1
    blocks, _ = read_tables(text)
    steps = [_STEP.fullmatch(step) for step in key.split(".")]
    wanted = tuple((step[1], int(step[2] or 0)) for step in steps if step)
    line, found = 1, 1
    for block, place in _numbered(blocks):
        line += block.notes.count("\n")
        within = place == wanted[: len(place)]
        if within and place:
            found = line
        line += block.head.count("\n")
        for entry in block.entries:
            line += entry.notes.count("\n")
            if within and [entry.key] == [name for name, _ in wanted[len(place) :][:1]]:
                return line
            line += entry.text.count("\n")
    return found


def _numbered(
    blocks: Sequence[WrittenTable],
) -> Iterator[tuple[WrittenTable, tuple[tuple[str, int], ...]]]:
    """Each block with its names, those of a list counted from 1, other ones 0."""
    last: tuple[tuple[str, int], ...] = ()
    for block in blocks:
        above = block.path[:-1]
        base = tuple(last[: len(above)]) if tuple(n for n, _ in last[: len(above)]) == above else ()
        if len(base) < len(above):
            base = tuple((name, 0) for name in above)
        place = base
        if block.path:
            same = last[: len(block.path)]
            goes_on = same and same[:-1] == base and same[-1][0] == block.path[-1]
            number = (same[-1][1] + 1 if goes_on else 1) if block.is_list else 0
            place = (*base, (block.path[-1], number))
        yield block, place
        last = place


def _spread(blocks: list[WrittenTable], name: str) -> None:
    """Tables that are written in one line, or as a table of tables, get headings of their own."""
    for block in list(blocks):
        if block.path not in ((), (name,)) or block.is_list:
            continue
        inline = [e for e in block.entries if e.key == name or block.path]
        if not inline:
            if block.path:  # an empty [name]: nothing is said by it
                _hand_on(blocks, block)
            continue
        made: list[WrittenTable] = []
        for entry in inline:
            block.entries.remove(entry)
            value = entry.value if block.path == () else {entry.key: entry.value}
            for new in _blocks_of((name,), value):
                same = next((b for b in made if b.path == new.path and not b.is_list), None)
                if same:  # written key by key: choose.depth.usual = "1 m"
                    same.entries += new.entries
                else:
                    made.append(new)
            if made:
                made[0].notes += entry.notes + "".join(_comments(entry.text))
        place = blocks.index(block) + 1 if block.path else 1
        blocks[place:place] = made
        if block.path:
            made[0].notes = block.notes + made[0].notes
            blocks.remove(block)


def _hand_on(blocks: list[WrittenTable], gone: WrittenTable) -> None:
    place = blocks.index(gone)
    blocks.remove(gone)
    if place < len(blocks):
        blocks[place].notes = gone.notes + blocks[place].notes


def _blocks_of(path: tuple[str, ...], value: Any) -> Iterator[WrittenTable]:
    """New blocks for a value that was written in one line."""
    if isinstance(value, list):
        for each in value:
            yield from _new_blocks(path, each, is_list=True)
    else:
        for name, each in value.items():
            yield from _new_blocks((*path, name), each, is_list=False)


def _new_blocks(
    path: tuple[str, ...], value: Mapping[str, Any], *, is_list: bool
) -> Iterator[WrittenTable]:
    lists = {k: v for k, v in value.items() if v and isinstance(v, list) and isinstance(v[0], dict)}
    head = heading(path, is_list=is_list) + "\n"
    own = [written_key(key, each) for key, each in value.items() if key not in lists]
    yield WrittenTable("\n", head, path, is_list, own)
    for name, each in lists.items():
        yield from _blocks_of((*path, name), each)


def _comments(text: str) -> list[str]:
    found = (_STRINGS.sub("", line).partition("#") for line in text.splitlines())
    return [f"#{words}\n" for _, sign, words in found if sign]


def _arranged(
    blocks: list[WrittenTable],
    path: tuple[str, ...],
    rows: Sequence[TableRow],
    names: Sequence[str],
) -> list[WrittenTable]:
    """The blocks with these rows in the places of those that were there."""
    groups = _groups(blocks, path)
    filled = [_as_row(groups, path, row) for row in rows]
    starts = [blocks.index(group[0]) for group in groups] or [_place_for(blocks, path, names)]
    taken = {id(block) for group in groups for block in group}
    ready: list[WrittenTable] = []
    for number in range(len(blocks) + 1):
        if number in starts:
            here = len(filled) if number == starts[-1] else 1
            ready += [block for row in filled[:here] for block in row]
            del filled[:here]
        if number < len(blocks) and id(blocks[number]) not in taken:
            ready.append(blocks[number])
    return ready


def _groups(blocks: Sequence[WrittenTable], path: tuple[str, ...]) -> list[list[WrittenTable]]:
    """Each table of that name with the tables below it."""
    groups: list[list[WrittenTable]] = []
    for block in blocks:
        if block.path[: len(path)] != path:
            continue
        is_first = block.path == path and block.is_list
        named = len(block.path) == len(path) + 1 and not block.is_list
        if is_first or (named and not (groups and groups[-1][0].is_list)):
            groups.append([block])
        elif groups:
            groups[-1].append(block)
    return groups


def _as_row(
    groups: Sequence[list[WrittenTable]], path: tuple[str, ...], row: TableRow
) -> list[WrittenTable]:
    """One row as blocks: the ones that it was, changed, or new ones."""
    own_path = (*path, row.name) if row.name else path
    if row.was is None:
        head = heading(own_path, is_list=not row.name) + "\n"
        first = WrittenTable("\n", head, own_path, not row.name)
        rest: list[WrittenTable] = []
    else:
        first, *rest = groups[row.was]
        if first.path != own_path:
            rest = [replace(b, head=_renamed(b, own_path), path=_under(b, own_path)) for b in rest]
            first = replace(first, head=_renamed(first, own_path), path=own_path)
    blocks = _change_with_below(first, rest, row.values)
    for name, rows in row.below.items():
        blocks = _arranged(blocks, (*own_path, name), rows, [name])
    return blocks


def _under(block: WrittenTable, path: tuple[str, ...]) -> tuple[str, ...]:
    return (*path, *block.path[len(path) :])


def _renamed(block: WrittenTable, path: tuple[str, ...]) -> str:
    """The heading with another name; what is written behind it stays."""
    ends = (n + 1 for n, letter in enumerate(block.head) if letter == "]")
    end = next(e for e in ends if _is_toml(block.head[:e]))
    return heading(_under(block, path), is_list=block.is_list) + block.head[end:]


def _is_toml(text: str) -> bool:
    try:
        read_toml(text)
    except tomllib.TOMLDecodeError:
        return False
    return True


def _change_with_below(
    first: WrittenTable, rest: Sequence[WrittenTable], values: Mapping[str, Any]
) -> list[WrittenTable]:
    """A table changed; a key of it that is written as a table below it is changed there."""
    own, below = dict(values), list(rest)
    for block in rest:
        key = block.path[-1]
        if block.is_list or len(block.path) != len(first.path) + 1 or key not in own:
            continue
        value = own.pop(key)
        if isinstance(value, Mapping) and value:
            gone = {k: None for k in block.value if k not in value}
            change_keys(block, gone | dict(value))
        else:
            below.remove(block)
            own[key] = value
    change_keys(first, own)
    return [first, *below]


def _place_for(blocks: Sequence[WrittenTable], path: tuple[str, ...], names: Sequence[str]) -> int:
    """Where tables of a name stand that had none yet: after those that are named before them."""
    if len(path) > 1:
        return len(blocks)
    earlier = names[: names.index(path[0])]
    last = max((n for n, b in enumerate(blocks) if not b.path or b.path[0] in earlier), default=0)
    return last + 1
