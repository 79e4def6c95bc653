"""The parameter reference as a page of Markdown, from the same values as `help(...)`."""

from __future__ import annotations

from collections.abc import Mapping

from furniture.reference import LEFT_OUT, NOTHING, Said, choices, reference

_HEAD = """# What a script may say

Made from the code by `python -m renders.make reference`; `help(SteppedStand)` in Python says the
same. Lengths are text with a unit, `"260 mm"`, `"10 1/4 in"`. Where the default is a dash, the
words say what holds, or there is nothing. Examples use two stocks, `THICK` and `THIN`.
"""


def reference_page(names: Mapping[str, object]) -> str:
    """All of it, by subject.

    Args:
        names: what a script can import, by name.
    """
    by_subject = reference(names)
    contents = [
        f"- [{subject}](#{_anchor(subject)}): {', '.join(f'`{each.name}`' for each in said)}"
        for subject, said in by_subject.items()
    ]
    body = [_HEAD, "\n".join([*contents, "- [Choices](#choices)"]), ""]
    for subject, said in by_subject.items():
        body += [f"## {subject}", "", *(line for each in said for line in _told(each))]
    body += ["## Choices", "", "| written | says |", "|---|---|"]
    for members in choices(names).values():
        body += [f"| `{written}` | {_cell(says)} |" for written, says in members]
    return "\n".join(body) + "\n"


def _told(each: Said) -> list[str]:
    lines = [f"### {each.name}", "", each.about, "", "```python", each.example, "```", ""]
    if each.parameters:
        lines += ["| parameter | default | what it is |", "|---|---|---|"]
        lines += [
            f"| `{one.name}` | {_default(one.default)} | {_cell(one.means)} |"
            for one in each.parameters
        ]
        lines.append("")
    return lines


def _default(text: str | None) -> str:
    if text is None:
        return "**must be given**"
    if text == LEFT_OUT:
        return "-"
    return "none" if text in NOTHING else f"`{_cell(text)}`"


def _cell(text: str) -> str:
    return text.replace("|", "\\|")


def _anchor(subject: str) -> str:
    """As a reader of Markdown makes it from a heading."""
    kept = "".join(letter for letter in subject.lower() if letter.isalnum() or letter in " -")
    return kept.replace(" ", "-")
