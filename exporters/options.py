"""The options of a model script's command line."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from datetime import date
from pathlib import Path
from typing import NoReturn

from exporters.settings import Output
from furniture.errors import KnifewallError
from furniture.units.words import nearest_word

DXF_FLAVOURS = ("R2018", "R2000", "R12")
_PARTS_ON = "whether parts share sheets, and like ones a drawing (default: shared)"
PAPERS = ("A4", "A3", "Letter", "Tabloid")


class CommandError(KnifewallError, ValueError):
    """A command line that cannot be understood."""


class HelpAsked(Exception):  # noqa: N818 - not an error
    """The help was printed and nothing else is wanted."""


class _Parser(argparse.ArgumentParser):
    def error(self, message: str) -> NoReturn:
        raise CommandError(f"{message}\n{self.format_usage().strip()}")

    def exit(self, status: int = 0, message: str | None = None) -> NoReturn:
        raise HelpAsked


def options_of(arguments: Sequence[str]) -> argparse.Namespace:
    """What a command line asks for.

    Args:
        arguments: without the script's name.

    Raises:
        CommandError: it cannot be understood.
        HelpAsked: the help was printed.
    """
    parser = _Parser(
        description="Writes drawings, tables, checks and cutting plan of this piece into a folder."
        "\n"
        "example:  python models/tea_box.py --out out/tea",
        epilog=_EXIT_CODES,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    what = parser.add_argument_group("what to write")
    what.add_argument(
        "--out", type=_folder, metavar="DIR",
        help="the folder: new, empty, or with an earlier packet of this piece, which is replaced",
    )  # fmt: skip
    what.add_argument(
        "--replace", action="store_true",
        help="let the packet of another piece that stands there go for this one",
    )  # fmt: skip
    what.add_argument(
        "--only", type=_output, action="append", metavar="WHAT",
        help="write only this, and delete the other files of the earlier packet:"
        f" {_OUTPUTS}; may be repeated",
    )  # fmt: skip
    what.add_argument(
        "--against", type=_folder, metavar="DIR",
        help="tell each part against an earlier packet of this piece, such as the one that is"
        " replaced: as it is, trim, recut, make new; what changed carries the next letter",
    )  # fmt: skip
    what.add_argument(
        "--quiet", action="store_true",
        help="say nothing but what fails and what has no place on the boards",
    )  # fmt: skip
    job = parser.add_argument_group("a job in the middle")
    job.add_argument(
        "--job", type=_folder, metavar="FILE",
        help="what is done and measured already, in TOML; the rest follows from it",
    )  # fmt: skip
    job.add_argument(
        "--job-template", type=_folder, metavar="FILE",
        help="write such a file to fill in, with everything that can be measured; it must be new",
    )  # fmt: skip
    sheets = parser.add_argument_group("the sheets")
    sheets.add_argument(
        "--paper", choices=PAPERS, metavar="PAPER",
        help=f"{', '.join(PAPERS)}; default: A4, or Letter for a piece in inches",
    )  # fmt: skip
    sheets.add_argument("--parts-on", choices=("shared", "own"), default="shared", help=_PARTS_ON)
    sheets.add_argument(
        "--date", type=_date, default=date.today(), metavar="YYYY-MM-DD",
        help="date in the title blocks (default: today)",
    )  # fmt: skip
    sheets.add_argument(
        "--revision", type=_line, default="-", metavar="TEXT",
        help="revision in the title blocks; default: a dash, or with --against the next letter"
        " where something changed",
    )  # fmt: skip
    sheets.add_argument(
        "--dxf", choices=DXF_FLAVOURS, default=DXF_FLAVOURS[0], metavar="VERSION",
        help=f"version of the drawing files: {', '.join(DXF_FLAVOURS)}"
        f" (default: {DXF_FLAVOURS[0]})",
    )  # fmt: skip
    look = parser.add_argument_group("while you design")
    look.add_argument(
        "--watch", action="store_true",
        help="write nothing: serve a page to this machine alone that changes as the script, its"
        " boards or its job file are saved; Ctrl-C ends it",
    )  # fmt: skip
    look.add_argument(
        "--compare", type=_folder, metavar="FILE",
        help="write nothing but this: the piece beside variants of it at one scale, with height,"
        " mass, push to tip and price under each; its name ends in .html, .png or .svg",
    )  # fmt: skip
    look.add_argument(
        "--with", type=_line, action="append", default=[], dest="variants", metavar="CHANGES",
        help="a variant for --compare, such as \"base_width=360 mm\" or"
        " \"tiers.rise=140 mm, base_depth=22 cm\"; may be repeated",
    )  # fmt: skip
    checks = parser.add_argument_group("checks")
    checks.add_argument(
        "--strict", action="store_true",
        help="check whatever --only says; exit with 2 if a check fails, or if cutting is"
        " written and a part has no place on the boards",
    )  # fmt: skip
    options = parser.parse_args(list(arguments))
    if options.variants and options.compare is None:
        parser.error("--with is a variant for --compare FILE")
    if options.out is None and not options.watch and options.compare is None:
        parser.error("--out is missing: write where to, such as --out out/herb")
    return options


_OUTPUTS = ", ".join(each.value for each in Output)
_EXIT_CODES = """\
While a cutting plan is looked for, Ctrl-C stops and uses the best one so far.

exit code
  0  the packet is written, whatever the checks say
  1  refused: nothing is written, the earlier packet stays as it was
  2  written, but a check fails or a part has no place (with --strict only)

A file of the packet that you have changed is kept beside the new one, with "(yours)" in its name.
"""


def _output(text: str) -> Output:
    try:
        return Output(text)
    except ValueError as error:
        allowed = ", ".join(each.value for each in Output)
        near = nearest_word(text, [each.value for each in Output])
        meant = f"; did you mean {near!r}?" if near else ""
        raise argparse.ArgumentTypeError(f"{text!r} is not one of: {allowed}{meant}") from error


def _folder(text: str) -> Path:
    if not text.strip():
        raise argparse.ArgumentTypeError("it is empty; write . for the folder you are in")
    return Path(_line(text))


def _line(text: str) -> str:
    """A text of letters that print; another could neither be drawn nor told on a terminal."""
    odd = next((each for each in text if not each.isprintable()), None)
    if odd is not None:
        raise argparse.ArgumentTypeError(f"{text!a} holds {odd!a}, which cannot be printed")
    return text


def _date(text: str) -> date:
    try:
        return date.fromisoformat(text)
    except ValueError as error:
        raise argparse.ArgumentTypeError(f"{text!r} is not a date like 2026-03-14") from error
