"""knifewall's model: timber, parts and cuts, joints, builders, checks and shop planning.

What a model script needs is named here.
"""

from furniture.builders import *  # noqa: F403
from furniture.builders import __all__ as _builders
from furniture.errors import DesignError, KnifewallError, Problem
from furniture.joints import EASY, PRESS, SLIP, own_fit
from furniture.parts.cuts import ProfileKind
from furniture.timber.stock import Stock
from furniture.units import decimal_inches, inches, millimetres, quantity

__all__ = [
    "EASY",
    "PRESS",
    "SLIP",
    "DesignError",
    "KnifewallError",
    "Problem",
    "ProfileKind",
    "Stock",
    "decimal_inches",
    "inches",
    "millimetres",
    "own_fit",
    "quantity",
    *_builders,
]
