"""What was understood at once and may as well be meant otherwise is asked: "caster hooks 20" are of size 20
or twenty of them, "hooks 16 x 10" ten hooks or ten packets, "3 AAA wagglers" three floats or what one takes.

Each way of saying it both ways is a rule of its own; what an item's own words say in full is never asked.
    numbers         a size or how many, pieces or packets, what one takes or how many they are
    amounts         "a few", "bit of it left", a number that only the note has
    kinds           one word for several things, one float of two stems
    terse           entries of two words: "8 elastic", "line 5"
    left_over       a number of a note that names another thing, or what a packet holds
    open_questions  what may be meant, too, where something is asked already
    said            what these look at
"""

from tacklebox.stock.naming.described import Described, Question
from tacklebox.stock.naming.either import amounts, kinds, numbers, terse
from tacklebox.stock.naming.either.open_questions import with_more
from tacklebox.stock.naming.writing import write_with_pack

_RULES = (*terse.RULES, *kinds.RULES, *numbers.RULES, *amounts.RULES)


def or_either(text: str, made: Described | Question) -> Described | Question:
    """What was read, or the question which of two ways of taking the words is meant."""
    if isinstance(made, Question):
        return with_more(text, made)
    if write_with_pack(made).lower() == text.lower():
        return made
    return next((question for rule in _RULES if (question := rule(text, made))), made)
