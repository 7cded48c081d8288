"""Files to records: crane books, job sheets and settings, every fault with its place."""
