"""Kinds of what a shop has on hand."""

from __future__ import annotations

from enum import Enum


class ClampKind(Enum):
    """A kind of clamp: one hand's pull at its handle gives it its usual force."""

    PARALLEL_JAW = "parallel-jaw clamp"
    ONE_HAND = "one-hand clamp"
    LIGHT_BAR = "light bar clamp"
    PIPE = "pipe clamp"
    I_BAR = "I-bar clamp"


class GlueFamily(Enum):
    """What a glue is; its label has the last word."""

    PVA_WHITE = "white PVA glue"
    PVA_YELLOW = "yellow PVA glue"
    PVA_CROSS_LINKING = "cross-linking PVA glue"
    LIQUID_HIDE = "liquid hide glue"
    HOT_HIDE = "hot hide glue"
    POLYURETHANE = "polyurethane glue"
    EPOXY = "epoxy"


class FinishFamily(Enum):
    """What a finish is; its label has the last word."""

    LINSEED_OIL = "linseed oil with driers"
    TUNG_OIL = "tung oil"
    WIPING_VARNISH = "wiping varnish"
    OIL_VARNISH = "oil-based varnish"
    SHELLAC = "shellac"
    WATER_VARNISH = "water-borne varnish"
