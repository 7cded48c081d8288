"""A slow, obvious second evaluation of the falls table, written from the documents; shares no code with the product."""
