"""The ledger's rules, as triggers of the database itself, so that no program can break them.

What is on hand follows each movement and nothing else; what was written of the past stays as it was; what
may be changed is remembered as it was before, with the action that changed it.
"""

KINDS = ("line", "hook", "float", "weight", "feeder", "part", "elastic", "winder")
# What may be changed, by table: its key, and the columns. All else of an item or a rig stays.
MUTABLE = {
    "item": ("id", ("name", "place", "pack_size", "pack_price_cents", "minimum", "withdrawn")),
    "tied": ("id", ("labelled_on",)),
    "sheetinuse": ("paper", ("next_free",)),
}
WRITTEN = (
    *("action", "change", "item", *KINDS, "movement", "measurement", "tied", "tieduse"),
    *("statechange", "sheetinuse", "debrief", "debriefrig"),
)


def _refuse(name: str, when: str, says: str) -> str:
    return f"CREATE TRIGGER {name} BEFORE {when} BEGIN SELECT RAISE(ABORT, '{says}'); END"


def _never_replaced(table: str, plural: str, key: str = "id") -> str:
    """SQLite replaces a row without a deletion, so that needs a rule of its own."""
    return _refuse(
        f"{table}_is_never_replaced",
        f"INSERT ON {table} WHEN EXISTS (SELECT 1 FROM {table} WHERE {key} = NEW.{key})",
        f"{plural} are never replaced",
    )


def _never_deleted(table: str, plural: str) -> str:
    return _refuse(f"{table}_is_never_deleted", f"DELETE ON {table}", f"{plural} are never deleted")


def _written_once(table: str, plural: str, key: str = "id") -> tuple[str, ...]:
    """A row is never changed, deleted, or replaced."""
    return (
        _refuse(f"{table}_is_never_changed", f"UPDATE ON {table}", f"{plural} are never changed"),
        _never_deleted(table, plural),
        _never_replaced(table, plural, key),
    )


def _remembered(table: str, key: str, column: str) -> str:
    """A cell that becomes something else is written down, with the action of its time."""
    return f"""CREATE TRIGGER {table}_{column}_is_remembered AFTER UPDATE OF {column} ON {table}
         WHEN NEW.{column} IS NOT OLD.{column} BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), '{table}', NEW.{key}, '{column}',
                   json_quote(OLD.{column}), json_quote(NEW.{column}));
       END"""


def _counted(table: str) -> tuple[str, ...]:
    return tuple(
        f"""CREATE TRIGGER {table}_{when.lower()}_is_counted AFTER {when} ON {table} BEGIN
         UPDATE identity SET changes = changes + 1;
       END"""
        for when in (("INSERT", "UPDATE") if table in (*MUTABLE, "action") else ("INSERT",))
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
        "item_stays_what_it_is",
        """UPDATE OF kind, words, added_on ON item
           WHEN NEW.kind <> OLD.kind OR NEW.words <> OLD.words OR NEW.added_on <> OLD.added_on""",
        "what an item is is never changed",
    ),
    _never_deleted("item", "items"),
    *(rule for kind in KINDS for rule in _written_once(kind, "figures", "item_id")),
    *_written_once("movement", "movements"),
    *_written_once("measurement", "measurements"),
    *_written_once("tieduse", "uses of tied rigs"),
    *_written_once("statechange", "changes of state"),
    *_written_once("debrief", "debriefs"),
    *_written_once("debriefrig", "rigs of debriefs"),
    *_written_once("change", "changes"),
    # The last action may still be given more words by the transaction that writes it.
    _refuse(
        "action_is_never_changed",
        """UPDATE ON action WHEN OLD.id <> (SELECT max(id) FROM action) OR NEW.id <> OLD.id
           OR NEW."on" <> OLD."on" OR NEW.written_at <> OLD.written_at
           OR NEW.undoes IS NOT OLD.undoes OR NEW.redoes IS NOT OLD.redoes
           OR NEW.key IS NOT OLD.key""",
        "actions are never changed",
    ),
    _never_deleted("action", "actions"),
    _never_replaced("action", "actions"),
    _refuse(
        "tied_stays_as_tied",
        """UPDATE OF id, code, code_number, recipe, kind, tied_on, forced_because, snapshot, action_id
           ON tied
           WHEN NEW.id <> OLD.id OR NEW.code <> OLD.code OR NEW.code_number <> OLD.code_number
           OR NEW.recipe <> OLD.recipe OR NEW.kind <> OLD.kind OR NEW.tied_on <> OLD.tied_on
           OR NEW.forced_because <> OLD.forced_because
           OR NEW.snapshot <> OLD.snapshot OR NEW.action_id <> OLD.action_id""",
        "what was tied is never changed",
    ),
    _never_deleted("tied", "tied rigs"),
    _never_replaced("tied", "tied rigs"),
    """CREATE TRIGGER state_is_remembered AFTER UPDATE OF state ON tied
         WHEN NEW.state <> OLD.state BEGIN
         INSERT INTO statechange (tied_id, action_id, was, became)
           VALUES (NEW.id, (SELECT max(id) FROM action), OLD.state, NEW.state);
       END""",
    _never_deleted("sheetinuse", "sheets in use"),
    _never_replaced("sheetinuse", "sheets in use", "paper"),
    _refuse(
        "sheetinuse_keeps_its_paper",
        "UPDATE OF paper ON sheetinuse WHEN NEW.paper <> OLD.paper",
        "a sheet in use keeps its paper",
    ),
    # A sheet of which nothing was said begins at its first place.
    """CREATE TRIGGER sheetinuse_first_use_is_remembered AFTER INSERT ON sheetinuse BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), 'sheetinuse', NEW.paper, 'next_free',
                   '1', json_quote(NEW.next_free));
       END""",
    *(_remembered(table, key, one) for table, (key, columns) in MUTABLE.items() for one in columns),
    _refuse(
        "identity_stays",
        """UPDATE OF id, box, changes ON identity
           WHEN NEW.id <> OLD.id OR NEW.changes < OLD.changes
           OR (NEW.box <> OLD.box AND EXISTS (SELECT 1 FROM action))""",
        "a box stays the same box",
    ),
    _never_deleted("identity", "boxes"),
    _never_replaced("identity", "boxes"),
    *(rule for table in WRITTEN for rule in _counted(table)),
)
