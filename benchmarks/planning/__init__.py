"""What the benchmark of the plan is made of."""
