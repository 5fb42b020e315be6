"""The table of outside checks, and the list of the figures that have none, are as they should be."""

from collections.abc import Iterable

from tacklebox.trade.floats import POLE_MARKS
from tacklebox.trade.knots import KNOTS
from tacklebox.trade.line import MATERIALS
from tacklebox.trade.shot import SHOT, STYLS, WEIGHT_MATERIALS
from tacklebox.trade.sources import Basis, Source
from tests.outside import KINDS
from tests.outside.figures import figures, without_check
from tests.outside.table import outside_checks

CLASSES = (Basis.MEMORY, Basis.COMMON, Basis.CHOICE)


def test_there_are_at_least_eighty_outside_checks_each_said_once() -> None:
    checks = outside_checks()
    assert len(checks) >= 80
    assert len({(one.what, one.against) for one in checks}) == len(checks)
    for one in checks:
        assert one.kind in KINDS, one
        assert one.what, one
        assert len(one.against) > 5, one


def test_published_sources_are_checked_in_numbers() -> None:
    kinds = [one.kind for one in outside_checks()]
    assert kinds.count("published") >= 30
    assert all(kinds.count(kind) >= 5 for kind in KINDS)


def test_figures_without_an_outside_check_stand_as_they_are_listed() -> None:
    """A figure that is changed, renamed or new is not listed as it now is: list it anew, or check it."""
    now = {one.name: one.value for one in figures()}
    assert len(now) == len(figures())
    for name, (value, of) in without_check().items():
        assert name in now, f"{name} is listed, but is no figure any more"
        assert now[name] == value, f"{name} is {now[name]}, listed as {value}"
        assert of in CLASSES, name


def listed_as(table: str, entries: Iterable[tuple[str, Source]]) -> None:
    """What the code says an entry rests on is what the list says; what is published is not listed."""
    listed = without_check()
    for word, source in entries:
        found = {of for name, (_, of) in listed.items() if name.startswith(f"{table} {word}")}
        expected = set() if source.basis is Basis.PUBLISHED else {str(source.basis)}
        assert found >= expected, (word, found)
        if source.basis is Basis.PUBLISHED:
            assert f"{table} {word}" not in listed, word


def test_the_list_and_the_code_say_the_same_of_where_figures_are_from() -> None:
    listed_as("shot.SHOT", [(shot.mark, shot.source) for shot in SHOT])
    listed_as("shot.STYLS", [(styl.mark, styl.source) for styl in STYLS])
    listed_as("shot.WEIGHT_MATERIALS", [(one.name, one.source) for one in WEIGHT_MATERIALS])
    listed_as("floats.POLE_MARKS", [(mark, source) for mark, (_, source) in POLE_MARKS.items()])
    listed_as("line.MATERIALS", [(one.name, one.density_source) for one in MATERIALS])
    listed_as("knots.KNOTS", [(knot.name, knot.source) for knot in KNOTS])
