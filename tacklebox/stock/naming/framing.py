"""One way to take the numbers of a phrase: what is left of it once packets and pieces are taken out."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

from tacklebox.stock.naming.tokens import Token

MOST = 10_000
MOST_SPOOLS = 12  # that a bare number may be
FEW = 5  # fewer are hardly in one packet


@dataclass(frozen=True, slots=True)
class Framing:
    """What is left of a phrase once packets and numbers of pieces are taken from it.

    ``times``: "hooks x 25" is a packet of so many, "feeder 30 g x 3" so many pieces. ``vessel`` is "spool"
    or "tub" where it is said to come in one. ``behind``: the count stood last, as a size may; ``spools``: so
    many of a thing are spools of it; ``either``: they may be packets or pieces; ``told``: the count stood
    with "x" or "of"; ``loose``: a bare number was taken for so many spools, which is never sure.
    """

    tokens: tuple[Token, ...]
    pack: int | None = None
    times: int | None = None
    packs: int | None = None
    count: int | None = None
    vessel: str = ""
    behind: bool = False
    spools: bool = False
    either: bool = False
    told: bool = False
    loose: bool = False

    def take(self, at: int, end: int, **found: int) -> "Framing":
        """Without the tokens from ``at`` to ``end``, and with what they said."""
        left = replace(self, tokens=self.tokens[:at] + self.tokens[end:])
        return replace(left, **found)  # type: ignore[arg-type]


Rule = Callable[[Framing], Iterator[Framing]]


def is_many(token: Token) -> bool:
    """Whether it may be so many: a whole number that nothing calls a size."""
    return (
        token.whole and token.lead in ("", "count") and not token.plural and 0 < token.value <= MOST
    )


def said_at(frame: Framing, at: int) -> str:
    """The word, sign or figure there, "" beyond the ends."""
    return frame.tokens[at].text if 0 <= at < len(frame.tokens) else ""
