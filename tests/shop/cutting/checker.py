"""An independent checker of whole plans: boards and zones through shapely, cuts from the tree.

Reads only the values of requests and plans, none of the solver's geometry or search.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterator

from shapely.geometry import Polygon, box

from furniture.shop.cutting.plan import (
    BoardPlan,
    CutDirection,
    CutNode,
    CuttingPlan,
    LeafUse,
    Placement,
    Rectangle,
)
from furniture.shop.cutting.values import (
    Board,
    CutPart,
    CuttingRequest,
    GrainRule,
    MatchGroup,
    MatchRule,
    OddOne,
    ZoneKind,
    ZoneShows,
)
from tests.shop.cutting.demand import faults_of_demand, worth_left_out
from tests.shop.cutting.sawing import is_guillotine

CLOSE = 1e-4
"""Lengths this close are equal [mm]: a hundredth of what a rule shows, far above rounding."""


def faults_of_plan(request: CuttingRequest, plan: CuttingPlan) -> list[str]:
    """Everything wrong with the plan; empty when it can be sawn as it says."""
    boards = {board.name: board for board in request.boards}
    parts = {part.name: part for part in request.parts}
    faults: list[str] = []
    for board_plan in plan.boards:
        board = boards[board_plan.board]
        faults += _places(request, board, board_plan, parts)
        faults += _tree(request, board, board_plan)
        faults += _cuts(request, board_plan)
    faults += faults_of_demand(request, plan)
    faults += _matches(request, plan, boards, parts)
    faults += _money(request, plan, boards, parts)
    return faults


def rough(part: CutPart) -> tuple[float, float]:
    """Length and width to saw [mm]."""
    return part.length_mm + part.length_allowance_mm, part.width_mm + part.width_allowance_mm


def _outline(board: Board, end_trim: float, edge_trim: float) -> Polygon:
    stations = sorted(board.stations, key=lambda s: s.at_mm)
    far = [(s.at_mm, s.width_mm - edge_trim) for s in stations]
    if far[0][0] > 0:
        far.insert(0, (0.0, far[0][1]))
    if far[-1][0] < board.length_mm:
        far.append((board.length_mm, far[-1][1]))
    whole = Polygon([(0.0, edge_trim), *far, (board.length_mm, edge_trim)])
    return whole.intersection(box(end_trim, -1, board.length_mm - end_trim, 1e7))


def _shape(place: Rectangle) -> Polygon:
    return box(place.x_mm, place.y_mm, place.x_mm + place.length_mm, place.y_mm + place.width_mm)


def _places(
    request: CuttingRequest, board: Board, board_plan: BoardPlan, parts: dict[str, CutPart]
) -> Iterator[str]:
    saw = request.saw
    wood = _outline(board, saw.end_trim_mm, saw.edge_trim_mm)
    placements = board_plan.placements
    for placement in placements:
        part = parts[placement.part]
        name = f"{board.name}: {placement.part} {placement.copy}"
        shape = _shape(placement.place)
        if shape.difference(wood).area > CLOSE * shape.length:
            yield f"{name} is not wholly on sound wood"
        if part.species != board.species:
            yield f"{name} is of another species"
        if part.thickness_mm < board.thinnest_mm - CLOSE:
            yield f"{part.name} is planed out of {board.name}, which is kept for thicker parts"
        if board.thickness_mm < part.thickness_mm + saw.planing_loss_mm - CLOSE:
            yield f"{name} is thicker than the board"
        if placement.is_turned and part.grain is not GrainRule.EITHER:
            yield f"{name} is turned across the grain"
        size = (placement.place.length_mm, placement.place.width_mm)
        if placement.is_turned:
            size = (size[1], size[0])
        length, width = rough(part)
        if abs(size[0] - length) > CLOSE:
            yield f"{name} has length {size[0]}"
        if placement.strip == 0 and abs(size[1] - width) > CLOSE:
            leaves = size[1] - part.width_mm
            narrow = min(s.width_mm for s in board.stations) - 2 * saw.edge_trim_mm < width
            least = part.least_width_allowance_mm
            if least is None or not narrow or not least - CLOSE <= leaves < part.width_allowance_mm:
                yield f"{name} has width {size[1]}"
        for zone in board.zones:
            if zone.kind in (ZoneKind.FIGURE, ZoneKind.EVEN_GRAIN):
                continue
            seen = {ZoneShows.BOTH: "us", ZoneShows.UPPER: "u", ZoneShows.LOWER: "s"}[zone.shows]
            show, hidden = ("s", "u") if placement.is_flipped else ("u", "s")
            barred = (show in seen and zone.kind not in part.show_face_tolerates) or (
                hidden in seen and zone.kind not in part.hidden_face_tolerates
            )
            is_near = zone.kind in (ZoneKind.KNOT, ZoneKind.CHECK, ZoneKind.HOLE) and (
                shape.distance(Polygon(zone.outline)) < saw.off_faults_mm - CLOSE
            )
            if barred and is_near:
                yield f"{name} comes too near {zone.kind.value} {zone.name}"
            if barred and shape.intersection(Polygon(zone.outline)).area > CLOSE * shape.length:
                yield f"{name} lies on {zone.kind.value} {zone.name}"
    boxes = [
        (
            p.place.x_mm,
            p.place.y_mm,
            p.place.x_mm + p.place.length_mm,
            p.place.y_mm + p.place.width_mm,
        )
        for p in placements
    ]
    for index, first in enumerate(boxes):
        for second in boxes[:index]:
            apart = max(
                first[0] - second[2],
                second[0] - first[2],
                first[1] - second[3],
                second[1] - first[3],
            )
            if apart < saw.kerf_mm - CLOSE:
                yield f"{board.name}: parts at {first[:2]} and {second[:2]} are {apart} apart"
    if not is_guillotine(boxes, saw.kerf_mm - CLOSE):
        yield f"{board.name}: no saw can part the places"


def _tree(request: CuttingRequest, board: Board, board_plan: BoardPlan) -> Iterator[str]:
    root = board_plan.tree.piece
    widest = max(s.width_mm for s in board.stations)
    if max(abs(root.x_mm), abs(root.y_mm), abs(root.length_mm - board.length_mm)) > CLOSE or (
        abs(root.width_mm - widest) > CLOSE
    ):
        yield f"{board.name}: the tree does not start from the whole board"
    found: list[Placement] = []
    yield from _node(request, board.name, board_plan.tree, found)
    if Counter(map(repr, found)) != Counter(map(repr, board_plan.placements)):
        yield f"{board.name}: the tree's parts are not the plan's"
    depth = _stages(board_plan.tree)
    if depth > request.limits.stages.value + 1:
        yield f"{board.name}: {depth} stages of cutting"


def _node(
    request: CuttingRequest, board: str, node: CutNode, found: list[Placement]
) -> Iterator[str]:
    kerf = request.saw.kerf_mm
    if node.direction is None:
        if node.children:
            yield f"{board}: a leaf with children"
        if node.use is LeafUse.PART:
            if node.placement is None or repr(node.placement.place) != repr(node.piece):
                place = node.placement.place if node.placement else None
                if place is None or _far(place, node.piece) > CLOSE:
                    yield f"{board}: a part leaf that is not its part"
            if node.placement is not None:
                found.append(node.placement)
        elif node.placement is not None:
            yield f"{board}: waste that holds a part"
        return
    x_wise = node.direction is CutDirection.CROSSCUT
    at = node.piece.x_mm if x_wise else node.piece.y_mm
    end = at + (node.piece.length_mm if x_wise else node.piece.width_mm)
    before: float | None = None
    for child in node.children:
        low = child.piece.x_mm if x_wise else child.piece.y_mm
        high = low + (child.piece.length_mm if x_wise else child.piece.width_mm)
        across = (
            abs(child.piece.y_mm - node.piece.y_mm)
            + abs(child.piece.width_mm - node.piece.width_mm)
            if x_wise
            else abs(child.piece.x_mm - node.piece.x_mm)
            + abs(child.piece.length_mm - node.piece.length_mm)
        )
        if across > CLOSE:
            yield f"{board}: a cut that does not run from edge to edge"
        gap = low - (at if before is None else before)
        if before is None and not -CLOSE <= gap <= kerf + CLOSE:
            yield f"{board}: {gap} lost before the first child"
        if before is not None and abs(gap - kerf) > CLOSE:
            yield f"{board}: {gap} between children, kerf {kerf}"
        before = high
        yield from _node(request, board, child, found)
    if before is None or not -CLOSE <= end - before <= kerf + CLOSE:
        yield f"{board}: {node.direction} does not use up its piece"


def _far(first: Rectangle, second: Rectangle) -> float:
    return max(
        abs(first.x_mm - second.x_mm),
        abs(first.y_mm - second.y_mm),
        abs(first.length_mm - second.length_mm),
        abs(first.width_mm - second.width_mm),
    )


def _holds(node: CutNode) -> bool:
    return node.use is LeafUse.PART or any(_holds(child) for child in node.children)


def _stages(node: CutNode, last: CutDirection | None = None) -> int:
    """Changes of direction between cuts that part parts from parts, along the longest path."""
    parts = sum(_holds(child) for child in node.children) > 1
    below = node.direction if parts else last
    deeper = max((_stages(child, below) for child in node.children), default=0)
    return deeper + (parts and node.direction is not last)


def _cuts(request: CuttingRequest, board_plan: BoardPlan) -> Iterator[str]:
    """Saws the board as the numbered cuts say, and looks at the piece in hand each time."""
    saw = request.saw
    name = board_plan.board
    numbers = [cut.number for cut in board_plan.cuts]
    if numbers != list(range(1, len(numbers) + 1)):
        yield f"{name}: cuts are not numbered in order"
    pieces = [board_plan.tree.piece]
    for cut in board_plan.cuts:
        is_rip = cut.direction is CutDirection.RIP
        held = [piece for piece in pieces if _far(piece, cut.workpiece) <= CLOSE]
        if len(held) != 1:
            yield f"{name}: cut {cut.number} holds a piece that is not there"
            continue
        (hand,) = held
        if hand.length_mm < (saw.shortest_rip_mm if is_rip else saw.shortest_crosscut_mm) - CLOSE:
            yield f"{name}: cut {cut.number} holds {hand.length_mm} mm"
        if is_rip and hand.width_mm < saw.narrowest_rip_mm - CLOSE:
            yield f"{name}: cut {cut.number} rips {hand.width_mm} mm"
        start = hand.y_mm if is_rip else hand.x_mm
        end = start + (hand.width_mm if is_rip else hand.length_mm)
        if not start - saw.kerf_mm - CLOSE <= cut.position_mm <= end - CLOSE:
            yield f"{name}: cut {cut.number} misses its piece"
        pieces.remove(hand)
        for low, high in ((start, cut.position_mm), (cut.position_mm + saw.kerf_mm, end)):
            if high - low <= CLOSE:
                continue
            piece = (
                Rectangle(x_mm=hand.x_mm, y_mm=low, length_mm=hand.length_mm, width_mm=high - low)
                if is_rip
                else Rectangle(
                    x_mm=low, y_mm=hand.y_mm, length_mm=high - low, width_mm=hand.width_mm
                )
            )
            pieces.append(piece)
            if is_rip and high - low < saw.kerf_mm - CLOSE:
                yield f"{name}: cut {cut.number} leaves a strip of {high - low} mm"
    for placement in board_plan.placements:
        free = [piece for piece in pieces if _far(piece, placement.place) <= CLOSE]
        if len(free) != 1:
            yield f"{name}: the cuts do not free {placement.part} {placement.copy}"


def _odd_names(match: MatchGroup, parts: dict[str, CutPart]) -> set[str]:
    if match.odd_one is OddOne.NONE or len(match.members) < 2:
        return set()
    by_size = sorted(match.members, key=lambda n: parts[n].length_mm * parts[n].width_mm)
    return {
        {
            OddOne.FIRST_NAMED: match.members[0],
            OddOne.LAST_NAMED: match.members[-1],
            OddOne.SMALLEST: by_size[0],
            OddOne.LARGEST: by_size[-1],
        }[match.odd_one]
    }


def keeps(
    request: CuttingRequest, match: MatchGroup, plan: CuttingPlan, parts: dict[str, CutPart]
) -> bool:
    """Whether the places keep the match, judged here and not by the solver."""
    boards = {board.name: board for board in request.boards}
    here = [
        p for b in plan.boards for p in b.placements if p.part in match.members and p.strip <= 1
    ]
    if match.rule is MatchRule.IN_SEQUENCE:
        return any(
            _runs_on(first, match.members[1:], here, request.saw.kerf_mm)
            for first in here
            if first.part == match.members[0]
        )
    homes: dict[object, Counter[str]] = defaultdict(Counter)
    for p in here:
        if match.rule is MatchRule.SAME_BOARD:
            homes[p.board][p.part] += 1
            continue
        for zone in boards[p.board].zones:
            outline = Polygon(zone.outline)
            x0, y0, x1, y1 = outline.bounds
            meant = zone.name == match.zone if match.zone else zone.kind is match.zone_kind
            shape = _shape(p.place)
            if (
                match.rule is MatchRule.SAME_ZONE
                and meant
                and box(x0 - CLOSE, y0 - CLOSE, x1 + CLOSE, y1 + CLOSE).contains(shape)
            ):
                homes[p.board, zone.name][p.part] += 1
            if match.rule is MatchRule.CENTRED_ON_FIGURE and meant:
                off = (
                    abs(shape.centroid.x - (x0 + x1) / 2),
                    abs(shape.centroid.y - (y0 + y1) / 2),
                )
                if max(off) <= match.tolerance_mm + CLOSE:
                    homes["all"][p.part] += 1
        if match.rule is MatchRule.EQUAL_PALE_EDGES:
            pale = [Polygon(z.outline) for z in boards[p.board].zones if z.kind is ZoneKind.SAPWOOD]
            near, far = _pale(p.place, pale)
            if near > 0 and far > 0 and abs(near - far) <= match.tolerance_mm + CLOSE:
                homes["all"][p.part] += 1
    wanted = Counter(match.members)
    odd = _odd_names(match, parts)
    for home in homes.values():
        missing = wanted - home
        if not missing or (sum(missing.values()) == 1 and set(missing) <= odd):
            return True
    return False


def _pale(place: Rectangle, pale: list[Polygon]) -> tuple[float, float]:
    middle = place.y_mm + place.width_mm / 2
    near = far = 0.0
    for zone in pale:
        _, low, _, high = zone.bounds
        if high < middle:
            near = max(near, high - place.y_mm)
        elif low > middle:
            far = max(far, place.y_mm + place.width_mm - low)
    return near, far


def _runs_on(last: Placement, names: tuple[str, ...], here: list[Placement], kerf: float) -> bool:
    if not names:
        return True
    return any(
        p.part == names[0]
        and p.board == last.board
        and p.is_flipped == last.is_flipped  # the other face shows other grain
        and abs(p.place.y_mm - last.place.y_mm) < CLOSE
        and abs(p.place.x_mm - last.place.x_mm - last.place.length_mm - kerf) < CLOSE
        and _runs_on(p, names[1:], here, kerf)
        for p in here
        if p is not last
    )


def _matches(
    request: CuttingRequest,
    plan: CuttingPlan,
    boards: dict[str, Board],
    parts: dict[str, CutPart],
) -> Iterator[str]:
    missing = {entry.part for entry in plan.unplaced}
    said = {outcome.group: outcome for outcome in plan.matches}
    for match in request.matches:
        kept = keeps(request, match, plan, parts)
        if kept != said[match.name].is_kept:
            yield f"{match.name}: said kept {said[match.name].is_kept}, is {kept}"
        if match.price is None and not kept and not missing & set(match.members):
            yield f"{match.name}: a must is broken"


def _money(
    request: CuttingRequest,
    plan: CuttingPlan,
    boards: dict[str, Board],
    parts: dict[str, CutPart],
) -> Iterator[str]:
    begun = sum(boards[board_plan.board].price for board_plan in plan.boards)
    if plan.cost < begun - 1e-6:
        yield f"cost {plan.cost} is less than the boards' {begun}"
    plain = not any(p.wants for p in request.parts) and not any(
        z.worth for b in request.boards for z in b.zones
    )
    broken = sum(outcome.price_paid for outcome in plan.matches)
    spared = worth_left_out(request, plan)
    if plain and not plan.unplaced and abs(plan.cost - begun - broken - spared) > 1e-6:
        yield f"cost {plan.cost}, boards {begun}, matches {broken}, left out {spared}"
    if abs(plan.costs.left_out - spared) > 1e-6:
        yield f"left out {plan.costs.left_out} said, {spared} counted"
    if plan.proof.measure == "price" and plan.proof.bound > plan.cost + 1e-6:
        yield f"bound {plan.proof.bound} above the cost {plan.cost}"
