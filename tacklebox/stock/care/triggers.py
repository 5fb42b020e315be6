"""The ledger's rules, as triggers of the database itself, so that no program can break them.

What is on hand follows each movement and nothing else; what was written of the past stays as it was; what
may be changed is remembered as it was before, with the action that changed it.
"""

from tacklebox.stock.care.aswritten import when_changed, when_written

_HOOK = ("size", "size_order", "end", "eye", "barb", "wire", "bend", "colour")
_LINE = ("material", "diameter_mm", "diameter_said", "breaks_at_kg", "strain_said")
# The figures of each kind: they may be put right as long as nothing was tied from the item.
KINDS = {
    "line": (*_LINE, "sort", "colour", "maker"),
    "hook": _HOOK,
    "hooklength": (*_HOOK, *_LINE, "length_mm", "length_said", "bait"),
    "float": (
        *(
            "shape",
            "mark",
            "capacity_g",
            "carries_said",
            "body",
            "material",
            "stem",
            "tip",
            "colour",
        ),
        *("tip_diameter_mm", "tip_diameter_said", "tip_length_mm", "tip_length_said"),
    ),
    "weight": ("form", "mark", "mass_g", "material"),
    "feeder": (*("shape", "fitting", "mass_g", "mass_said", "size", "volume_ml", "volume_said"),),
    "part": ("sort", "size", "breaks_at_kg", "strain_said"),
    "elastic": ("grade", "grade_to", "core", "colour"),
    "winder": ("length_mm", "length_said", "width_mm", "width_said", "colour"),
}
# What may be changed, by table: its key, and the columns. All else of an item or a rig stays.
MUTABLE = {
    "item": (
        "id",
        (
            *("words", "name", "place", "pack_size", "pack_said", "pack_price_cents", "minimum"),
            *("note", "level", "retired", "withdrawn"),
        ),
    ),
    **{kind: ("item_id", columns) for kind, columns in KINDS.items()},
    "tied": ("id", ("labelled_on",)),
    "batch": ("id", ("left", "labelled_on")),
    "reel": (
        "id",
        ("name", "item_id", "loaded_mm", "loaded_on", "backing", "retired", "withdrawn"),
    ),
    "setting": ("name", ("said",)),
    "sheetinuse": ("paper", ("next_free",)),
}
WRITTEN = (
    *("action", "change", "item", *KINDS, "movement", "measurement", "tied", "tieduse"),
    *("batch", "batchuse", "reel", "setting", "statechange", "sheetinuse", "debrief", "debriefrig"),
)
# Whether anything that counts was tied from the item.
_TIED_FROM = """(EXISTS (SELECT 1 FROM tieduse u JOIN tied t ON t.id = u.tied_id
            WHERE u.item_id = OLD.{key} AND t.state <> 'untied')
           OR EXISTS (SELECT 1 FROM batchuse u JOIN batch b ON b.id = u.batch_id
            WHERE u.item_id = OLD.{key} AND b."left" > 0)
           OR EXISTS (SELECT 1 FROM batch b WHERE b.item_id = OLD.{key} AND b."left" > 0))"""

# Words that differ in more than the maker of a line, which stands behind its figures.
_OTHER_WORDS = """NEW.words <> OLD.words AND (OLD.kind <> 'line'
           OR substr(NEW.words || ' ', 1, instr(NEW.words || ' maker ', ' maker '))
           <> substr(OLD.words || ' ', 1, instr(OLD.words || ' maker ', ' maker ')))"""


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
    return f"""CREATE TRIGGER {table}_{column}_is_remembered AFTER UPDATE OF "{column}" ON {table}
         WHEN NEW."{column}" IS NOT OLD."{column}" BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), '{table}', NEW.{key}, '{column}',
                   json_quote(OLD."{column}"), json_quote(NEW."{column}"));
       END"""


def _begins_with(table: str, column: str, was: str, key: str = "id") -> str:
    """A new row counts as changed from what stood for it before, so that undo leads back to that."""
    return f"""CREATE TRIGGER {table}_first_{column}_is_remembered AFTER INSERT ON {table} BEGIN
         INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
           VALUES ((SELECT max(id) FROM action), '{table}', NEW.{key}, '{column}',
                   '{was}', json_quote(NEW."{column}"));
       END"""


