"""Why one operation comes before another: a closed list, each in one sentence.

Common practice, no source, unless a line says more.
"""

from __future__ import annotations

from enum import Enum


class Why(Enum):
    """The reason that stands between two operations."""

    SAME_WOOD = "it is sawn from that piece"
    EDGES_FIRST = "a glued edge holds only where both edges are straight and square"
    LAID_OUT_FIRST = "glue leaves no time to turn a strip: grain and joints are looked at dry"
    SCRAPED_FIRST = "hard glue nicks a plane's iron, and holds the wood off the bed"
    BEARS_ON = "it bears on the face that is made true there"
    FLAT_FIRST = "a board is planed only on a face that lies flat"
    RESAWN_FIRST = "what a saw takes off in one piece no hand plane has to"
    LONG_FIRST = "it is done while the piece is long and easy to hold"
    WIDTH_FIRST = "places across are measured from an edge that is final"
    END_FIRST = "places along are measured from an end that is square"
    THICKNESS_FIRST = "depths and dado widths follow the final thickness"
    LONG_CUTS_BEFORE_MITRES = "a point gives no bearing at the fence, and a long cut would tear it"
    EDGES_BEFORE_MITRES = "the two ends are sawn with opposite edges at the fence"
    BORES_BEFORE_MITRES = "a square end on a long piece is bored true and easily held"
    POINT_FIRST = "a drill's point needs wood to start in, which the wider hole would take"
    BORES_BEFORE_PROFILES = "the hole needs a flat bearing, and its lip stays whole"
    OUTSIDE_IN = "from the ends inwards, so that what is held stays long"
    END_GRAIN_FIRST = "the long edge takes away what tears out at the end"
    PROFILE_LAST = "no stop or fence can bear on a profiled edge"
    READ_LAST = "calipers read what the plane leaves"
    MATE_FIRST = "it is made to fit its mate, which can be measured then"
    TESTED_FIRST = "a new cutter or tilt is tried in scrap first"
    SPACERS_FIRST = "spacers are sawn before the cutter is fitted that they serve"
    CAULS_FIRST = "a clamp slips off a slope, and glue leaves no time to saw a caul"
    TRIED_FIRST = "what it closes on is tried dry and measured first"
    TRIMMED_AFTER = "the length follows what has been joined to it"
    SLOPE_FIRST = "it is cut square into the slope"
    CLOSED_FIRST = "both halves of the slot are sawn at once, when the corner is closed and dry"
    FITTED_TO = "it is planed until it slides into what was sawn"
    TENON_LAST = "a tenon is pared until it goes into its mortise"
    FLUSH_AFTER = "it is left proud until its glue is dry"
    DEPTH_FIRST = "the chisel goes on from what the round cutter leaves"
    FITS_FIRST = "all parts are tried together before any glue"
    REACHED_FIRST = "it cannot be reached once the glue is dry"
    MASKED_FIRST = "a film of finish is no ground for glue"
    DRINKS_FIRST = "end grain drinks the glue that should hold"
    DRY_BEFORE = "what it stands on must be together"
    LEVEL_FIRST = "the plane has room only before the next part stands there"
    GLUE_FIRST = "it is levelled when the glue is hard"
    FINISH_LAST = "the finish goes on when all tools are done"
    FIXED_LAST = "hardware goes on over the finish"
