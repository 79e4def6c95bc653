"""Two uprights that form the back corners of the box, the tiers let into them at both ends."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import Enum

from furniture.builders.at_edge import TierEdge
from furniture.builders.back_panel import (
    BACK_PANEL,
    BackFigures,
    back_panel_hidden,
    back_panel_joints,
    back_panel_notes,
    place_back_panel,
)
from furniture.builders.base_box import corner, place_rail, place_sides
from furniture.builders.bracket_places import (
    BracketPlace,
    BracketReach,
    Ledge,
    between_uprights,
    between_uprights_reach,
)
from furniture.builders.common import StockOf
from furniture.builders.dowels import EndButts
from furniture.builders.edges import Shoulder
from furniture.builders.panels import Zone
from furniture.builders.support import Support, heights
from furniture.builders.tiers import TierFigures
from furniture.joints import DadoJoint, Fit, Joint, StoppedDadoJoint
from furniture.parts.blank import Blank
from furniture.parts.faces import WIDE_FACES, Arris, Face
from furniture.parts.part import Kin, Part, Placed
from furniture.parts.placement import Placement
from furniture.parts.vectors import BACK, FRONT, UP
from furniture.pieces import Note, Proportion, Reference, Surface, TierSeen
from furniture.rules import Rules
from furniture.rules.building import LEAST_UPRIGHT
from furniture.units import Given, parameters

UPRIGHT_RAILS = ("front rail", "left side rail", "right side rail", "back rail")
UPRIGHT_NAMES = ("left upright", "right upright")


class DadoEnds(Enum):
    """How the dados in the uprights end at the front."""

    STOPPED = "stopped"
    """Short of the front edge, so that no joint shows there; the tier is notched round it."""
    THROUGH = "through"
    """Through the front edge, where the joint shows."""


@parameters
class Uprights:
    """Two uprights instead of a post: they are the box's back corners, and tiers lie between them.

    A tier's depth is then measured from the uprights' back edges, and its width follows from the
    box; a tier may stand out in front of the uprights.

    Args:
        depth: of each upright, front to back.
        dado_ends: stopped, hiding at the front, or through.
        stop: wood left between a stopped dado and the upright's front edge.
        bit_radius: of the router bit that cuts a stopped dado, left in its end; `0 mm` is
            chiselled square.
    """

    depth: Given | None = None
    dado_ends: DadoEnds = DadoEnds.STOPPED
    stop: Given = "12 mm"
    bit_radius: Given = "0 mm"


@dataclass(frozen=True, slots=True, kw_only=True)
class UprightSupport(Support):
    """Two uprights [mm]: `depth` front to back; the stop is 0 where the dados run through.

    `beside` is how far in from the base's sides they stand.
    """

    depth: float
    stop: float
    bit_radius: float
    fit: Fit
    back: BackFigures | None = None
    beside: float = 0.0

    @property
    def tiers_back(self) -> float:
        """How far back the tiers reach: to the uprights' back edges, or to a back panel."""
        return self.box.depth - (0.0 if self.back is None else self.back.thickness)

    def back_panel(self, stock: StockOf) -> list[Placed]:
        """The panel behind the tiers, if it has one."""
        if self.back is None:
            return []
        return [place_back_panel(self.back, self.box, stock, self.thickness, self.length)]

    def back_panel_joints(self, steps: Sequence[TierFigures]) -> list[Joint]:
        """The joints of that panel."""
        if self.back is None:
            return []
        return back_panel_joints(self.back, UPRIGHT_NAMES, tuple(step.name for step in steps))

    def back_panel_notes(self, steps: Sequence[TierFigures]) -> tuple[Note, ...]:
        """How it is held."""
        return back_panel_notes(self.back, tuple(step.name for step in steps))

    @property
    def tier_edges(self) -> tuple[TierEdge, ...]:
        """In front and behind: the ends lie in the dados."""
        return (TierEdge.FRONT, TierEdge.BACK)

    @property
    def front(self) -> float:
        """The uprights' front edge, from the box's front."""
        return self.box.depth - self.depth

    @property
    def inside(self) -> tuple[float, float]:
        """The uprights' inner faces, left and right."""
        off = self.beside + self.thickness
        return (off, self.box.width - off)

    @property
    def foot_at(self) -> float:
        """How high their lower ends are above the base's underside."""
        return 0.0

    def place_back(self, stock: StockOf) -> list[Placed]:
        """Side rails as far as the uprights, the uprights, and the back rail between them."""
        box = self.box
        left, right = self.inside
        return [
            *place_sides(box, stock, ("left side rail", "right side rail"), self.front),
            place_rail(
                "back rail", "back rail", stock, box, right - left, BACK, (right, box.depth, 0.0)
            ),
            *self._place_uprights(stock),
        ]

    def _place_uprights(self, stock: StockOf) -> list[Placed]:
        """Face sides look at each other; the left one's face edge is at the back."""
        blank = Blank(
            length_mm=self.length - self.foot_at, width_mm=self.depth, thickness_mm=self.thickness
        )
        placed, right = [], self.box.width - self.beside
        for instance, origin, y_axis in (
            ("left upright", (self.beside, self.box.depth, self.foot_at), FRONT),
            ("right upright", (right, self.front, self.foot_at), BACK),
        ):
            timber = stock.timber(instance)
            assert timber is not None, "stocks were read before parts are placed"
            part = Part(
                name=instance,
                blank=blank,
                timber=timber,
                rough=self.box.rough,
                trimmed_last=Face.FAR_END,
            )
            placement = Placement(origin=origin, x_axis=UP, y_axis=y_axis)
            placed.append(
                Placed(instance=instance, part=part, placement=placement, kin=Kin("upright"))
            )
        return placed

    def back_joints(self, butts: EndButts) -> list[Joint]:
        """Mitres at the front corners; side and back rails butt the uprights."""
        return [
            *(corner("front rail", side) for side in ("left side rail", "right side rail")),
            butts.on("left upright", "left side rail"),
            butts.on("right upright", "right side rail"),
            *(butts.on_wide_face(upright, "back rail") for upright in UPRIGHT_NAMES),
        ]

    def lid_zones(self) -> tuple[Zone, ...]:
        """To the uprights' front edges beside, and to the back rail's rabbet wall between them."""
        return self.bottom_zones(self.box.gap_before)

    def bottom_zones(self, gap: float) -> tuple[Zone, ...]:
        """The same for a bottom, with its own gap."""
        left, right = self.inside
        beside = self.front - gap
        return (
            Zone(left=0.0, right=left, back=beside),
            Zone(left=left, right=right, back=self.box.depth - self.box.wall - gap),
            Zone(left=right, right=self.box.width, back=beside),
        )

    def lid_housings(self, is_glued: bool) -> list[Joint]:
        """None: the lid lifts off, forward between the uprights."""
        return []

    def plan(self, step: TierFigures) -> tuple[tuple[float, float], tuple[float, float]]:
        """From one dado's bottom to the other's, its back edge flush with the uprights'."""
        left, right = self.inside
        return (
            (left - self.dado_depth, self.box.depth - step.depth),
            (right + self.dado_depth, self.tiers_back),
        )

    def tier_joints(self, step: TierFigures) -> list[Joint]:
        """A dado at each end: through, or stopped short of the front."""
        if self.stop <= 0.0:
            return [
                DadoJoint(into=upright, incoming=step.name, fit=self.fit)
                for upright in UPRIGHT_NAMES
            ]
        is_open_above = step.top >= self.length - 1e-6  # a rabbet there is sawn and chiselled
        radius = 0.0 if is_open_above else self.bit_radius
        stop = max(self.stop, self.depth - step.depth - radius)
        front_edges = {"left upright": Face.BACK_EDGE, "right upright": Face.FACE_EDGE}
        return [
            StoppedDadoJoint(
                into=upright,
                incoming=step.name,
                fit=self.fit,
                end_radius_mm=radius,
                stop_from_face_edge_mm=stop if front is Face.FACE_EDGE else 0.0,
                stop_from_back_edge_mm=stop if front is Face.BACK_EDGE else 0.0,
            )
            for upright, front in front_edges.items()
        ]

    def bracket_places(self, step: TierFigures, count: int) -> tuple[BracketPlace, ...]:
        """Against both inner faces, as far as the tier lies before them."""
        return between_uprights(self.ledge(step), count)

    def bracket_reach(self, step: TierFigures, rules: Rules) -> BracketReach:
        """By the span."""
        return between_uprights_reach(self.ledge(step).span, rules)

    def ledge(self, step: TierFigures) -> Ledge:
        """Both inner faces, as far as the tier lies before them."""
        along = (max(self.front, self.box.depth - step.depth), self.tiers_back)
        return Ledge(names=UPRIGHT_NAMES, inside=self.inside, along=along, thickness=self.thickness)

    def surface(self, step: TierFigures) -> Surface:
        """The tier's top between the uprights."""
        left, right = self.inside
        return Surface(
            instance=step.name,
            low=(left, self.box.depth - step.depth),
            high=(right, self.tiers_back),
            top_mm=step.top,
        )

    def proportion(self, steps: Sequence[TierFigures], rules: Rules) -> Proportion:
        """As wide as the box lets them be, and as deep as they lie in the uprights at least."""
        left, right = self.inside
        share = 1.0 if self.stop <= 0.0 else 0.5
        return Proportion(
            tiers=tuple(
                TierSeen(instance=step.name, width_mm=right - left, depth_mm=step.depth)
                for step in steps
            ),
            least_width_mm=None,
            least_depth_mm=share * max(self.depth, rules[LEAST_UPRIGHT]),
        )

    def lid_surface(self) -> Surface:
        """The lid's top between the uprights and in front of them: the part that is whole."""
        box = self.box
        left, right = self.inside
        return Surface(
            instance="lid",
            low=(left, box.wall + box.gap_before),
            high=(right, box.depth - box.wall - box.gap_before),
            top_mm=box.lid_top,
        )

    def references(self, steps: Sequence[TierFigures]) -> list[Reference]:
        """Heights from the floor, and depths from the uprights' back edges."""
        back = self.box.depth
        left, right = self.inside
        found = [
            *heights(self.box),
            Reference(
                what="between uprights",
                start=(left, back, self.length),
                end=(right, back, self.length),
            ),
            Reference(
                what="upright depth",
                start=(0.0, self.front, self.length),
                end=(0.0, back, self.length),
            ),
        ]
        for step in steps:
            front = back - step.depth
            found += [
                Reference(
                    what=f"{step.name} top",
                    start=(left, front, 0.0),
                    end=(left, front, step.top),
                    from_floor=True,
                ),
                Reference(
                    what=f"{step.name} depth",
                    start=(self.box.width / 2, back, step.top),
                    end=(self.box.width / 2, front, step.top),
                ),
            ]
        return found

    @property
    def free_depth(self) -> float:
        """To the uprights' front edges."""
        return min(self.front, self.box.depth - self.box.rail)

    @property
    def free_side_rail(self) -> float:
        """To the uprights' front edges."""
        return min(self.front, self.box.depth - self.box.rail)

    @property
    def free_beside(self) -> float:
        """A quarter of the room between the side rails."""
        return (self.box.width - 2 * self.box.rail) / 4

    def hidden(self, steps: Sequence[TierFigures]) -> Mapping[str, Mapping[Arris, str]]:
        """Tiers' ends in the dados, and front edges that end in one."""
        in_dado = "the tier's ends lie in the uprights' dados: a profile there spoils the fit"
        showing = "this edge ends in the uprights' dados, where the profile would leave a hole"
        taken = "a notch at the uprights takes this corner away"
        ends = (Face.NAMED_END, Face.FAR_END)
        found: dict[str, dict[Arris, str]] = {}
        for step in steps:
            edges = {Arris(wide, end): in_dado for wide in WIDE_FACES for end in ends}
            edges |= {Arris(wide, Face.BACK_EDGE): showing for wide in WIDE_FACES}
            edges |= {Arris(Face.BACK_EDGE, end): in_dado for end in ends}
            is_notched = self.stop > 0.0 and step.depth > self.depth - self.stop - self.bit_radius
            if is_notched:
                edges |= {Arris(Face.FACE_EDGE, end): taken for end in ends}
            elif step.depth <= self.depth + 1e-6:
                edges |= {Arris(wide, Face.FACE_EDGE): showing for wide in WIDE_FACES}
                edges |= {Arris(Face.FACE_EDGE, end): in_dado for end in ends}
            found[step.name] = edges
        against = "the rails lie against this edge: a profile would open the joint"
        trimmed = "the top tier lies there in the end of an upright trimmed flush"
        for upright, back, front in (
            ("left upright", Face.FACE_EDGE, Face.BACK_EDGE),
            ("right upright", Face.BACK_EDGE, Face.FACE_EDGE),
        ):
            # A side rail ends at the whole front edge, the back rail at the inner face only.
            found[upright] = {Arris(Face.FACE_SIDE, back): against} | {
                Arris(front, other): against for other in (*WIDE_FACES, Face.NAMED_END)
            }
            if steps and self.length <= steps[-1].top + 1e-6:
                found[upright][Arris(Face.FACE_SIDE, Face.FAR_END)] = trimmed
        corners = {Arris(Face.BACK_EDGE, end): taken for end in ends}
        found["lid"] = found["bottom"] = corners
        if self.back is not None:
            found[BACK_PANEL] = back_panel_hidden()
        return found

    def shoulders(self, steps: Sequence[TierFigures]) -> Mapping[str, Shoulder]:
        """None: the ends lie in the dados altogether."""
        return {}

    @property
    def notes(self) -> tuple[Note, ...]:
        """What the sheets say of the uprights."""
        pairs = Note("cut each pair of dados in both uprights at one set-up")
        if not self.box.has_lid:
            return (pairs,)
        return (pairs, Note("the lid lifts off forward, between the uprights", ("lid",)))
