"""An operation in a maker's words: what is done to which wood, and how it lies."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from functools import partial
from typing import assert_never

from exporters.faces import FaceNames
from exporters.work.channel_words import ChannelWords, straight_edge_in_words
from exporters.work.corner_words import (
    corners_slotted,
    fitted_in_words,
    flushed_in_words,
    grooved_in_words,
    slotted_in_words,
)
from exporters.work.driven_words import driven_in_words
from exporters.work.edge_words import (
    eased_in_words,
    notched_in_words,
    resawn_in_words,
)
from exporters.work.finish_words import BARE, FinishWords
from exporters.work.fitted import (
    ends_marked_in_words,
    measured_in_words,
    sizes_measured_for,
    standing_dry,
)
from exporters.work.glue_words import GlueWords, level_with_in_words
from exporters.work.hole_words import bored_in_words
from exporters.work.lines import Line, PlacementWords, Told, lines_from
from exporters.work.names import ON_A_BOARD, counted, counted_woods, strips_in
from exporters.work.placement_words import placement_of
from exporters.work.rig_words import (
    figures_in_words,
    laid_out_in_words,
    refused_in_words,
    scrap_in_words,
    tested_in_words,
    wanting_in_words,
)
from exporters.work.skim_words import skimmed_in_words
from exporters.work.steps import Step
from exporters.work.strip_words import PLANED_AS_A_PAIR, strips_in_words
from exporters.work.to_figure import ToFigure
from furniture.making.fitting import channels_cut_after
from furniture.making.laid_out import laid_out
from furniture.making.making import Making
from furniture.making.operations import (
    CutOf,
    Kind,
    Operation,
    SizeOf,
    Stage,
    Support,
)
from furniture.making.set_ups import standing_of
from furniture.making.settings import (
    Bored,
    ByHand,
    CornerSlot,
    Easing,
    Flush,
    Machine,
    MitreGroove,
    Notched,
    Parallel,
    Skim,
    Slice,
    Surface,
    Trench,
)
from furniture.making.why import Why
from furniture.making.workpieces import Wood
from furniture.parts.faces import EDGES, ENDS, WIDE_FACES, Face
from furniture.pieces.in_rows import WoodName, named_in, woods_in_words
from furniture.pieces.piece import Piece, placed_named
from furniture.units import Dialled, dialled, figure_among_words, listed

LAY_OUT = "lay out"
"""What a line begins with that tells how a row of cuts is laid out."""
_PLAIN = {
    Kind.DRY_FIT: "put together dry and clamp: all joints close, nothing rocks",
    Kind.MASK: "mask every glue face till dry",
    Kind.FIX: "put its hardware on",
    Kind.HANG: "hang it and fix what belongs to it, as last pictured",
    Kind.LAY_IN: "lay in without glue, as last pictured",
}


class WorkWords:
    """Tells the operations of a piece's making."""

    def __init__(self, piece: Piece, making: Making) -> None:
        self._piece = piece
        self._shown = piece.shown
        self._strips, self._finish = strips_in(making), FinishWords(piece, making)
        self._edge_gluing = {each.wood: each for each in making.edge_gluing}
        self._faces, self._counted = FaceNames(piece=piece), partial(counted, piece)
        self._in = {each.id: each.instances for each in making.workpieces}
        self._bodies = {e.id for e in making.workpieces if e.what is Wood.SUB_ASSEMBLY}
        self._rows = {
            row.operations: laid_out_in_words(row, piece.shown)
            for row in laid_out(making, piece.rules)
        }
        self._operations = making.operations
        self._glued_in = {
            name: each.glue_up.number
            for each in making.operations
            if each.glue_up is not None and each.gives != each.takes
            for name in each.gives
        }
        self._stand = standing_dry(making.operations)
        self._first_try = next((e.key for e in making.operations if e.kind is Kind.DRY_FIT), "")
        self._every = (*making.done, *making.operations)
        self._begun = {cut: each for each in self._every for cut in each.begins}
        self._awaiting = sizes_measured_for(making)
        self._to_figure = ToFigure(making)
        self._corners = corners_slotted(making)

    def lines_of(self, step: Step) -> tuple[Line, ...]:
        """What is done in a step, like work on several pieces of wood in one line.

        Args:
            step: of the making.
        """
        rows = dict.fromkeys(self._rows_begun(step.operations))
        laid = (Line(wood=LAY_OUT, what=each) for each in rows)
        told = [(each, self._wood(each), self._told(each)) for each in step.operations]
        if len(step.set_ups) > 1:
            told = [(each, wood, self._by_itself(each, said)) for each, wood, said in told]
        return (*laid, *lines_from(told, self._counted))

    def _by_itself(self, operation: Operation, said: Told) -> Told:
        """What is done, with the figure that it has for itself among others of its step."""
        setting, standing = operation.setting, standing_of(operation)
        if not isinstance(setting, Trench) or standing is None:
            return replace(said, own=self.set_for(operation))
        near = str(self._dial(setting.near_mm))
        end = f"from the {self.called(operation, setting.off)}"
        what, at_mm = f"{said.what}; near walls", setting.near_mm
        return replace(said, what=what, several="", at=near, at_mm=at_mm, at_end=end)

    def laid_out(self, operation: Operation) -> str:
        """How the row is laid out that an operation belongs to; empty where it is in none.

        Args:
            operation: of the making.
        """
        return next((said for keys, said in self._rows.items() if operation.key in keys), "")

    def _rows_begun(self, operations: Iterable[Operation]) -> Iterator[str]:
        """How the rows are laid out of which these operations cut the first place."""
        keys = {each.key for each in operations}
        yield from (said for row, said in self._rows.items() if row[0] in keys)

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
        told = [(operation, self._wood(operation), self._told(operation))]
        return lines_from(told, self._counted)[0]

    def as_measured(self, step: Step) -> str:
        """Where the figures were measured that a step cuts sizes to, and not to those of the
        drawing: ` or to the figure of step 8`; empty where it cuts to none such.

        Args:
            step: of the making.
        """
        return next(filter(None, map(self._or_to, step.operations)), "")

    def set_for(self, operation: Operation) -> str:
        """What the machine is set to for an operation; empty at the bench.

        Args:
            operation: of the making.
        """
        standing = standing_of(operation)
        if standing is None:
            return ""
        set_to = figures_in_words(standing.figures, operation, self._shown)
        return f"{set_to}{self._or_to(operation)}" if set_to else ""

    def _or_to(self, operation: Operation) -> str:
        """Where the figure was measured that a size is cut to, if not the drawing's."""
        return self._to_figure.otherwise(operation) if operation.sizes else ""

    def _wood(self, operation: Operation) -> WoodName:
        takes = operation.takes
        if not takes:
            return WoodName("scrap")
        if operation.glue_up is not None:
            return WoodName.numbered("glue-up", operation.glue_up.number)
        if operation.levelled is not None:
            return named_in(self._piece, [operation.levelled.instance])[0]
        if operation.kind is Kind.MEASURE and operation.key in self._stand:
            return WoodName("the same, still together")
        if operation.kind in (Kind.LAY_OUT_STRIPS, Kind.EDGE_GLUE):
            return named_in(self._piece, self._in[takes[0]])[0]
        inside = {name for each in takes for name in self._in[each]}
        has_all = len(self._piece.placed) == len(inside) > 1
        if operation.stage is Stage.FINISH:
            return WoodName(BARE)
        if has_all and not self._bodies.isdisjoint(takes):
            return WoodName("the whole piece")
        if has_all and len(takes) == len(inside):
            return WoodName("all parts")
        if len(takes) == 1 and takes[0] in self._glued_in:
            return WoodName.numbered("glue-up", self._glued_in[takes[0]])
        alone = named_in(self._piece, takes, self._strips) if len(takes) == 1 else ()
        return alone[0] if alone else WoodName(counted_woods(self._piece, takes, self._strips))

    def _told(self, operation: Operation) -> Told:
        told, wanting = self._told_with(operation), operation.wanting
        if operation.is_rough and told.several:
            told = replace(told, several="")
        if operation.refused is not None and self._is_by_hand(operation):
            return replace(told, why=refused_in_words(operation.refused))
        if operation.support is Support.CARRIED:
            told = replace(told, why=operation.support.value)
        if wanting is None:
            return told
        return replace(told, placement=(), why=wanting_in_words(wanting, self._shown))

    def _told_with(self, operation: Operation) -> Told:
        setting = operation.setting
        placement = placement_of(operation, partial(self.called, operation))
        match setting:
            case None:
                return self._without_cut(operation, placement)
            case Surface():
                face = self.called(operation, setting.face)
                verb = "plane" if self._is_by_hand(operation) else "joint"
                both = operation.stage is Stage.STRIPS and setting.face in EDGES
                held = PLANED_AS_A_PAIR if both and verb == "plane" else ""
                return Told(what=f"{verb} the {face} true{held}", placement=placement)
            case Parallel():
                return self._parallel(operation, setting, placement)
            case Slice():
                return self._slice(operation, setting, placement)
            case Skim():
                name = partial(self.called, operation)
                of = self._owner(operation)
                return skimmed_in_words(operation, setting, name, of, self._shown, placement)
            case Trench():
                return self._trench(operation, setting, placement)
            case Bored():
                return self._bored(operation, setting, placement)
            case Notched():
                name = partial(self.called, operation)
                cuts = set(operation.cuts)
                bores = sum(1 for each in self._every if cuts & set(each.begins))
                or_to = self._to_figure.otherwise(operation)
                fitted = operation.in_hand if or_to else None
                return notched_in_words(setting, name, self._shown, placement, bores, fitted, or_to)
            case Easing():
                return eased_in_words(
                    setting, partial(self.called, operation), self._shown, placement
                )
            case MitreGroove():
                return grooved_in_words(operation, setting, self._face, self._shown)
            case CornerSlot():
                return slotted_in_words(operation, setting, self._face, self._shown, self._corners)
            case Flush():
                return flushed_in_words(setting, self._face, self._corners)
            case ByHand(tenon_on=Face() as end):
                left = self.called(operation, end)
                return Told(
                    what=f"saw the tenon on the {left}: shoulders, then cheeks, to the knife lines "
                    "of its sheet; pare it to its mortise"
                )
            case ByHand():
                return Told(what="cut as its sheet shows, by hand")
            case _:
                assert_never(setting)

    def _without_cut(self, operation: Operation, placement: PlacementWords) -> Told:
        match operation.kind:
            case Kind.MEASURE if operation.stage is Stage.MILL:
                part = placed_named(self._piece, self._in[operation.takes[0]][0]).part
                thick = self._dial(part.blank.thickness_mm)
                return Told(what="so thick all over, by calipers?", own=str(thick))
            case Kind.MEASURE:
                sizes = self._awaiting.get(operation.key, ())
                is_apart = len(operation.takes) > 1 and operation.key not in self._stand
                verb = "put together dry, measure" if is_apart else "measure"
                wanted = measured_in_words(self._piece, self._faces, operation, sizes)
                return Told(what=f"{verb} for", at=wanted)
            case Kind.LAY_OUT_STRIPS | Kind.EDGE_GLUE | Kind.SCRAPE:
                edge = self._faces.of(self._in[operation.takes[0]], Face.FACE_EDGE)
                return strips_in_words(operation, self._edge_gluing, edge, self._shown)
            case Kind.FROM_SCRAP if operation.scrap is not None:
                woods = named_in(self._piece, operation.scrap.on, self._strips)
                of = woods_in_words(woods)
                return Told(what=scrap_in_words(operation.scrap, of, self._shown))
            case Kind.TEST_CUT:
                tested = tested_in_words(operation, self._operations)
                to = self._to_figure.width_of(operation)
                return Told(what=f"{tested}, set {to}" if to else tested)
            case Kind.SAND:
                return Told(what=self._finish.sanded(operation))
            case Kind.PLANE_TO_FIT:
                return fitted_in_words(self._goes_into(operation), self._shown)
            case Kind.COAT:
                return Told(what=self._finish.coated(operation))
            case Kind.SIZE_END_GRAIN:
                return Told(what="size the end grain that takes glue")
            case _:
                return self._together(operation, placement)

    def _goes_into(self, operation: Operation) -> Operation | None:
        """The pass that makes what a tongue goes into."""
        keys = {after.key for after in operation.after if after.why is Why.FITTED_TO}
        return next((each for each in self._operations if each.key in keys), None)

    def _face(self, instance: str, face: Face) -> str:
        return self._faces.of((instance,), face)

    def _together(self, operation: Operation, placement: PlacementWords) -> Told:
        """What brings the piece together, as the sheet of glue-ups tells in full."""
        stage, levelled = operation.glue_up, operation.levelled
        if levelled is not None:
            face = self._faces.of((levelled.instance,), levelled.face)
            by = figure_among_words(levelled.by_mm, self._shown)
            assert stage is not None
            level = level_with_in_words(levelled, stage)
            return Told(what=f"plane {by} off its {face}, {level}")
        if stage is not None and operation.kind is Kind.FIX:
            driven = tuple(driven_in_words(stage.driven, self._piece))
            return Told(what=listed(driven) or "fix what holds it")
        if stage is not None:
            return Told(what=f"{GlueWords(piece=self._piece).title_of(stage)}; see its picture")
        if operation.kind is Kind.DRY_FIT:
            is_first = operation.key == self._first_try
            tried = _PLAIN[Kind.DRY_FIT] if is_first else "put together dry, as before"
            marks = ends_marked_in_words(self._piece, self._faces, operation, self._operations)
            later = channels_cut_after(operation, self._operations)
            into = (f"{each.kind.value} in {each.cuts[0].instance}" for each in later)
            left_out = (f"leave out what goes into the {each}, cut later" for each in into)
            return Told(what="; ".join((tried, *left_out, *marks)))
        what = _PLAIN.get(operation.kind)
        return (
            Told(what=operation.kind.value, placement=placement)
            if what is None
            else Told(what=what)
        )

    def _parallel(self, operation: Operation, setting: Parallel, placement: PlacementWords) -> Told:
        off = self.called(operation, setting.off)
        if setting.off in EDGES:
            wide = figure_among_words(setting.at_mm, self._shown)
            return Told(what=f"plane to {wide} wide{self._or_to(operation)}, gauged from the {off}")
        if self._is_by_hand(operation):
            return Told(what=f"plane to {self._dial(setting.at_mm)} thick, gauged from the {off}")
        return Told(what="plane to thickness", placement=placement)

    def _slice(self, operation: Operation, setting: Slice, placement: PlacementWords) -> Told:
        by_hand = self._is_by_hand(operation)
        at = figure_among_words(setting.at_mm, self._shown)
        to = f" at {at}{self._or_to(operation)}" if by_hand else ""
        if setting.off in EDGES:
            return Told(what=f"rip to width{to}", placement=placement)
        if setting.off in WIDE_FACES:
            return resawn_in_words(setting, self.called(operation, setting.off), self._shown)
        gone = operation.gives[0]
        verb = f"part off {gone}" if len(operation.gives) > 1 else "cut to length"
        if setting.long_face is not None:
            long = self.called(operation, setting.long_face)
            lean = f", {setting.lean_deg:g}°" if by_hand and setting.lean_deg else ""
            return Told(what=f"{verb}{to}{lean}", placement=placement, long=f"the {long}")
        if len(operation.gives) > 1 and len(set(self._parts_of(operation.takes[0]))) == 1:
            return Told(what=f"part off 1{to}", placement=placement, several=f"part off {{n}}{to}")
        return Told(what=f"{verb}{to}", placement=placement)

    def _parts_of(self, wood: str) -> list[str]:
        return [placed_named(self._piece, name).part.id for name in self._in[wood]]

    def _trench(self, operation: Operation, setting: Trench, placement: PlacementWords) -> Told:
        words = ChannelWords(
            operation=operation,
            setting=setting,
            name=lambda face: self.called(operation, face),
            shown=self._shown,
            placement=placement,
        )
        if operation.kind is Kind.CHOP:
            return words.chopped(self._begun[operation.cuts[0]])
        told, width = words.told(), self._to_figure.width_of(operation)
        said = f"{self._to_figure.otherwise(operation)}{f', as wide as {width}' if width else ''}"
        several = f"{told.several}{said}" if told.several else ""
        return replace(told, what=f"{told.what}{said}", several=several)

    def _bored(self, operation: Operation, setting: Bored, placement: PlacementWords) -> Told:
        face = self.called(operation, setting.face)
        if setting.face in ENDS:
            of = self._owner(operation)
            face = face if of in (None, operation.takes[0]) else f"{face} of {of}"
        name = partial(self.called, operation)
        told = bored_in_words(
            setting, face, name, self._shown, placement, self._is_by_hand(operation)
        )
        edge = straight_edge_in_words(operation, name, self._shown)
        told = replace(told, placement=(*told.placement, *edge))
        return replace(told, at_end=f"{told.at_end}{self._to_figure.otherwise(operation)}")

    def called(self, operation: Operation, face: Face) -> str:
        """A face of the wood in hand; an end belongs to the part that comes into being there.

        Args:
            operation: on that wood.
            face: of its frame.
        """
        of = self._owner(operation) if face in ENDS else None
        wood = self._in[operation.takes[0]]
        if not wood:
            return ON_A_BOARD[face]
        if of is not None and operation.stage is not Stage.MILL:
            return self._faces.of((of,), face)
        return self._faces.of(wood, face)

    def _owner(self, operation: Operation) -> str | None:
        """The one instance that an operation on a blank of several makes something of."""
        made: tuple[CutOf | SizeOf, ...] = (
            *operation.cuts,
            *operation.begins,
            *operation.sizes,
        )
        names = {each.instance for each in made}
        return names.pop() if len(names) == 1 else None

    def _is_by_hand(self, operation: Operation) -> bool:
        return operation.rig is not None and operation.rig.machine is Machine.BENCH

    def _dial(self, mm: float) -> Dialled:
        return dialled(mm, self._shown)
