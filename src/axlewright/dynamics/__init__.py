"""Machines in time: the launch, the run down the strip, and the axle that hops.

Marches are compiled (numba) and called from one place each; nothing that must answer at once
imports this room.
"""
