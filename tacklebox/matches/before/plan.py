"""The plan before a match: ready rigs first, then what to tie from which items, what to buy."""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass

from sqlmodel import Session, col, func, select

from tacklebox.errors import AskedWronglyError
from tacklebox.matches.before.losses import (
    AnyItem,
    Forecast,
    forecasts,
    items_with_minimum,
    read_losses,
)
from tacklebox.matches.before.purchases import Purchase, purchases, total_cents
from tacklebox.matches.before.venue_rules import (
    About,
    Ruling,
    Verdict,
    barred_by,
    is_main_line,
    judge_rig,
    not_barred,
    turned_away,
)
from tacklebox.matches.dividing.candidates import Candidates, Loose
from tacklebox.matches.dividing.division import Division, divide
from tacklebox.matches.dividing.stacks import Known, PartAsk, Stack, Wanted
from tacklebox.matches.files.match import WantedRig
from tacklebox.matches.files.venue import Rules, Venue
from tacklebox.rigs.checking.check import Checked
from tacklebox.rigs.fitting import fit
from tacklebox.rigs.recipes.choices import same_size
from tacklebox.rigs.recipes.resolved import Need, Resolved
from tacklebox.rigs.tying.snapshot import Snapshot
from tacklebox.stock.asks import Ask
from tacklebox.stock.care.box import Box
from tacklebox.stock.inventory import Inventory
from tacklebox.stock.ledger import write_amount
from tacklebox.stock.tables import FIGURES, Action, Figures, Kind, State, Tied, TiedUse
from tacklebox.trade.quantities import read_length_mm, write_length

MOST = 10**9

Unsound = tuple[int, str, int]  # a want, one of its parts, and an item that would not hold in it


@dataclass(frozen=True)
class Line:
    """One want of the plan: what is ready, what stock ties, from which items, and why no more.

    ``parts`` are the parts with the items that serve them and the number of rigs each serves.
    ``left_home`` are ready rigs that the venue turns away, by code, each with the rule;
    ``turned_away`` says that it lets none be tied either. ``checked`` is what the checks say of
    what is to be tied, where they were asked.
    """

    want: WantedRig
    resolved: Resolved
    ready: tuple[str, ...]  # codes
    tie: int
    parts: tuple[tuple[str, tuple[tuple[Loose, int], ...]], ...]
    because: str
    left_home: tuple[tuple[str, str], ...] = ()
    turned_away: bool = False
    checked: tuple[Checked, ...] = ()

    @property
    def name(self) -> str:
        """The recipe with what was chosen, as it is told from other wants."""
        chosen = ", ".join(f"{name} {value}" for name, value in self.want.choose.items())
        return f"{self.resolved.recipe.stem}{f' ({chosen})' if chosen else ''}"

    @property
    def unmet(self) -> int:
        """How many are neither ready nor can be tied from stock."""
        return self.want.together - len(self.ready) - self.tie


@dataclass(frozen=True)
class Plan:
    """The whole plan; ``proven_fewest`` says whether no plan at that cost opens fewer packets.

    ``purchases`` are for what is unmet and for what is to be kept; ``forecasts`` tell of all that is
    planned or kept whether it lasts on the day. ``as_of`` is the last action that it knows of.
    """

    lines: tuple[Line, ...]
    purchases: tuple[Purchase, ...]
    opened: int
    proven_fewest: bool
    forecasts: tuple[Forecast, ...] = ()
    as_of: int = 0

    @property
    def total_cents(self) -> int:
        """Cost of all purchases with a known price."""
        return total_cents(self.purchases)


