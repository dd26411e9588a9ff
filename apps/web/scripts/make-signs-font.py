"""Makes the two "Halflap Signs" files: the musical signs that the text family lacks.

Needs fonttools with brotli and the DejaVu fonts. Double flat and double sharp, which DejaVu
does not have, are built here: two flats close together, and a cross drawn from straight strokes.
Run: python3 make-signs-font.py /usr/share/fonts/truetype/dejavu ../src/styles/fonts
"""

import sys
from pathlib import Path

from fontTools.pens.boundsPen import BoundsPen
from fontTools.pens.transformPen import TransformPen
from fontTools.pens.ttGlyphPen import TTGlyphPen
from fontTools.subset import Options, Subsetter
from fontTools.ttLib import TTFont

ACCIDENTALS = [0x266D, 0x266E, 0x266F]
SIGNS = [*ACCIDENTALS, 0x0394]
BEARING, STEP = 95, 25
DOUBLE_SHARP, DOUBLE_FLAT = 0x1D12A, 0x1D12B


def add_glyph(font, name, code, advance, draw):
    pen = TTGlyphPen(font.getGlyphSet())
    draw(pen)
    font["glyf"][name] = pen.glyph()
    font["hmtx"][name] = (advance, 0)
    for table in font["cmap"].tables:
        if table.format == 12:
            table.cmap[code] = name


def redraw_signs(font, heavier):
    """Flat, natural and sharp stand close to their letter; the bold DejaVu has them no heavier
    than the regular one, so there each is drawn over itself a few times, a little to the right."""
    for code in ACCIDENTALS:
        name = font.getBestCmap()[code]
        glyphs = font.getGlyphSet()
        bounds = BoundsPen(glyphs)
        glyphs[name].draw(bounds)
        left, _, right, _ = bounds.bounds
        pen = TTGlyphPen(glyphs)
        for right_by in range(0, heavier + 1, STEP):
            for up_by in (0, heavier // 3):
                shift = (1, 0, 0, 1, BEARING - left + right_by, up_by)
                glyphs[name].draw(TransformPen(pen, shift))
        font["glyf"][name] = pen.glyph()
        font["hmtx"][name] = (round(right - left) + heavier + 2 * BEARING, BEARING)


def double_flat(font):
    flat = font.getBestCmap()[0x266D]
    glyphs = font.getGlyphSet()
    bounds = BoundsPen(glyphs)
    glyphs[flat].draw(bounds)
    step = round((bounds.bounds[2] - bounds.bounds[0]) * 0.92)
    advance = font["hmtx"][flat][0]

    def draw(pen):
        for shift in (0, step):
            glyphs[flat].draw(TransformPen(pen, (1, 0, 0, 1, shift, 0)))

    add_glyph(font, "doubleflat", DOUBLE_FLAT, advance + step, draw)


def double_sharp(font, half_stroke):
    middle, reach, x0 = 560, 330, 480

    def draw(pen):
        for sign in (1, -1):
            h = half_stroke
            corners = [(-reach, -reach), (reach, reach)]
            (ax, ay), (bx, by) = [(x, y * sign) for x, y in corners]
            points = [(ax - h, ay + h * sign), (bx - h, by + h * sign)]
            points += [(bx + h, by - h * sign), (ax + h, ay - h * sign)]
            if sign < 0:
                points.reverse()
            pen.moveTo((x0 + points[0][0], middle + points[0][1]))
            for x, y in points[1:]:
                pen.lineTo((x0 + x, middle + y))
            pen.closePath()

    add_glyph(font, "doublesharp", DOUBLE_SHARP, 2 * x0, draw)


def rename(font, style):
    for record in list(font["name"].names):
        if record.nameID not in (0, 1, 2, 3, 4, 6, 13, 14):
            font["name"].removeNames(nameID=record.nameID)
    for name_id, text in ((1, "Halflap Signs"), (2, style), (3, f"Halflap Signs {style}"),
                          (4, f"Halflap Signs {style}"), (6, f"HalflapSigns-{style}")):
        font["name"].setName(text, name_id, 3, 1, 0x409)


def main(source, target):
    weights = (("DejaVuSans", "Regular", 60, 25), ("DejaVuSans-Bold", "Bold", 105, 100))
    for file, style, stroke, heavier in weights:
        font = TTFont(Path(source) / f"{file}.ttf")
        redraw_signs(font, heavier)
        double_flat(font)
        double_sharp(font, stroke)
        options = Options()
        options.hinting = False
        options.layout_features = []
        options.name_IDs = ["*"]
        subsetter = Subsetter(options)
        subsetter.populate(unicodes=[*SIGNS, DOUBLE_SHARP, DOUBLE_FLAT])
        subsetter.subset(font)
        rename(font, style)
        font.flavor = "woff2"
        font.save(Path(target) / f"halflap-signs-{style.lower()}.woff2")


main(sys.argv[1], sys.argv[2])
