"""Names that keep the house readable: no class of one name in two rooms."""

import ast
from collections import defaultdict
from pathlib import Path

ROOT = Path(__file__).parents[2]
FILES = sorted((ROOT / "tacklebox").rglob("*.py"))


def module_of(file: Path) -> str:
    return ".".join(file.relative_to(ROOT).with_suffix("").parts).removesuffix(".__init__")


MODULES = {module_of(file): ast.parse(file.read_text(encoding="utf-8")) for file in FILES}


def test_no_class_has_the_name_of_another() -> None:
    where = defaultdict(list)
    for module, tree in MODULES.items():
        for node in ast.walk(tree):
            if isinstance(node, ast.ClassDef):
                where[node.name].append(module)
    assert len(where) > 300
    assert {name: modules for name, modules in where.items() if len(modules) > 1} == {}
