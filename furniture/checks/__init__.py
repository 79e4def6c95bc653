"""Checks: pure functions with their formula and source, and the findings they give."""
