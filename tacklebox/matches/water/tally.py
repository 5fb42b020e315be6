"""What a record adds up to: fish and weight by net and species, what was lost, what was changed."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from tacklebox.matches.water.record import Did, KeptTaps, Tap
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
    fish = [(tap, 1) for tap in taps if tap.did is Did.FISH]
    return _added(fish, [tap for tap in taps if tap.did is not Did.FISH], net_of)


def tally_kept(kept: KeptTaps) -> Tally:
    """As ``tally``, of a record that is kept."""
    return _added([(tap, len(times)) for tap, times in kept.fish], kept.others, NET_OF)


def _added(
    fish: Sequence[tuple[Tap, int]], taps: Sequence[Tap], net_of: Mapping[str, str]
) -> Tally:
    """Fish, each with how many of it there were, and all other taps."""
    lost, worn = ([t for t in taps if t.did is did] for did in (Did.LOST, Did.WORN_OUT))
    return Tally(
        _heaps([(tap.net or net_of.get(tap.species, ""), tap, many) for tap, many in fish]),
        _heaps([(tap.species, tap, many) for tap, many in fish]),
        _heaps([(tap.rig, tap, many) for tap, many in fish]),
        tuple(dict.fromkeys(tap.rig for tap in lost if tap.rig)),
        tuple(dict.fromkeys(tap.rig for tap in worn if tap.rig)),
        tuple(Counter(tap.item for tap in lost if tap.item).items()),
        tuple(Counter(tap.item for tap in worn if tap.item).items()),
        tuple({tap.about: tap.says for tap in taps if tap.did is Did.DAY and tap.about}.items()),
        tuple(tap.says for tap in taps if tap.did is Did.NOTE and tap.says),
        tuple(tap for tap in taps if tap.did in (Did.CHANGE, Did.RIG)),
    )


def _heaps(named: Sequence[tuple[str, Tap, int]]) -> tuple[Heap, ...]:
    of: dict[str, list[tuple[Tap, int]]] = {}
    for name, tap, many in named:
        of.setdefault(name, []).append((tap, many))
    return tuple(
        Heap(
            name,
            sum(many for _, many in fish),
            sum(many for tap, many in fish if tap.weighs_g is not None),
            sum((tap.weighs_g or 0) * many for tap, many in fish),
        )
        for name, fish in of.items()
    )
