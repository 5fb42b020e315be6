"""Lead in stock that the regulations forbid for weighting a line."""

from collections.abc import Collection
from typing import TYPE_CHECKING

from sqlmodel import Session, col, or_, select

from tacklebox.stock.levels import Level
from tacklebox.stock.tables import IN_USE, Item, Weight

if TYPE_CHECKING:
    from sqlalchemy import ColumnElement

    from tacklebox.trade.judgement import Judgement


def lead_in_stock(session: Session) -> "list[tuple[Item, Judgement]]":
    """Every lead item of a forbidden size of which there is any, with the judgement on it."""
    there_is = or_(col(Item.on_hand) > 0, col(Item.level).in_((Level.PLENTY, Level.LOW)))
    return _forbidden(session, there_is)


def lead_among(session: Session, ids: Collection[int]) -> "dict[int, Judgement]":
    """The lead items of a forbidden size among ``ids``, each with the judgement on it."""
    return {item.id or 0: found for item, found in _forbidden(session, col(Item.id).in_(ids))}


def _forbidden(session: Session, which: "ColumnElement[bool]") -> "list[tuple[Item, Judgement]]":
    query = (
        select(Item, Weight)
        .join(Weight, col(Weight.item_id) == col(Item.id))
        .where(Weight.material == "lead", IN_USE, which)
        .order_by(col(Item.id))
    )
    found = session.exec(query).all()
    if not found:
        return []
    from tacklebox.trade.judgement import Outcome
    from tacklebox.trade.law import judge_lead

    judged = [
        (item, judge_lead(weight.material, weight.mass_g, f"{weight.form} {weight.mark}"))
        for item, weight in found
    ]
    return [(item, verdict) for item, verdict in judged if verdict.outcome is not Outcome.SOUND]
