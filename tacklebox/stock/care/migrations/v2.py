"""No table changes: the rules that are put back keep actions, tied rigs and debriefs from being replaced."""

revision = "2"
down_revision = None


def upgrade() -> None:
    """Leave the tables as they are."""
