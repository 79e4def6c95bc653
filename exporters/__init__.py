"""Readers of the model: STEP, sheets and PDF, tables, pictures, and the packet that holds them.

A model script needs `main`, and for several pieces from one pile of boards `Batch` and `Copies`.
"""

from exporters.batch import Batch, Copies
from exporters.command import main
from exporters.notebook import shows_itself

__all__ = ["Batch", "Copies", "main"]

shows_itself()
