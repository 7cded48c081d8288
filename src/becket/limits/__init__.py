"""The falls table: one limit, one function, one row."""
