"""Make the shipped fonts and the table of character widths from the full Noto fonts.

    python -m tools.make_fonts /usr/share/fonts/truetype/noto

The fonts keep Latin, Greek and Cyrillic with kerning and accents, lose their hints and gain the
arrows and signs of sums that only the sister fonts have. Needs fonttools (not a dependency of the
program).
"""

from __future__ import annotations

import sys
from collections import defaultdict
from pathlib import Path
from typing import Any

FOLDER = Path(__file__).parents[1] / "src" / "cutwright"
NAMES = ("NotoSans-Regular", "NotoSans-Bold", "NotoSerif-Regular", "NotoSerif-Italic")
RANGES = (
    (0x20, 0x7E), (0xA0, 0x24F), (0x2B0, 0x36F), (0x370, 0x3FF), (0x400, 0x52F), (0x1E00, 0x1FFF),
    (0x2000, 0x206F), (0x2070, 0x209F), (0x20A0, 0x20BF), (0x2100, 0x2126), (0x2150, 0x215F),
    (0x2190, 0x2199), (0x2200, 0x2265), (0x25A0, 0x25CF),
)  # fmt: skip
SIGNS = {"NotoSansMath-Regular": "←↑→↓↔↕−≈≠≤≥√∞∠", "NotoSansSymbols2-Regular": "●○□✓✂"}
FIXED_TIME = 3_600_000_000  # seconds since 1904, so that the same fonts come out twice


def load(path: Path) -> Any:
    """A font as it lies on the disk."""
    from fontTools.ttLib import TTFont

    return TTFont(path)


def borrow(font: Any, other: Any, signs: str) -> None:
    """Copy the shapes of some signs from a sister font with the same type size."""
    from fontTools.pens.recordingPen import DecomposingRecordingPen
    from fontTools.pens.ttGlyphPen import TTGlyphPen

    shapes = other.getGlyphSet()
    for sign in signs:
        name, theirs = f"sign{ord(sign):04X}", other.getBestCmap()[ord(sign)]
        record, pen = DecomposingRecordingPen(shapes), TTGlyphPen(None)
        shapes[theirs].draw(record)
        record.replay(pen)
        font["glyf"][name] = glyph = pen.glyph()
        glyph.recalcBounds(font["glyf"])
        font["hmtx"][name] = other["hmtx"][theirs]
        for sub in font["cmap"].tables:
            if sub.isUnicode() and sub.format != 14:
                sub.cmap[ord(sign)] = name


def subset(source: Path, target: Path) -> Any:
    """Write the small font and return it."""
    from fontTools import subset as shrink

    options = shrink.Options()
    options.hinting = False
    options.layout_features = ["kern", "mark", "mkmk", "ccmp", "locl"]
    options.name_IDs = ["*"]
    options.recalc_timestamp = False
    font = shrink.load_font(str(source), options)
    worker = shrink.Subsetter(options)
    worker.populate(unicodes=[c for low, high in RANGES for c in range(low, high + 1)])
    worker.subset(font)
    for name, signs in SIGNS.items():
        borrow(font, load(source.parent / f"{name}.ttf"), signs)
    font["head"].modified = FIXED_TIME
    shrink.save_font(font, str(target), options)
    return font


def widths(font: Any) -> dict[int, str]:
    """The characters of a font under each advance width, in thousandths of the type size."""
    rows: dict[int, list[str]] = defaultdict(list)
    per_em = font["head"].unitsPerEm
    for code, glyph in sorted(font.getBestCmap().items()):
        rows[round(font["hmtx"][glyph][0] * 1000 / per_em)].append(chr(code))
    return {width: "".join(rows[width]) for width in sorted(rows)}


def shown(text: str) -> str:
    """A string literal that no editor can trip over: marks and odd spaces are escaped."""
    out = []
    for c in text:
        plain = c.isalnum() or (c.isascii() and c.isprintable())
        out.append({'"': '\\"', "\\": "\\\\"}.get(c, c) if plain else f"\\u{ord(c):04x}")
    return '"' + "".join(out) + '"'


def table(fonts: dict[str, Any]) -> str:
    """The module that holds the widths."""
    lines = ['"""Advance widths of the shipped fonts in thousandths of the type size."""', ""]
    lines += ["# Made by tools/make_fonts.py; do not edit.", "# fmt: off"]
    for name, font in fonts.items():
        lines.append(f"{name} = {{")
        lines += [f"    {width}: {shown(chars)}," for width, chars in widths(font).items()]
        lines.append("}")
    return "\n".join(lines) + "\n"


def main(source: str) -> None:
    """Make everything from the folder of the full fonts."""
    made = {}
    for name in NAMES:
        target = FOLDER / "fonts" / f"{name}.ttf"
        made[name] = subset(Path(source) / f"{name}.ttf", target)
        print(f"{target.name}: {target.stat().st_size} bytes")
    fonts = {"REGULAR": made["NotoSans-Regular"], "BOLD": made["NotoSans-Bold"]}
    (FOLDER / "drawing" / "widths.py").write_text(table(fonts), encoding="utf-8")


if __name__ == "__main__":
    main(sys.argv[1])
