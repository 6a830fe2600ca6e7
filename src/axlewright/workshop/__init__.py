"""One application layer for every face: open, edit, run, cache."""
