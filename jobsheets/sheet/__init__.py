"""A plan on paper."""
