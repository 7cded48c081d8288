"""A reeving pattern of the manual as a path: its words, its seal, its checks, the change to another."""
