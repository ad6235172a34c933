"""From a recipe file to a part."""
