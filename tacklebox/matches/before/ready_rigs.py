"""Ready rigs that a match can take, and those that its venue does not allow."""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, replace

from sqlmodel import Session, col, select

from tacklebox.matches.before.rulings import Rule
from tacklebox.matches.before.venue_rules import barred_by, is_main_line, turned_away
from tacklebox.matches.files.match import WantedRig
from tacklebox.matches.files.venue import Rules
from tacklebox.rigs.recipes.choices import same_size
from tacklebox.rigs.recipes.resolved import Resolved
from tacklebox.rigs.tying.snapshot import Snapshot, read_kept
from tacklebox.stock.made import Tied, TiedUse
from tacklebox.stock.tables import FIGURES, Figures, Kind, State
from tacklebox.trade.quantities import read_length_mm

SAME_MM = 1.0  # lengths said in two units are one up to here


@dataclass(frozen=True)
class ReadyRigs:
    """The codes that serve a want, those that stay at home, each with the venue's rule, and where they are
    too few, ``otherwise``: rigs of the same recipe that were tied with other choices."""

    codes: tuple[str, ...]
    not_allowed: tuple[tuple[str, Rule], ...]
    otherwise: tuple[str, ...] = ()


NONE_READY = ReadyRigs((), ())


def ready_rigs(
    session: Session, wants: Sequence[tuple[WantedRig, Resolved]], rules: Rules | None
) -> list[ReadyRigs]:
    """For each want its ready rigs, the oldest first; each rig serves one want."""
    stems = {resolved.recipe.stem for _, resolved in wants}
    query = select(Tied).where(Tied.state == State.READY, col(Tied.recipe).in_(stems))
    free = {t.code: read_kept(t) for t in session.exec(query.order_by(col(Tied.id)))}
    uses = tied_from(session, list(free)) if rules else {}
    figures = _figures(session, {i for use in uses.values() for i in use.values()})
    found = []
    for want, resolved in wants:
        codes: list[str] = []
        not_allowed: list[tuple[str, Rule]] = []
        for code in [code for code, made in free.items() if is_as_wanted(made, resolved)]:
            rule = _not_allowed_by(rules, resolved, uses.get(code, {}), figures) if rules else None
            if rule:
                not_allowed.append((code, rule))
            elif len(codes) < want.total:
                codes.append(code)
                del free[code]
        found.append(ReadyRigs(tuple(codes), tuple(not_allowed)))
    return [
        replace(ready, otherwise=_tied_otherwise(free, resolved))
        if len(ready.codes) < want.total
        else ready
        for ready, (want, resolved) in zip(found, wants, strict=True)
    ]


def _tied_otherwise(free: Mapping[str, Snapshot], resolved: Resolved) -> tuple[str, ...]:
    return tuple(
        code
        for code, made in free.items()
        if made.kind == "rig"
        and not made.unreadable
        and made.recipe == resolved.recipe.stem
        and not is_as_wanted(made, resolved)
    )


def _figures(session: Session, numbers: Collection[int]) -> dict[int, tuple[Kind, Figures]]:
    found: dict[int, tuple[Kind, Figures]] = {}
    for kind, table in FIGURES.items() if numbers else ():
        number = col(table.item_id)  # type: ignore[attr-defined]
        for row in session.exec(select(table).where(number.in_(numbers))):
            found[row.item_id] = Kind(kind), row  # type: ignore[attr-defined]
    return found


def _not_allowed_by(
    rules: Rules,
    resolved: Resolved,
    use: Mapping[str, int],
    figures: Mapping[int, tuple[Kind, Figures]],
) -> Rule | None:
    if ruling := turned_away(rules, resolved):
        return ruling.rule
    for part, number in use.items():
        kind, row = figures[number]
        if rule := barred_by(rules, kind, row, main_line=is_main_line(resolved, part)):
            return rule
    return None


def is_as_wanted(made: Snapshot, resolved: Resolved) -> bool:
    """Whether a tied rig is of the recipe and has the chosen lengths and sizes.

    A size that the rig does not say of itself does not count as the same; nor does one that was changed
    at the water in what only words say, or in its shot.
    """
    if made.unreadable or made.recipe != resolved.recipe.stem:
        return False
    if made.made_from and (made.changed_otherwise or made.shot != _shot_of(resolved)):
        return False
    if abs(made.length_mm - resolved.length_mm) > 1:
        return False
    for name, choice in resolved.recipe.choose.items():
        value = resolved.chosen[name]
        if choice.any_of:
            hook = made.hook.split(" ")[0]
            sizes = [made.sizes[name]] if name in made.sizes else [made.size, hook]
            if not any(same_size(value, size) for size in sizes):
                return False
        elif made.kind == "rig" and not _same_length(made.lengths.get(name, ""), value):
            return False
    return True


def _shot_of(resolved: Resolved) -> str:
    return ", ".join(group.words for group in resolved.shot)


def _same_length(made: str, wanted: str) -> bool:
    """Whether a rig has that length, in whatever unit either was said."""
    if not made or made == wanted:
        return bool(made)
    return abs(read_length_mm(made) - read_length_mm(wanted)) < SAME_MM


def tied_from(session: Session, codes: Sequence[str]) -> Mapping[str, dict[str, int]]:
    """The item of each part that rigs were tied from, by code."""
    query = select(Tied.code, TiedUse.part, TiedUse.item_id).join(
        TiedUse, col(TiedUse.tied_id) == Tied.id
    )
    uses: dict[str, dict[str, int]] = {}
    for code, part, item_id in session.exec(query.where(col(Tied.code).in_(codes))):
        uses.setdefault(code, {})[part] = item_id
    return uses
