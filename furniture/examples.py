"""How each thing that a script may say is written: one example each, for help and the reference.

Every example is run by a test, so what stands here can be copied.
"""

from __future__ import annotations

import re
from fractions import Fraction

EXAMPLES: dict[str, dict[str, str]] = {
    "Pieces": {
        "SteppedStand": 'SteppedStand(name="herb stand", thick=THICK, thin=THIN, '
        'base_width="320 mm", base_depth="200 mm", base_height="80 mm", post_width="110 mm", '
        'tiers=TierRule(count=3, width="280 mm", depth="140 mm", rise="130 mm"))',
        "FootedStand": 'FootedStand(name="cup steps", thick=THICK, thin=THIN, base_width="300 mm", '
        'base_depth="200 mm", post_width="110 mm", '
        'tiers=TierRule(count=3, width="240 mm", depth="110 mm", rise="120 mm"))',
        "MitredBox": 'MitredBox(name="tea box", rails=THIN, lid=THIN, width="10 1/4 in", '
        'depth="7 in", height="3 1/2 in", shown=inches())',
        "Composition": 'Composition(name="shelf", parts=[PlacedPart(name="board", stock=THICK, '
        'length="400 mm", width="150 mm")])',
        "PlacedPart": 'PlacedPart(name="shelf", stock=THIN, length="390 mm", width="75 mm", '
        'face_side=Way.UP, places=[CentredOn(of="back"), At(of="back", distance="95 mm", '
        "side=Way.DOWN)])",
    },
    "Wood": {
        "Stock": 'Stock(name="oak, thick", species="white oak", thickness="19.7 mm", '
        'moisture="8 %", price="60 EUR/m2", sawn=Sawn.FLAT)',
        "OwnWood": 'OwnWood(name="mango", density="650 kg/m3", stiffness="11 GPa")',
        "OwnSheet": 'OwnSheet(name="bamboo panel", density="700 kg/m3")',
    },
    "A stepped stand's details": {
        "TierRule": 'TierRule(count=3, width="280 mm", depth="140 mm", rise="130 mm", '
        'step_back_width="40 mm", step_back_depth="25 mm")',
        "TierLine": 'TierLine(count=3, top_width="160 mm", top_depth="60 mm", rise="130 mm")',
        "Tier": 'Tier(width="240 mm", depth="110 mm", rise="120 mm")',
        "Uprights": 'Uprights(depth="150 mm", stop="12 mm")',
        "BackPanel": "BackPanel(stock=THIN, fixing=BackFixing.PINNED)",
        "BackRail": 'BackRail(let_in="6 mm")',
        "PostStrips": "PostStrips(count=3)",
        "Dowels": 'Dowels(count=2, diameter="6 mm", length="30 mm")',
        "Lip": 'Lip(on="tiers", height="8 mm", edges=[LipEdge.FRONT])',
        "Bracket": 'Bracket(on="tier 1", count=2, reach="80 mm", height="60 mm")',
        "TierCleat": 'TierCleat(on="tier 1", height="20 mm", set_back="15 mm")',
        "Cleats": 'Cleats(width="20 mm", screw=Screw(diameter="3.5 mm", length="20 mm"))',
        "SlidingLid": 'SlidingLid(drawn_to=DrawnTo.RIGHT, reach="4 mm", lip="6 mm")',
        "HingedLid": 'HingedLid(hinge=Hinge(leaf_length="30 mm", leaf_width="9 mm", '
        'leaf_thickness="1.2 mm", barrel="4 mm", screw=Screw(diameter="2 mm", length="8 mm")))',
        "Hinge": 'Hinge(leaf_length="30 mm", leaf_width="9 mm", leaf_thickness="1.2 mm", '
        'barrel="4 mm", screws=2, screw=Screw(diameter="2 mm", length="8 mm"), '
        'name="brass butt hinge")',
        "Flap": 'Flap(hinge=Hinge(leaf_length="30 mm", leaf_width="6 mm", leaf_thickness="1 mm", '
        'barrel="3 mm", screw=Screw(diameter="2 mm", length="6 mm")))',
        "Hung": 'Hung(part="flap", on="strip", hinge=Hinge(leaf_length="30 mm", '
        'leaf_width="9 mm", leaf_thickness="1.2 mm", barrel="4 mm", '
        'screw=Screw(diameter="2 mm", length="8 mm")), stays_on=["right side"])',
        "Stay": 'Stay(opens_to="105 deg", count=2)',
        "Feet": 'Feet(stock=THICK, length="40 mm", width="30 mm", inset="4 mm")',
        "Opening": 'Opening(on="tiers", size="25 mm", from_edge="30 mm")',
        "CordNotch": 'CordNotch(on="tier 2", passes=Cable(diameter="7 mm"), edge=TierEdge.BACK)',
        "CordClip": 'CordClip(on="tier 2", edge=TierEdge.BACK, '
        'screw=Screw(diameter="2.5 mm", length="8 mm"))',
        "Plug": 'Plug(width="36 mm", thickness="14 mm")',
        "Cable": 'Cable(diameter="7 mm", count=2)',
        "Air": 'Air(area="3 cm2")',
        "Vent": 'Vent(on="back rail", count=5, size="8 mm", spacing="20 mm")',
        "Ballast": 'Ballast(mass="3.2 kg", size=("150 mm", "80 mm", "35 mm"), '
        'from_front="60 mm", name="steel plates")',
    },
    "What stands on it, what is bought, where it stands": {
        "Load": 'Load(name="fern", on="tier 2", mass="0.9 kg", footprint=("90 mm", "90 mm"), '
        'centre_height="60 mm")',
        "Hardware": 'Hardware(name="felt pad", quantity=4, on="post", diameter="20 mm")',
        "Peg": 'Peg(name="walnut peg", diameter="10 mm", length="60 mm")',
        "Screw": 'Screw(diameter="4 mm", length="50 mm", note="brass")',
        "Place": 'Place(climate="heated house", stands_on=StandsOn.TABLE)',
        "Prefinish": "Prefinish(coats=2)",
        "Note": 'Note(text="oil the underside before it is hung", about=("shelf",))',
    },
    "Edges and corners": {
        "EdgeProfile": 'EdgeProfile(on="tiers", edges=[TOP_FRONT], radius="3 mm")',
        "Arris": "Arris(Face.FACE_SIDE, Face.FACE_EDGE)",
        "Splines": "Splines(stock=THIN)",
        "Keys": "Keys(stock=THIN, count=2)",
        "Spline": 'Spline(stock=THIN, between=("front rail", "left side rail"), into_each="8 mm", '
        'from_long_point="6 mm", width="40 mm")',
        "Key": 'Key(stock=THIN, between=("front rail", "left side rail"), depth="14 mm", '
        'start="20 mm")',
        "TrialCut": 'TrialCut(housing="13.55 mm", stock="13.4 mm")',
    },
    "Where a part stands": {
        "Against": 'Against(of="back", side=Way.FRONT, let_in="5 mm")',
        "At": 'At(of="back", distance="95 mm", side=Way.DOWN)',
        "CentredOn": 'CentredOn(of="back", along=Way.RIGHT)',
        "FlushWith": 'FlushWith(of="back", side=Way.UP, shy="15 mm")',
    },
    "Joints": {
        "ButtJoint": 'join(ButtJoint, "cleat", into="back")',
        "CleatJoint": 'join(CleatJoint, "cleat", into="wall cleat", blade_tilt="45 deg")',
        "CornerRabbetJoint": 'join(CornerRabbetJoint, "front", into="left side", tongue="6 mm")',
        "DadoJoint": 'join(DadoJoint, "shelf", into="left side")',
        "DowelledButtJoint": 'join(DowelledButtJoint, "rail", into="leg", diameter="8 mm")',
        "FlatMitreJoint": 'join(FlatMitreJoint, "top rail", into="left stile")',
        "GrooveJoint": 'join(GrooveJoint, "shelf", into="back", stop="15 mm", is_glued=True)',
        "HalfLapJoint": 'join(HalfLapJoint, "rail", into="stile", face=Face.FACE_SIDE)',
        "KeyJoint": 'join(KeyJoint, "key", into="front rail")',
        "MitreJoint": 'join(MitreJoint, "front rail", into="left side rail")',
        "MortiseAndTenonJoint": 'join(MortiseAndTenonJoint, "rail", into="leg", '
        'tenon_thickness="8 mm")',
        "NotchJoint": 'join(NotchJoint, "lid", into="right side", gap="0.5 mm")',
        "RabbetJoint": 'join(RabbetJoint, "bottom", into="front rail", gap="1 mm")',
        "RestJoint": 'join(RestJoint, "lid", into="front rail", gap="0.5 mm")',
        "SplineJoint": 'join(SplineJoint, "spline", into="front rail", gap="0.5 mm")',
        "StoppedDadoJoint": 'join(StoppedDadoJoint, "shelf", into="left side", '
        'stop_from_face_edge="12 mm")',
        "TongueAndGrooveJoint": 'join(TongueAndGrooveJoint, "left board", into="right board", '
        'tongue="6 mm")',
    },
    "Cuts in a part of one's own": {
        "Bevel": 'cut(Bevel, edge=Face.FACE_EDGE, blade_tilt="10 deg", '
        "long_point_face=Face.FACE_SIDE)",
        "Bore": 'cut(Bore, face=Face.FACE_SIDE, x="40 mm", y="25 mm", diameter="10 mm", '
        'depth="12 mm")',
        "Dado": 'cut(Dado, face=Face.FACE_SIDE, lower_shoulder="95 mm", width="12 mm", '
        'depth="6 mm")',
        "FingerNotch": 'cut(FingerNotch, edge=Face.FACE_EDGE, centre="120 mm", radius="15 mm")',
        "FlatMitre": 'cut(FlatMitre, end=Face.FAR_END, gauge_angle="30 deg", '
        "long_point_edge=Face.FACE_EDGE)",
        "Gain": 'cut(Gain, face=Face.BACK_EDGE, side=Face.FACE_SIDE, start="30 mm", '
        'length="40 mm", into="12 mm", depth="2 mm")',
        "Groove": 'cut(Groove, face=Face.FACE_SIDE, offset="10 mm", width="6 mm", depth="6 mm")',
        "Mitre": 'cut(Mitre, end=Face.FAR_END, blade_tilt="45 deg", '
        "long_point_face=Face.FACE_SIDE)",
        "Mortise": 'cut(Mortise, face=Face.FACE_EDGE, first_at="40 mm", first_size="50 mm", '
        'second_at="6 mm", second_size="8 mm", depth="25 mm")',
        "Notch": 'cut(Notch, edge=Face.BACK_EDGE, start="150 mm", length="40 mm", depth="20 mm")',
        "Profile": 'cut(Profile, edge=TOP_FRONT, profile_kind=ProfileKind.CHAMFER, radius="3 mm")',
        "Rabbet": 'cut(Rabbet, edge=Face.FACE_EDGE, face=Face.BACK_SIDE, down_from_edge="8 mm", '
        'into_thickness="6 mm")',
        "Slot": 'cut(Slot, face=Face.FACE_SIDE, x="100 mm", y="30 mm", length="40 mm", '
        'width="8 mm")',
        "Tenon": 'cut(Tenon, end=Face.FAR_END, length="20 mm", from_face_side="6 mm", '
        'thickness="7 mm", from_face_edge="8 mm", width="40 mm")',
    },
    "Boards and wishes": {
        "MeasuredBoard": 'MeasuredBoard(name="A", stock="oak, thick", length="1460 mm", '
        'widths=[("0 mm", "246 mm"), ("1460 mm", "224 mm")], thickness="19.7 mm", price="41 EUR")',
        "BoardZone": 'BoardZone(kind=ZoneKind.KNOT, x="1128 mm", y="30 mm", length="44 mm", '
        'width="38 mm")',
        "CuttingWishes": 'CuttingWishes(parts=[PartWish(on="tiers")], seconds=30)',
        "Match": 'Match(rule=MatchRule.IN_SEQUENCE, on=["left side rail", "front rail", '
        '"right side rail"], price="10 EUR", name="grain round the corners")',
        "PartWish": 'PartWish(on="lid", show_face=CLEAR, wants=ZoneKind.FIGURE, '
        'want_price="10 EUR")',
        "GluedUp": 'GluedUp(narrowest_strip="40 mm")',
    },
    "The shop": {
        "Shop": 'Shop(saw=SawSetUp(kerf="2.8 mm"), dado_head=None, router=Router())',
        "SawSetUp": 'SawSetUp(kerf="3.2 mm", shortest_crosscut="150 mm")',
        "DadoHead": 'DadoHead(outer="3.2 mm", chippers=["1.6 mm", "3.2 mm"], shims=["0.1 mm"])',
        "Router": 'Router(straight=["6 mm", "12 mm"], table=False)',
        "Drills": 'Drills(diameters=["3 mm", "6 mm", "10 mm"], press=False)',
        "Jointer": 'Jointer(widest="150 mm")',
        "Planer": 'Planer(widest="300 mm")',
        "Clamps": 'Clamps(kind=ClampKind.PARALLEL_JAW, opening="600 mm", count=4)',
        "BandClamp": 'BandClamp(reach="4 m", count=1)',
        "Glue": "Glue(family=GlueFamily.LIQUID_HIDE)",
        "Finishing": "Finishing(family=FinishFamily.SHELLAC, coats=3)",
        "ShopRules": 'ShopRules(tilt_asked="12 deg")',
    },
}
"""By subject and by name; `THICK` and `THIN` are two stocks as every script has them."""

