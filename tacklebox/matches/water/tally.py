"""What a record adds up to: fish and weight by net and species, what was lost, what was changed."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from tacklebox.matches.water.record import Did, Tap
from tacklebox.trade.fish import NET_OF


@dataclass(frozen=True)
class Heap:
    """So many fish and what those weigh of which it was said, in g."""

    name: str
    fish: int
    weighed: int
    weighs_g: float


@dataclass(frozen=True)
class Tally:
    """What was caught by net, species and rig, rigs and hooklengths lost and worn out, and words."""

    nets: tuple[Heap, ...]
    species: tuple[Heap, ...]
    rigs: tuple[Heap, ...]
    lost: tuple[str, ...]
    worn_out: tuple[str, ...]
    hooklengths_lost: tuple[tuple[int, int], ...]  # item, how many
    hooklengths_worn_out: tuple[tuple[int, int], ...]
    day: tuple[tuple[str, str], ...]
    notes: tuple[str, ...]
    changes: tuple[Tap, ...]


def tally(taps: Sequence[Tap], net_of: Mapping[str, str] = NET_OF) -> Tally:
    """What the taps of a record add up to; a fish whose net nobody said goes where its kind goes."""
    fish = [tap for tap in taps if tap.did is Did.FISH]
    lost, worn = ([t for t in taps if t.did is did] for did in (Did.LOST, Did.WORN_OUT))
    return Tally(
        _heaps([(tap.net or net_of.get(tap.species, ""), tap) for tap in fish]),
        _heaps([(tap.species, tap) for tap in fish]),
        _heaps([(tap.rig, tap) for tap in fish]),
        tuple(dict.fromkeys(tap.rig for tap in lost if tap.rig)),
        tuple(dict.fromkeys(tap.rig for tap in worn if tap.rig)),
        tuple(Counter(tap.item for tap in lost if tap.item).items()),
        tuple(Counter(tap.item for tap in worn if tap.item).items()),
        tuple({tap.about: tap.says for tap in taps if tap.did is Did.DAY and tap.about}.items()),
        tuple(tap.says for tap in taps if tap.did is Did.NOTE and tap.says),
        tuple(tap for tap in taps if tap.did in (Did.CHANGE, Did.RIG)),
    )


def _heaps(named: Sequence[tuple[str, Tap]]) -> tuple[Heap, ...]:
    names = dict.fromkeys(name for name, _ in named)
    of = {name: [tap for n, tap in named if n == name] for name in names}
    return tuple(
        Heap(
            name,
            len(taps),
            sum(tap.weighs_g is not None for tap in taps),
            sum(tap.weighs_g or 0 for tap in taps),
        )
        for name, taps in of.items()
    )
