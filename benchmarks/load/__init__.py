"""Many phones at one server: what the benchmarks of the server share."""
