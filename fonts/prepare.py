#!/usr/bin/env python3
"""Prepares a face for printing: our characters only, no hints, no composites, 1000 units per em.

usage: prepare.py --base NotoSans-Bold.ttf --fallback NotoSansMath-Regular.ttf \
                  --fallback NotoSansSymbols2-Regular.ttf --characters characters.txt --out FILE

Characters that the base face lacks come from the first fallback that has them, at their own
width. The same inputs give the same bytes. All faces are under the SIL Open Font License 1.1, and
so is the result; see OFL.txt.
"""

import argparse
import sys

from fontTools import subset
from fontTools.pens.recordingPen import DecomposingRecordingPen
from fontTools.pens.ttGlyphPen import TTGlyphPen
from fontTools.ttLib import TTFont

UNITS_PER_EM = 1000
NAMES_KEPT = [0, 1, 2, 4, 5, 6, 7, 13, 14]
# Seconds since 1904 at 2000-01-01: the faces carry no date of the build.
EPOCH = 3029529600


def read_characters(path):
    """The code points of the list: a line is "0041", "0041-005A" or "0041-005A  # comment"."""
    found = set()
    with open(path, encoding="ascii") as lines:
        for line in lines:
            text = line.split("#")[0].strip()
            if not text:
                continue
            first, _, last = text.partition("-")
            found.update(range(int(first, 16), int(last or first, 16) + 1))
    return sorted(found)


def subset_base(path, characters):
    options = subset.Options()
    options.hinting = False
    options.layout_features = []
    options.drop_tables += ["GSUB", "GPOS", "GDEF", "DSIG", "gasp", "GlyphOrder"]
    options.name_IDs = NAMES_KEPT
    options.notdef_outline = True
    options.glyph_names = True
    options.recalc_timestamp = False
    font = subset.load_font(path, options)
    worker = subset.Subsetter(options)
    worker.populate(unicodes=characters)
    worker.subset(font)
    return font


def simple_glyph(font, name):
    """The glyph as plain contours: components are drawn out, nested ones too."""
    glyphs = font.getGlyphSet()
    recording = DecomposingRecordingPen(glyphs)
    glyphs[name].draw(recording)
    pen = TTGlyphPen(None)
    recording.replay(pen)
    return pen.glyph()


def flatten(font):
    flat = {name: simple_glyph(font, name) for name in font.getGlyphOrder()}
    for name, glyph in flat.items():
        font["glyf"][name] = glyph


def add_fallbacks(font, fallbacks, missing):
    """Copies glyphs for the missing characters; returns those that no fallback has."""
    for character in list(missing):
        for other in fallbacks:
            name = other.getBestCmap().get(character)
            if name is None:
                continue
            own = "uni%04X" % character
            font.setGlyphOrder(font.getGlyphOrder() + [own])
            font["glyf"][own] = simple_glyph(other, name)
            font["hmtx"][own] = other["hmtx"][name]
            for table in font["cmap"].tables:
                table.cmap[character] = own
            missing.remove(character)
            break
    return missing


def keep_one_map(font):
    """One character map, format 4 of the Windows platform: all that readers of ours need."""
    cmap = font["cmap"]
    cmap.tables = [t for t in cmap.tables if (t.platformID, t.platEncID, t.format) == (3, 1, 4)]
    if not cmap.tables:
        sys.exit("prepare.py: the base face has no character map of format 4")


def restore_left_bearings(font):
    for name in font.getGlyphOrder():
        glyph = font["glyf"][name]
        glyph.recalcBounds(font["glyf"])
        left = glyph.xMin if glyph.numberOfContours else 0
        font["hmtx"][name] = (font["hmtx"][name][0], left)


def prepare(base, fallbacks, characters):
    font = subset_base(base, characters)
    others = [TTFont(path) for path in fallbacks]
    for path, face in zip([base] + fallbacks, [font] + others):
        if face["head"].unitsPerEm != UNITS_PER_EM:
            sys.exit("prepare.py: %s does not have %d units per em" % (path, UNITS_PER_EM))
    flatten(font)
    keep_one_map(font)
    have = font.getBestCmap()
    lacking = add_fallbacks(font, others, [c for c in characters if c not in have])
    if lacking:
        sys.exit("prepare.py: no face has " + ", ".join("U+%04X" % c for c in lacking))
    restore_left_bearings(font)
    font["post"].formatType = 3.0
    font["head"].created = font["head"].modified = EPOCH
    return font


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--base", required=True)
    parser.add_argument("--fallback", action="append", default=[])
    parser.add_argument("--characters", required=True)
    parser.add_argument("--out", required=True)
    told = parser.parse_args()
    font = prepare(told.base, told.fallback, read_characters(told.characters))
    font.recalcTimestamp = False
    font.save(told.out, reorderTables=True)


if __name__ == "__main__":
    main()
