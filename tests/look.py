"""Pages of a PDF as pictures to look at: `python -m tests.look FILE.pdf FOLDER [DPI]`."""

from __future__ import annotations

import sys
from pathlib import Path


def pictures_of_pages(pdf: Path, folder: Path, dots_per_inch: float = 110.0) -> list[Path]:
    """The pictures written, one a page, named after the file and the page's number."""
    import pypdfium2

    folder.mkdir(parents=True, exist_ok=True)
    written = []
    document = pypdfium2.PdfDocument(pdf)
    for number, page in enumerate(document, start=1):
        path = folder / f"{pdf.stem}-{number:02d}.png"
        page.render(scale=dots_per_inch / 72.0).to_pil().save(path)
        written.append(path)
    document.close()
    return written


def main(arguments: list[str]) -> int:
    """The exit code of the command line."""
    if len(arguments) not in (2, 3):
        print(__doc__)
        return 1
    dots = float(arguments[2]) if len(arguments) == 3 else 110.0
    for path in pictures_of_pages(Path(arguments[0]), Path(arguments[1]), dots):
        print(path)
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
