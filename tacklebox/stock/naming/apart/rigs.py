"""A hooklength that is called a rig, with all that is said of it: "quickstop rigs, 12 to 0.19, pkt 6"."""

from dataclasses import replace

from tacklebox.stock.naming.apart.alike import is_more_of
from tacklebox.stock.naming.described import Described, IsReadBack, Question, Reads, if_understood
from tacklebox.stock.naming.in_turn import ENTERED
from tacklebox.stock.naming.own import is_own
from tacklebox.stock.naming.turns import saying
from tacklebox.stock.tables import Kind

_RIGS = saying(r"\b(?:(?:pole|bomb)\s+)?rigs?\b(?:\s+(?:hook\s*-?\s*l[a-z]*|h/?ls?)\b)?")
_ON_A_FLOAT = saying(r"\bfloats?\b|\bwinders?\b|\d\s*x\s*\d\d")  # a whole rig
_SAYS_ALL = ("count", "packs", "word", "price")  # the hooklength is sure, not so many of it


def or_whole_hooklength(
    text: str, made: Described | Question, reads: Reads, is_read_back: IsReadBack
) -> Described | Question:
    """The question of a rig's parts, its hooklength with its length and how many there are."""
    if not isinstance(made, Question) or made.see != ENTERED or _ON_A_FLOAT.search(text):
        return made
    one = if_understood(_RIGS.sub("hooklengths", text, count=1), reads)
    if one is None or (isinstance(one, Question) and one.about not in _SAYS_ALL):
        return made
    tied = [r for r in one.readings if r.kind is Kind.HOOKLENGTH and not is_own(r)][:2]
    if not tied or not all(map(is_read_back, tied)):
        return made
    rest = [r for r in made.readings if not any(is_more_of(t, r) for t in tied)]
    return replace(made, readings=(*tied, *rest))
