"""The one table of all outside checks, made from the tests themselves.

Run with ``python -m tests.outside.table``.
"""

import ast
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

TESTS = Path(__file__).resolve().parents[1]


@dataclass(frozen=True, order=True)
class OutsideCheck:
    """One check: what, against what, its kind, and the test that makes it."""

    file: str
    test: str
    what: str
    against: str
    kind: str


def outside_checks() -> list[OutsideCheck]:
    """Every test that is marked with ``@outside``, in order of file and place."""
    found = []
    for path in sorted(TESTS.rglob("test_*.py")):
        tree = ast.parse(path.read_text(encoding="utf-8"))
        found += list(_marked(tree, path.relative_to(TESTS).as_posix()))
    return found


def _words_of(node: ast.expr, named: dict[str, str]) -> str:
    """The words of an argument: written out, named at the top of the file, or joined from both."""
    if isinstance(node, ast.Name):
        return named[node.id]
    if isinstance(node, ast.JoinedStr):
        return "".join(_words_of(part, named) for part in node.values)
    if isinstance(node, ast.FormattedValue):
        return _words_of(node.value, named)
    return str(ast.literal_eval(node))


def _named(tree: ast.Module) -> dict[str, str]:
    return {
        ast.unparse(node.targets[0]): node.value.value
        for node in tree.body
        if isinstance(node, ast.Assign)
        and isinstance(node.value, ast.Constant)
        and isinstance(node.value.value, str)
    }


def _marked(tree: ast.Module, file: str) -> Iterator[OutsideCheck]:
    named = _named(tree)
    for node in ast.walk(tree):
        if not isinstance(node, ast.FunctionDef):
            continue
        for mark in node.decorator_list:
            if isinstance(mark, ast.Call) and isinstance(mark.func, ast.Name):
                if mark.func.id != "outside":
                    continue
                what, against, kind = (_words_of(argument, named) for argument in mark.args)
                yield OutsideCheck(file, node.name, what, against, kind)


def main() -> None:
    """Print the table."""
    checks = outside_checks()
    print("| what | against what | class | test |\n|---|---|---|---|")
    for one in checks:
        print(f"| {one.what} | {one.against} | {one.kind} | {one.file}::{one.test} |")
    print(f"\n{len(checks)} checks")


if __name__ == "__main__":
    main()
