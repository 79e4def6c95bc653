"""Rules of joints: how thin, deep or near to an edge what they leave and what they put in may "
"be."""

from __future__ import annotations

from functools import partial

from furniture.rules.rule import PRACTICE, KeptBy, Rule

_Kept = partial(Rule, kept_by=KeptBy.JOINTS)
_Long = partial(_Kept, unit="mm")

LOOSEST_HOUSING = _Long(
    name="loosest_housing",
    value=0.5,
    what="the widest clearance of a dado: beyond it no shelf stands upright",
)
SLIP_PLAY = _Long(
    name="slip_play",
    value=0.0,
    what="the play that a slip fit really has in this shop, measured over several pieces; 0 takes "
    "0.1 mm and a 400th of the thickness that goes in",
    source=PRACTICE,
)
FILM_PER_COAT = _Long(
    name="film_per_coat", value=0.03,
    what="dry film that one coat leaves on a face, where the maker gives none",
    source="4 to 5 thousandths of an inch sprayed wet leave about 1 dry, three coats "
    "3 to 4 (a finishers' "
    "forum and a finish teacher's page, read); brushed coats are a little thicker: an assumption",
)  # fmt: skip
LEAST_GRIP = _Long(
    name="least_grip", value=2.0, what="how far a panel reaches into its groove as made"
)
LEAST_STOP = _Long(
    name="least_stop",
    value=3.0,
    what="wood left between a trench and the edge it hides from: less breaks out",
)
LEAST_STOPPED_TONGUE = _Long(
    name="least_stopped_tongue", value=10.0, what="the tongue that a stopped dado leaves to go in"
)
MOST_SHOWING = _Long(
    name="most_showing",
    value=1.0,
    what="open trench that may show beside an edge that is not notched",
)
RABBET_LIP_SHARE = _Kept(
    name="rabbet_lip_share", value=0.25,
    what="what a corner's rabbet leaves of the thickness: it is a half to two thirds deep, this "
    "is the least",
    source=PRACTICE,
)  # fmt: skip
LEAST_RABBET_TONGUE = _Long(
    name="least_rabbet_tongue", value=3.0, what="the tongue that a corner's rabbet leaves"
)
LEAST_LAP = _Kept(
    name="least_lap",
    value=0.33,
    what="what a half-lap takes from one part at least, as a share of the thickness",
)
MOST_LAP = _Kept(
    name="most_lap", value=0.67, what="and at most, so that neither part is left a weak tongue"
)
LEAST_CLEAT_TILT = _Kept(
    name="least_cleat_tilt",
    value=15.0,
    unit="deg",
    what="bevel of a hanging cleat: flatter lets go",
    source=PRACTICE,
)
MOST_CLEAT_TILT = _Kept(
    name="most_cleat_tilt",
    value=45.0,
    unit="deg",
    what="and at most: 30 to 45 is usual",
    source=PRACTICE,
)
LEAST_DOWEL = _Long(
    name="least_dowel", value=3.0, what="the thinnest dowel that is sold", source=PRACTICE
)
DOWEL_SPACING = _Kept(
    name="dowel_spacing",
    value=2.0,
    what="between two dowels' middles, in diameters",
    source=PRACTICE,
)
DOWEL_LEAST_EDGE = _Kept(
    name="dowel_least_edge",
    value=1.0,
    what="from a dowel's middle to an edge at least, in diameters",
    source=PRACTICE,
)
DOWEL_LEAST_DEPTH = _Kept(
    name="dowel_least_depth",
    value=1.0,
    what="how deep a dowel stands in either part at least, in diameters",
)
BEHIND_DOWEL = _Long(
    name="behind_dowel",
    value=3.0,
    what="wood behind a dowel's hole, so that the bit's point does not come through",
)
USUAL_TENON = _Kept(
    name="usual_tenon",
    value=1.0 / 3.0,
    what="a tenon's thickness as a share of the rail's, by default",
    source=PRACTICE,
)
LEAST_TENON = _Kept(name="least_tenon", value=0.25, what="and at least", source=PRACTICE)
MOST_TENON = _Kept(name="most_tenon", value=0.5, what="and at most", source=PRACTICE)
TENON_SHOULDER = _Kept(
    name="tenon_shoulder", value=0.125,
    what="a tenon's shoulder at both edges as a share of the rail's width, by default: it "
    "covers the mortise's ends",
    source=PRACTICE,
)  # fmt: skip
LEAST_TENON_LENGTH = _Long(name="least_tenon_length", value=5.0, what="the shortest tenon")
MOST_TENON_PLAY = _Long(
    name="most_tenon_play", value=5.0, what="the widest gap that is cut on purpose about a tenon"
)
BEHIND_MORTISE = _Long(name="behind_mortise", value=4.0, what="wood behind a blind mortise")
BESIDE_MORTISE = _Long(
    name="beside_mortise", value=3.0, what="wood beside a mortise",
    source="own rule, milder than the usual third of the leg: cheeks of a quarter of the "
    "mortise let a leg go at a kick (a column on tests of joints, autumn 2005, read as cited)",
)  # fmt: skip
BESIDE_MORTISE_SHARE = _Kept(
    name="beside_mortise_share", value=0.5, what="the same as a share of the mortise's thickness"
)
MORTISE_TO_END = _Kept(
    name="mortise_to_end", value=1.0,
    what="wood between a mortise and an end, as a share of its thickness: it shears along the "
    "grain",
)  # fmt: skip
USUAL_TONGUE = _Kept(
    name="usual_tongue", value=1.0 / 3.0,
    what="a tongue's thickness as a share of the thinner part, by default",
    source="a lesson on tongue and groove joints, read",
)  # fmt: skip
LEAST_TONGUE = _Kept(name="least_tongue", value=0.25, what="and at least", source=PRACTICE)
MOST_TONGUE = _Kept(name="most_tongue", value=0.5, what="and at most", source=PRACTICE)
GROOVE_WALL = _Long(
    name="groove_wall", value=2.0, what="wood beside the groove that a tongue goes into"
)
MOST_SPLINE = _Kept(
    name="most_spline",
    value=1.0 / 3.0,
    what="a spline's thickness as a share of the part's at most",
    source=PRACTICE,
)
LEAST_SPLINE_INTO = _Long(
    name="least_spline_into", value=2.0, what="how far a spline goes into each part at least"
)
SPLINE_OUTSIDE = _Long(
    name="spline_outside", value=2.0, what="wood between a spline's groove and the outer face"
)
LEAST_KEY = _Long(name="least_key", value=2.0, what="the shallowest slot of a key")
MOST_KEY = _Kept(
    name="most_key", value=0.9,
    what="the deepest slot of a key as a share of the mitre from corner to corner: it must not "
    "show inside",
)  # fmt: skip

JOINERY = (
    LOOSEST_HOUSING, SLIP_PLAY,
    FILM_PER_COAT, LEAST_GRIP, LEAST_STOP, LEAST_STOPPED_TONGUE, MOST_SHOWING,
    RABBET_LIP_SHARE, LEAST_RABBET_TONGUE, LEAST_LAP, MOST_LAP, LEAST_CLEAT_TILT, MOST_CLEAT_TILT,
    LEAST_DOWEL, DOWEL_SPACING, DOWEL_LEAST_EDGE, DOWEL_LEAST_DEPTH, BEHIND_DOWEL, USUAL_TENON,
    LEAST_TENON, MOST_TENON, TENON_SHOULDER, LEAST_TENON_LENGTH, MOST_TENON_PLAY, BEHIND_MORTISE,
    BESIDE_MORTISE, BESIDE_MORTISE_SHARE, MORTISE_TO_END, USUAL_TONGUE, LEAST_TONGUE, MOST_TONGUE,
    GROOVE_WALL, MOST_SPLINE, LEAST_SPLINE_INTO, SPLINE_OUTSIDE, LEAST_KEY, MOST_KEY,
)  # fmt: skip
