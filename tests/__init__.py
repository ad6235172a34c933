"""Tests; packages, so that tests find `published.py` by relative import."""
