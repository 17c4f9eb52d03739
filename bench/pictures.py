"""Draw the pictures of the README anew: a printed sheet of the demo child, front and back."""

from __future__ import annotations

import subprocess
import sys
import tempfile
from pathlib import Path

import pypdfium2
from PIL import Image

ROOT = Path(__file__).resolve().parent.parent
WIDTH = 760
GAP = 24


def main() -> int:
    """Make a demo household in a passing folder, print day-085, and put its practice sheet side by side."""
    with tempfile.TemporaryDirectory() as folder:
        home, out = Path(folder) / "home", Path(folder) / "out"
        dayleaf = Path(sys.executable).with_name("dayleaf")
        say = [str(dayleaf), "demo", "--home", str(home), "--today", "2027-01-12"]
        subprocess.run(say, check=True, stdout=subprocess.DEVNULL)
        say = [str(dayleaf), "day", "--home", str(home), "--today", "2027-01-12"]
        say += ["--learner", "Wren", "--lesson", "day-085", "--dry", "--out", str(out)]
        subprocess.run(say, check=True, stdout=subprocess.DEVNULL)
        pages = pypdfium2.PdfDocument(out / "pages.pdf")
        sides = [pages[index].render(scale=1.6, grayscale=True).to_pil() for index in (2, 3)]
    height = max(side.height for side in sides)
    sheet = Image.new("L", (sum(side.width for side in sides) + 3 * GAP, height + 2 * GAP), 224)
    at = GAP
    for side in sides:
        sheet.paste(side, (at, GAP))
        at += side.width + GAP
    sheet = sheet.resize((2 * WIDTH, round(2 * WIDTH * sheet.height / sheet.width)), Image.Resampling.LANCZOS)
    sheet.quantize(16).save(ROOT / "docs" / "pictures" / "practice-sheet.png", optimize=True)
    return 0


if __name__ == "__main__":
    sys.exit(main())
