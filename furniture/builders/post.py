"""One post between two stubs at the back of the box, the tiers housed in its front face."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from furniture.builders.back_of_post import PostBack
from furniture.builders.back_panel import BACK_PANEL
from furniture.builders.base_box import BoxFigures, corner, place_rail, place_sides
from furniture.builders.bracket_places import (
    Board,
    BracketPlace,
    BracketReach,
    before_post,
    before_post_reach,
)
from furniture.builders.common import StockOf
from furniture.builders.dowels import EndButts
from furniture.builders.edges import Shoulder
from furniture.builders.panels import Zone
from furniture.builders.rules import DesignReader, at_least_known, at_most_known
from furniture.builders.support import Support, heights
from furniture.builders.tiers import TierFigures
from furniture.joints import ButtJoint, DadoJoint, Fit, Joint
from furniture.parts.blank import Blank
from furniture.parts.edge_names import TOP_LEFT, TOP_RIGHT, UNDER_LEFT, UNDER_RIGHT
from furniture.parts.faces import ENDS, WIDE_FACES, Arris, Face
from furniture.parts.part import Kin, Part, Placed
from furniture.parts.placement import Placement
from furniture.parts.vectors import BACK, LEFT, UP
from furniture.pieces import Note, Proportion, Reference, Surface, TierSeen
from furniture.rules import Rules
from furniture.rules.building import (
    GREATEST_STRIP,
    LEAST_MITRED_RAIL,
    LEAST_POST,
    LEAST_RAIL_INSIDE,
    LEAST_STRIP,
    LEAST_TIER,
)
from furniture.units import Given, parameters, range_as_text, said

POST_RAILS = ("front rail", "left side rail", "right side rail", "left stub", "right stub")


@parameters
class PostStrips:
    """A post glued up edge to edge from equal strips that are dadoed before, all at one set-up.

    A post that no board is wide enough for needs none: the cutting plan glues it up from what
    there is, and it is dadoed as one board afterwards.

    Args:
        count: how many strips, side by side.
    """

    count: int = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class PostSupport(Support):
    """The post [mm]: `front` is its front face's distance from the box's front."""

    width: float
    front: float
    fit: Fit
    strips: int = 1
    panel: PostBack | None = None

    def back_panel(self, stock: StockOf) -> list[Placed]:
        """The panel on its back, if it has one."""
        if self.panel is None:
            return []
        middle = self.box.width / 2
        return [self.panel.place(stock, middle, self.back, self.length, self.box.rough)]

    def back_panel_joints(self, steps: Sequence[TierFigures]) -> list[Joint]:
        """Of that panel with the post."""
        if self.panel is None:
            return []
        return self.panel.joints(post_names(self.strips), self.length)

    def back_panel_notes(self, steps: Sequence[TierFigures]) -> tuple[Note, ...]:
        """How it is held."""
        return () if self.panel is None else self.panel.notes

    def hidden_by_panel(self) -> dict[Arris, str]:
        """The arrises of the post that its back covers."""
        covered = "the back lies there"
        edges = (Face.FACE_EDGE, Face.BACK_EDGE, Face.FAR_END)
        if self.panel is None:
            return {}
        return {Arris(Face.BACK_SIDE, each): covered for each in edges}

    @property
    def left(self) -> float:
        """The post's left edge, where the left stub ends."""
        return (self.box.width - self.width) / 2

    @property
    def boards(self) -> tuple[Board, ...]:
        """The post, or its strips, from the left."""
        wide = self.width / self.strips
        return tuple(
            Board(
                instance=name, left=self.left + index * wide, right=self.left + (index + 1) * wide
            )
            for index, name in enumerate(post_names(self.strips))
        )

    def bracket_places(self, step: TierFigures, count: int) -> tuple[BracketPlace, ...]:
        """Before its front."""
        return before_post(self.boards, self.front, self.thickness, count)

    def bracket_reach(self, step: TierFigures, rules: Rules) -> BracketReach:
        """By what the tier stands out."""
        return before_post_reach(step.depth, rules)

    @property
    def back(self) -> float:
        """The post's back face, from the box's front."""
        return self.front + self.thickness

    @property
    def closed_sides(self) -> tuple[Face, ...]:
        """The post's faces that lie against something at its foot."""
        return (Face.FACE_EDGE, Face.BACK_EDGE)

    @property
    def cross_rails(self) -> tuple[str, ...]:
        """The front rail: behind, the post stands in the middle between two stubs."""
        return ("front rail",)

    @property
    def behind(self) -> str:
        """What the post's back edges lie against, in words."""
        return "the stubs"

    def place_back(self, stock: StockOf) -> list[Placed]:
        """Side rails, stubs and post; a stub's named end is the left one as seen from outside."""
        box, length = self.box, self.left
        left, right = (length, box.depth, 0.0), (box.width, box.depth, 0.0)
        return [
            *place_sides(box, stock, ("side rail", "side rail"), box.depth),
            place_rail("left stub", "left stub", stock, box, length, BACK, left, "stub"),
            place_rail("right stub", "right stub", stock, box, length, BACK, right, "stub"),
            *self._place_post(stock),
        ]

    def _place_post(self, stock: StockOf) -> list[Placed]:
        width = self.width / self.strips
        blank = Blank(length_mm=self.length, width_mm=width, thickness_mm=self.thickness)
        placed = []
        for index, instance in enumerate(post_names(self.strips)):
            timber = stock.timber(instance)
            assert timber is not None, "stocks were read before parts are placed"
            right = self.left + (index + 1) * width
            placement = Placement(origin=(right, self.back, 0.0), x_axis=UP, y_axis=LEFT)
            part = Part(
                name=instance,
                blank=blank,
                timber=timber,
                rough=self.box.rough,
                trimmed_last=Face.FAR_END,
            )
            kin = Kin("post strip", index + 1) if self.strips > 1 else None
            placed.append(Placed(instance=instance, part=part, placement=placement, kin=kin))
        return placed

    def back_joints(self, butts: EndButts) -> list[Joint]:
        """Mitred corners, the glue lines of a glued-up post, and the stubs butting the post."""
        names = post_names(self.strips)
        return [
            *(corner("front rail", side) for side in ("left side rail", "right side rail")),
            corner("left stub", "left side rail"),
            corner("right stub", "right side rail"),
            *(ButtJoint(into=one, incoming=names[i + 1]) for i, one in enumerate(names[:-1])),
            butts.on(names[0], "left stub"),
            butts.on(names[-1], "right stub"),
        ]

    def lid_zones(self) -> tuple[Zone, ...]:
        """To the stubs' rabbet walls, and at the post to its lowest dado's bottom; gaps kept."""
        return self._zones(self.box.gap_before, self.front + self.dado_depth)

    def bottom_zones(self, gap: float) -> tuple[Zone, ...]:
        """To the stubs' rabbet walls, and at the post to its front face; gaps kept."""
        return self._zones(gap, self.front)

    def _zones(self, gap: float, at_post: float) -> tuple[Zone, ...]:
        at_stubs = self.box.depth - self.box.wall - gap
        left, right = self.left, self.left + self.width
        return (
            Zone(left=0.0, right=left, back=at_stubs),
            Zone(left=left, right=right, back=at_post - gap),
            Zone(left=right, right=self.box.width, back=at_stubs),
        )

    def lid_housings(self, is_glued: bool) -> list[Joint]:
        """The lid's back edge in the post's lowest dado."""
        gap = self.box.gap_before
        return [
            DadoJoint(
                into=name,
                incoming="lid",
                fit=self.fit,
                bottom_gap_mm=gap,
                is_glued=is_glued,
            )
            for name in post_names(self.strips)
        ]

    def plan(self, step: TierFigures) -> tuple[tuple[float, float], tuple[float, float]]:
        """Centred on the post, its back edge straight and in the dado."""
        left = (self.box.width - step.width) / 2
        return (
            (left, self.front - step.depth),
            (left + step.width, self.front + self.dado_depth),
        )

    def tier_joints(self, step: TierFigures) -> list[Joint]:
        """One dado, through across the post's width."""
        return [
            DadoJoint(into=name, incoming=step.name, fit=self.fit)
            for name in post_names(self.strips)
        ]

    def surface(self, step: TierFigures) -> Surface:
        """The tier's top in front of the post."""
        low, high = self.plan(step)
        return Surface(instance=step.name, low=low, high=(high[0], self.front), top_mm=step.top)

    def proportion(self, steps: Sequence[TierFigures], rules: Rules) -> Proportion:
        """No tier is narrower than the post."""
        return Proportion(
            tiers=tuple(
                TierSeen(instance=step.name, width_mm=step.width, depth_mm=step.depth)
                for step in steps
            ),
            least_width_mm=self.width,
            least_depth_mm=rules[LEAST_TIER],
        )

    def lid_surface(self) -> Surface:
        """The lid's top in front of the post."""
        box = self.box
        inset = box.wall + box.gap_beside
        return Surface(
            instance="lid",
            low=(inset, box.wall + box.gap_before),
            high=(box.width - inset, self.front),
            top_mm=box.lid_top,
        )

    def references(self, steps: Sequence[TierFigures]) -> list[Reference]:
        """Heights from the floor, projections from the post's front face, widths edge to edge."""
        middle, back = self.box.width / 2, self.back
        found = [
            *heights(self.box),
            Reference(
                what="post width",
                start=(self.left, back, self.length),
                end=(self.left + self.width, back, self.length),
            ),
        ]
        for step in steps:
            (left, front), (right, _) = self.plan(step)
            found += [
                Reference(
                    what=f"{step.name} top",
                    start=(left, front, 0.0),
                    end=(left, front, step.top),
                    from_floor=True,
                ),
                Reference(
                    what=f"{step.name} width",
                    start=(left, front, step.top),
                    end=(right, front, step.top),
                ),
                Reference(
                    what=f"{step.name} projection",
                    start=(middle, self.front, step.top),
                    end=(middle, front, step.top),
                ),
            ]
        return found

    @property
    def free_depth(self) -> float:
        """To the post's front face, or to the stubs where that lies behind them."""
        return min(self.front, self.box.depth - self.box.rail)

    @property
    def free_side_rail(self) -> float:
        """To the stubs' inner faces."""
        return self.box.depth - self.box.rail

    @property
    def free_beside(self) -> float:
        """As wide as the stubs are at their inner faces: a thick post stands past them."""
        return self.left - self.box.rail

    def hidden(self, steps: Sequence[TierFigures]) -> Mapping[str, Mapping[Arris, str]]:
        """Edges in the dados and against the stubs."""
        in_dado = "the tier's back edge lies in the post's dado: a profile there spoils the fit"
        back = {Arris(wide, Face.BACK_EDGE): in_dado for wide in (Face.FACE_SIDE, Face.BACK_SIDE)}
        found: dict[str, Mapping[Arris, str]] = {step.name: back for step in steps}
        at_stub = f"the post's back edges lie against {self.behind}: a profile would open the joint"
        edges = {Arris(Face.BACK_SIDE, edge): at_stub for edge in (Face.FACE_EDGE, Face.BACK_EDGE)}
        if steps and self.length <= steps[-1].top + 1e-6:
            edges[Arris(Face.FACE_SIDE, Face.FAR_END)] = (
                "the top tier lies there in the end of a post trimmed flush"
            )
        glued = "this edge lies against the next strip: a profile would open the glue line"
        edges |= {Arris(face, Face.NAMED_END): at_stub for face in self.closed_sides}
        names = post_names(self.strips)
        for name in names:
            inner = [Face.FACE_EDGE] * (name != names[-1]) + [Face.BACK_EDGE] * (name != names[0])
            found[name] = (
                self.hidden_by_panel()
                | edges
                | {Arris(edge, other): glued for edge in inner for other in (*WIDE_FACES, *ENDS)}
            )
        lid = {Arris(Face.FACE_SIDE, Face.BACK_EDGE): "the lid's back edge lies in the post's dado"}
        zones = self.lid_zones()
        if zones[0].back < max(each.back for each in zones):
            notched = "the lid is notched there, so that it reaches farther into the post's dado"
            lid |= {Arris(Face.BACK_EDGE, end): notched for end in ENDS}
        found["lid"] = lid
        if self.panel is not None:
            found[BACK_PANEL] = self.panel.hidden
        return found

    def shoulders(self, steps: Sequence[TierFigures]) -> Mapping[str, Shoulder]:
        """A tier's ends beside the post."""
        ends = frozenset({TOP_LEFT, TOP_RIGHT, UNDER_LEFT, UNDER_RIGHT})
        return {
            step.name: Shoulder(edges=ends, room=(step.width - self.width) / 2) for step in steps
        }

    @property
    def notes(self) -> tuple[Note, ...]:
        """What the sheets say of the post."""
        return self.post_notes()

    def post_notes(self) -> tuple[Note, ...]:
        """What is said of a post, whatever stands behind it."""
        names = post_names(self.strips)
        trim = Note("the top of the post is left long until the dry fit, and cut then", names)
        if self.strips == 1:
            return (trim,)
        said = (
            f"the post is {self.strips} strips, dadoed at one set-up from the foot end: glue them "
            "up with their foot ends level, so that their dados run on in one another"
        )
        return (Note(said, names), trim)


