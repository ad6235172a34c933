"""What the maker has: machines, tools, gauges, stock and house rules."""
