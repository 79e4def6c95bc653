"""Every output of one piece, each held against the others and against other programs.

The second kernel (manifold3d) rebuilds the piece from piece.json alone; gmsh reads the STEP; the
part sheets are read and rebuilt; plans are checked by `tests.shop.cutting.checker`. Shapes that
several checks need are made once.
"""

from __future__ import annotations

import json
import math
import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import Any

import gmsh
import numpy as np
from manifold3d import Manifold
from scipy.optimize import linear_sum_assignment
from shapely import MultiPoint, Point

from exporters.cutting import cutting_record
from exporters.page.glb import glb_of
from exporters.scene import scene_of
from exporters.sheets import SheetSettings
from exporters.sheets.dxf import document_of, save
from exporters.sheets.sheets import sheets_of_parts
from exporters.step import write_step
from exporters.summary import summary_of, write_summary
from exporters.tables import bought_rows, parts_rows
from furniture.assembly import AssemblyPlan, assembly_of
from furniture.checks.finding import Finding
from furniture.checks.of_piece import findings_of
from furniture.checks.rows.standing import TILT
from furniture.pieces import Piece, distinct_parts
from furniture.shop.boards import CuttingWishes, MeasuredBoard, SawSetUp, cutting_job
from furniture.shop.boards.outcome import outcome_of
from furniture.solids.make import solid_of
from furniture.solids.measure import weigh
from furniture.units.reading import read_length
from tests.exporters.page.glb_reader import placed_points, tree_of
from tests.exporters.rebuild import centre_of, load, rebuilt_parts
from tests.exporters.sheet_reader import read_parts
from tests.exporters.sheet_rebuild import rebuilt_as
from tests.program_text import PARAMETERS, program_text
from tests.shop.boards.members import faults_of_members
from tests.shop.cutting.checker import faults_of_plan

CURVES = 5e-5
"""How far flattening circles into 720 sides moves a part's volume, as a share of it."""

NOT_READ_BACK = frozenset({"spline groove", "key slot"})
"""Kinds of cut that `sheet_rebuild` cannot read yet: sheets with one are made and not rebuilt."""


@dataclass(frozen=True, slots=True)
class Body:
    """Volume [mm3], centre and box [mm] of an instance where it stands."""

    volume: float
    centre: np.ndarray
    box: np.ndarray


