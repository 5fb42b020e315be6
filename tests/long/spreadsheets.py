"""Saving CSV again with a spreadsheet itself, LibreOffice without a window, as one of its countries would.

``python -m tests.long.spreadsheets`` writes the files of tests/stock/spreadsheets anew: what it made of
cells as they are exported, and of the same texts as they are.
"""

import csv
import shutil
import subprocess
import tempfile
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from tacklebox.stock.care.cells import write_cell
from tests.stock.full_box import ODD

SOFFICE = shutil.which("soffice")
KEPT = Path(__file__).parents[1] / "stock" / "spreadsheets"
UTF_8 = 76
FIGURES = (0.125, 1.5, 30.0, -20.0, 1234.5, 0.04, 1e-05, 18, 10**15, "2026-03-05")
_COUNTRIES = {"en-GB": (2057, 44), "de-DE": (1031, 59)}  # the language's number, the separator
_SETTINGS = """<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry" xmlns:xs="http://www.w3.org/2001/XMLSchema">
<item oor:path="/org.openoffice.Setup/L10N"><prop oor:name="ooSetupSystemLocale" oor:op="fuse">
<value>{country}</value></prop></item></oor:items>
"""


@dataclass(frozen=True)
class Saving:
    """One way of opening CSV and saving it again.

    ``knows_dates``: it looks for dates, fractions and percentages, too. ``asked``: it was told that the file
    is UTF-8; else it takes it for the older encoding of its country.
    """

    country: str
    knows_dates: bool = True
    by_xlsx: bool = False
    quotes_all: bool = False
    asked: bool = True

    def __str__(self) -> str:
        parts = [self.country, "dates" if self.knows_dates else "numbers"]
        parts += ["by-xlsx"] * self.by_xlsx + ["quoted"] * self.quotes_all
        return "-".join([*parts, *["unasked"] * (not self.asked)])


SAVINGS = (
    *(Saving(country, dates) for country in _COUNTRIES for dates in (True, False)),
    *(Saving(country, by_xlsx=True) for country in _COUNTRIES),
    *(Saving(country, quotes_all=True) for country in _COUNTRIES),
    *(Saving(country, knows_dates=False, asked=False) for country in _COUNTRIES),
)


def save_again(folder: Path, saving: Saving) -> None:
    """Each CSV of the folder, opened and saved over itself. Raises CalledProcessError."""
    language, separator = _COUNTRIES[saving.country]
    files = sorted(folder.glob("*.csv"))
    opened = f"CSV:44,34,{UTF_8},1,,{language},false,{str(saving.knows_dates).lower()}"
    saved = f"csv:Text - txt - csv (StarCalc):{separator},34,{UTF_8},1,,0,{{}},true,false"
    saved = saved.format(str(saving.quotes_all).lower())
    with tempfile.TemporaryDirectory() as made:
        between = Path(made)
        if saving.by_xlsx:
            _convert(files, between / "xlsx", "xlsx", opened, saving.country)
            _convert((between / "xlsx").glob("*.xlsx"), between / "csv", saved, "", saving.country)
        else:
            _convert(files, between / "csv", saved, opened if saving.asked else "", saving.country)
        for path in files:
            shutil.copyfile(between / "csv" / path.name, path)


def _convert(files: Iterable[Path], to: Path, form: str, opened: str, country: str) -> None:
    assert SOFFICE is not None
    with tempfile.TemporaryDirectory() as profile:
        (Path(profile) / "user").mkdir()
        settings = Path(profile, "user", "registrymodifications.xcu")
        settings.write_text(_SETTINGS.format(country=country), encoding="utf-8")
        command = [SOFFICE, f"-env:UserInstallation={Path(profile).as_uri()}", "--headless"]
        command += [f"--infilter={opened}"] * bool(opened)
        command += ["--convert-to", form, "--outdir", str(to), *map(str, files)]
        subprocess.run(command, check=True, capture_output=True, timeout=300)


def main() -> None:
    """Write what it makes of cells, in two columns beside their number: as exported, and as they are."""
    KEPT.mkdir(exist_ok=True)
    for saving in SAVINGS:
        with tempfile.TemporaryDirectory() as made:
            path = Path(made, "cells.csv")
            with path.open("w", encoding="utf-8-sig", newline="") as file:
                to = csv.writer(file)
                to.writerow(["number", "exported", "plain"])
                for number, cell in enumerate([*ODD, *FIGURES]):
                    to.writerow([number, write_cell(cell), cell])
            save_again(Path(made), saving)
            shutil.copyfile(path, KEPT / f"{saving}.csv")


if __name__ == "__main__":
    main()
