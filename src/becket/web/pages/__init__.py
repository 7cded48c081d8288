"""One module a page of the phone."""
