"""One file per module of the domain: `calls(rng)` yields random calls for both languages."""
