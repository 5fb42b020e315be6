"""What is looked for, said as anglers say it: "where did i put the 20s", "have i any big cage feeders"."""

import re
from collections.abc import Iterator

from tacklebox.stock.naming.everyday import EVERYDAY
from tacklebox.stock.naming.hand import FILLERS, singular
from tacklebox.stock.naming.lexicon import vocabulary
from tacklebox.stock.naming.slips import likely_words
from tacklebox.stock.naming.talk import without_talk
from tacklebox.stock.naming.tokens import tokenise
from tacklebox.stock.naming.words import SIZE_WORDS

_ASKS = re.compile(
    r"^(?:(?:have|has|had|got|is|are|there|we|i|you|me|my|any|anything|something|owt|what|which|where|whats|"
    r"how|many|much|left|do|did|put|in|of|with|for|the|a|find|show|see|look|looking|all)\b[\s,]*)+",
    re.IGNORECASE,
)
_NUMBERED = re.compile(r"\bno\.?\s*(\d+)s?\b")
_SIZES = frozenset(word for forms in SIZE_WORDS.values() for word in forms.split(", "))


def plainly(said: str) -> str:
    """The words without what is asked round them, figures as they are written.

    >>> plainly("have I got any cage feeders left?"), plainly("point one four"), plainly("anything in 3bb")
    ('cage feeders', '0.14', '3bb')
    """
    plain = without_talk(said.strip(" ?!.")).words
    plain = re.sub(r"\s+(?:left|anywhere|still|then)$", "", _ASKS.sub("", plain) or plain)
    spoken = [token.said for token in tokenise(plain)]
    return " ".join(spoken) if re.match(r"(?:point|nought|oh)\b", plain, re.IGNORECASE) else plain


def ways_to_say(plain: str) -> Iterator[str]:
    """The words with slips put right, then without those that name nothing, then without how big it is."""
    words = [_put_right(word) for word in _NUMBERED.sub(r"no~\1", plain.lower()).split()]
    words = [word.replace("~", " ") for word in words]  # "no 6" is one word here
    yield " ".join(words)
    telling = [word for word in words if _names(word)]
    for some in (telling, [word for word in telling if word not in _SIZES]):
        if some:
            yield " ".join(
                singular(word) if word.isalpha() else word.removesuffix("s") for word in some
            )


def _put_right(word: str) -> str:
    likely = likely_words(word) if word.isalpha() and word not in vocabulary() else []
    return likely[0] if likely else word


def _names(word: str) -> bool:
    """Whether it is a figure or a word of the trade, and none that only joins others."""
    return not word.isalpha() or (word in vocabulary() and word not in (*EVERYDAY, *FILLERS))
