"""A full back rail behind the post: the box is mitred all round, the post stands inside it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from furniture.builders.base_box import BoxFigures, corner, place_rail, place_sides
from furniture.builders.common import StockOf
from furniture.builders.dowels import EndButts
from furniture.builders.panels import place_panel
from furniture.builders.post import PostSupport, post_names
from furniture.builders.rules import DesignReader, at_least_known, at_most_known
from furniture.joints import ButtJoint, DadoJoint, Joint, RabbetJoint, own_fit
from furniture.parts.faces import Arris, Face
from furniture.parts.part import Placed
from furniture.parts.vectors import BACK
from furniture.pieces import Note
from furniture.rules import Rules
from furniture.rules.building import BESIDE_POST, LEAST_FILLER, LEAST_LET_IN
from furniture.rules.design import DADO_SHARE
from furniture.units import Given, parameters, said

RAILED_POST_RAILS = ("front rail", "left side rail", "right side rail", "back rail")
FILLER = "rabbet filler"
_SAME_MM = 1e-6


@parameters
class BackRail:
    """A full back rail behind the post, instead of a stub on either side of it.

    The box is mitred at four corners. The post stands inside against the rail, or is let into it;
    a strip fills the lid's rabbet behind it.

    Args:
        let_in: how deep the post is let into the rail; `0 mm` glues it against its face.
    """

    let_in: Given = "0 mm"


@dataclass(frozen=True, slots=True, kw_only=True)
class RailedPostSupport(PostSupport):
    """A post inside a box of four rails [mm].

    `let_in` is how deep it goes into the back rail, and `play` how much wider its housing is.
    """

    let_in: float
    play: float

    @property
    def filler_width(self) -> float:
        """The lid's rabbet behind the post, front to back [mm]; 0 where there is no lid."""
        if not self.box.has_lid:
            return 0.0
        return self.box.depth - self.box.wall - self.back

    def place_back(self, stock: StockOf) -> list[Placed]:
        """Side rails, back rail, post, and the strip that fills the rabbet behind it."""
        box = self.box
        right = (box.width, box.depth, 0.0)
        found = [
            *place_sides(box, stock, ("side rail", "side rail"), box.depth),
            place_rail("back rail", "back rail", stock, box, box.width, BACK, right),
            *self._place_post(stock),
        ]
        if self.filler_width > 0.0:
            found.append(
                place_panel(
                    FILLER,
                    stock.timber("lid"),
                    (self.left, self.back),
                    (self.left + self.width, box.depth - box.wall),
                    box.rabbet_floor,
                    box.rough,
                )
            )
        return found

    def back_joints(self, butts: EndButts) -> list[Joint]:
        """Mitred corners, the post's own glue lines, and the post against the rail or in it."""
        del butts  # no rail ends there: all four corners are mitred
        names = post_names(self.strips)
        return [
            *(corner("front rail", side) for side in ("left side rail", "right side rail")),
            *(corner("back rail", side) for side in ("left side rail", "right side rail")),
            *(ButtJoint(into=one, incoming=names[i + 1]) for i, one in enumerate(names[:-1])),
            *(self._at_rail(name) for name in names),
            *self._filler_joints(names),
        ]

    def _at_rail(self, name: str) -> Joint:
        if self.let_in <= 0.0:
            return ButtJoint(into="back rail", incoming=name)
        return DadoJoint(into="back rail", incoming=name, fit=own_fit(self.play))

    def _filler_joints(self, names: Sequence[str]) -> list[Joint]:
        if self.filler_width <= 0.0:
            return []
        return [
            RabbetJoint(into="back rail", incoming=FILLER, gap_mm=0.0, is_glued=True),
            *(ButtJoint(into=name, incoming=FILLER) for name in names),
        ]

    @property
    def cross_rails(self) -> tuple[str, ...]:
        """Two: the back rail runs through behind the post."""
        return ("front rail", "back rail")

    @property
    def closed_sides(self) -> tuple[Face, ...]:
        """The back against the rail, and its edges where it is let in."""
        let_in = (Face.FACE_EDGE, Face.BACK_EDGE) if self.let_in > 0.0 else ()
        return (Face.BACK_SIDE, *let_in)

    @property
    def freed_by_bottom(self) -> frozenset[Arris]:
        """Those before the back rail, whose rabbet goes deeper there than the post does."""
        if self.box.depth - self.box.wall - self.back < _SAME_MM:
            return frozenset()
        return frozenset(Arris(face, Face.NAMED_END) for face in self.closed_sides)

    @property
    def behind(self) -> str:
        """What the post's back edges lie against, in words."""
        return "the back rail"

    @property
    def notes(self) -> tuple[Note, ...]:
        """What the sheets say of the post and its rail."""
        if self.filler_width <= 0.0:
            return self.post_notes()
        fill = "glue the strip into the rabbet behind the post before the lid goes in"
        return (*self.post_notes(), Note(fill, (FILLER,)))


