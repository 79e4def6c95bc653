"""What is told of each mis-setting, kept as text: `python -m tests.refusals.kept` keeps it anew."""

from __future__ import annotations

from pathlib import Path

from tests.refusals.cases import CASES

KEPT = Path(__file__).resolve().parent / "told.txt"
_HEAD = "=== "


def kept_texts() -> dict[str, str]:
    """The whole message of each case, by its name."""
    found: dict[str, list[str]] = {}
    for line in KEPT.read_text(encoding="utf-8").splitlines():
        if line.startswith(_HEAD):
            found[line.removeprefix(_HEAD)] = lines = []
        else:
            lines.append(line)
    return {name: "\n".join(lines) for name, lines in found.items()}


def main() -> None:
    """Keeps what is told today."""
    texts = (f"{_HEAD}{name}\n{script.told}\n" for name, script in CASES.items())
    KEPT.write_text("".join(texts), encoding="utf-8")


if __name__ == "__main__":
    main()
