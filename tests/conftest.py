"""What every test finds: folders in memory, new boxes copied from one that was made, a calm collector."""

import gc
import os
import shutil
import sys
import tempfile
import threading
from collections.abc import Generator, Iterator
from pathlib import Path
from unittest.mock import patch

import pytest
from _pytest.doctest import DoctestModule
from hypothesis import settings
from sqlalchemy import Engine, create_engine

from tacklebox.stock.care import box as boxes
from tacklebox.stock.care import schema
from tacklebox.stock.care.waiting import Notice
from tests.copied_boxes import Original, is_empty

collect_ignore = ["long/mutants.py"]  # a program that loads much and has no examples
IN_MEMORY, ROOM = Path("/dev/shm"), 2**30


def pytest_configure() -> None:
    """Nothing that is tested outlives a power cut, so that no test need wait for a disk.

    Nor need the programs that are run read all of their source each time. Properties are tried on
    the same cases each time; the long set looks for new ones.
    """
    gc.set_threshold(500_000)  # until all is imported: hardly anything of it goes
    if not os.environ.get("TACKLEBOX_LONG"):
        settings.load_profile("ci")
    if IN_MEMORY.is_dir() and shutil.disk_usage(IN_MEMORY).free > ROOM:
        tempfile.tempdir = os.environ.setdefault("TMPDIR", str(IN_MEMORY))
    os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
    sys.dont_write_bytecode = False


@pytest.hookimpl(wrapper=True)
def pytest_collect_file() -> Generator[None, list[pytest.Collector], list[pytest.Collector]]:
    """Tests have no examples in their docstrings: nobody need look for them."""
    return [one for one in (yield) if not isinstance(one, DoctestModule)]


def pytest_collection_finish() -> None:
    """What was imported stays to the end: no collection need look through it again and again."""
    gc.collect()
    gc.freeze()
    gc.set_threshold(20_000, 20, 20)


@pytest.fixture(scope="session", autouse=True)
def _queries_are_compiled_once() -> Iterator[None]:
    """For all boxes together: each box's engine would compile each query anew."""
    make_engine, first = boxes._engine, create_engine("sqlite://")
    first.connect().close()

    def engine_of(database: Path, notice: Notice, threads: int) -> Engine:
        made = make_engine(database, notice, threads)
        made.dialect, made._compiled_cache = first.dialect, first._compiled_cache
        return made

    with patch.object(boxes, "_engine", engine_of):
        yield


@pytest.fixture(scope="session", autouse=True)
def _new_boxes_are_copies() -> Iterator[None]:
    """The tables of a new box are made once, and copied for each box that is made after it.

    What makes them stays as it is for the first, where a test changed the tables, and in the programs
    that tests run.
    """
    make_or_verify, make_tables = boxes._make_or_verify, schema.make_tables
    version, one_by_one = schema.SCHEMA_VERSION, threading.Lock()
    with tempfile.TemporaryDirectory() as folder:
        original = Original(boxes.open_box(Path(folder)))

    def copied(box: boxes.Box) -> None:
        if vars(boxes)["make_tables"] is make_tables and version == schema.SCHEMA_VERSION:
            with one_by_one:
                if is_empty(box.folder):
                    original.copy(box.database)
        make_or_verify(box)

    with patch.object(boxes, "_make_or_verify", copied):
        yield
