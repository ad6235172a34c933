"""Tests; packages, so that they find their helpers by relative import."""
