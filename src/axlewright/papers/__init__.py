"""Papers: what a machinist, a gear setter or an inspector takes in hand, as PDF."""
