"""The steps that make and change the tables; Alembic runs them, called by ``becket.records.migrate``."""