def make_plan(
    box: Box,
    wants: Sequence[tuple[WantedRig, Resolved]],
    rules: Rules | None = None,
    unsound: Collection[Unsound] = (),
    known: Known | None = None,
) -> Plan:
    """The best plan for the wants, the most important first; nothing is written.

    Ready rigs of the recipe and choices are taken first, the oldest first, each once; those that
    the venue's ``rules`` turn away stay at home. The rest is divided by ``matches.division``;
    substitutes only within a recipe's own asks, and only such as the rules allow: what they turn
    away is neither tied nor bought for. ``unsound`` items serve nothing of that want. Items that no
    want asks for are bought, too, where less is there than is to be kept. ``known`` keeps answers
    for the next plan of the same wants. Raises CannotBeDoneError when no plan is proven best in time.
    """
    needs = [[n for n in resolved.needs if not n.there] for _, resolved in wants]
    with box.reading() as session:
        with_minimum = items_with_minimum(session)
        candidates = Candidates(session, (n.ask for own in needs for n in own))
        ready, left_home = _ready(session, wants, rules)
        losses = read_losses(session)
        as_of = session.exec(select(func.max(Action.id))).one() or 0
    stock = candidates.every
    place = {s.id: number for number, s in enumerate(stock)}
    items: list[AnyItem] = [s.item for s in stock]
    items += [i for i in with_minimum if i.id not in place]  # what no want asks for is bought, too
    stacks = [Stack(i.on_hand, i.pack_size, i.pack_price_cents, i.minimum) for i in items]
    serving: dict[tuple[Ask, bool], tuple[int, ...]] = {}
    out = {(w, part) for w, part, _ in unsound}

    def would_do(w: int, need: Need) -> tuple[int, ...]:
        key = need.ask, is_main_line(wants[w][1], need.part)
        if key not in serving:
            every = candidates.of(need.ask)
            let_in = not_barred(rules, need.ask.kind, every, main_line=key[1]) if rules else every
            serving[key] = tuple(place[s.id] for s in let_in)
        if (w, need.part) in out:
            return tuple(s for s in serving[key] if (w, need.part, stock[s].id) not in unsound)
        return serving[key]

    away = [turned_away(rules, resolved) if rules else None for _, resolved in wants]
    asked = [
        Wanted(
            0 if away[w] else want.together - len(ready[w]),
            tuple(PartAsk(n.amount, would_do(w, n)) for n in needs[w]),
        )
        for w, (want, _) in enumerate(wants)
    ]
    division = divide(stacks, asked, known)
    left = _left(stacks, asked, division)
    served = _served(needs, division, stock)
    why = _Reasons(rules, candidates, stock, left, out)
    lines = tuple(
        Line(
            want,
            resolved,
            ready[w],
            division.tied[w],
            served[w],
            why.of(w, resolved, needs[w], asked[w], away[w])
            if len(ready[w]) + division.tied[w] < want.together
            else "",
            left_home[w],
            why.is_turned_away(needs[w], asked[w], away[w]),
        )
        for w, (want, resolved) in enumerate(wants)
    )
    planned = {items[s].id or 0: amount for s, amount in division.gone.items()}
    items.sort(key=lambda item: item.id or 0)
    return Plan(
        lines,
        purchases(items, planned),
        division.opened,
        division.proven_fewest,
        forecasts(items, planned, losses),
        as_of,
    )


def refuse_overlap(wants: Sequence[tuple[WantedRig, Resolved]]) -> None:
    """Raises AskedWronglyError where two wants come to the same rig, the usual choices put in."""
    seen: list[tuple[str, dict[str, str], dict[str, str]]] = []
    for _, resolved in wants:
        below = resolved.hooklength
        # Of the hooklength only its length matters: it is tied and counted apart.
        length = {"hooklength": f"{below.length_mm:.0f}"} if below else {}
        key = resolved.recipe.stem, dict(resolved.chosen), length
        if key in seen:
            raise AskedWronglyError(
                f"{resolved.recipe.stem} is wanted twice with the same choices.",
                where=f"want {len(seen) + 1}",
                right="Put the counts together, or choose another size.",
            )
        seen.append(key)


