"""Alembic's way in: works on the connection it is handed, in the caller's transaction."""

from importlib import import_module

from alembic import context

from logbook.store.tables import Table

if context.config.attributes["connection"].dialect.name == "postgresql":
    import_module("logbook.store.server.types")

context.configure(
    connection=context.config.attributes["connection"],
    target_metadata=Table.metadata,
    render_as_batch=True,
    transactional_ddl=False,
)
context.run_migrations()
