"""Which tackle may stand for which: a rolling swivel is a swivel, a flat method feeder a method feeder.

All of it is common practice.
"""

from collections.abc import Mapping

from tacklebox.stock.naming.weights import BOMBS

IS_A: Mapping[str, str] = {
    **{lead: "bomb" for lead in BOMBS if lead != "bomb"},
    **dict.fromkeys(("flat method", "hybrid"), "method"),
    "maggot": "block-end",
    **dict.fromkeys(("rolling swivel", "quick-change swivel", "three-way swivel"), "swivel"),
    **dict.fromkeys(("ledger bead", "rubber bead", "buffer bead"), "bead"),
    **dict.fromkeys(("float stop", "line stop"), "stop"),
    "run ring": "ring",
    **dict.fromkeys(("silicone tube", "shrink tube"), "tube"),
    **dict.fromkeys(("anti-tangle sleeve", "tail rubber"), "sleeve"),
    "quick link": "snap link",
}


def general(word: str) -> str:
    """What a thing of that name is a kind of; itself where it is of no other.

    >>> general("rolling swivel"), general("swivel")
    ('swivel', 'swivel')
    """
    return IS_A.get(word, word)


def kinds_of(word: str) -> frozenset[str]:
    """The thing of that name and all that are a kind of it.

    >>> sorted(kinds_of("method"))
    ['flat method', 'hybrid', 'method']
    """
    return frozenset({word, *(kind for kind, of in IS_A.items() if of == word)})
