"""What the tables hold, by name: threads, drills, holes, fits, pins, stock, materials; docs/lookup.md."""