@dataclass(frozen=True, slots=True, kw_only=True)
class BackRailFigures:
    """How deep the post is let into the rail [mm]."""

    let_in: float


def read_back_rail(
    reader: DesignReader,
    given: object,
    box: BoxFigures,
    rail: float,
    has_uprights: bool,
    strips: int,
) -> BackRailFigures | None:
    """The back rail's figures; none where there are stubs; problems are noted with the reader.

    Args:
        reader: keeps the problems.
        given: a `BackRail` or nothing.
        box: of the base.
        rail: thickness of the back rail, which may differ a little from the others [mm].
        has_uprights: whether uprights stand instead of a post.
        strips: that the post is glued up from.
    """
    if given is None:
        return None
    if not isinstance(given, BackRail):
        why = "it says how the rail behind the post is made"
        reader.refuse("back_rail", said(given), "BackRail(...)", why, "write BackRail()")
        return None
    reader.names("back_rail.", given)
    if has_uprights:
        reader.refuse(
            "back_rail", "a back rail behind a post", "nothing",
            "uprights have a back rail between them already", "leave back_rail out",
        )  # fmt: skip
    let_in = reader.length(
        "back_rail.let_in",
        given.let_in,
        at_least=0.0,
        at_most=most_let_in(rail, strips, reader.rules),
        why="half the rail stays behind a dado (common practice), and strips are not let in: "
        "each would want a dado of its own",
    )
    rabbet = rail - box.wall
    if 0.0 < let_in < reader.rules[LEAST_LET_IN]:
        reader.refuse(
            "back_rail.let_in", f"'{given.let_in}'",
            f"nothing, or at least {reader.safe_figure(reader.rules[LEAST_LET_IN], 0.0)}",
            "a shallower dado is no dado", f"make it {reader.least(0.0)}",
        )  # fmt: skip
    elif box.has_lid and rabbet - reader.rules[LEAST_FILLER] < let_in < rabbet:
        nearest = reader.safe_figure(max(rabbet - reader.rules[LEAST_FILLER], 0.0), rabbet)
        reader.refuse(
            "back_rail.let_in", f"'{given.let_in}'",
            f"at most {nearest}, or {reader.safe_figure(rabbet, 0.0)} and more",
            "the strip that fills the lid's rabbet behind the post would be too thin to saw",
            f"make it {nearest}",
        )  # fmt: skip
    return BackRailFigures(let_in=let_in)


def least_beside_mm(rail: float, rules: Rules) -> float:
    """The least base on either side of a post inside the box, from rails of a thickness [mm]."""
    return at_least_known(rail + rules[BESIDE_POST], rules[BESIDE_POST])


def most_let_in(rail: float, strips: int, rules: Rules) -> float:
    """How deep a post may be let into its rail of a thickness [mm]: strips not at all."""
    if strips > 1:
        return 0.0
    return at_most_known(rules[DADO_SHARE] * rail)
