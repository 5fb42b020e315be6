"""The house rules: lint, format, types, and which room may import which."""

import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
RULES = {
    "lint": ["ruff", "check", "."],
    "format": ["ruff", "format", "--check", "."],
    "types": ["mypy"],
    "borders": ["lint-imports"],
}


@pytest.mark.parametrize("rule", RULES)
def test_rule(rule: str) -> None:
    program, *words = RULES[rule]
    beside = Path(sys.executable).with_name(program)
    done = subprocess.run([beside, *words], cwd=ROOT, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr


def test_top_level_holds_what_it_should() -> None:
    listed = subprocess.run(
        ["git", "ls-files"], cwd=ROOT, capture_output=True, text=True, check=True
    )
    tops = {line.partition("/")[0] for line in listed.stdout.splitlines()}
    assert {t for t in tops if not t.startswith(".")} <= {
        *("README.md", "DEVELOPERS.md", "pyproject.toml"),
        *("tacklebox", "tests", "labels", "recipes"),
    }