_THICK = 'Stock(name="oak, thick", species="white oak", thickness="19.7 mm")'
_THIN = 'Stock(name="oak, thin", species="white oak", thickness="13.4 mm")'


_MM_PER_INCH = 25.4
_LENGTH = re.compile(r"(\d+(?:\.\d+)?) mm")


def _inches(length: re.Match[str]) -> str:
    """A length as one who works in inches would write it: to 1/8, small ones to 1/32."""
    value = float(length[1]) / _MM_PER_INCH
    figure = Fraction(round(value * (8 if value > 1 else 32)), 8 if value > 1 else 32)
    whole, part = divmod(figure, 1)
    return " ".join(str(each) for each in (whole, part) if each or not figure) + " in"


def example_of(name: str, in_inches: bool = False) -> str:
    """How one is written, whole, so that it can be copied into any script: its stocks in full.

    Args:
        name: of a class that a script writes.
        in_inches: whether its lengths are to be.
    """
    code = _in_millimetres(name)
    return _LENGTH.sub(_inches, code) if in_inches else code


def _in_millimetres(name: str) -> str:
    if name == "Stock":
        return _THICK
    found = (examples[name] for examples in EXAMPLES.values() if name in examples)
    code = next(found, f"{name}(...)")
    return code.replace("THICK", _THICK).replace("THIN", _THIN)


MUST_BE_GIVEN: dict[str, tuple[str, ...]] = {
    "Stock": ("species", "thickness"),
    "PlacedPart": ("name",),
    "Uprights": ("depth",),
    "Feet": ("stock",),
    "Opening": ("on",),
    "Vent": ("on",),
    "Ballast": ("mass",),
    "Load": ("on", "mass", "footprint", "centre_height"),
    "Hardware": ("name",),
    "EdgeProfile": ("on", "edges"),
    "TrialCut": ("housing", "stock"),
}
"""What is refused when it is left out, though the class itself lets it be: all problems of a design
are told at once, so none of them is raised where it is written."""