def post_names(strips: int) -> tuple[str, ...]:
    """The post's instances, from left to right."""
    if strips == 1:
        return ("post",)
    return tuple(f"post strip {index + 1}" for index in range(strips))


def read_strips(reader: DesignReader, given: object, most: int = 8) -> int:
    """How many strips a post is glued up from; problems are noted with the reader."""
    if given is None:
        return 1
    if not isinstance(given, PostStrips):
        why = "it says how the post is glued up"
        reader.refuse(
            "post_strips", said(given), "PostStrips(...)", why, "write PostStrips(count=3)"
        )
        return 1
    reader.names("post_strips.", given)
    why = "a glued-up post has two strips and more; one piece needs no PostStrips"
    return reader.whole("post_strips.count", given.count, 2, most, 3, why) or 1


def least_stub_mm(rail: float, rules: Rules) -> float:
    """The shortest stub from rails of a thickness [mm]."""
    return at_least_known(rail + rules[LEAST_RAIL_INSIDE], rules[LEAST_MITRED_RAIL])


def least_post_mm(strips: int, rules: Rules) -> float:
    """The narrowest post of so many strips [mm]."""
    return max(rules[LEAST_POST], strips * rules[LEAST_STRIP] if strips > 1 else 0.0)


def read_post_width(
    reader: DesignReader, given: Given | None, box: BoxFigures, strips: int, beside: float
) -> float:
    """The post's width [mm]; problems are noted with the reader.

    Args:
        reader: keeps the problems.
        given: the parameter.
        box: of the base.
        strips: that it is glued up from.
        beside: least room on either side of it [mm]: of a stub, or of the lid there.
    """
    least = least_post_mm(strips, reader.rules)
    most = box.width - 2 * beside
    if strips > 1 and not math.isnan(most):
        most = min(most, strips * reader.rules[GREATEST_STRIP])
    why = (
        f"below {reader.least(least)} a post is too slender, and {reader.least(beside)} of base "
        "stay on either side of it"
    )
    if strips > 1:
        wide = range_as_text(reader.rules[LEAST_STRIP], reader.rules[GREATEST_STRIP], reader.shown)
        why += f"; each strip is {wide} wide (own rule)"
    return reader.length(
        "post_width",
        given,
        at_least=least,
        at_most=at_most_known(most),
        why=why,
        instead="give uprights=Uprights(...) instead of a post",
    )
