"""Every figure of the trade's tables, found in the source: its name, its value, and where it stands.

A figure is a number at the top of a module or class of ``tacklebox/trade``, or a number in one of
the functions named here, whose formula was published. Run with
``python -m tests.outside.figures`` for those that neither a published source nor the list of figures
without an outside check accounts for; ``--write`` brings the values of that list up to date first.
"""

import ast
import csv
import re
import sys
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
TRADE = ROOT / "tacklebox" / "trade"
LIST = Path(__file__).with_name("no_outside_check.csv")
# Functions with figures of their own; all other functions have ranges and tolerances.
FORMULAS = {
    "casting": {"shock_leader_kg"},
    "knots": {"keeps"},
    "law": {"in_close_season"},
    "line": {"diameter_of_go_mm", "diameter_of_x_mm"},
    "settling.drag": {
        "sphere_coefficient",
        "line_across_coefficient",
        "line_wake",
        "along_factor",
    },
    "water": {"water_density_kg_m3", "water_viscosity_pa_s", "skin_n_m"},
}
# Mathematics, held by the tests of what is computed with it.
MATHEMATICS = {"strength.(_PEAK, _ROOT_HALF)"}
# What arithmetic needs in a formula and nobody published.
PLAIN = {0.0, 1.0, 2.0, 4.0, 1000.0, 1e6, 1e-6}


@dataclass(frozen=True)
class Figure:
    """One figure: its name ("shot.SHOT AAA"), its value, the file and the place in it."""

    name: str
    value: float
    file: Path
    line: int
    column: int
    end_column: int

    def changed(self, source: str) -> str:
        """The file's text with this figure a tenth bigger, a whole one by at least one."""
        lines = source.split("\n")
        old = lines[self.line - 1].encode()
        new = self.value * 1.1
        if isinstance(self.value, int):
            new = self.value + max(1, round(abs(self.value) / 10))
        text = repr(new).encode()
        lines[self.line - 1] = (old[: self.column] + text + old[self.end_column :]).decode()
        return "\n".join(lines)


def figures() -> list[Figure]:
    """All figures, file by file."""
    found = [one for path in sorted(TRADE.rglob("*.py")) for one in _figures_in(path)]
    return [one for one in found if one.name.partition("[")[0] not in MATHEMATICS]


def _figures_in(path: Path) -> Iterator[Figure]:
    module = ".".join(path.relative_to(TRADE).with_suffix("").parts)
    seen: Counter[str] = Counter()
    for name, number in _numbers(ast.parse(path.read_text(encoding="utf-8")), module):
        for value, column, end_column in _values(number):
            seen[name] += 1
            turn = f" #{seen[name]}" if seen[name] > 1 else ""
            yield Figure(f"{module}.{name}{turn}", value, path, number.lineno, column, end_column)


def _values(node: ast.Constant) -> Iterator[tuple[float, int, int]]:
    """The number itself with where it stands, or the two ends of a range in words."""
    assert node.end_col_offset is not None
    if isinstance(node.value, int | float):
        yield node.value, node.col_offset, node.end_col_offset
        return
    assert isinstance(node.value, str)
    for number in re.finditer(r"\d+", node.value):
        start = node.col_offset + 1  # the quote
        yield int(number.group()), start + number.start(), start + number.end()


def _numbers(tree: ast.Module, module: str) -> Iterator[tuple[str, ast.Constant]]:
    for node in tree.body:
        if isinstance(node, ast.Assign | ast.AnnAssign):
            yield from _in_table(_target(node), node.value)
        elif isinstance(node, ast.ClassDef):
            for part in node.body:
                if isinstance(part, ast.Assign | ast.AnnAssign):
                    yield from _in_table(f"{node.name}.{_target(part)}", part.value)
        elif isinstance(node, ast.FunctionDef) and node.name in FORMULAS.get(module, ()):
            for inner in ast.walk(node):
                if isinstance(inner, ast.Constant) and _in_formula(inner):
                    yield node.name, inner


def _target(node: ast.Assign | ast.AnnAssign) -> str:
    target = node.target if isinstance(node, ast.AnnAssign) else node.targets[0]
    return ast.unparse(target)


def _in_table(name: str, node: ast.AST | None) -> Iterator[tuple[str, ast.Constant]]:
    """The numbers of a table, each named by the words, keys and places that it stands under."""
    if node is None:
        return
    if isinstance(node, ast.Constant):
        if _is_number(node) or _is_range(node):
            yield name, node
    elif isinstance(node, ast.Dict):
        for key, value in zip(node.keys, node.values, strict=True):
            under = f" {ast.literal_eval(key)}" if isinstance(key, ast.Constant) else ""
            yield from _in_table(name + under, value)
    elif isinstance(node, ast.Call):
        yield from _in_entry(name, node)
    elif isinstance(node, ast.Subscript):
        yield from _in_table(name, node.value)
    elif isinstance(node, ast.Tuple | ast.List) and not _has_words(node):
        for place, part in enumerate(node.elts):
            yield from _in_table(f"{name}[{place}]", part)
    else:
        for child in ast.iter_child_nodes(node):
            yield from _in_table(name, child)


def _in_entry(name: str, call: ast.Call) -> Iterator[tuple[str, ast.Constant]]:
    """The numbers of one entry, named by the word it begins with and by its keywords."""
    if ast.unparse(call.func) in ("re.compile", "field"):
        return
    first = call.args[0] if call.args else None
    if isinstance(first, ast.Constant) and isinstance(first.value, str) and not _is_range(first):
        name = f"{name} {first.value}"
    for argument in call.args:
        yield from _in_table(name, argument)
    for keyword in call.keywords:
        yield from _in_table(f"{name}.{keyword.arg}", keyword.value)


def _has_words(node: ast.Tuple | ast.List) -> bool:
    """Whether the entries of a table are told apart by a word each begins with."""
    calls = [one for one in node.elts if isinstance(one, ast.Call) and one.args]
    firsts = [one.args[0] for one in calls]
    return bool(firsts) and all(
        isinstance(one, ast.Constant) and isinstance(one.value, str) for one in firsts
    )


def _in_formula(node: ast.Constant) -> bool:
    return _is_number(node) and node.value not in PLAIN


def _is_range(node: ast.Constant) -> bool:
    """Whether it is a range in words, as of hooks: "24 to 22"."""
    return isinstance(node.value, str) and bool(re.fullmatch(r"\d+ to \d+", node.value))


def _is_number(node: ast.Constant) -> bool:
    value = node.value
    return isinstance(value, int | float) and not isinstance(value, bool) and value != 0


def without_check() -> dict[str, tuple[float, str]]:
    """The figures that no outside check holds: value and class, by name."""
    with LIST.open(encoding="utf-8", newline="") as file:
        rows = list(csv.reader(file))
    assert rows[0] == ["no outside check", "value", "class"]
    return {name: (float(value), of) for name, value, of in rows[1:]}


def write_list() -> None:
    """Bring the list up to date: values as they now are, figures that are gone left out."""
    listed = without_check()
    rows = [
        (one.name, repr(one.value), listed[one.name][1]) for one in figures() if one.name in listed
    ]
    with LIST.open("w", encoding="utf-8", newline="") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerows([("no outside check", "value", "class"), *rows])


def main() -> None:
    """Print the figures that are not in the list, so that each can be held or listed; with
    ``--write`` first bring the list up to date."""
    if "--write" in sys.argv:
        write_list()
    listed = without_check()
    for one in figures():
        if one.name not in listed:
            print(f"{one.name},{one.value}")


if __name__ == "__main__":
    main()
