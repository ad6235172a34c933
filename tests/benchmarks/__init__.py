"""Yardsticks, benchmarks and the report of ratios: docs/performance.md."""
