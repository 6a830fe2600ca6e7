"""The builder's questions, one a file: each takes a machine and gives a report."""
