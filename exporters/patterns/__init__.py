"""Full-size patterns: story sticks and parts with openings, tiled over pages to be joined."""

from exporters.patterns.pattern import Pattern
from exporters.patterns.patterns import patterns_of
from exporters.patterns.write import write_patterns

__all__ = ["Pattern", "patterns_of", "write_patterns"]
