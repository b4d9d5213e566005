"""${message}."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = ${repr(up_revision)}
down_revision = ${repr(down_revision)}
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Take this step."""
    ${upgrades if upgrades else "pass"}


def downgrade() -> None:
    """A book never goes back; an older program refuses it with a clear message."""
    raise NotImplementedError
