"""A table for the checks of what was written, which are made when all steps are done (see care.aswritten)."""

from alembic import op

revision = "10"
down_revision = "9"


def upgrade() -> None:
    """Make the table."""
    op.get_bind().exec_driver_sql(
        """CREATE TABLE aswritten (
            table_name VARCHAR NOT NULL,
            row_key VARCHAR NOT NULL,
            checks BLOB NOT NULL,
            PRIMARY KEY (table_name, row_key)
        )
         WITHOUT ROWID"""
    )
