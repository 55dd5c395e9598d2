"""How alembic runs here: on the app's own engine, in one write transaction (two that start at once take turns)."""

from alembic import context
from flask import current_app

database = current_app.extensions["migrate"].db


def run() -> None:
    writer = database.engine.execution_options(fieldapp_writes=True)
    with writer.connect() as connection, connection.begin():
        context.configure(
            connection=connection,
            target_metadata=database.metadata,
            compare_type=True,
            transactional_ddl=True,
            transaction_per_migration=False,
        )
        with context.begin_transaction():
            context.run_migrations()


run()
