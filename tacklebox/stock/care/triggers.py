"""The ledger's rules, as triggers of the database itself, so that no program can break them.

What is on hand follows each movement and nothing else; what was written of the past stays as it was.
"""


def _refuse(name: str, when: str, says: str) -> str:
    return f"CREATE TRIGGER {name} BEFORE {when} BEGIN SELECT RAISE(ABORT, '{says}'); END"


def _never_replaced(table: str, plural: str) -> str:
    """SQLite replaces a row without a deletion, so that needs a rule of its own."""
    return _refuse(
        f"{table}_is_never_replaced",
        f"INSERT ON {table} WHEN EXISTS (SELECT 1 FROM {table} WHERE id = NEW.id)",
        f"{plural} are never replaced",
    )


def _written_once(table: str, plural: str) -> tuple[str, ...]:
    """A row is never changed, deleted, or replaced."""
    return (
        _refuse(f"{table}_is_never_changed", f"UPDATE ON {table}", f"{plural} are never changed"),
        _refuse(f"{table}_is_never_deleted", f"DELETE ON {table}", f"{plural} are never deleted"),
        _never_replaced(table, plural),
    )


RULES = (
    """CREATE TRIGGER movement_moves_stock AFTER INSERT ON movement BEGIN
         UPDATE item SET on_hand = on_hand + NEW.amount, last_movement = NEW.id
           WHERE id = NEW.item_id;
       END""",
    # Each change of on_hand must be one movement that was not in it yet.
    """CREATE TRIGGER stock_moves_by_movements BEFORE UPDATE OF on_hand, last_movement ON item
         WHEN (NEW.on_hand <> OLD.on_hand OR NEW.last_movement <> OLD.last_movement)
          AND (NEW.last_movement <= OLD.last_movement
               OR NEW.on_hand - OLD.on_hand IS NOT
                  (SELECT amount FROM movement WHERE id = NEW.last_movement AND item_id = NEW.id))
       BEGIN SELECT RAISE(ABORT, 'what is on hand changes by movements alone'); END""",
    _refuse(
        "stock_begins_at_nothing",
        "INSERT ON item WHEN NEW.on_hand <> 0 OR NEW.last_movement <> 0",
        "what is on hand changes by movements alone",
    ),
    _never_replaced("item", "items"),
    _refuse(
        "item_keeps_its_number",
        "UPDATE OF id ON item WHEN NEW.id <> OLD.id",
        "items keep their numbers",
    ),
    _refuse(
        "item_with_movements_stays",
        "DELETE ON item WHEN EXISTS (SELECT 1 FROM movement WHERE item_id = OLD.id)",
        "an item with movements is never deleted",
    ),
    *_written_once("movement", "movements"),
    *_written_once("measurement", "measurements"),
    *_written_once("tieduse", "uses of tied rigs"),
    *_written_once("statechange", "changes of state"),
    *_written_once("debrief", "debriefs"),
    *_written_once("debriefrig", "rigs of debriefs"),
    # The last action may still be given more words by the transaction that writes it.
    _refuse(
        "action_is_never_changed",
        """UPDATE ON action WHEN OLD.id <> (SELECT max(id) FROM action) OR NEW.id <> OLD.id
           OR NEW."on" <> OLD."on" OR NEW.written_at <> OLD.written_at
           OR NEW.undoes IS NOT OLD.undoes""",
        "actions are never changed",
    ),
    _refuse("action_is_never_deleted", "DELETE ON action", "actions are never deleted"),
    _never_replaced("action", "actions"),
    _refuse(
        "tied_stays_as_tied",
        """UPDATE OF id, code, code_number, recipe, kind, tied_on, snapshot, action_id ON tied
           WHEN NEW.id <> OLD.id OR NEW.code <> OLD.code OR NEW.code_number <> OLD.code_number
           OR NEW.recipe <> OLD.recipe OR NEW.kind <> OLD.kind OR NEW.tied_on <> OLD.tied_on
           OR NEW.snapshot <> OLD.snapshot OR NEW.action_id <> OLD.action_id""",
        "what was tied is never changed",
    ),
    _refuse("tied_is_never_deleted", "DELETE ON tied", "tied rigs are never deleted"),
    _never_replaced("tied", "tied rigs"),
    """CREATE TRIGGER state_is_remembered AFTER UPDATE OF state ON tied
         WHEN NEW.state <> OLD.state BEGIN
         INSERT INTO statechange (tied_id, action_id, was, became)
           VALUES (NEW.id, (SELECT max(id) FROM action), OLD.state, NEW.state);
       END""",
)
