"""Readers of the model: STEP, sheets and PDF, tables, pictures, and the packet that holds them.

A model script needs `main` alone.
"""

from exporters.command import main

__all__ = ["main"]
