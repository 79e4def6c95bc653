"""piece.json's "cutting_plan": the plan as plain data, lengths in mm in board coordinates.

status      "planned", "incomplete" (something has no place) or "no boards"
currency    of every price; "" when none is named
saw         {kerf_mm, end_trim_mm, edge_trim_mm, planing_loss_mm, most_planed_mm or null,
             shortest_rip_mm, narrowest_rip_mm, shortest_crosscut_mm, usable_length_mm,
             usable_width_mm}
mark        of the numbers of its cuts; the sheets of the boards say it where there is no work
seed, rounds, stages     what the same plan comes from again, unless is_cut_short: the clock or the
             maker ended the search before its rounds
yield       area of parts over area of the boards begun; null without a plan
cost        all that counts as price; boards_cost: the boards begun alone; costs: {boards, matches,
              wishes, figure, left_out}: that and what was not kept, met, used up or cut;
              null without a plan
proof       {measure, value, bound, kind, gap, is_proven, conflicts: [{board, parts: [{name,
              count}], matches}]: what cannot lie together}; null without a plan
boards      [{name, stock, species, length_mm, thickness_mm, widths: [{at_mm, width_mm}], price,
              description, zones: [{name, kind, outline_mm: [[x, y]], shows, worth,
              description}], sawn_ends: of START and FAR, is_begun, yield, placements, cuts,
              offcuts}]
placements  [{name, copy, strip, x_mm, y_mm, length_mm, width_mm, is_turned, is_flipped,
              instances: [{instance, part, from_mm, length_mm}]}]: name is that of a row of
              "parts" below; length and width are the rectangle's along and across the board;
              instances come off it in their order, several off a common blank: instance is one of
              "placements" of piece.json, part the id in its "parts", from_mm where its named end
              lies from that of the finished blank; where several pieces are cut also copy_of, the
              copy's name, and piece, its folder
cuts        [{number, kind: "rip" | "crosscut", at_mm, kerf_mm, workpiece: {x_mm, y_mm,
              length_mm, width_mm}, piece, guide: "fence" | "stop" | "mark" | "plane", setting_mm,
              against, is_from_far, comes_off, stays: {name, kind, length_mm, width_mm} | null}]
              in order; at_mm is the kerf's side nearer the datum, on the board; setting_mm is
              from the edge or end `against` of the piece in hand to the blade, and for "plane"
              what is taken off; is_from_far: that edge is the upper one, that end the right one;
              null is dust; kind is "board", "piece", "part", "offcut" or "waste"; sizes are the
              widest of the piece
offcuts     [{x_mm, y_mm, length_mm, width_mm, is_usable, holds}]
strips      [{instances, thickness_mm, strips: [{low_mm, high_mm, across_mm}]}]: what is glued up
              from strips that all have their place: how thick it is glued up; of each strip in
              order the corners of its wood in its own frame, and where that lies across the part
parts       [{name, parts, is_common, instances, stock, quantity, rough_length_mm,
              rough_width_mm, show_face_tolerates, hidden_face_tolerates, grain, wants}]: what is
              cut; parts are ids, several where it is a common blank
matches     [{name, rule, members, price (null: a must), is_kept, odd_one, price_paid, is_whole}]:
              is_whole: its one member is a common blank that holds all it names
wishes      {is_whole: whether all were looked at in time, is_nothing_certain: that those not named
              cost nothing, costs: [{name, is_met, boards, wood_mm3, price, copies, is_certain}]}:
              what a wish takes more than the plan without it, or would take where it is not met;
              copies have no place for its sake
unsafe_cuts [{board, number, rule, in_hand_mm, least_mm}]: cuts under the saw's limits; none
unplaced    [{name, part, copies, instances: [those without a place], reason, blocked_by: [zone,
              match or limit], near: [{place: "board" | "clear place on board" | "offcut of board" |
              "board, to be held at the saw", board, short_mm, narrow_mm, allowed_mm}]: what misses
              by the least; narrow_mm is from the rough width, of which allowed_mm may be missing,
              would_do: {stock, length_mm, width_mm, thickness_mm}}]
in_strips   [{name, part, strips, near}]: what is glued up, and what all but gives it whole
left_out    [{name, part, copies, instances, worth, reason}]: cut only if it pays, and not cut;
              worth: of each
to_buy      [{stock, species, quarters, board_feet, cubic_metres, waste_share,
              board_feet_with_waste, cubic_metres_with_waste, boards: [{length_mm, width_mm,
              thickness_mm}]}]: sizes to ask for before rounding up to whole feet and inches;
              of a sheet quarters, board feet and their volumes are null
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from exporters.cutting.plan_mark import plan_mark
from exporters.cutting.steps import Held, saw_steps
from exporters.cutting.words import species_of, stock_of
from furniture.making.strips_in_hand import laid_in_strips, strips_record
from furniture.shop.boards.cutting_job import CuttingJob
from furniture.shop.boards.outcome import CuttingOutcome
from furniture.shop.boards.wish_costs import WishCosts
from furniture.shop.cutting.at_the_saw import unsafe_cuts
from furniture.shop.cutting.plan import (
    BoardPlan,
    BoardWanted,
    Costs,
    CuttingPlan,
    LeftOut,
    NearMiss,
    Placement,
    Proof,
    Purchase,
    Rectangle,
    Unplaced,
)
from furniture.shop.cutting.values import Board, Saw

_MISSING = ("short_mm", "narrow_mm", "allowed_mm")

_SAW = (
    "kerf_mm", "end_trim_mm", "edge_trim_mm", "planing_loss_mm", "shortest_rip_mm",
    "narrowest_rip_mm", "shortest_crosscut_mm", "usable_length_mm", "usable_width_mm",
    "most_planed_mm",
)  # fmt: skip


def cutting_record(outcome: CuttingOutcome) -> dict[str, Any]:
    """The plan as plain data, without NaN or infinity."""
    job, plan = outcome.job, outcome.plan
    limits = job.request.limits
    return {
        "status": _status(plan),
        "currency": job.currency,
        "saw": _saw(job.request.saw),
        "mark": plan_mark(outcome),
        "seed": limits.seed,
        "rounds": 0 if plan is None else plan.rounds,
        "stages": limits.stages.value,
        **(dict.fromkeys(_RESULTS) if plan is None else _results(outcome, plan)),
        "is_cut_short": plan is not None and plan.is_cut_short,
        "boards": [_board(outcome, board) for board in job.boards],
        "parts": _parts(outcome),
        "matches": _matches(outcome),
        "wishes": _wishes(outcome.wishes),
        "unsafe_cuts": _unsafe_cuts(outcome),
        "strips": [strips_record(each) for each in laid_in_strips(outcome)],
        "unplaced": _unplaced(outcome),
        "in_strips": _in_strips(outcome),
        "left_out": _left_out(outcome),
        "to_buy": [_bought(each, job) for each in outcome.to_buy],
    }


def _status(plan: CuttingPlan | None) -> str:
    if plan is None:
        return "no boards"
    return "incomplete" if plan.unplaced else "planned"


def _saw(saw: Saw) -> dict[str, float | None]:
    return {name: _or_null(getattr(saw, name)) for name in _SAW}


_RESULTS = ("yield", "cost", "boards_cost", "costs", "proof")


def _results(outcome: CuttingOutcome, plan: CuttingPlan) -> dict[str, Any]:
    """What only a plan has."""
    return {
        "yield": round(plan.yield_share, 6),
        "cost": _tidy(plan.cost),
        "boards_cost": _tidy(outcome.boards_cost),
        "costs": {name: _tidy(getattr(plan.costs, name)) for name in Costs.__slots__},
        "proof": _proof(plan.proof),
    }


def _proof(proof: Proof) -> dict[str, Any]:
    return {
        "measure": proof.measure,
        "value": _tidy(proof.value),
        "bound": _tidy(proof.bound),
        "kind": proof.kind.value,
        "gap": round(proof.gap, 6),
        "is_proven": proof.is_proven,
        "conflicts": [
            {
                "board": each.board,
                "parts": [{"name": name, "count": count} for name, count in each.parts],
                "matches": list(each.matches),
            }
            for each in proof.conflicts
        ],
    }


def _in_strips(outcome: CuttingOutcome) -> list[dict[str, Any]]:
    return [
        {
            "name": each.part,
            "part": outcome.job.part_ids(each.part)[0],
            "strips": each.strips,
            "near": _near(each.near),
        }
        for each in outcome.in_strips
    ]


def _bought(each: Purchase, job: CuttingJob) -> dict[str, Any]:
    return {
        "stock": stock_of(job, each.species),
        "species": species_of(job, each.species),
        **_measured(each, job),
        "boards": [_wanted(board, job) for board in each.pieces],
    }


def _board(outcome: CuttingOutcome, board: Board) -> dict[str, Any]:
    plan = next((each for each in outcome.used if each.board == board.name), None)
    planned = outcome.job.request.board_named[board.name]
    return {
        "name": board.name,
        "stock": stock_of(outcome.job, planned.species),
        "species": board.species,
        "length_mm": _tidy(board.length_mm),
        "thickness_mm": _tidy(board.thickness_mm),
        "widths": [
            {"at_mm": _tidy(each.at_mm), "width_mm": _tidy(each.width_mm)}
            for each in board.stations
        ],
        "price": _tidy(board.price),
        "description": board.description,
        "zones": [
            {
                "name": zone.name,
                "kind": zone.kind.value,
                "outline_mm": [[_tidy(x), _tidy(y)] for x, y in zone.outline],
                "shows": zone.shows.value,
                "worth": _tidy(zone.worth),
                "description": zone.description,
            }
            for zone in board.zones
        ],
        "sawn_ends": sorted(each.name for each in board.sawn_ends),
        "is_begun": plan is not None,
        "yield": None if plan is None else round(plan.yield_share, 6),
        "placements": [] if plan is None else [_placement(outcome, p) for p in plan.placements],
        "cuts": [] if plan is None else _cuts(outcome, plan),
        "offcuts": []
        if plan is None
        else [
            {**_place(each.place), "is_usable": each.is_usable, "holds": list(each.holds)}
            for each in plan.offcuts
        ],
    }


def _placement(outcome: CuttingOutcome, placement: Placement) -> dict[str, Any]:
    return {
        "name": placement.part,
        "copy": placement.copy,
        "strip": placement.strip,
        **_place(placement.place),
        "is_turned": placement.is_turned,
        "is_flipped": placement.is_flipped,
        "instances": [
            {
                "instance": each.instance,
                "part": each.part,
                "from_mm": _tidy(each.at_mm),
                "length_mm": _tidy(each.length_mm),
                **_copy_of(outcome.job, each.instance),
            }
            for each in outcome.laid(placement).copy.stretches
        ],
    }


def _copy_of(job: CuttingJob, instance: str) -> dict[str, str]:
    """Which copy of which piece a part is of, where there are several."""
    lot = job.lot_of.get(instance)
    if lot is None or not lot.mark:
        return {}
    return {"copy_of": lot.mark, "piece": lot.piece.slug}


def _cuts(outcome: CuttingOutcome, plan: BoardPlan) -> list[dict[str, Any]]:
    return [
        {
            "number": step.cut.number,
            "kind": step.cut.direction.value,
            "at_mm": _tidy(step.cut.position_mm),
            "kerf_mm": _tidy(step.cut.kerf_mm),
            "workpiece": _place(step.cut.workpiece),
            "piece": step.piece.name,
            "guide": step.guide.value,
            "setting_mm": _tidy(step.setting_mm),
            "against": step.against,
            "is_from_far": step.is_from_far,
            "comes_off": _held(step.comes_off),
            "stays": _held(step.goes_on),
        }
        for step in saw_steps(outcome, plan)
    ]


def _held(held: Held | None) -> dict[str, Any] | None:
    if held is None:
        return None
    return {
        "name": held.name,
        "kind": held.kind.value,
        "length_mm": _tidy(held.length_mm),
        "width_mm": _tidy(held.width_mm),
    }


def _parts(outcome: CuttingOutcome) -> list[dict[str, Any]]:
    job = outcome.job
    return [
        {
            "name": part.name,
            "parts": list(job.part_ids(part.name)),
            "is_common": job.copies[part.name][0].is_common,
            "instances": list(job.instances(part.name)),
            "stock": job.stocks[part.name],
            "quantity": part.quantity,
            "rough_length_mm": _tidy(part.rough_length_mm),
            "rough_width_mm": _tidy(part.rough_width_mm),
            "show_face_tolerates": sorted(kind.value for kind in part.show_face_tolerates),
            "hidden_face_tolerates": sorted(kind.value for kind in part.hidden_face_tolerates),
            "grain": part.grain.value,
            "wants": None if part.wants is None else part.wants.value,
        }
        for part in job.request.parts
    ]


def _matches(outcome: CuttingOutcome) -> list[dict[str, Any]]:
    kept = {} if outcome.plan is None else {each.group: each for each in outcome.plan.matches}
    rows = []
    job = outcome.job
    for match in (*job.kept, *job.request.matches):
        known = kept.get(match.name)
        rows.append(
            {
                "name": match.name,
                "rule": match.rule.value,
                "members": list(match.members),
                "price": _or_null(match.price),
                "is_kept": None if known is None else known.is_kept,
                "odd_one": None if known is None else known.odd_one,
                "price_paid": None if known is None else _tidy(known.price_paid),
                "is_whole": match in job.kept,
            }
        )
    return rows


def _wishes(wishes: WishCosts) -> dict[str, Any]:
    return {
        "is_whole": wishes.is_whole,
        "is_nothing_certain": wishes.is_nothing_certain,
        "costs": [
            {
                "name": each.wish,
                "is_met": each.is_met,
                "boards": each.boards,
                "wood_mm3": _tidy(each.wood_mm3),
                "price": _tidy(each.price),
                "copies": each.copies,
                "is_certain": each.is_certain,
            }
            for each in wishes.costs
        ],
    }


def _unsafe_cuts(outcome: CuttingOutcome) -> list[dict[str, Any]]:
    if outcome.plan is None:
        return []
    return [
        {
            "board": each.board,
            "number": each.cut.number,
            "rule": each.rule.value,
            "in_hand_mm": _tidy(each.in_hand_mm),
            "least_mm": _tidy(each.least_mm),
        }
        for each in unsafe_cuts(outcome.plan, outcome.job.request.saw)
    ]


def _unplaced(outcome: CuttingOutcome) -> list[dict[str, Any]]:
    return [
        {
            **_missing(outcome, each),
            "reason": each.reason.value,
            "blocked_by": list(each.blocked_by),
            "near": _near(each.near),
            "would_do": {
                "stock": stock_of(outcome.job, each.would_do.species),
                **_wanted(each.would_do, outcome.job),
            },
        }
        for each in outcome.unplaced
    ]


def _missing(outcome: CuttingOutcome, each: Unplaced | LeftOut) -> dict[str, Any]:
    return {
        "name": each.part,
        "part": outcome.job.part_ids(each.part)[0],
        "copies": each.copies,
        "instances": list(outcome.missing_instances(each.part)),
    }


def _near(near: Sequence[NearMiss]) -> list[dict[str, Any]]:
    return [
        {
            "place": miss.place.value,
            "board": miss.board,
            **{name: _tidy(getattr(miss, name)) for name in _MISSING},
        }
        for miss in near
    ]


def _left_out(outcome: CuttingOutcome) -> list[dict[str, Any]]:
    return [
        {**_missing(outcome, each), "worth": _tidy(each.worth), "reason": each.reason.value}
        for each in outcome.left_out
    ]


def _measured(each: Purchase, job: CuttingJob) -> dict[str, Any]:
    """The measure that a lot is sold by; a sheet is sold by none."""
    measure = {
        "quarters": each.thickness_quarters,
        "board_feet": _tidy(each.board_feet),
        "cubic_metres": round(each.cubic_metres, 6),
        "waste_share": _tidy(each.waste_share),
        "board_feet_with_waste": _tidy(each.board_feet_with_waste),
        "cubic_metres_with_waste": round(each.cubic_metres_with_waste, 6),
    }
    return dict.fromkeys(measure) if each.species in job.sheets else measure


def _wanted(board: BoardWanted, job: CuttingJob) -> dict[str, float]:
    return {
        "length_mm": _tidy(board.length_mm),
        "width_mm": _tidy(board.width_mm),
        "thickness_mm": _tidy(job.bought_thickness(board)),
    }


def _place(place: Rectangle) -> dict[str, float]:
    return {
        "x_mm": _tidy(place.x_mm),
        "y_mm": _tidy(place.y_mm),
        "length_mm": _tidy(place.length_mm),
        "width_mm": _tidy(place.width_mm),
    }


def _tidy(value: float) -> float:
    """Free of rounding dust, and never minus nothing."""
    return round(value, 6) + 0.0


def _or_null(value: float | None) -> float | None:
    return None if value is None else _tidy(value)
