"""Blank + cuts -> solid: the one place that calls the solid kernel."""