def _figures_stay_once_used(kind: str) -> tuple[str, ...]:
    """Figures may be put right until something is tied from the item; the maker may be noted later."""
    changed = " OR ".join(
        f'NEW."{column}" IS NOT OLD."{column}"' for column in KINDS[kind] if column != "maker"
    )
    return (
        _refuse(
            f"{kind}_stays_once_tied_from",
            f"UPDATE ON {kind} WHEN ({changed}) AND {_TIED_FROM.format(key='item_id')}",
            "figures of what was tied from stay",
        ),
        _refuse(
            f"{kind}_keeps_its_item",
            f"UPDATE OF item_id ON {kind} WHEN NEW.item_id <> OLD.item_id",
            "figures keep their item",
        ),
        _never_deleted(kind, "figures"),
        _never_replaced(kind, "figures", "item_id"),
    )


def _counted(table: str) -> tuple[str, ...]:
    """Each write is counted, and what it wrote gets its checks."""
    does = {"INSERT": when_written(table)}
    if table in (*MUTABLE, "action"):
        does["UPDATE"] = when_changed(table)
    return tuple(
        f"""CREATE TRIGGER {table}_{when.lower()}_is_counted AFTER {when} ON {table} BEGIN
         UPDATE identity SET changes = changes + 1;
         {checks}
       END"""
        for when, checks in does.items()
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
        f"""UPDATE OF kind, words, added_on ON item
           WHEN NEW.kind <> OLD.kind OR NEW.added_on <> OLD.added_on
           OR ({_OTHER_WORDS} AND {_TIED_FROM.format(key="id")})""",
        "what an item is is never changed",
    ),
    _never_deleted("item", "items"),
    *(rule for kind in KINDS for rule in _figures_stay_once_used(kind)),
    *_written_once("movement", "movements"),
    *_written_once("measurement", "measurements"),
    *_written_once("tieduse", "uses of tied rigs"),
    *_written_once("batchuse", "uses of batches"),
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
    _begins_with("sheetinuse", "next_free", "1", "paper"),
    _refuse(
        "batch_stays_as_tied",
        """UPDATE OF id, code, code_number, item_id, action_id, recipe, tied_on, tied, forced_because,
             snapshot ON batch
           WHEN NEW.id <> OLD.id OR NEW.code <> OLD.code OR NEW.code_number <> OLD.code_number
           OR NEW.item_id <> OLD.item_id OR NEW.action_id <> OLD.action_id OR NEW.recipe <> OLD.recipe
           OR NEW.tied_on <> OLD.tied_on OR NEW.tied <> OLD.tied
           OR NEW.forced_because <> OLD.forced_because OR NEW.snapshot <> OLD.snapshot""",
        "what was tied is never changed",
    ),
    _refuse(
        "batch_holds_no_more_than_was_tied",
        """UPDATE OF "left" ON batch WHEN NEW."left" < 0 OR NEW."left" > OLD.tied""",
        "a batch holds no more than was tied",
    ),
    _never_deleted("batch", "batches"),
    _never_replaced("batch", "batches"),
    _begins_with("batch", "left", "0"),
    _refuse(
        "reel_stays_what_it_is",
        "UPDATE OF id, what ON reel WHEN NEW.id <> OLD.id OR NEW.what <> OLD.what",
        "a reel stays a reel",
    ),
    _never_deleted("reel", "reels"),
    _never_replaced("reel", "reels"),
    _begins_with("reel", "withdrawn", "1"),
    _refuse(
        "reel_holds_no_less_than_nothing",
        "UPDATE OF loaded_mm ON reel WHEN NEW.loaded_mm < 0",
        "a reel holds no less than nothing",
    ),
    _never_deleted("setting", "settings"),
    _never_replaced("setting", "settings", "name"),
    _refuse(
        "setting_keeps_its_name",
        "UPDATE OF name ON setting WHEN NEW.name <> OLD.name",
        "a setting keeps its name",
    ),
    _begins_with("setting", "said", '""', "name"),
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
    f"""CREATE TRIGGER identity_insert_is_checked AFTER INSERT ON identity BEGIN
         {when_written("identity")}
       END""",
    f"""CREATE TRIGGER identity_update_is_checked AFTER UPDATE OF box, stamp ON identity BEGIN
         {when_changed("identity")}
       END""",
)
