"""One file to carry a crane: every pattern, every change, a falls finder; no network, no server."""
