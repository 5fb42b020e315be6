"""The pack list as a page to tick off in the shed."""

from collections.abc import Sequence
from itertools import groupby

from tacklebox.matches.before.pack import FIRST, PackList, Section
from tacklebox.outputs import Target
from tacklebox.printing.pages.tick_page import Printed, TickPage, print_ticks

COLUMNS = 2  # codes are short
TO_WRITE = "Peg ……………   Weighed in ………………   Lost …………………………"  # what the debrief asks for


def print_pack_list(
    packing: PackList, target: Target, *, page: str = "a4", overwrite: bool = False
) -> Printed:
    """Write the pack list on one page where it has room.

    Type is never below 12 pt, nor below 9 pt where it is read at the water, in the hand; what finds
    no room in that goes on to a second page: what is read at the water stands overleaf. Raises as
    ``tick_page.print_ticks``.
    """

    def fill(made: TickPage) -> None:
        made.name(packing.title)
        for fact in packing.facts:
            made.say(fact)
        made.say(TO_WRITE)
        urgent = [s for s in packing.sections if s.heading == FIRST]
        for section in urgent:
            _fill(made, section)
        made.columns_from_here()
        packed = [s for s in packing.sections if s not in urgent]
        for is_read, sections in groupby(packed, key=lambda s: s.at_the_water):
            if is_read:
                made.read_in_hand()
            for section in sections:
                _fill(made, section)

    title = f"Pack list, {packing.title}"
    return print_ticks(fill, target, title=title, page=page, columns=COLUMNS, overwrite=overwrite)


def _fill(made: TickPage, section: Section) -> None:
    made.head(section.heading)
    for is_tick, entries in groupby(section.entries, key=lambda e: e.tick):
        if is_tick:
            _fill_ticks(made, [(e.first, e.words) for e in entries])
            continue
        for entry in entries:
            made.say(entry.words, first=entry.first, strong=entry.strong)


def _fill_ticks(made: TickPage, entries: Sequence[tuple[str, str]]) -> None:
    """Those that read alike share their words, the others stand in columns."""
    runs = [(entry, len(list(same))) for entry, same in groupby(entries)]
    for is_same, some in groupby(runs, key=lambda run: run[1] > 1 and not run[0][1]):
        if is_same:
            for (first, _), count in some:
                made.tick_row(count, first)
        else:
            made.ticks([entry for entry, count in some for _ in range(count)])
