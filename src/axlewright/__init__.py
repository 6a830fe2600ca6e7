"""Decide, order, fit, set up, prove and keep a rear axle and driveline that does not break."""

__version__ = "0.1.0"
