"""Alembic's way in: works on the connection it is handed, in the caller's transaction."""

from alembic import context

from logbook.store.tables import Table

context.configure(
    connection=context.config.attributes["connection"],
    target_metadata=Table.metadata,
    render_as_batch=True,
    transactional_ddl=False,
)
context.run_migrations()
