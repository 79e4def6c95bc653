"""What the maker says is on hand: tools, clamps, glue and finish, kept as written until read."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import field

from furniture.shop.boards.wishes import SawSetUp
from furniture.shop.tools.kinds import ClampKind, FinishFamily, GlueFamily
from furniture.units import REQUIRED, Given, parameters


@parameters
class DadoHead:
    """A dado head for the saw: two outer cutters, chippers between them, and shims.

    What is left out is as usual, in millimetres or, for a piece shown in inches, in inches.

    Args:
        outer: thickness of each outer cutter (default: 3.2 mm or 1/8 in).
        chippers: thickness of every chipper, each named (default: four of 3.2 mm, one of 2.4 and
            one of 1.6, or four of 1/8 in, one of 3/32 and one of 1/16).
        shims: thickness of every shim, each named (default: 0.1, 0.1, 0.2, 0.3 and 0.5 mm, or
            0.004, 0.004, 0.008, 0.012 and 0.020 in). `shims=()` is none.
        diameter: of the head (default: 200 mm or 8 in).
        widest: widest cut that the saw's arbor takes (default: 20 mm or 13/16 in).
        deepest: cut that it saws in the saw's table at most (default: 40 mm or 1 1/2 in).
        cuts_wider: how much wider a test cut was than cutters and shims add up to (default:
            nothing).
    """

    outer: Given | None = None
    chippers: Given | Sequence[Given] | None = None
    shims: Given | Sequence[Given] | None = None
    diameter: Given | None = None
    widest: Given | None = None
    deepest: Given | None = None
    cuts_wider: Given | None = None


@parameters
class Router:
    """A router and its bits; what is left out is as usual, in millimetres or in inches.

    Args:
        straight: diameters of straight bits (default: 3, 4, 6, 8, 10, 12 and 16 mm, or 1/8, 1/4,
            3/8, 1/2, 5/8 and 3/4 in).
        round_over: radii of round-over bits (default: 2, 3, 6 and 10 mm, or 1/16, 1/8, 1/4 and 3/8
            in).
        chamfer: the widest chamfer that a bit of 45 degrees cuts; "0 mm" is none (default: 10 mm or
            3/8 in).
        deepest: cut that its straight bits reach (default: 30 mm or 1 1/4 in).
        base: across the router's base, which bears on the wood (default: 150 mm or 6 in).
        reach: from the bit to the fence of its table, at most (default: 250 mm or 10 in).
        edge_guide: from the edge that its guide rides along to the middle of the bit, at most
            (default: 150 mm or 6 in). "0 mm" is none.
        each_pass: how deep a straight bit cuts in one pass, at most (default: 3 mm or 1/8 in).
        table: whether it also hangs under a table with a fence.
    """

    straight: Given | Sequence[Given] | None = None
    round_over: Given | Sequence[Given] | None = None
    chamfer: Given | None = None
    deepest: Given | None = None
    base: Given | None = None
    reach: Given | None = None
    edge_guide: Given | None = None
    each_pass: Given | None = None
    table: bool = True


@parameters
class Drills:
    """Drills, and what guides them.

    Args:
        diameters: of every drill (default: by half millimetres from 1.5 to 10, then 11, 12, 13, 14,
            15, 16, 18, 20, 22, 25, 30, 35 and 40 mm; or by sixty-fourths from 1/16 to 1/2 in, then
            by eighths up to 1 1/2 in).
        throat: of the drill press, from the drill's middle to the column (default: 150 mm or 6 in).
        tallest: piece that stands under its drill (default: 250 mm or 10 in).
        travel: of its drill, so that one stroke goes so deep (default: 60 mm or 2 3/8 in).
        press: whether there is a drill press; else a brace or a hand drill with a guide.
        jig: whether there is a dowelling jig.
    """

    diameters: Given | Sequence[Given] | None = None
    throat: Given | None = None
    tallest: Given | None = None
    travel: Given | None = None
    press: bool = True
    jig: bool = True


@parameters
class Jointer:
    """A jointer and the wood that it takes.

    Args:
        widest: face that it flattens (default: 200 mm or 8 in).
        shortest: piece that is safe on it (default: 300 mm or 12 in).
        thinnest: piece that is safe on it (default: 12 mm or 1/2 in).
    """

    widest: Given | None = None
    shortest: Given | None = None
    thinnest: Given | None = None


@parameters
class Planer:
    """A planer (thicknesser) and the wood that it takes.

    Args:
        widest: board that goes through (default: 300 mm or 12 in).
        shortest: piece that its rollers carry (default: 300 mm or 12 in).
        thinnest: that it planes to (default: 5 mm or 3/16 in).
    """

    widest: Given | None = None
    shortest: Given | None = None
    thinnest: Given | None = None


@parameters
class Clamps:
    """Clamps of one kind and size.

    Args:
        kind: of clamp.
        opening: how far their jaws open.
        count: how many there are.
        force: of each as you tighten it (default: what such clamps gave when measured: parallel jaw
            1650 N, one-hand 2090, light bar 3020, pipe 4670, I-bar 6000, that is 370 to 1350 lbf).
        throat: from the bar to the middle of its heads (default: parallel jaw 95 mm or 3 3/4 in,
            one-hand 80 mm or 3 1/4 in, light bar 80 mm or 3 in, pipe and I-bar 45 mm or 1 3/4 in).
    """

    kind: ClampKind = REQUIRED
    opening: Given = REQUIRED
    count: int = 1
    force: Given | None = None
    throat: Given | None = None


@parameters
class BandClamp:
    """Straps that go round a box.

    Args:
        reach: the longest way round (default: 4 m or 13 ft).
        tension: of the strap as you tighten it (default: 1000 N or 225 lbf).
        count: how many there are.
    """

    reach: Given | None = None
    tension: Given | None = None
    count: int = 2


@parameters
class Glue:
    """The glue, and what its label says where that differs from the usual of its family.

    Args:
        family: what it is.
        open_minutes: from the first spread to where faces must meet.
        assembly_minutes: from the first spread to where the clamps must be tight.
        clamp_minutes: in the clamps.
    """

    family: GlueFamily = GlueFamily.PVA_YELLOW
    open_minutes: float | None = None
    assembly_minutes: float | None = None
    clamp_minutes: float | None = None


@parameters
class Finishing:
    """The finish that goes on when the piece is together.

    Args:
        family: what it is.
        coats: how many (default: as many as are usual).
    """

    family: FinishFamily = FinishFamily.OIL_VARNISH
    coats: int | None = None


@parameters
class Shop:
    """What is on hand at the bench; what is left out is a usual small shop.

    What you do not have is None, such as `Shop(dado_head=None)`: dados are then routed, and without
    a router sawn and chiselled; `jointer=None` or `planer=None` is a hand plane. Common practice,
    no source; manuals and labels decide.

    Args:
        saw: kerf, trims, and the smallest pieces that are safe at it.
        dado_head: for the saw, or None.
        router: with its bits, or None.
        drills: and what guides them.
        jointer: or None.
        planer: or None.
        clamps: every kind and size (default: four parallel-jaw clamps that open 600 mm (24 in),
            four light bar clamps of 900 mm (36 in) and four one-hand clamps of 300 mm (12 in)).
        band_clamp: straps for boxes, or None.
        glue: what the piece is glued with.
        finish: that it gets, or None.
        slip_play: that a slip fit really had over several pieces that went together well: SLIP is
            then that wide (default: 0.1 mm and a 400th of the thickness that goes in).
    """

    saw: SawSetUp = field(default_factory=SawSetUp)
    dado_head: DadoHead | None = field(default_factory=DadoHead)
    router: Router | None = field(default_factory=Router)
    drills: Drills = field(default_factory=Drills)
    jointer: Jointer | None = field(default_factory=Jointer)
    planer: Planer | None = field(default_factory=Planer)
    clamps: Clamps | Sequence[Clamps] | None = None
    band_clamp: BandClamp | None = field(default_factory=BandClamp)
    glue: Glue = field(default_factory=Glue)
    finish: Finishing | None = field(default_factory=Finishing)
    slip_play: Given | None = None
