"""What goes where: wheels, widths, shaft lengths, housing ends, brakes, and how much room is left."""
