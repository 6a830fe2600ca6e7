"""What a number is: shop units, estimates with spread, formulas, working, samples, findings.

Nothing here knows about axles. Everything else is written in these terms.
"""
