"""Steps from one version of the box's schema to the next, one Alembic revision each.

The file ``v4.py`` would lead from version 3 to 4: ``revision = "4"``, ``down_revision = "3"``,
``def upgrade() -> None`` with ``alembic.op``. A step that changes columns says in ``older`` how exports of
before are read. The rules (triggers) are taken away before and put back
after. A step that is in use is never changed.
"""
