"""The invented example: seeded truth and noise by simple physics of its own, written through the services.

Nothing here knows `domain`, so that a test may hold the product's inferences against this truth.
"""
