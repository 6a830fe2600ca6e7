"""What goes where: wheels, widths, shaft lengths, ends and brakes, and how much room is left."""
