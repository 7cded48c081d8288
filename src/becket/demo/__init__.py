"""Two invented cranes with a job sheet each, written into a folder by ``becket demo``."""
