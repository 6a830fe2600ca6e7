"""The gear pair: its pitch cones, tooth forces, strength and losses."""
