"""From a part and a shop to a proven plan."""
