"""Imports run one way, read from the source: models -> exporters -> furniture, and inside it."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

from furniture.parts.cuts import ALL_CUTS

ROOT = Path(__file__).resolve().parent.parent
FURNITURE = sorted((ROOT / "furniture").rglob("*.py"))
EXPORTERS = sorted((ROOT / "exporters").rglob("*.py"))

MAY_IMPORT = {
    "errors": set(),
    "units": {"examples", "errors"},
    "rules": {"errors", "units"},
    "timber": {"errors", "units", "rules"},
    "parts": {"errors", "units", "rules", "timber"},
    "joints": {"errors", "units", "rules", "timber", "parts"},
    "pieces": {"errors", "units", "rules", "timber", "parts", "joints"},
    "builders": {"errors", "units", "rules", "timber", "parts", "joints", "pieces"},
    "solids": {"errors", "units", "timber", "parts", "joints", "pieces"},
    "structure": {"errors", "units", "rules", "timber", "parts", "joints", "pieces"},
    "assembly": {
        "errors", "units", "rules", "timber", "parts", "joints", "pieces", "solids", "structure",
        "checks",
    },
    "checks": {"errors", "units", "rules", "timber", "parts", "joints", "pieces", "structure"},
    "blanks": {"errors", "units", "rules", "timber", "parts", "joints", "pieces"},
    "shop": {
        "errors", "units", "rules", "timber", "parts", "joints", "pieces", "blanks",
    },
    "job": {
        "errors", "units", "rules", "timber", "parts", "joints", "pieces", "solids", "assembly",
        "checks", "blanks", "shop", "making",
    },
    "making": {
        "errors", "units", "rules", "timber", "parts", "joints", "pieces", "solids", "structure",
        "assembly", "checks", "blanks", "shop",
    },
    "examples": set(),
    "reference": {"examples", "units", "parts", "joints"},
}  # fmt: skip
"""Which packages of furniture each one may read, itself aside."""

KERNEL = {"cadquery", "OCP", "vtkmodules", "vtk"}


def _imports(path):
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom) and node.module:
            assert node.level == 0, f"{path}: imports are absolute"
            yield node.module


def _package(path):
    inside = path.relative_to(ROOT / "furniture")
    return inside.parts[0].removesuffix(".py")


@pytest.mark.parametrize("path", FURNITURE, ids=lambda path: str(path.relative_to(ROOT)))
def test_furniture_reads_only_what_lies_below_it(path):
    package = _package(path)
    if package == "__init__":
        return
    for name in _imports(path):
        top, _, rest = name.partition(".")
        assert top not in ("exporters", "models", "tests")
        assert top not in ("ezdxf", "matplotlib", "reportlab")
        if top == "furniture" and rest:
            other = rest.split(".")[0]
            assert other == package or other in MAY_IMPORT[package], f"{package} reads {name}"


@pytest.mark.parametrize("path", FURNITURE, ids=lambda path: str(path.relative_to(ROOT)))
def test_only_the_solids_call_the_kernel(path):
    if _package(path) != "solids":
        assert not KERNEL & {name.split(".")[0] for name in _imports(path)}


@pytest.mark.parametrize("path", EXPORTERS, ids=lambda path: str(path.relative_to(ROOT)))
def test_exporters_never_read_models_or_tests(path):
    assert not {"models", "tests"} & {name.split(".")[0] for name in _imports(path)}


def test_sheets_know_no_kernel_and_views_know_no_ezdxf():
    for path in EXPORTERS:
        tops = {name.split(".")[0] for name in _imports(path)}
        if "sheets" in path.parts:
            assert not KERNEL & tops, path
        if "views" in path.parts:
            assert "ezdxf" not in tops, path


def test_pictures_know_no_paper_and_only_scenes_know_the_kernel():
    for path in EXPORTERS:
        tops = {name.split(".")[0] for name in _imports(path)}
        if {"grain", "render", "scene", "photo"} & set(path.parts):
            assert not {"ezdxf", "reportlab"} & tops, path
        if {"grain", "render", "photo", "page", "plan", "watch", "pictures"} & set(path.parts):
            assert not KERNEL & tops, path


def test_every_package_of_furniture_has_its_place():
    folders = {
        path.name for path in (ROOT / "furniture").iterdir() if (path / "__init__.py").exists()
    }
    assert folders <= set(MAY_IMPORT)


def test_no_file_is_too_long_to_hold_in_the_head():
    for path in [*FURNITURE, *EXPORTERS]:
        lines = len(path.read_text(encoding="utf-8").splitlines())
        assert lines <= 500, f"{path.relative_to(ROOT)} has {lines} lines"


def _kinds_asked_for(path):
    """The kinds of cut that a file's tests, comparisons, patterns or registrations name."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        asked = []
        if isinstance(node, ast.Call) and getattr(node.func, "id", "") == "isinstance":
            asked = node.args[1:]
        elif isinstance(node, ast.Compare):
            asked = [node.left, *node.comparators]
        elif isinstance(node, ast.MatchClass):
            asked = [node.cls]
        elif isinstance(node, ast.FunctionDef) and node.decorator_list:
            asked = [each.annotation for each in node.args.args if each.annotation is not None]
        names = {each.id for one in asked for each in ast.walk(one) if isinstance(each, ast.Name)}
        yield from names & {kind.__name__ for kind in ALL_CUTS}


@pytest.mark.parametrize(
    "path", FURNITURE + EXPORTERS, ids=lambda path: str(path.relative_to(ROOT))
)
def test_readers_ask_a_cut_for_its_shape_and_never_its_kind(path):
    if ROOT / "furniture" / "parts" not in path.parents:
        assert not set(_kinds_asked_for(path))


def test_a_file_that_asks_for_kinds_is_found(tmp_path):
    asks = tmp_path / "asks.py"
    for text in (
        "isinstance(cut, Dado | Rabbet)",
        "cut.kind in (Bore, Slot)",
        "match cut:\n    case Notch():\n        pass",
        "@annotate.register\ndef _bore(cut: Bore, bench): pass",
    ):
        asks.write_text(text, encoding="utf-8")
        assert set(_kinds_asked_for(asks)), text
