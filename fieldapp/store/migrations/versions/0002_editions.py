"""editions of catalogues

Revision: 0002, after 0001
"""

import sqlalchemy as sa
from alembic import op

revision = '0002'
down_revision = '0001'
branch_labels = None
depends_on = None


def upgrade():
    op.create_table('edition',
    sa.Column('catalogue', sa.String(length=20), nullable=False),
    sa.Column('number', sa.Integer(), autoincrement=False, nullable=False),
    sa.Column('hash', sa.String(length=64), nullable=False),
    sa.Column('body', sa.Text(), nullable=False),
    sa.Column('person_id', sa.String(length=36), nullable=False),
    sa.Column('at', sa.BigInteger(), nullable=False),
    sa.Column('because', sa.String(length=200), nullable=False),
    sa.PrimaryKeyConstraint('catalogue', 'number')
    )
    op.create_index('ix_edition_hash', 'edition', ['hash'], unique=False)


def downgrade():
    op.drop_index('ix_edition_hash', table_name='edition')
    op.drop_table('edition')
