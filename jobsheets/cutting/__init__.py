"""Physics of the cut: pure functions of numbers."""
