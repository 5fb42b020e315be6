"""Names that keep the house readable: no class of one name in two rooms, no circle of imports; what is
imported is declared."""

import ast
import re
import sys
import tomllib
from collections import defaultdict
from collections.abc import Iterator
from functools import cache
from graphlib import CycleError, TopologicalSorter
from importlib.metadata import packages_distributions
from pathlib import Path

ROOT = Path(__file__).parents[2]
FILES = sorted((ROOT / "tacklebox").rglob("*.py"))


def module_of(file: Path) -> str:
    return ".".join(file.relative_to(ROOT).with_suffix("").parts).removesuffix(".__init__")


@cache
def modules() -> dict[str, ast.Module]:
    return {module_of(file): ast.parse(file.read_text(encoding="utf-8")) for file in FILES}


def imported(tree: ast.Module) -> set[str]:
    """Our own modules that a module imports, also within its functions and for types alone."""
    found = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module:
            inside = {f"{node.module}.{alias.name}" for alias in node.names}
            found |= inside & modules().keys() or {node.module}
    return found & modules().keys()


def test_no_class_has_the_name_of_another() -> None:
    where = defaultdict(list)
    for module, tree in modules().items():
        for node in ast.walk(tree):
            if isinstance(node, ast.ClassDef):
                where[node.name].append(module)
    assert len(where) > 300
    assert {name: modules for name, modules in where.items() if len(modules) > 1} == {}


def test_no_modules_import_each_other() -> None:
    graph = {module: imported(tree) for module, tree in modules().items()}
    assert sum(map(len, graph.values())) > 500
    try:
        TopologicalSorter(graph).prepare()
    except CycleError as circle:
        raise AssertionError(" -> ".join(circle.args[1])) from None


OPTION = re.compile(r"(?:^|[\s`(\"'])--[a-z]|`tacklebox ")


def sentences(tree: ast.Module) -> Iterator[str]:
    """The words of a module that are shown to anyone: its strings but the docstrings."""
    docstrings = {
        id(node.body[0].value)
        for node in ast.walk(tree)
        if isinstance(node, ast.Module | ast.ClassDef | ast.FunctionDef)
        and node.body
        and isinstance(node.body[0], ast.Expr)
    }
    for node in ast.walk(tree):
        if (
            isinstance(node, ast.Constant)
            and isinstance(node.value, str)
            and id(node) not in docstrings
        ):
            yield node.value


def test_only_the_command_line_knows_its_options_and_only_faces_print() -> None:
    below = {
        module: tree
        for module, tree in modules().items()
        if not module.startswith(("tacklebox.cli", "tacklebox.web"))
    }
    assert len(below) > 200
    named = [
        (module, s) for module, tree in below.items() for s in sentences(tree) if OPTION.search(s)
    ]
    assert named == []
    printing = [
        module
        for module, tree in below.items()
        for node in ast.walk(tree)
        if isinstance(node, ast.Name) and node.id == "print"
    ]
    assert printing == []


def test_what_is_imported_is_declared() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    declared = {re.split(r"[^\w-]", line)[0].lower() for line in project["dependencies"]}
    imports = {
        (node.module or "") if isinstance(node, ast.ImportFrom) else node.names[0].name
        for tree in modules().values()
        for node in ast.walk(tree)
        if isinstance(node, ast.Import | ast.ImportFrom)
    }
    others = {name.partition(".")[0] for name in imports} - sys.stdlib_module_names - {"tacklebox"}
    known = packages_distributions()
    missing = {name for name in others if not declared & {d.lower() for d in known.get(name, ())}}
    assert len(others) > 10
    assert missing == set()
