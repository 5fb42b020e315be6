"""Mutants that mutmut does not make: of SQL, of decorated functions, of figures outside functions.

Each is written into a copy of the checkout and the tests of its file are run on it. Those that live
are shown, then how many of each file were killed: ``python -m tests.long.mutants [FILE ...]``.
"""

import os
import re
import shutil
import signal
import sys
import tempfile
from collections import Counter
from collections.abc import Iterator
from difflib import unified_diff
from pathlib import Path

import libcst as cst
from mutmut.mutation.file_mutation import MutationVisitor
from mutmut.mutation.mutators import mutation_operators, operator_string
from mutmut.mutation.pragma_handling import IgnoredCode

ROOT = Path(__file__).parents[2]
SECONDS = 120  # what takes longer has lost its way
TESTS = {  # of each file, those of its own room: tests/ROOM/test_*.py
    "stock/care/triggers.py": ("rules", "audit", "undo"),
    "stock/ledger.py": ("ledger", "entering"),
    "stock/care/audit.py": ("audit", "rules"),
    "stock/care/box.py": ("box", "ledger", "upgrade", "bad_days", "csv_file"),
    "trade/strength.py": ("strength_edges", "strength"),
    "rigs/checking/check.py": ("check",),
}
QUICK = "not read_only and not cut"  # of test_bad_days: what needs no process of its own
SQL = re.compile(r"\b(SELECT|UPDATE|INSERT|DELETE|WHEN|PRAGMA|BEGIN)\b")
TURNS = [
    (r"WHEN (.+?)(?=\s+BEGIN\b|\"*$)", r"WHEN NOT (\1)"),
    (r"(?<=OF )\w+, ", ""),
    (r", \w+(?=[\w, ]* ON (item|tied)\b)", ""),
    (r"<>", "="),
    (r"(?<=id )=(?= )", "<>"),
    (r"<=", "<"),
    (r" < 0", " <= 0"),
    (r"\bIS NOT\b", "IS"),
    (r"\bOR\b", "AND"),
    (r"\bAND\b", "OR"),
    (r" \+ ", " - "),
    (r" - ", " + "),
    (r" -(?=amount)", " "),
    (r"\bmax\(", "min("),
    (r"\bEXISTS\b", "NOT EXISTS"),
    (r" DESC\b", ""),
    (r"\bNEW\b", "OLD"),
    (r"(?<=, )OLD\b", "NEW"),
    (r"\bLEFT JOIN\b", "JOIN"),
    (r"\bUNION ALL\b", "UNION"),
    (r"coalesce\((\w+), 0\)", r"\1"),
    (r"\bBEGIN IMMEDIATE\b", "BEGIN"),
    (r"= (ON|FULL)\b", "= OFF"),
]


def turned_sql(text: str) -> Iterator[str]:
    """The text with each turn at each place where it fits."""
    for pattern, by in TURNS if SQL.search(text) else ():
        for found in re.finditer(pattern, text, re.DOTALL):
            yield text[: found.start()] + found.expand(by) + text[found.end() :]


class Unreached(MutationVisitor):
    """Makes mutmut's own mutations where mutmut itself makes none, and turns SQL wherever it stands."""

    def __init__(self) -> None:
        operators = [one for one in mutation_operators if one[1] is not operator_string]
        super().__init__(operators, IgnoredCode(set(), set(), set()))
        self.sql: list[tuple[cst.CSTNode, cst.CSTNode]] = []

    def _skip_node_and_children(self, node: cst.CSTNode) -> bool:
        decorated = isinstance(node, cst.FunctionDef) and node.decorators
        return not decorated and super()._skip_node_and_children(node)

    def on_visit(self, node: cst.CSTNode) -> bool:
        if isinstance(node, cst.SimpleString | cst.FormattedStringText):
            self.sql += [(node, node.with_changes(value=text)) for text in turned_sql(node.value)]
        return super().on_visit(node)


