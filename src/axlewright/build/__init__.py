"""The build file: what the builder says, read, checked, and resolved into one machine."""
