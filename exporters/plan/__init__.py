"""The plan to hand on: everything that a maker, or the person it is for, asks, in one document."""

from exporters.plan.contents import Contents, contents_of

__all__ = ["Contents", "contents_of"]