def _ready(
    session: Session, wants: Sequence[tuple[WantedRig, Resolved]], rules: Rules | None
) -> tuple[list[tuple[str, ...]], list[tuple[tuple[str, str], ...]]]:
    """For each want the codes of its ready rigs, and those that are left at home with the rule."""
    stems = {resolved.recipe.stem for _, resolved in wants}
    query = select(Tied).where(Tied.state == State.READY, col(Tied.recipe).in_(stems))
    free = {
        t.code: Snapshot.from_json(t.snapshot) for t in session.exec(query.order_by(col(Tied.id)))
    }
    tied_from = _tied_from(session, list(free)) if rules else {}
    figures = _figures(session, {i for use in tied_from.values() for i in use.values()})
    found, left_home = [], []
    for want, resolved in wants:
        codes: list[str] = []
        turned_away: list[tuple[str, str]] = []
        for code in [code for code, made in free.items() if is_as_wanted(made, resolved)]:
            rule = _turns_away(rules, resolved, tied_from[code], figures) if rules else ""
            if rule:
                turned_away.append((code, rule))
            elif len(codes) < want.together:
                codes.append(code)
                del free[code]
        found.append(tuple(codes))
        left_home.append(tuple(turned_away))
    return found, left_home


def _figures(session: Session, numbers: Collection[int]) -> dict[int, tuple[Kind, Figures]]:
    found: dict[int, tuple[Kind, Figures]] = {}
    for kind, table in FIGURES.items() if numbers else ():
        number = col(table.item_id)  # type: ignore[attr-defined]
        for row in session.exec(select(table).where(number.in_(numbers))):
            found[row.item_id] = Kind(kind), row  # type: ignore[attr-defined]
    return found


def _turns_away(
    rules: Rules,
    resolved: Resolved,
    use: Mapping[str, int],
    figures: Mapping[int, tuple[Kind, Figures]],
) -> str:
    if ruling := turned_away(rules, resolved):
        return ruling.rule
    for part, number in use.items():
        kind, row = figures[number]
        if rule := barred_by(rules, kind, row, main_line=is_main_line(resolved, part)):
            return rule
    return ""


def is_as_wanted(made: Snapshot, resolved: Resolved) -> bool:
    """Whether a tied rig is of the recipe and has the chosen lengths and sizes.

    A size that the rig does not tell of itself does not count as the same.
    """
    if made.recipe != resolved.recipe.stem or abs(made.length_mm - resolved.length_mm) > 1:
        return False
    set_for = [part.strip() for part in made.set_for.split(",")]
    for name, choice in resolved.recipe.choose.items():
        value = resolved.chosen[name]
        if choice.any_of:
            hook = made.hook.split(" ")[0]
            if not any(same_size(value, told) for told in (made.size, hook)):
                return False
        elif made.kind == "rig" and f"{name} {write_length(read_length_mm(value))}" not in set_for:
            return False
    return True


def _left(stacks: Sequence[Stack], asked: Sequence[Wanted], division: Division) -> list[int]:
    left = [s.on_hand for s in stacks]
    for (w, p, s), count in division.serves.items():
        left[s] -= count * asked[w].parts[p].amount
    return left


def _served(
    needs: Sequence[Sequence[Need]], division: Division, stock: Sequence[Loose]
) -> list[tuple[tuple[str, tuple[tuple[Loose, int], ...]], ...]]:
    """For each want its parts that stock serves, in their order, each with its items."""
    items: dict[tuple[int, int], list[tuple[Loose, int]]] = {}
    for (w, p, s), count in division.serves.items():
        items.setdefault((w, p), []).append((stock[s], count))
    return [
        tuple((need.part, tuple(items[w, p])) for p, need in enumerate(own) if (w, p) in items)
        for w, own in enumerate(needs)
    ]


