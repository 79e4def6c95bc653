"""Every figure of a dado, a groove or a rabbet that a packet prints, beside what it should be.

Read from the written DXF and CSV files as a maker reads them, with a rounding of its own (Decimal
and Fraction, a half step away from nought), so nothing is shared with what rounds in the project.
"""

from __future__ import annotations

import csv
import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction
from pathlib import Path
from typing import Any

import ezdxf

from exporters.patterns import write_patterns
from exporters.sheets import PartsOn, SheetSettings
from exporters.tables import PARTS_HEADER, parts_rows, write_table
from furniture.pieces import Piece
from furniture.units import LengthUnit
from tests.exporters.documents import write_sheets
from tests.exporters.sheet_wood import FIGURE

SIZES: Mapping[str, tuple[str, str]] = {
    "dado": ("width_mm", "depth_mm"),
    "groove": ("width_mm", "depth_mm"),
    "rabbet": ("down_from_edge_mm", "into_thickness_mm"),
}
"""The two sizes of each kind of cut, as piece.json names them."""
CALLED_OUT = ("dado",)
"""Kinds whose callouts say the sizes; those of the others are dimensions where the step shows."""
POSITIONS = {"dado": "lower_shoulder_mm", "groove": "offset_mm"}
_SPEC = re.compile(
    rf"(?:[a-z]: )?(?:\d+ )?({'|'.join(CALLED_OUT)})s?,?(?: each)? {FIGURE} wide x {FIGURE} "
)
IN_A_CELL = 1.45
"""Lines of one cell stand closer than rows do, in heights of the text."""
_SIZE = re.compile(r"[^x]+\d(?: [+-])? x [^x]+\d(?: [+-])? x [^x]*\d(?: [+-])?")
"""A part's length, width and thickness on a list; a fraction may be a little over or under."""

Figure = tuple[Fraction, ...]
"""A printed figure: one number, or an inch fraction and its decimal."""


@dataclass(frozen=True, slots=True)
class Own:
    """Rounds as the packet should: 0.01 mm, or the piece's inch fraction and 0.001 in.

    Args:
        denominator: of an inch fraction, or none.
        places: of decimals.
        unit_mm: the unit [mm].
    """

    denominator: int | None
    places: int
    unit_mm: Fraction

    @staticmethod
    def of(piece: Piece) -> Own:
        """As this piece shows its lengths."""
        inch = Fraction(254, 10)
        match piece.shown.unit:
            case LengthUnit.MILLIMETRE:
                return Own(None, 2, Fraction(1))
            case LengthUnit.INCH_FRACTION:
                return Own(round(float(inch) / piece.shown.step_mm), 3, inch)
            case LengthUnit.INCH_DECIMAL:
                return Own(None, 3, inch)

    def __call__(self, mm: float) -> Figure:
        """The figure of a length, rounded once."""
        value = Fraction(Decimal(repr(round(mm, 6)))) / self.unit_mm
        decimal = _half_up(value * 10**self.places) / Fraction(10**self.places)
        if self.denominator is None:
            return (decimal,)
        return (_half_up(value * self.denominator) / Fraction(self.denominator), decimal)

    def read(self, text: str) -> Figure:
        """A printed figure, its brackets and the mark of rounding left aside."""
        plain = re.sub(r" [+-](?=$|[ ,)])", "", text).replace("(", " ").replace(")", " ").strip()
        first, comma, second = plain.partition(",")
        words = first.split()
        if not comma and self.denominator is not None and "." in words[-1]:
            second, words = words[-1], words[:-1]
        value = sum((Fraction(word) for word in words), Fraction(0))
        if self.denominator is None:
            return (value,)
        decimal = _half_up(value * 10**self.places) / Fraction(10**self.places)
        return (value, Fraction(second.strip()) if second.strip() else decimal)


def _half_up(value: Fraction) -> Fraction:
    exact = Decimal(value.numerator) / Decimal(value.denominator)
    return Fraction(exact.quantize(Decimal(1), rounding=ROUND_HALF_UP))


def faults_of_figures(piece: Piece, record: Mapping[str, Any], folder: Path) -> list[str]:
    """What of the packet prints a housing with another figure than the one it has.

    Args:
        piece: to be written out.
        record: its piece.json, which has the sizes unrounded.
        folder: empty; takes the sheets, the patterns and the table.
    """
    packet = _Packet(piece, record, folder)
    return [
        *packet.wrong_callouts(),
        *packet.wrong_sticks(),
        *packet.wrong_sections(),
        *packet.wrong_tables(),
    ]