class Walk:
    """One piece and what its outputs share."""

    def __init__(self, piece: Piece, folder: Path) -> None:
        self.piece, self._folder = piece, folder

    def on_another(self, record: dict[str, Any], folder: Path) -> Walk:
        """A walk of the same piece that reads another record, with what is known of it."""
        other = Walk(self.piece, folder)
        other.__dict__.update(weighed=self.weighed, findings=self.findings, record=record)
        return other

    @cached_property
    def weighed(self) -> Any:
        """As the checks take it."""
        return weigh(self.piece)

    @cached_property
    def findings(self) -> Sequence[Finding]:
        """Of every check."""
        return findings_of(self.piece, self.weighed)

    @cached_property
    def record(self) -> dict[str, Any]:
        """piece.json as another program reads it."""
        path = self._folder / "piece.json"
        write_summary(summary_of(self.piece, self.weighed, self.findings, ("piece.json",)), path)
        return load(path)

    @cached_property
    def solids(self) -> dict[str, Manifold]:
        """Every part by id, from piece.json alone."""
        return rebuilt_parts(self.record)

    @cached_property
    def bodies(self) -> dict[str, Body]:
        """Every instance, from piece.json alone."""
        found = {}
        for row in self.record["placements"]:
            axes = [row["x_axis"], row["y_axis"], row["z_axis"], row["origin_mm"]]
            solid = self.solids[row["part"]].transform(np.column_stack(axes))
            found[row["instance"]] = Body(
                solid.volume(), centre_of(solid), np.array(solid.bounding_box())
            )
        return found

    def everything(
        self, boards: Sequence[MeasuredBoard], wishes: CuttingWishes, saw: SawSetUp
    ) -> None:
        """All of it."""
        self.names_are_unique()
        self.tables_add_up()
        self.record_is_the_piece()
        self.step_is_the_record()
        self.view_is_the_record()
        self.what_is_bought_is_in_the_piece()
        self.checks_read_the_same_bodies()
        self.findings_name_no_parameter()
        self.sheets_are_the_parts()
        self.plan_is_of_the_piece(boards, wishes, saw)
        self.it_goes_together()

    def names_are_unique(self) -> None:
        """One name and one id for each distinct part, in every list."""
        ids = [row["id"] for row in self.record["parts"]]
        names = [row["name"] for row in self.record["parts"]]
        instances = [row["instance"] for row in self.record["placements"]]
        for each in (ids, names, instances):
            assert [name for name, count in Counter(each).items() if count > 1] == []
            assert all(each)
        assert {row["part"] for row in self.record["placements"]} == set(ids)

    def tables_add_up(self) -> None:
        """Rows times quantities are the whole: parts, volume and mass."""
        rows = parts_rows(self.piece, self.weighed.parts)
        parts = {row["name"]: row for row in self.record["parts"]}
        assert sum(int(row[2]) for row in rows) == len(self.piece.placed)
        for row in rows:
            part = parts[row[1]]
            assert (row[2], row[3], row[4]) == (
                str(part["quantity"]), part["stock"], part["species"],
            )  # fmt: skip
            assert float(row[14]) == round(part["volume_mm3"])
            assert float(row[15]) == round(part["mass_kg"], 3)
        fixed = math.fsum(body["mass_kg"] for body in self.record["fixed"])
        mass = math.fsum(part["quantity"] * part["mass_kg"] for part in self.record["parts"])
        volume = math.fsum(part["quantity"] * part["volume_mm3"] for part in self.record["parts"])
        assert math.isclose(mass + fixed, self.record["mass_kg"], rel_tol=1e-9)
        assert math.isclose(volume, self.weighed.whole.volume_mm3, rel_tol=1e-9)
        placed = Counter(row["part"] for row in self.record["placements"])
        assert placed == {part["id"]: part["quantity"] for part in self.record["parts"]}

    def record_is_the_piece(self) -> None:
        """Volume, mass and centre are those of what the second kernel rebuilds."""
        density = {stock["name"]: stock["density_kg_m3"] for stock in self.record["stocks"]}
        for part in self.record["parts"]:
            volume = self.solids[part["id"]].volume()
            assert math.isclose(volume, part["volume_mm3"], rel_tol=CURVES), part["name"]
            mass = volume * 1e-9 * density[part["stock"]]
            assert math.isclose(mass, part["mass_kg"], rel_tol=1e-4), part["name"]
        mass, centre = self._mass_and_centre()
        assert math.isclose(mass, self.record["mass_kg"], rel_tol=1e-4)
        assert np.allclose(centre, self.record["centre_of_mass_mm"], atol=0.02)
        boxes = np.array([body.box for body in self.bodies.values()])
        size = boxes[:, 3:].max(axis=0) - boxes[:, :3].min(axis=0)
        assert np.allclose(size, self.record["extents_mm"], atol=1e-3)

    def _mass_and_centre(self) -> tuple[float, np.ndarray]:
        density = {stock["name"]: stock["density_kg_m3"] for stock in self.record["stocks"]}
        stocks = {part["id"]: part["stock"] for part in self.record["parts"]}
        weights = [
            (self.bodies[row["instance"]].volume * 1e-9 * density[stocks[row["part"]]],
             self.bodies[row["instance"]].centre)
            for row in self.record["placements"]
        ]  # fmt: skip
        weights += [(each["mass_kg"], np.array(each["centre_mm"])) for each in self.record["fixed"]]
        mass = math.fsum(one for one, _ in weights)
        return mass, sum(one * centre for one, centre in weights) / mass

    def step_is_the_record(self) -> None:
        """gmsh finds every instance of piece.json in the STEP, and nothing else."""
        path = write_step(self.piece, self._folder / "piece.step", "2026-01-02T03:04:05")
        read = _solids_in(path)
        ours = list(self.bodies.items())
        assert len(read) == len(ours)
        apart = np.array(
            [[np.abs(theirs.box - body.box).max() for theirs in read] for _, body in ours]
        )
        for row, column in zip(*linear_sum_assignment(apart), strict=True):
            name, body = ours[row]
            assert apart[row, column] < 0.02, name
            assert math.isclose(read[column].volume, body.volume, rel_tol=CURVES), name
            assert np.allclose(read[column].centre, body.centre, atol=0.02), name
        products = re.findall(r"PRODUCT\(\s*'([^']*)'", path.read_text(encoding="utf-8"))
        assert Counter(products) == Counter(
            [self.piece.name, *(row["name"] for row in self.record["parts"])]
        )

    def view_is_the_record(self) -> None:
        """The piece to turn has every instance where piece.json has it, and as large."""
        tree, data = tree_of(glb_of(scene_of(self.piece)))
        found = dict(placed_points(tree, data))
        assert set(found) == set(self.bodies)
        for name, body in self.bodies.items():
            points = found[name]
            box = np.concatenate((points.min(axis=0), points.max(axis=0)))
            assert np.allclose(box, body.box, atol=0.1), name

    def what_is_bought_is_in_the_piece(self) -> None:
        """bought.csv is piece.json's, names instances only, and every dowel has its two bores."""
        rows = bought_rows(self.piece)
        assert [(row[0], int(row[1])) for row in rows] == [
            (each["name"], each["quantity"]) for each in self.record["bought"]
        ]
        instances = set(self.bodies)
        for each in self.record["bought"]:
            assert set(each["where"]) <= instances, each
        bores = Counter[float]()
        for part in self.record["parts"]:
            for cut in part["cuts"]:
                if cut["kind"] == "bore" and cut["depth_mm"] is not None:
                    bores[round(cut["diameter_mm"], 6)] += part["quantity"]
        dowels = Counter[float]()
        for each in self.record["bought"]:
            if each["name"] == "dowel":
                dowels[round(each["diameter_mm"], 6)] += 2 * each["quantity"]
        assert {size: bores[size] for size in dowels} == dict(dowels)

    def checks_read_the_same_bodies(self) -> None:
        """Findings are finite, and an empty piece tilts as the rebuilt one does."""
        json.dumps(self.record["checks"], allow_nan=False)
        checks = self.record["checks"]
        tilts = [row["value"] for row in checks if row["check"] == TILT.name]
        if not tilts or self.piece.loads:
            return
        _, centre = self._mass_and_centre()
        low = min(body.box[2] for body in self.bodies.values())
        feet = [
            (point[0], point[1])
            for row in self.record["placements"]
            if self.bodies[row["instance"]].box[2] < low + 1e-4
            for point in self._corners(row)
            if point[2] < low + 1e-4
        ]
        polygon = MultiPoint(feet).convex_hull
        at = Point(centre[0], centre[1])
        arm = polygon.exterior.distance(at) * (1.0 if polygon.contains(at) else -1.0)
        tilt = math.degrees(math.atan2(arm, centre[2] - low))
        assert math.isclose(min(tilts), max(tilt, 0.0), abs_tol=0.05)

    def _corners(self, row: dict[str, Any]) -> np.ndarray:
        axes = [row["x_axis"], row["y_axis"], row["z_axis"], row["origin_mm"]]
        solid = self.solids[row["part"]].transform(np.column_stack(axes))
        return np.asarray(solid.to_mesh64().vert_properties)[:, :3]

    def findings_name_no_parameter(self) -> None:
        """Paper tells them in words; what a script would change stands beside them."""
        parts = {each.instance for each in self.piece.placed}
        for each in self.findings:
            for words in (each.subject, each.basis, each.advice):
                assert program_text(words, parts) == [], (each.check.name, words)
            assert {name.split(".")[-1] for name in each.parameters} <= PARAMETERS

    def sheets_are_the_parts(self) -> None:
        """From its sheets alone every part can be rebuilt, to what the printed step allows."""
        half = self.piece.shown.step_mm / 2
        parts = distinct_parts(self.piece)
        paths = [
            save(document_of(sheet), self._folder / f"{number}.dxf")
            for number, sheet in enumerate(
                sheets_of_parts(self.piece, SheetSettings(), parts, 1), start=1
            )
        ]
        read = read_parts(paths)
        for item, each in enumerate(parts, start=1):
            if any(cut.kind in NOT_READ_BACK for cut in each.part.cuts):
                continue
            model = solid_of(each.part)
            solid = rebuilt_as(model, *read[item])
            share = sum(half / size for size in each.part.blank.size) + 2e-3
            assert math.isclose(solid.Volume(), model.Volume(), rel_tol=share), each.part.name
            apart = (solid.Center() - model.Center()).Length
            assert apart < 0.05 + self.piece.shown.step_mm, each.part.name

    def plan_is_of_the_piece(
        self, boards: Sequence[MeasuredBoard], wishes: CuttingWishes, saw: SawSetUp
    ) -> None:
        """Every instance is asked for once, at its part's size, and the plan can be sawn."""
        job = cutting_job(self.piece, boards, wishes, saw)
        asked = Counter(name for part in job.request.parts for name in job.instances(part.name))
        assert asked == Counter(list(self.bodies))
        part_of = {row["instance"]: row["part"] for row in self.record["placements"]}
        rows = {row["id"]: row for row in self.record["parts"]}
        for part in job.request.parts:
            for stretch in (each for copy in job.copies[part.name] for each in copy.stretches):
                own = rows[stretch.part]
                assert part_of[stretch.instance] == own["id"]
                sizes = (stretch.length_mm, part.width_mm)
                assert np.allclose(sizes, (own["length_mm"], own["width_mm"]))
                assert job.stocks[part.name] == own["stock"]
            if not job.copies[part.name][0].is_common:
                assert math.isclose(part.length_mm, own["length_mm"])
        outcome = outcome_of(job)
        assert outcome.plan is not None
        assert faults_of_plan(outcome.job.request, outcome.plan) == []
        assert faults_of_members(outcome) == []
        thick = {each.name: read_length(each.thickness) for each in boards}
        most = math.inf if saw.most_planed is None else read_length(saw.most_planed)
        needs = {each.name: each.thickness_mm for each in outcome.job.request.parts}
        for used in outcome.plan.boards:
            for each in used.placements:
                assert thick[used.board] - needs[each.part] <= most + 1e-6
        record = cutting_record(outcome)
        json.dumps(record, allow_nan=False)
        for board in record["boards"]:
            for placement in board["placements"]:
                for own in placement["instances"]:
                    assert part_of[own["instance"]] == own["part"]

    def it_goes_together(self) -> None:
        """There is an order of assembly in which every instance comes to its place once."""
        order = assembly_of(self.piece)
        assert isinstance(order, AssemblyPlan), order


def _solids_in(path: Path) -> list[Body]:
    gmsh.initialize(interruptible=False)
    try:
        gmsh.option.setNumber("General.Terminal", 0)
        gmsh.option.setString("Geometry.OCCTargetUnit", "MM")
        gmsh.model.occ.importShapes(str(path))
        gmsh.model.occ.synchronize()
        return [
            Body(
                gmsh.model.occ.getMass(3, tag),
                np.array(gmsh.model.occ.getCenterOfMass(3, tag)),
                np.array(gmsh.model.occ.getBoundingBox(3, tag)),
            )
            for _, tag in gmsh.model.getEntities(3)
        ]
    finally:
        gmsh.finalize()
