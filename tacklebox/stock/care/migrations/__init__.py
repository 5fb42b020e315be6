"""Steps from one version of the box's schema to the next, one Alembic revision each.

The file ``v3.py`` would lead from version 2 to 3: ``revision = "3"``, ``down_revision = "2"``,
``def upgrade() -> None`` with ``alembic.op``. A step that changes columns says in ``portable`` how exports of
before are read. The rules (triggers) are taken away before and put back
after. A step that is in use is never changed.
"""
