"""What holds the gear pair: shafts, rollers, seats of the case, and how far they give way."""
