"""Machine elements, one a file, no car in it."""
