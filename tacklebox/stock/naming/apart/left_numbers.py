"""A number that no reading took but as a note may say how many there are: "quickstops small clear, 40-odd
left". It is offered last of all."""

from dataclasses import replace

from tacklebox.stock.naming.asking import MOST_READINGS
from tacklebox.stock.naming.described import Described, Question
from tacklebox.stock.naming.numbers import count_of
from tacklebox.stock.naming.own import is_own
from tacklebox.stock.naming.turns import SPOKEN, saying
from tacklebox.stock.tables import MEASURED_KINDS

_BARE = saying(
    rf"(?<![\w.×/£-])(?P<many>\d{{1,2}}|{SPOKEN})(?:\s*-?\s*odd)?(?![\w./×-])"
    r"(?!\s*(?:mm|cm|m|ft|in|inch|g|oz|lb|kg|bb|aaa|ssg|no|x|p|yrs?|years?)\b)"
)
_IN_DOUBT = ("word", "count", "mass", "size", "shape", "sort", "mark", "price", "pack")


def or_so_many_noted(made: Described | Question) -> Described | Question:
    """The question with its likeliest thing in as many as its note says."""
    if not isinstance(made, Question) or made.about not in _IN_DOUBT:
        return made
    first = next((one for one in made.readings if not is_own(one)), None)
    if first is None or first.count or first.packs or first.kind in MEASURED_KINDS:
        return made
    counts = {one.count for one in made.readings}
    more: list[Described] = []
    for found in _BARE.finditer(first.note):
        many = count_of(found["many"])
        if many > 1 and many not in counts:
            rest = f"{first.note[: found.start()]}{first.note[found.end() :]}".strip(" ,")
            more.append(replace(first, count=many, note=" ".join(rest.split())))
    room = MOST_READINGS - len(made.readings)
    return replace(made, readings=(*made.readings, *more[: max(room, 0)])) if more else made
