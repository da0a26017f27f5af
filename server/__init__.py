"""Tareway: plan and road of a touring vehicle in one book."""
