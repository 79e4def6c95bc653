"""The page put together: everything inside one file, nothing fetched."""

from __future__ import annotations

import base64
import json
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from html import escape
from importlib.resources import files
from pathlib import Path

from exporters.page.svg import svg_of_page
from exporters.page.svg_plan import svg_of_plan
from exporters.plan.contents import Contents, Judged, PartRow, Told
from exporters.plan.work_rows import TickRow
from exporters.report.plan_picture import seen_from_above, signs_of
from exporters.work.checklist import MachineHead, StageHead


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Page:
    """What a page shows.

    Args:
        contents: its words and rows.
        glb: the piece to turn, binary glTF.
        still: a picture of it for print and for browsers without a view, JPEG.
        boards: a picture of its boards, JPEG or PNG; none without a plan.
        outlines: front and side, as an SVG.
        sheets: title and SVG of each.
        live: script that follows the maker's changes; empty for a page to keep.
    """

    contents: Contents
    glb: bytes
    still: bytes
    boards: bytes = b""
    outlines: str = ""
    sheets: Sequence[tuple[str, str]] = ()
    live: str = ""


def write_page(page: Page, path: Path) -> Path:
    """The path of the page written.

    Args:
        page: what it shows.
        path: of the file.

    Raises:
        OSError: the file cannot be written.
    """
    path.write_text(html_of(page), encoding="utf-8")
    return path


def html_of(page: Page) -> str:
    """The whole page as text.

    Args:
        page: what it shows.
    """
    told = page.contents
    three, licence = _file("three/three.js"), _file("three/LICENSE.txt")
    return f"""<!DOCTYPE html>
<html lang="en" data-piece="{_attribute(told.name)}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>{escape(told.name)}: plan</title>
<link rel="icon" href="data:,">
<style>{_file("style.css")}</style>
</head>
<body>
<a class="aside" href="#parts">To the parts</a>
<header>
{header_of(page)}
</header>
<main>
{_view(page)}
<div id="rest">
{rest_of(page)}
</div>
</main>
<footer>
<p>Dated {escape(told.dated)}. Made by knifewall from one script; nothing on this page is fetched
from anywhere. The view is drawn by three.js, MIT licence, whose text stands in this file.</p>
</footer>
<script type="text/plain" id="piece-glb">{base64.b64encode(page.glb).decode()}</script>
<script>/*
{licence}*/
{three}</script>
<script>{_file("view.js")}</script>
{f"<script>{page.live}</script>" if page.live else ""}
</body>
</html>
"""


_SET_UP_PX_PER_MM = 4.6
"""How large small pictures stand on the page: their letters as large as its words. Own rule."""


def header_of(page: Page) -> str:
    """Name, sizes and the ways to the sections.

    Args:
        page: what it shows.
    """
    told = page.contents
    facts = "".join(f'<p class="facts">{escape(line)}</p>' for line in told.lines)
    stands = f'<p class="stands">Will it stand? {escape(told.stands)}</p>' if told.stands else ""
    return (
        f"<h1>{escape(told.name)}</h1>{facts}{stands}"
        f'<nav aria-label="On this page"><ul class="jump">{_jumps(page)}</ul></nav>'
    )


def rest_of(page: Page) -> str:
    """Everything but the view: parts, what is needed, boards, work, sheets, checks, cautions.

    Args:
        page: what it shows.
    """
    told = page.contents
    return "\n".join(
        each
        for each in (
            _parts(told), _needed(told), _boards(page), _work(told), _sheets(page), _checks(told),
            _mind(told),
        )
        if each
    )  # fmt: skip


def _file(name: str) -> str:
    return files("exporters.page").joinpath(name).read_text(encoding="utf-8")


def _attribute(text: str) -> str:
    return escape(text, quote=True)


