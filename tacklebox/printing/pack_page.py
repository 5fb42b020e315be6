"""The pack list as a page to tick off in the shed."""

from itertools import groupby
from pathlib import Path

from tacklebox.matches.pack import FIRST, PackList, Section
from tacklebox.printing.tick_page import Printed, TickPage, print_ticks

COLUMNS = 2  # codes are short


def print_pack_list(
    packing: PackList, target: Path, *, page: str = "a4", overwrite: bool = False
) -> Printed:
    """Write the pack list on one page where it has room.

    Type is never below 12 pt; what finds no room in that goes on to a second page: what is read at
    the water stands overleaf. Raises as ``tick_page.print_ticks``.
    """

    def fill(made: TickPage) -> None:
        made.name(packing.title)
        for fact in packing.facts:
            made.say(fact)
        urgent = [s for s in packing.sections if s.heading == FIRST]
        for section in urgent:
            _fill(made, section)
        made.columns_from_here()
        packed = [s for s in packing.sections if s not in urgent]
        for is_read, sections in groupby(packed, key=lambda s: s.at_the_water):
            if is_read:
                made.overleaf()
            for section in sections:
                _fill(made, section)

    title = f"Pack list, {packing.title}"
    return print_ticks(fill, target, title=title, page=page, columns=COLUMNS, overwrite=overwrite)


def _fill(made: TickPage, section: Section) -> None:
    made.head(section.heading)
    for is_tick, entries in groupby(section.entries, key=lambda e: e.tick):
        if is_tick:
            made.ticks([(e.first, e.words) for e in entries])
            continue
        for entry in entries:
            made.say(entry.words, first=entry.first, strong=entry.strong)
