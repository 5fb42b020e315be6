"""Steps from one version of the box's schema to the next, one Alembic revision each.

The file ``v2.py`` would lead from version 1 to 2: ``revision = "2"``, ``down_revision = "1"`` (None in the
first), ``def upgrade() -> None`` with ``alembic.op``. The rules (triggers) are taken away before and put back
after. A step that is in use is never changed.
"""