@dataclass(frozen=True)
class _Reasons:
    """Why not one more can be tied: what the venue turns away, the parts that nothing is left for."""

    rules: Rules | None
    candidates: Candidates
    stock: Sequence[Loose]
    left: Sequence[int]
    unsound: Collection[tuple[int, str]]

    def of(
        self, w: int, resolved: Resolved, needs: Sequence[Need], asked: Wanted, away: Ruling | None
    ) -> str:
        """In words, for the want of that number."""
        if away:
            return f"the venue does not allow it: {away.rule}: {away.part}: {away.says}"
        told = [
            reason
            for need, part in zip(needs, asked.parts, strict=True)
            if (reason := self._of_part(resolved, need, part, (w, need.part) in self.unsound))
        ]
        return "; ".join(told) or "what is left does not serve all its parts at once"

    def is_turned_away(self, needs: Sequence[Need], asked: Wanted, away: Ruling | None) -> bool:
        """Whether the venue lets none of it be tied."""
        parts = zip(needs, asked.parts, strict=True)
        return bool(away) or any(self.candidates.of(n.ask) for n, p in parts if not p.stacks)

    def _of_part(self, resolved: Resolved, need: Need, part: PartAsk, unsound: bool) -> str:
        every = self.candidates.of(need.ask)
        if not every:
            return f"{need.part}: no item in the box is {need.ask}"
        if not part.stacks and self.rules:
            main_line = is_main_line(resolved, need.part)
            kind, nearest = need.ask.kind, every[0]
            rule = barred_by(self.rules, kind, nearest.figures, main_line=main_line)
            return f"{need.part}: the venue does not allow {nearest.item.name} ({rule})"
        if any(self.left[s] >= part.amount for s in part.stacks):
            return ""
        most = max(part.stacks, key=lambda s: self.left[s])
        item = self.stock[most].item
        has, takes = (write_amount(a, item.measured) for a in (self.left[most], part.amount))
        told = f"{need.part}: {has} of {item.name} left, {takes} needed for one"
        if unsound:
            return f"{told}, and what else would do does not hold in it"
        if len(every) > len(part.stacks):
            return f"{told}, and the venue does not allow what else would do"
        return told


def judge_plan(box: Box, venue: Venue, plan: Plan) -> list[list[Ruling]]:
    """Every rule on every rig of the plan, want by want, by the items that it is tied from.

    Ready rigs are judged by what they were tied from.
    """
    with box.reading() as session:
        inventory = Inventory.read(session, Kind)
        tied_from = _tied_from(session, [code for line in plan.lines for code in line.ready])
    # What it is tied from is settled; how much of it is left does not matter to a rule.
    inventory.spoken_for = {s.id: -MOST for items in inventory.by_kind.values() for s in items}
    judged = []
    for line in plan.lines:
        uses = [tied_from.get(code, {}) for code in line.ready]
        rows = max((len(items) for _, items in line.parts), default=0)
        for row in range(rows or (0 if uses else 1)):
            uses.append({part: items[min(row, len(items) - 1)][0].id for part, items in line.parts})
        rulings: dict[Ruling, None] = {}
        for use in uses:
            rulings |= dict.fromkeys(_judge_made(venue, line.resolved, inventory, use))
        judged.append(list(rulings))
    return judged


def _tied_from(session: Session, codes: Sequence[str]) -> Mapping[str, dict[str, int]]:
    query = select(Tied.code, TiedUse.part, TiedUse.item_id).join(
        TiedUse, col(TiedUse.tied_id) == Tied.id
    )
    uses: dict[str, dict[str, int]] = {}
    for code, part, item_id in session.exec(query.where(col(Tied.code).in_(codes))):
        uses.setdefault(code, {})[part] = item_id
    return uses


def _judge_made(
    venue: Venue, resolved: Resolved, inventory: Inventory, use: Mapping[str, int]
) -> list[Ruling]:
    try:
        return judge_rig(venue, fit(resolved, inventory.copy(), 1, use))
    except AskedWronglyError:
        says = "it was tied by a recipe that has been changed since"
        return [
            Ruling("every rule", Verdict.READ_IT, resolved.recipe.stem, says, key=About.EVERY_RULE)
        ]
