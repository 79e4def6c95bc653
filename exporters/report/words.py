"""Findings in a maker's words: what would happen, against what is asked."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace

from furniture.checks.finding import Finding, Sense, Show, Verdict
from furniture.checks.grades import TOUCH_N
from furniture.checks.of_piece import Group, Subject
from furniture.checks.of_piece.reading import badness
from furniture.checks.stability_findings import SLIDES_FIRST

VERDICT_WORDS = {Verdict.OK: "in order", Verdict.CAUTION: "to mind", Verdict.FAIL: "fails"}
MOST_FIGURES = 9
GUIDANCE = (
    "The checks guide; local codes and tests of the finished piece decide. A tall piece, or any "
    "that children can reach, is fixed to the wall with hardware made for it, put in by someone "
    "licensed to where that is asked."
)

_STRESS = "{{subject}}: its wood is stressed to {{value}} in {how}; {{limit}} is safe."
HAPPENS: dict[str, str] = {
    "tilt before it tips": "{subject}: tilted by {value} it falls; {limit} is asked.",
    "push of 13 % of the weight": (
        "A push of {value} at the top tips it over its {subject}; {limit} is asked, 13 % of its "
        "weight."
    ),
    "push at the top": (
        "A push of {value} at the top tips it over its {subject}; a knock pushes with {limit}."
    ),
    "hold of the strap": (
        "It is fixed to the wall at its top, so no push tips it: the fixing is the thing to check. "
        "It must bear {value}."
    ),
    "post at its weakest opening": _STRESS.format(how="bending"),
    "post behind its weakest dado": _STRESS.format(how="bending"),
    "load over its edge": "{subject}: it stands {value} over the edge.",
    "loads side by side": "{subject}: what stands there does not all fit beside each other.",
    "pull on the cable": (
        "A pull of {value} on its cable tips it over its {subject}; {limit} is asked."
    ),
    "tilt left on an uneven floor": (
        "On an uneven floor ({subject}) only {value} of tilt is left; {limit} is asked."
    ),
    "hand leaning on a front edge": (
        "A hand that leans on the {subject} tips it with {value}; a hand may lean with {limit}."
    ),
    "press of half the weight": "The {subject} bears {value} before it tips; {limit} is asked.",
    "hand push (voluntary)": (
        "A hand's firm push tips it over its {subject} at {value}; tests of tall furniture push "
        "with {limit}."
    ),
    "child on a front edge (voluntary)": (
        "A child on the {subject} tips it with {value}; tests of tall furniture load {limit}."
    ),
    "tilt on carpet (voluntary)": (
        "A carpet leans it {limit} forward, and it falls at {value} ({subject})."
    ),
    "hold on the wall": (
        "It hangs on a wall, so tip-over does not apply: the fixing is the thing to check. It is "
        "pulled outward with {value}."
    ),
    "bending stress with a hand on a shelf": _STRESS.format(how="bending"),
    "shear stress with a hand on a shelf": _STRESS.format(how="shear"),
    "bending stress of a shelf": _STRESS.format(how="bending"),
    "shear stress of a shelf": _STRESS.format(how="shear"),
    "sag that shows": "Sag in time of {subject}: {value}; over {limit} it shows.",
    "sag by the strict rule": "Sag in time of {subject}: {value}; up to {limit} looks straight.",
    "shelf as a lever in its dado": (
        "{subject}: the dado is pressed with {value} by a cautious estimate; up to {limit} it "
        "takes no dent."
    ),
    "shelf as a lever in its dado, a hand on its edge": (
        "{subject}: the dado is pressed with {value} by a cautious estimate that counts no glue; "
        "up to {limit} it takes no dent."
    ),
    "droop of a loose housing": (
        "Dry, {subject} can droop {value} at its front before the dado grips; {limit} looks level."
    ),
    "glue of a mitred corner": (
        "The corner of {subject} takes a push of {value} in the middle of a side, by a cautious "
        "estimate; a hand pushes with {limit}."
    ),
    "butt at an end grain": "{subject}: glue holds little on end grain.",
    "gap of a loose part": (
        "{subject}: made with {value} of gap in all it jams in the dampest season; {limit} is "
        "needed."
    ),
    "glued across the grain": (
        "{subject}: the two part ways by {value} over the year; wood and glue give {limit}."
    ),
    "swelling in a housing": "{subject} has {value} of room and swells; {limit} is needed.",
    "slot for a screw": "{subject} is {value} long; the panel's travel asks for {limit}.",
    "wood behind a dado": "{subject}: {value} of wood is left behind it; {limit} is usual.",
    "wood beside a rabbet": "{subject}: {value} of wood is left beside it; {limit} is usual.",
    "short grain at an end": "{subject}: {value} of short grain may split off; {limit} holds.",
    "short rip at the saw": "Short to rip: {subject}, {value} long; {limit} can be held safely.",
    "narrow rip at the saw": "Narrow to rip: {subject}, {value} wide; {limit} can be held safely.",
    "short cross-cut at the saw": (
        "Short to cross-cut: {subject}, {value} long; hands stay {limit} from the blade."
    ),
    "sum of errors over the dadoes": (
        "Small errors may put the {subject} off by {value}; {limit} passes unseen."
    ),
    "sum of errors round a mitred box": (
        "Small errors at eight cuts may open the {subject} by {value}; glue bridges {limit}."
    ),
}


def amount(value: float | None, unit: str, show: Show) -> str:
    """A figure with its unit, lengths in the piece's; a dash where there is none.

    Args:
        value: the figure, in `unit`.
        unit: of the finding.
        show: puts a length [mm] into the piece's unit.
    """
    if value is None:
        return "–"
    return show.of_unit(value, unit)


def found_and_limit(finding: Finding, show: Show) -> tuple[str, str]:
    """What was found and the limit, with as many figures as tell them apart where they differ.

    Args:
        finding: any.
        show: puts amounts into the piece's unit.
    """
    value, limit = finding.value, finding.limit
    told = (amount(value, finding.unit, show), amount(limit, finding.unit, show))
    if finding.verdict is Verdict.OK or value is None or limit is None:
        return told
    for figures in range(show.figures + 1, MOST_FIGURES + 1):
        if told[0] != told[1]:
            break
        finer = replace(show, figures=figures)
        told = (amount(value, finding.unit, finer), amount(limit, finding.unit, finer))
    return told


def asked(finding: Finding, show: Show) -> str:
    """What is asked, such as `at least 10 °`; a dash where nothing is."""
    if finding.limit is None or finding.sense is None:
        return "–"
    sign = "at least" if finding.sense is Sense.AT_LEAST else "at most"
    return f"{sign} {found_and_limit(finding, show)[1]}"


def happens(finding: Finding, show: Show) -> str:
    """What would happen, as a sentence.

    Args:
        finding: one that is not in order.
        show: puts a length [mm] into the piece's unit.
    """
    value, limit = found_and_limit(finding, show)
    template = HAPPENS.get(finding.check)
    if template is None or finding.value is None:
        tail = f": {value}, {asked(finding, show)}" if finding.value is not None else ""
        reason = "" if finding.value is not None else f": {finding.basis}"
        text = f"{finding.check}, {finding.subject}{tail or reason}."
    else:
        text = template.format(subject=finding.subject, value=value, limit=limit)
    return text[0].upper() + text[1:]


def worst_of_each(findings: Iterable[Finding]) -> list[Finding]:
    """For every check its worst finding: the gravest verdict, then the least room to its limit."""
    worst: dict[str, Finding] = {}
    for each in findings:
        known = worst.get(each.check)
        if known is None or badness(each) < badness(known):
            worst[each.check] = each
    return list(worst.values())


def amiss(group: Group) -> list[Finding]:
    """The findings of a group that are not in order, the gravest first."""
    found = [each for each in group.findings if each.verdict is not Verdict.OK]
    return sorted(found, key=badness)


def in_order(group: Group) -> list[Finding]:
    """The findings of a group that are in order, the one nearest to its limit first."""
    found = [each for each in group.findings if each.verdict is Verdict.OK]
    return sorted(found, key=badness)


def nearest(group: Group, show: Show) -> str:
    """The finding of a group that is in order and nearest to its limit, in words; or nothing."""
    for each in in_order(group):
        if each.value is not None and each.limit is not None and each.sense is not None:
            value = amount(each.value, each.unit, show)
            return f"nearest is {each.check}, {each.subject}: {value}, asked {asked(each, show)}"
    return ""


def stands(groups: Sequence[Group], show: Show) -> str:
    """The first sentence of all: whether it stands, what tips it, and what to do about it.

    Args:
        groups: the findings by subject.
        show: puts amounts into the piece's unit.
    """
    found = {
        each.check: each
        for group in groups
        if group.subject is Subject.STANDING
        for each in worst_of_each(group.findings)
    }
    if WALL in found or STRAP in found:
        return _hangs(found, show)
    tilt, push, floor = (found.get(check) for check in (TILT, PUSH, FLOOR))
    if tilt is None or push is None:
        return ""
    if tilt.verdict is Verdict.FAIL:
        way = _way(tilt)
        who = "with what is to stand on it" if "loaded" in tilt.subject else "as it is"
        if tilt.value == 0.0 and not way:
            return f"It does not stand: {tilt.basis}."
        return f"It does not stand: {who} it falls {way} on a level floor. {_do(tilt)}"
    if floor is not None and floor.verdict is Verdict.FAIL:
        return f"It stands on a flat floor only: one low corner tips it {_way(floor)}. {_do(floor)}"
    force = amount(push.value, push.unit, show)
    if push.verdict is not Verdict.OK:
        touch = "a touch" if (push.value or 0.0) <= TOUCH_N else "a knock"
        return (
            f"It stands on a level floor, but {touch} tips it: a push of {force} at its top sends "
            f"it over {_way(push)}. {_line_between(push, show)} {_do(push)}"
        )
    angle = amount(tilt.value, tilt.unit, show)
    minded = sorted(
        (each for each in found.values() if each.verdict is not Verdict.OK), key=badness
    )
    tail = f" {happens(minded[0], show)}" if minded else ""
    if SLIDES_FIRST in push.basis:
        told = (
            f"It stands: pushed at its top it slides before it tips; it falls at {angle} of tilt."
        )
    else:
        told = (
            f"It stands: to tip it takes a push of {force} {_way(push)} at its top, or {angle} of "
            f"tilt {_way(tilt)}."
        )
    return told + tail


def _line_between(push: Finding, show: Show) -> str:
    """Where a push fails the piece and where it is a caution."""
    touch, knock = (amount(each, push.unit, show) for each in (TOUCH_N, push.limit))
    if push.verdict is Verdict.CAUTION and (push.value or 0.0) <= TOUCH_N:
        return "As low as it is on so wide a base, that is a caution."
    return f"At {touch} or less (a touch) that fails; up to {knock} (a knock) it is a caution."


def _hangs(found: dict[str, Finding], show: Show) -> str:
    if WALL in found:
        pull = found[WALL]
        return (
            "It hangs on a wall and cannot tip: all depends on its upper fixing, which is pulled "
            f"outward with {amount(pull.value, pull.unit, show)}."
        )
    strap = found[STRAP]
    return (
        "It is fixed to the wall and cannot tip while that holds: the fixing at its top must bear "
        f"{amount(strap.value, strap.unit, show)}."
    )


def _way(finding: Finding) -> str:
    """Backward, forward or to a side: the way over the edge that a finding is about."""
    words = finding.subject.split(" (")[0].split(" edge")[0]
    ways = {"back": "backward", "front": "forward", "left": "to the left", "right": "to the right"}
    return " and ".join(ways[each] for each in words.split(" ") if each in ways)


def _do(finding: Finding) -> str:
    return f"{finding.advice[:1].upper()}{finding.advice[1:]}."


TILT, PUSH = "tilt before it tips", "push at the top"
FLOOR = "tilt left on an uneven floor"
WALL, STRAP = "hold on the wall", "hold of the strap"


def counted(groups: Sequence[Group]) -> str:
    """How many findings are of each verdict, in words."""
    findings = [each for group in groups for each in group.findings]
    count: Callable[[Verdict], int] = lambda verdict: sum(  # noqa: E731 - said once
        each.verdict is verdict for each in findings
    )
    fails, cautions = count(Verdict.FAIL), count(Verdict.CAUTION)
    first = "Nothing fails" if not fails else f"{fails} fail{'s' if fails == 1 else ''}"
    second = f"{cautions} {'wants' if cautions == 1 else 'want'} minding"
    return f"{first}, {second}, {count(Verdict.OK)} are in order."