class _Packet:
    """The files of one piece, written once."""

    def __init__(self, piece: Piece, record: Mapping[str, Any], folder: Path) -> None:
        self._own = Own.of(piece)
        self._parts: Sequence[Mapping[str, Any]] = record["parts"]
        self._table = write_table(PARTS_HEADER, parts_rows(piece, None), folder / "parts.csv")
        own = SheetSettings(parts_on=PartsOn.THEIR_OWN)
        self._sheets = write_sheets(piece, own, folder)
        self._sticks = [
            path for path in write_patterns(piece, SheetSettings(), folder)
            if "story-stick" in path.name
        ]  # fmt: skip

    def _sheets_of(self, part: str) -> Sequence[Path]:
        """A part's sheets: one that needs several numbers those after the first."""
        others = {each["id"] for each in self._parts} - {part}
        several = re.compile(rf"{re.escape(part)}(-\d+)?")
        return [
            path
            for path in self._sheets
            if several.fullmatch(path.stem[3:]) and path.stem[3:] not in others
        ]

    def wrong_callouts(self) -> Iterable[str]:
        """Of every part: what its callouts say of its housings, and where their shoulders lie."""
        for part in self._parts:
            cuts = [cut for cut in part["cuts"] if cut["kind"] in SIZES]
            if not cuts:
                continue
            paths = self._sheets_of(part["id"])
            assert paths, part["id"]
            words = [block for path in paths for block in _blocks(path)]
            said = {
                (found[1], self._own.read(found[2]), self._own.read(found[3]))
                for found in map(_SPEC.match, words)
                if found
            }
            meant = {
                (cut["kind"], *(self._own(cut[size]) for size in SIZES[cut["kind"]]))
                for cut in cuts
                if cut["kind"] in CALLED_OUT
            }
            if said != meant:
                yield f"{part['id']}: callouts say {_told(said)}, the model {_told(meant)}"
            lines = [(self._own.read(text), mm) for path in paths for text, mm in _dimensions(path)]
            running = {figure for figure, _ in lines}
            for cut in cuts:
                for size in () if cut["kind"] in CALLED_OUT else SIZES[cut["kind"]]:
                    drawn = {figure for figure, mm in lines if abs(mm - cut[size]) < 1e-4}
                    if drawn != {self._own(cut[size])}:
                        yield f"{part['id']}: dimensions say {_told(drawn)} of {cut[size]} mm"
                position = POSITIONS.get(cut["kind"])
                if position is not None and self._own(cut[position]) not in running:
                    yield f"{part['id']}: no running figure of {cut[position]} mm"

    def wrong_sticks(self) -> Iterable[str]:
        """Of every story stick: its shoulders are a part's, and a width apart as printed."""
        meant = {}
        for part in self._parts:
            shoulders = sorted(
                (cut["lower_shoulder_mm"], cut["width_mm"])
                for cut in part["cuts"]
                if cut["kind"] == "dado"
            )
            if shoulders:
                meant[part["id"]] = [
                    (self._own(lower), self._own(width)) for lower, width in shoulders
                ]
        told = []
        for path in self._sticks:
            words = sorted(_blocks(path))
            lowers = _shoulders(words, "mark from this shoulder", self._own)
            uppers = _shoulders(words, "upper shoulder", self._own)
            # a step at the far end has one shoulder, and is the last
            told.append([
                (low, tuple(b - a for a, b in zip(low, high, strict=True)))
                for low, high in zip(lowers, uppers, strict=False)
            ])  # fmt: skip
        for name, shoulders in meant.items():
            if shoulders not in told:
                yield f"{name}: no story stick says {_told(shoulders)}, but {_told(told)}"

    def wrong_sections(self) -> Iterable[str]:
        """Of every joint in section: each figure is its length's."""
        for path in self._sheets:
            if "sections-and-joints" not in path.name:
                continue
            for text, measured in _dimensions(path):
                is_of_joint = text.startswith("(")  # figures of places stand without brackets
                if is_of_joint and self._own.read(text) != self._own(measured):
                    yield f"{path.name}: {text} for {measured:.4f} mm"

    def wrong_tables(self) -> Iterable[str]:
        """The thickness that a housing is cut for, in the table and on the parts list."""
        with self._table.open(encoding="utf-8", newline="") as file:
            rows = list(csv.DictReader(file))
        said = {row["part"]: self._own.read(row["thickness"]) for row in rows}
        whole = ("general-arrangement", "exploded-view", "parts-list")
        lists = [
            t
            for p in self._sheets
            if any(n in p.name for n in whole)
            for t in _blocks(p, IN_A_CELL)
        ]
        for part in self._parts:
            meant = self._own(part["thickness_mm"])
            if said[part["name"]][0] != meant[0]:
                yield f"parts.csv: {part['name']} is {_told(said[part['name']])} thick"
            listed = [
                self._own.read(text.rpartition(" x ")[2])[0]
                for text in lists
                if _SIZE.fullmatch(text)
            ]
            if (listed or len(self._parts) > 1) and meant[0] not in listed:
                yield f"parts list: no {_told(meant)} for {part['name']}"


def _told(figures: object) -> str:
    return re.sub(r"Fraction\((\d+), (\d+)\)", lambda f: f"{int(f[1]) / int(f[2]):g}", str(figures))


def _shoulders(words: Iterable[str], what: str, own: Own) -> list[Figure]:
    found = [re.search(rf"{what}, {FIGURE}$", text) for text in words]
    return sorted(own.read(each[1]) for each in found if each)


def _dimensions(path: Path) -> Iterable[tuple[str, float]]:
    """The text of every dimension of a file, and what it measures [mm]."""
    for entity in ezdxf.readfile(path).modelspace().query("DIMENSION"):
        if entity.dxf.dimtype & 7 == 0:
            a, b = entity.dxf.defpoint2, entity.dxf.defpoint3
            is_level = abs(entity.dxf.angle) < 1
            raw = abs(b.x - a.x) if is_level else abs(b.y - a.y)
            yield entity.dxf.text, raw * float(entity.override().get("dimlfac", 1.0))
        else:
            yield entity.dxf.text, float("nan")


def _blocks(path: Path, pitch: float = 1.6) -> list[str]:
    """Lines no farther below one another, in heights of text; each block as one sentence."""
    texts = [
        (round(e.dxf.insert.x, 3), e.dxf.insert.y, e.dxf.height, e.dxf.text)
        for e in ezdxf.readfile(path).modelspace().query("TEXT")
        if e.dxf.layer == "text"
    ]
    left = sorted(texts, key=lambda each: (each[0], -each[1]))
    blocks: list[list[tuple[float, float, float, str]]] = []
    for each in left:
        last = blocks[-1][-1] if blocks else None
        is_next = (
            last is not None and last[0] == each[0] and 0 < last[1] - each[1] < pitch * each[2]
        )
        if is_next:
            blocks[-1].append(each)
        else:
            blocks.append([each])
    return [" ".join(text for *_, text in block) for block in blocks]
