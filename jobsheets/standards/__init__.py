"""Published threads, drills, holes, fits, tolerances, stock and materials."""
