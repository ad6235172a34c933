"""Published figures and the tests against them: `from .published import half_last_place, rows`."""
