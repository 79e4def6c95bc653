"""Several designs side by side, at one scale and with what a maker weighs them by under each."""

from exporters.compare.draw import write_comparison
from exporters.compare.given import variants_given
from exporters.compare.values import Variant
from exporters.compare.variants import CompareError, compare, variant_of

__all__ = ["CompareError", "Variant", "compare", "variant_of", "variants_given", "write_comparison"]
