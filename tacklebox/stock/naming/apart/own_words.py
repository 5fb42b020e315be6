"""A thing of his own words where no kind of tackle is sure, with its amounts taken off its name: "float tips,
hollow red 1.5mm, 6" may be kept as six "float tips, hollow red 1.5mm"."""

import re
from dataclasses import replace

from tacklebox.stock.naming.apart.alike import says_amounts
from tacklebox.stock.naming.apart.amounts import amounts_apart
from tacklebox.stock.naming.apart.counted import with_amounts
from tacklebox.stock.naming.asking import MOST_READINGS
from tacklebox.stock.naming.described import Described, Question
from tacklebox.stock.naming.own import is_own, own_thing
from tacklebox.stock.naming.turns import saying
from tacklebox.stock.naming.writing import as_written

_QUOTED = re.compile(r"['\"‘’“”]")
_NO_LABEL = saying(
    r"\b(?:no|without|lost\s+the)\s+labels?\b|\bunlabell?ed\b|\blabels?\s+(?:gone|off|missing|lost|torn|worn)"
    r"|\bunknown\b|\bno\s+idea\b|\bdon'?t\s+know\b"
)
_UNSURE = ("word", "kind", "shape", "mark", "mass")


def or_by_own_words(text: str, made: Described | Question) -> Described | Question:
    """The question with the thing of his own words at its end, in so many as he said."""
    unknown = _NO_LABEL.search(text)  # of line without one nobody knows anything
    unsure = (*_UNSURE, *(("diameter", "strain") if unknown else ()))
    if not isinstance(made, Question) or made.about not in unsure:
        return made
    said = amounts_apart(text)
    alone = own_thing(said.name) if said else own_thing(text)
    own = with_amounts(alone, said) if alone and said else alone
    known = [one for one in made.readings if is_own(one)]
    if known and (said is None or any(says_amounts(one) for one in known)):
        return made
    unclear = said or unknown or made.about == "kind" or any(one.note for one in made.readings)
    if own is None or not unclear or _QUOTED.search(own.words_of("sort")):
        return made
    rest = tuple(one for one in made.readings if not (is_own(one) and _is_all_of_it(one, own)))
    if len(rest) >= MOST_READINGS:
        return made
    return replace(made, readings=(*rest, as_written(own)))


def _is_all_of_it(one: Described, own: Described) -> bool:
    """Whether a thing of his own words has most of them: "pliers" is another thing than the crimps."""
    return 2 * len(one.words_of("sort")) > len(own.words_of("sort"))