def _jumps(page: Page) -> str:
    told = page.contents
    places = [("parts", "Parts"), ("needed", "What is needed")]
    if page.boards:
        places.append(("boards", "Boards"))
    if told.work:
        places.append(("work", "Work"))
    if page.sheets:
        places.append(("sheets", "Sheets"))
    if told.checks:
        places.append(("checks", "Checks"))
    places.append(("mind", "Cautions"))
    return "".join(f'<li><a href="#{name}">{text}</a></li>' for name, text in places)


def _view(page: Page) -> str:
    name = escape(page.contents.name)
    picture = base64.b64encode(page.still).decode()
    outlines = (
        f'<details class="outlines"><summary>From the front and from the side</summary>'
        f'<div role="img" aria-label="Outlines of {name} from the front and from its right side">'
        f"{page.outlines}</div></details>"
        if page.outlines
        else ""
    )
    return f"""<section aria-label="The piece">
<div id="stage">
<p id="told" role="status" aria-live="polite"></p>
<canvas id="view" tabindex="0" role="img" hidden
 aria-label="{name}, drawn to turn: arrow keys turn it, plus and minus come nearer and go back,
 0 puts it as it was. Every part is in the table of parts below."></canvas>
<img id="still" alt="{name} from the front and a little from the right and above"
 src="data:image/jpeg;base64,{picture}">
</div>
<div id="without" hidden><p id="why"></p></div>
<noscript><p>Without scripts the piece does not turn and ticks are not kept; all else is
here.</p></noscript>
<div class="tools">
<label>Open <input id="open" type="range" min="0" max="100" value="0"></label>
<label>Cut <select id="section"><option value="">not at all</option>
<option value="x">from the right</option><option value="y">from the front</option>
<option value="z">from above</option></select></label>
<label>How deep <input id="deep" type="range" min="0" max="100" value="50" disabled></label>
<label><input id="loads" type="checkbox" checked> what stands on it</label>
<button id="home" type="button">As it was</button>
</div>
{outlines}
</section>"""


def _parts(told: Contents) -> str:
    rows = "".join(_part(each) for each in told.parts)
    return f"""<section id="parts"><h2>Parts</h2>
<p class="screen">A name shows the part in the view; a part touched in the view is marked here.</p>
<div class="scroll" tabindex="0" role="region" aria-label="Parts, table"><table>
<thead><tr><th scope="col">no.</th><th scope="col">part</th><th scope="col">qty</th>
<th scope="col">{escape(told.size_heading)}</th><th scope="col">stock</th></tr></thead>
<tbody>{rows}</tbody></table></div></section>"""


def _part(each: PartRow) -> str:
    size = f"{each.size}, {each.stock}"
    return (
        f'<tr data-part="{_attribute(each.id)}" data-size="{_attribute(size)}">'
        f"<td>{each.number}</td>"
        '<th scope="row"><button type="button" aria-pressed="false">'
        f"{escape(each.name)}</button></th>"
        f"<td>{each.quantity}</td><td>{escape(each.size)}</td><td>{escape(each.stock)}</td></tr>"
    )


def _needed(told: Contents) -> str:
    groups = (
        ("Wood", told.wood), ("Machines and cutters", told.cutters),
        ("Hardware, glue and finish", told.bought),
    )  # fmt: skip
    lists = "".join(f"<h3>{title}</h3>{_list(lines)}" for title, lines in groups if lines)
    return f'<section id="needed"><h2>What is needed</h2>{lists}</section>'


def _list(lines: Iterable[str]) -> str:
    return f"<ul>{''.join(f'<li>{escape(line)}</li>' for line in lines)}</ul>"


def _boards(page: Page) -> str:
    if not page.boards:
        return ""
    kind = "png" if page.boards.startswith(b"\x89PNG") else "jpeg"
    picture = base64.b64encode(page.boards).decode()
    lines = ", ".join(page.contents.wood)
    return f"""<section id="boards"><h2>Boards</h2>
<img alt="Every board with the parts laid on it: {_attribute(lines)}"
 src="data:image/{kind};base64,{picture}"></section>"""