def mutants(path: Path) -> Iterator[str]:
    """The text of the file, mutated in one place each."""
    code = path.read_text(encoding="utf-8")
    seen = Unreached()
    module = cst.MetadataWrapper(cst.parse_module(code)).visit(seen)
    for mutation in seen.mutations:
        inside, old = mutation.contained_by_top_level_function, mutation.original_node
        unreached = (
            bool(inside.decorators) if isinstance(inside, cst.FunctionDef) else _is_figure(old)
        )
        if unreached or (inside and path.name == "rules.py"):  # which runs when it is imported
            yield _replaced(module, old, mutation.mutated_node)
    for old, new in seen.sql:
        yield _replaced(module, old, new)
    names = [a or b for a, b in re.findall(r"CREATE TRIGGER (\w+)|_refuse\(\s*\"(\w+)", code)]
    for table in re.findall(r"\*_written_once\(\"(\w+)", code):
        names += [f"{table}_is_never_{end}" for end in ("changed", "deleted", "replaced")]
    for name in names:  # each trigger left out
        yield f"{code}\nRULES = tuple(r for r in RULES if r.split()[2] != {name!r})\n"


def _replaced(module: cst.Module, old: cst.CSTNode, new: cst.CSTNode) -> str:
    return cst.ensure_type(module.deep_replace(old, new), cst.Module).code


def _is_figure(node: cst.CSTNode) -> bool:
    return isinstance(node, cst.BaseNumber | cst.BinaryOperation | cst.UnaryOperation)


def outcome(copy: Path, name: str) -> str:
    """Run the file's tests on the copy in a process of their own."""
    tests = [f"tests/{name.partition('/')[0]}/test_{one}.py" for one in TESTS[name]]
    child = os.fork()
    if not child:
        import pytest

        signal.alarm(SECONDS)
        sys.stdout = sys.stderr = open(os.devnull, "w")  # noqa: PTH123, SIM115
        os.chdir(copy)
        for name in [name for name in sys.modules if name.split(".")[0] == "tests"]:
            del sys.modules[name]
        sys.path.insert(0, str(copy))
        plain = ["-x", "-p", "no:cacheprovider", "--hypothesis-profile=ci", "-k", QUICK]
        os._exit(int(pytest.main([*plain, *tests])))
    ended = os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])
    return {0: "lived", -signal.SIGALRM: "timed out"}.get(ended, "killed")


def main(names: list[str]) -> None:
    """Mutate the named files, else all; the parent never imports what is mutated."""
    import hypothesis  # noqa: F401  (loaded once for all children, as are those below)
    import pytest  # noqa: F401
    import scipy.stats  # type: ignore[import-untyped]  # noqa: F401
    import sqlmodel  # noqa: F401

    # A mutant of the same size and second would be taken for the one before it.
    sys.dont_write_bytecode = True
    with tempfile.TemporaryDirectory() as folder:
        copy = Path(folder) / "checkout"
        hidden = shutil.ignore_patterns(".*", "__pycache__", "mutants")
        shutil.copytree(ROOT, copy, ignore=hidden)
        for name in names or TESTS:
            path = copy / "tacklebox" / name
            code, counts = path.read_text(encoding="utf-8"), Counter[str]()
            if outcome(copy, name) != "lived":
                sys.exit(f"{name}: its tests fail before anything is mutated")
            for mutant in dict.fromkeys(mutants(path)):
                path.write_text(mutant, encoding="utf-8")
                what = outcome(copy, name)
                counts[what] += 1
                if what != "killed":
                    changed = unified_diff(code.splitlines(), mutant.splitlines(), n=0, lineterm="")
                    print(f"{name}: {what}", *list(changed)[2:], sep="\n  ", flush=True)
            path.write_text(code, encoding="utf-8")
            print(f"{name}: {dict(counts)}", flush=True)


if __name__ == "__main__":
    main(sys.argv[1:])
