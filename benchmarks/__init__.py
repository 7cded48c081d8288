"""Benchmarks: run once, small, in every CI run; whole, on demand."""