def _work(told: Contents) -> str:
    if not told.work:
        return ""
    body = "".join(_entries(told))
    return f"""<section id="work"><h2>Work</h2>
<p class="screen"><span id="count" role="status"></span>. Ticks are kept in this browser, for this
piece, and outlast a new figure as long as the work is the same.</p>
{body}</section>"""


def _entries(told: Contents) -> Iterator[str]:
    for index, row in enumerate(told.work):
        match row:
            case StageHead():
                yield f"<h3>{escape(row.title[:1].upper() + row.title[1:])}</h3>"
            case MachineHead():
                yield f"<h4>{escape(row.title)}</h4>"
                for caution in row.cautions:
                    yield f'<p class="mind"><b>Caution:</b> {escape(caution)}.</p>'
            case TickRow():
                yield _tick(row, index)


def _tick(row: TickRow, index: int) -> str:
    tick = row.tick
    keys = _attribute(json.dumps(list(row.keys)))
    set_to = f'<span class="set">{escape(tick.set_to)}</span>' if tick.set_to else ""
    lines = "".join(f'<span class="line">{escape(line)}</span>' for line in tick.lines)
    return (
        f'<div class="tick"><input type="checkbox" id="t{index}" data-keys="{keys}">'
        f'<span class="no" aria-hidden="true">{escape(tick.number)}</span>'
        f'<label for="t{index}">{set_to}{lines}</label>{_small(row)}</div>'
    )


def _small(row: TickRow) -> str:
    """The small pictures of a step, somewhat larger than on paper."""
    drawn = []
    for each in row.pictures:
        svg = svg_of_page(each.page, each.says, "drawn")
        wide = round(_SET_UP_PX_PER_MM * each.page.paper_mm[0])
        drawn.append(f'<div class="setup" style="width:{wide}px">{svg}</div>')
    return f'<div class="setups">{"".join(drawn)}</div>' if drawn else ""


def _sheets(page: Page) -> str:
    if not page.sheets:
        return ""
    all_of_them = "".join(
        f"<details><summary>{escape(title)}</summary>{svg}</details>" for title, svg in page.sheets
    )
    return f"""<section id="sheets"><h2>Sheets</h2>
<p>To look at; to measure off, print sheets.pdf, which is at exact scale.</p>
{all_of_them}</section>"""


def _checks(told: Contents) -> str:
    if not told.checks:
        return ""
    judged = "".join(_judged(each) for each in told.checks)
    return f'<section id="checks"><h2>Checks</h2>{_standing(told)}{judged}</section>'


def _standing(told: Contents) -> str:
    """The piece from above on what it stands, and what its lines and signs say."""
    if told.standing is None:
        return ""
    plan = told.standing.plan
    lines = seen_from_above(plan)
    signs = " ".join(f"{sign.looks}: {said}." for sign, said in signs_of(plan).items())
    svg = svg_of_plan(plan, told.standing.show, lines)
    return f"<figure>{svg}<figcaption>{escape(f'{lines} {signs}')}</figcaption></figure>"


def _judged(each: Judged) -> str:
    title = f"<h3>{escape(each.subject[:1].upper() + each.subject[1:])}</h3>"
    if not each.lines:
        near = f"; {escape(each.nearest)}" if each.nearest else ""
        return f"{title}<p>In order{near}.</p>"
    return f"{title}<ul>{''.join(_told(line) for line in each.lines)}</ul>"


def _told(line: Told) -> str:
    advice = f" {escape(line.advice)}" if line.advice else ""
    return (
        f'<li><span class="verdict">{escape(line.verdict)}:</span> {escape(line.sentence)}'
        f"{advice}</li>"
    )


def _mind(told: Contents) -> str:
    lines = "".join(f'<li class="mind">{escape(each)}</li>' for each in told.cautions)
    return f'<section id="mind"><h2>Cautions</h2><ul>{lines}</ul></section>'
