"""What each link of the load path stands: one file for each kind of part.

Each function takes the machine and the demand and gives a :class:`Link` with its limits.  Limits
that *slip* or *take a set* are kept apart from limits that *break*; only breaking competes for
"goes first".
"""
