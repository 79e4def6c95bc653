"""`--watch`: saving the script changes what an open page shows."""

from exporters.watch.session import watch

__all__ = ["watch"]
