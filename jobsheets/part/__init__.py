"""Geometry of stock, work and finished part."""
