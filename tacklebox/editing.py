"""An angler's own file changed key by key: his notes and the order of his keys stay."""

import hashlib
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from tomlkit import TOMLDocument
    from tomlkit.items import AoT, Table


def version_of(text: str) -> str:
    """The mark of a file's text, by which it is seen that another changed it meanwhile.

    >>> version_of("a = 1") == version_of("a = 1"), version_of("a = 1") == version_of("a = 2")
    (True, False)
    """
    return hashlib.sha256(text.encode()).hexdigest()[:20]


def with_values(text: str, values: Mapping[str, Any]) -> str:
    """TOML with these keys set, by their dotted names; a key whose value is None is taken away.

    What stays as it is keeps its line as it was written. Raises what tomlkit raises for text that is
    no TOML.

    >>> print(with_values('name = "Pond"  # ours\\n', {"name": "Lake", "rules.barbless": True}))
    name = "Lake"  # ours
    <BLANKLINE>
    [rules]
    barbless = true
    <BLANKLINE>
    """
    import tomlkit

    document = tomlkit.parse(text)
    for name, value in values.items():
        *tables, key = name.split(".")
        _set(_table(document, tables, make=value is not None), key, value)
    return tomlkit.dumps(document)


def with_tables(text: str, name: str, rows: Sequence[tuple[int | None, Mapping[str, Any]]]) -> str:
    """TOML whose tables ``[[name]]`` are these rows, in this order.

    Each row says which of the tables that are there it is, counted from 0, so that its notes and
    other keys go with it, or None for a new one; a key whose value is None or empty is taken away.

    >>> old = '[[want]]\\nrecipe = "a"  # first\\n[[want]]\\nrecipe = "b"\\n'
    >>> print(with_tables(old, "want", [(1, {}), (0, {"count": 2})]), end="")
    [[want]]
    recipe = "b"
    <BLANKLINE>
    [[want]]
    recipe = "a"  # first
    count = 2
    """
    import tomlkit

    document = tomlkit.parse(text)
    tables: AoT | list[Table] = document.get(name, [])
    before = list(tables)
    new = tomlkit.aot()
    for place, values in rows:
        table = tomlkit.table() if place is None else before[place]
        for key, value in values.items():
            _set(table, key, value or None)
        new.append(table)
    if name in document:
        document[name] = new
    else:
        document.append(name, new)
    return tomlkit.dumps(document)


def _table(document: "TOMLDocument", names: Sequence[str], *, make: bool) -> Any:
    import tomlkit

    found: Any = document
    for name in names:
        if name not in found:
            if not make:
                return None
            found.append(name, tomlkit.table())
        found = found[name]
    return found


def _set(table: Any, key: str, value: Any) -> None:
    if value is None:
        if table is not None:
            table.pop(key, None)
    elif table.get(key) != value:
        table[key] = value
