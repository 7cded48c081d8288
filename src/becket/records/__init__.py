"""The store: events that are only ever added, each chained to the one before."""
