"""An operation in a maker's words: what is done to which wood, and how it lies."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from typing import assert_never

from exporters.faces import FaceNames
from exporters.work.glue_words import GlueWords, driven_in_words
from exporters.work.lines import Line, Told, lines_from
from exporters.work.names import counted_woods, woods_in_words
from exporters.work.rig_words import figures_in_words
from exporters.work.steps import Step
from furniture.job.figures import keys_for
from furniture.making.making import Making
from furniture.making.operations import Axis, CutOf, Kind, Operation, SizeOf, Stage
from furniture.making.set_ups import standing_of
from furniture.making.settings import (
    Bored,
    ByHand,
    Easing,
    Guide,
    Machine,
    Notched,
    Parallel,
    Rig,
    Skim,
    Slice,
    Surface,
    Trench,
)
from furniture.parts.faces import EDGES, ENDS, WIDE_FACES, Face
from furniture.pieces.piece import Piece, placed_named
from furniture.units import Dialled, dialled, figure, listed, plural

_AXES = tuple(Axis)
_ON_A_BOARD = {
    Face.NAMED_END: "end that was measured from",
    Face.FAR_END: "other end",
    Face.FACE_EDGE: "straight edge",
    Face.BACK_EDGE: "other edge",
    Face.FACE_SIDE: "upper face",
    Face.BACK_SIDE: "lower face",
}
"""What a board's faces are called before anything comes off it."""


