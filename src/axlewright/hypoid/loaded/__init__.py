"""The gear pair under load: how teeth give, how pairs share, where they press."""
