"""From kilograms to newtons."""

GRAVITY_M_S2 = 9.80665
"""Standard gravity, by definition (third general conference on weights and measures, 1901)."""
