"""Random cranes and lifts, worked out by the product and by the slow evaluation, and compared."""
