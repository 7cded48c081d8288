"""Printed cards: paper of one crane, one state, one change."""
