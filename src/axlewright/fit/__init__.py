"""What goes where: wheels, widths, shaft lengths, housing ends and brakes, and how much room is left."""
