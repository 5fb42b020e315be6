"""A step that is only there for the tests: a table is built anew, and one is added."""

import sqlalchemy as sa
from alembic import op

revision = "13"
down_revision = None


def upgrade() -> None:
    """Give items a shop, and the box a table of shops."""
    with op.batch_alter_table("item", recreate="always") as item:
        item.add_column(sa.Column("shop", sa.String(), server_default="", nullable=False))
    op.create_table("shop", sa.Column("id", sa.Integer(), primary_key=True))