class WorkWords:
    """Tells the operations of a piece's making; `called` are short names of some of its wood."""

    def __init__(
        self, piece: Piece, making: Making, called: Mapping[str, str] | None = None
    ) -> None:
        self._piece = piece
        self._called = called or {}
        self._shown = piece.shown
        self._finishing = making.finishing
        self._faces = FaceNames(piece=piece)
        self._in = {each.id: each.instances for each in making.workpieces}
        self._measuring = {
            each.key
            for each in making.operations
            if each.kind is Kind.MEASURE and each.stage is not Stage.MILL
        }
        self._awaiting: dict[str, tuple[SizeOf, ...]] = {}
        for each in making.operations:
            for after in each.after:
                self._awaiting[after.key] = (*self._awaiting.get(after.key, ()), *each.sizes)

    def lines_of(self, step: Step) -> tuple[Line, ...]:
        """What is done in a step, like work on several pieces of wood in one line.

        Args:
            step: of the making.
        """
        return self._lines(step.operations)

    def line_of(self, operation: Operation) -> str:
        """One operation by itself, with what it is set to.

        Args:
            operation: of the making.
        """
        line, set_to = self.bare_line_of(operation).text, self.set_for(operation)
        return f"{line} [{set_to}]" if set_to else line

    def bare_line_of(self, operation: Operation) -> Line:
        """One operation by itself, without what it is set to.

        Args:
            operation: of the making.
        """
        (line,) = self._lines((operation,))
        return line

    def is_as_measured(self, step: Step) -> bool:
        """Whether a step cuts to what was measured, and not to the figures of the drawing.

        Args:
            step: of the making.
        """
        return any(
            after.key in self._measuring and each.sizes
            for each in step.operations
            for after in each.after
        )

    def set_for(self, operation: Operation) -> str:
        """What the machine is set to for an operation; empty at the bench.

        Args:
            operation: of the making.
        """
        standing = standing_of(operation)
        if standing is None:
            return ""
        return figures_in_words(standing.figures, operation, self._shown)

    def _lines(self, operations: Iterable[Operation]) -> tuple[Line, ...]:
        return lines_from((each, self._wood(each), self._told(each)) for each in operations)

    def _wood(self, operation: Operation) -> str:
        takes = operation.takes
        if not takes:
            return "scrap"
        if operation.glue_up is not None:
            return f"glue-up {operation.glue_up.number}"
        if operation.levelled is not None:
            return operation.levelled.instance
        if len(self._in[takes[0]]) == len(self._piece.placed):
            return "the whole piece"
        if len(takes) == len(self._piece.placed) > 1:
            return "all parts"
        return counted_woods(self._piece, [self._called.get(each, each) for each in takes])

    def _told(self, operation: Operation) -> Told:
        told, wanting = self._told_with(operation), operation.wanting
        if operation.is_rough and told.several:
            told = replace(told, several="")
        if wanting is None:
            return told
        size = self._dial(wanting.size_mm)
        by_hand = f": {wanting.by_hand.value}" if wanting.by_hand else ""
        return replace(told, lie=f"no {wanting.would.value[2:]} {size} on hand{by_hand}")

    def _told_with(self, operation: Operation) -> Told:
        setting = operation.setting
        lie = self._lie(operation)
        match setting:
            case None:
                return self._without_cut(operation, lie)
            case Surface():
                face = self._name(operation, setting.face)
                verb = "plane" if self._is_by_hand(operation) else "joint"
                return Told(what=f"{verb} the {face} true", lie=lie)
            case Parallel():
                return self._parallel(operation, setting, lie)
            case Slice():
                return self._slice(operation, setting, lie)
            case Skim():
                return self._skim(operation, setting, lie)
            case Trench():
                return self._trench(operation, setting, lie)
            case Bored():
                return self._bored(operation, setting, lie)
            case Notched():
                return self._notched(operation, setting, lie)
            case Easing():
                return self._easing(operation, setting, lie)
            case ByHand():
                return Told(what="cut as its sheet shows, by hand")
            case _:
                assert_never(setting)

    def _without_cut(self, operation: Operation, lie: str) -> Told:
        inside = operation.stage is Stage.INSIDE
        match operation.kind:
            case Kind.MEASURE if operation.stage is Stage.MILL:
                part = placed_named(self._piece, self._in[operation.takes[0]][0]).part
                thick = self._dial(part.blank.thickness_mm)
                return Told(what=f"check {thick} thick all over, by calipers")
            case Kind.MEASURE:
                sizes = self._awaiting.get(operation.key, ())
                wanted = woods_in_words(tuple(dict.fromkeys(each.instance for each in sizes)))
                verb = "put together dry, measure" if len(operation.takes) > 1 else "measure"
                wanted += self._in_the_job_file(sizes)
                return Told(what=f"{verb} for", at=wanted or "what follows")
            case Kind.DRY_FIT:
                return Told(what="put together dry and clamp: every joint closes, nothing rocks")
            case Kind.TEST_CUT if operation.rig is not None and _is_square(operation.rig):
                return Told(what="test cut; set again until what goes in slides home by hand")
            case Kind.TEST_CUT:
                return Told(what="two test cuts; set again until they close square")
            case Kind.SAND:
                return Told(what=self._sanded("sand what glue will shut in" if inside else "sand"))
            case Kind.MASK:
                return Told(what="mask every face that takes glue")
            case Kind.COAT:
                return Told(what=self._coated(operation))
            case Kind.SIZE_END_GRAIN:
                return Told(what="size the end grain that takes glue with thin glue")
            case _:
                return self._together(operation, lie)

    def _sanded(self, verb: str) -> str:
        finishing = self._finishing
        if finishing is None:
            return verb
        return f"{verb}, grits {listed([str(each) for each in finishing.grits])}"

    def _coated(self, operation: Operation) -> str:
        """The coats with all that is known of them; the label has the last word."""
        finishing = self._finishing
        verb = "finish what glue will shut in"
        if operation.stage is not Stage.INSIDE:
            verb = "finish"
        if finishing is None:
            return verb
        facts = finishing.facts
        coats = f"{finishing.coats} coats of {facts.family.value}"
        between = "" if facts.between_grit is None else f", sanded {facts.between_grit} between"
        wait = f"{facts.recoat_hours:g} h apart{between}"
        if operation.stage is Stage.INSIDE:
            return f"{verb}: {coats}, {wait}"
        area, litres = finishing.area_mm2 / 1e6, finishing.litres
        cured = f"nothing stands on it for {facts.cured_days:g} days"
        return (
            f"{verb}: {coats}, {wait}; {litres:.2f} L in all for {area:.2f} m2, inside and out; "
            f"{cured}; the label decides"
        )

    def _in_the_job_file(self, sizes: Sequence[SizeOf]) -> str:
        """Where what is measured for these sizes is written."""
        keys = keys_for(self._piece, ((each.instance, _AXES.index(each.axis)) for each in sizes))
        return f" (in the job file: {', '.join(keys)})" if keys else ""

    def _together(self, operation: Operation, lie: str) -> Told:
        """What brings the piece together, as the sheet of glue-ups tells in full."""
        stage, levelled = operation.glue_up, operation.levelled
        if levelled is not None:
            face = self._faces.of((levelled.instance,), levelled.face)
            by = self._rule(levelled.by_mm)
            return Told(what=f"plane {by} off its {face}, level with {levelled.flush_with}")
        if stage is not None and operation.kind is Kind.FIX:
            things = listed(tuple(driven_in_words(stage.driven)))
            return Told(what=things or "fix what holds it")
        if stage is not None:
            title = GlueWords(piece=self._piece).title_of(stage)
            return Told(what=f"{title}, as its picture shows")
        if operation.kind is Kind.FIX:
            return Told(what="put its hardware on")
        if operation.kind is Kind.LAY_IN:
            return Told(what="lay it in, loose")
        return Told(what=operation.kind.value, lie=lie)

    def _parallel(self, operation: Operation, setting: Parallel, lie: str) -> Told:
        off = self._name(operation, setting.off)
        if setting.off in EDGES:
            return Told(what=f"plane to {self._rule(setting.at_mm)} wide, off the {off}")
        if self._is_by_hand(operation):
            return Told(what=f"plane to {self._dial(setting.at_mm)} thick, off the {off}")
        return Told(what="plane to thickness", lie=lie)

    def _slice(self, operation: Operation, setting: Slice, lie: str) -> Told:
        by_hand = self._is_by_hand(operation)
        to = f" at {self._rule(setting.at_mm)}" if by_hand else ""
        if setting.off in EDGES:
            return Told(what=f"rip to width{to}", lie=lie)
        gone = operation.gives[0]
        verb = f"part off {gone}" if len(operation.gives) > 1 else "cut to length"
        if setting.long_face is not None:
            long = self._name(operation, setting.long_face)
            lean = f", {setting.lean_deg:g}°" if by_hand and setting.lean_deg else ""
            return Told(what=f"{verb}{to}, long point on the {long}{lean}", lie=lie)
        if len(operation.gives) > 1 and len(set(self._parts_of(operation.takes[0]))) == 1:
            return Told(what=f"part off 1{to}", lie=lie, several=f"part off {{n}}{to}")
        return Told(what=f"{verb}{to}", lie=lie)

    def _parts_of(self, wood: str) -> list[str]:
        return [placed_named(self._piece, name).part.id for name in self._in[wood]]

    def _skim(self, operation: Operation, setting: Skim, lie: str) -> Told:
        face, takes = self._name(operation, setting.face), self._rule(setting.takes_mm)
        if setting.long_face is None:
            most = f", as little as does it, {takes} at most" if setting.takes_mm else ""
            return Told(what=f"square the {face}{most}", lie=lie)
        long = self._name(operation, setting.long_face)
        if setting.face in EDGES:
            return Told(what=f"bevel the {face}; the {long} keeps its full width", lie=lie)
        of = self._owner(operation)
        called = face if of in (None, operation.takes[0]) else f"{face} of {of}"
        verb = "mitre" if setting.lean_deg else "square"
        return Told(what=f"{verb} the {called}, {takes} off the {long}", lie=lie)

    def _trench(self, operation: Operation, setting: Trench, lie: str) -> Told:
        kind = operation.kind.value
        stops = [
            f"stopped {self._dial(whole)} short of the {self._name(operation, end)}"
            for whole, end in zip(
                (setting.whole_low_mm, setting.whole_high_mm),
                (Face.NAMED_END, Face.FAR_END) if setting.along == 0 else EDGES,
                strict=True,
            )
            if whole > 0.0
        ]
        where = f" along the {self._name(operation, setting.off)}" if not setting.near_mm else ""
        if self._is_by_hand(operation):
            size = f" {self._dial(setting.width_mm)} wide, {self._dial(setting.depth_mm)} deep"
            off = f", {self._dial(setting.near_mm)} off the {self._name(operation, setting.off)}"
            where = f"{where}{size}{off if setting.near_mm else ''}"
        stops += self._passes(operation, setting)
        rest = "".join(f", {each}" for each in stops)
        several = f"{{n}} {plural(kind)}{where}{rest}"
        return Told(what=f"{kind}{where}{rest}", lie=lie, several=several)

    def _passes(self, operation: Operation, setting: Trench) -> list[str]:
        """Passes beside one another; of a rabbet, how much of the cutter is at work in each."""
        if not operation.near_mm:
            return []
        count, places = len(operation.near_mm), operation.near_mm
        if setting.near_mm == 0.0:
            shows = listed([str(self._dial(each)) for each in places])
            return [f"in {count} passes with {shows} of the cutter at work"]
        on = listed([str(self._dial(each)) for each in places if each > 0.0])
        return [f"in {count} passes, the cutter moved on by {on}"]

    def _bored(self, operation: Operation, setting: Bored, lie: str) -> Told:
        face = self._name(operation, setting.face)
        if setting.face not in WIDE_FACES:
            of = self._owner(operation) if setting.face in ENDS else None
            face = face if of in (None, operation.takes[0]) else f"{face} of {of}"
        along = 1 if setting.off[0] in WIDE_FACES else 0
        along = 0 if setting.face in WIDE_FACES else along
        off = self._name(operation, setting.off[along])
        deep = "through" if setting.depth_mm is None else f"{self._dial(setting.depth_mm)} deep"
        mouth = f", countersunk to {self._dial(setting.mouth_mm)}" if setting.mouth_mm > 0.0 else ""
        size = self._dial(setting.diameter_mm)
        deep = (
            f" {deep} the {face}{mouth}"
            if setting.depth_mm is None
            else f", {deep}{mouth}, into the {face}"
        )
        what = f"drill {size}{deep}"
        at = self._rule(setting.at_mm[along])
        if setting.to_mm is not None:
            at = f"{at} to {self._rule(setting.to_mm[along])}"
        return Told(what=what, lie=lie, at=at, at_end=f"from the {off}")

    def _notched(self, operation: Operation, setting: Notched, lie: str) -> Told:
        edge, off = self._name(operation, setting.edge), self._name(operation, setting.off)
        long, deep = self._dial(setting.length_mm), self._dial(setting.depth_mm)
        start = f"from {self._dial(setting.near_mm)} off the {off}"
        start = start if setting.near_mm else f"at the {off}"
        return Told(what=f"notch the {edge}, {long} long and {deep} deep, {start}", lie=lie)

    def _easing(self, operation: Operation, setting: Easing, lie: str) -> Told:
        first, second = setting.arris.first, setting.arris.second
        size = self._dial(setting.size_mm)
        verb = f"round over to radius {size}" if setting.is_round else f"chamfer {size}"
        if first not in WIDE_FACES:
            names = [self._name(operation, face) for face in (first, second)]
            return Told(what=verb, lie=lie, at=f"where {names[0]} and {names[1]} meet")
        what = f"{verb} the {self._name(operation, first)} of"
        return Told(what=what, lie=lie, at=self._name(operation, second))

    def _lie(self, operation: Operation) -> str:
        """Which face is down, which edge bears, which end is at the stop."""
        hold, rig = operation.hold, operation.rig
        if rig is None or rig.machine is Machine.BENCH:
            return ""
        words = []
        if rig.machine is Machine.ROUTER:
            return self._under_the_router(operation)
        if rig.guide is Guide.JIG:
            return f"jig on the {self._name(operation, hold.against)}" if hold.against else ""
        if hold.down is not None and not isinstance(operation.setting, Surface):
            words.append(f"{self._name(operation, hold.down)} down")
        if hold.against is not None:
            to = "the sled" if rig.guide is Guide.SLED else "the fence"
            words.append(f"{self._name(operation, hold.against)} to {to}")
        if hold.stop is not None and not isinstance(operation.setting, Bored):
            words.append(f"{self._name(operation, hold.stop)} at the stop")
        return ", ".join(words)

    def _under_the_router(self, operation: Operation) -> str:
        """The router stands on the face that it works, along an edge measured from an end."""
        setting = operation.setting
        if not isinstance(setting, Trench):
            return "clamped down"
        off = self._name(operation, setting.off)
        return f"{self._name(operation, setting.face)} up, measured from the {off}"

    def _name(self, operation: Operation, face: Face) -> str:
        """A face of the wood in hand; an end belongs to the part that comes into being there."""
        of = self._owner(operation) if face in ENDS else None
        wood = self._in[operation.takes[0]]
        if not wood:
            return _ON_A_BOARD[face]
        if of is not None and operation.stage is not Stage.MILL:
            return self._faces.of((of,), face)
        return self._faces.of(wood, face)

    def _owner(self, operation: Operation) -> str | None:
        """The one instance that an operation on a blank of several makes something of."""
        made: tuple[CutOf | SizeOf, ...] = (*operation.cuts, *operation.sizes)
        names = {each.instance for each in made}
        return names.pop() if len(names) == 1 else None

    def _is_by_hand(self, operation: Operation) -> bool:
        return operation.rig is not None and operation.rig.machine is Machine.BENCH

    def _rule(self, mm: float) -> str:
        return figure(mm, self._shown)

    def _dial(self, mm: float) -> Dialled:
        return dialled(mm, self._shown)


def _is_square(rig: Rig) -> bool:
    return not rig.tilt_deg and not rig.turned_deg
