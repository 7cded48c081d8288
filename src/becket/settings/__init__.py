"""Named values of the method and rule sets, each with its reason or source."""
