"""The phone pages: a server that reads, calls one function, presents."""
