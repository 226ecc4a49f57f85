#!/usr/bin/env python3
"""Measures a printed label in its PDF: x-heights, line distances, contrasts, pictograms' sides.

usage: measure_pdf.py FILE.pdf [--litres VOLUME]

Nothing is taken from the program's own figures: words and the height of their lines come from
`pdftotext -bbox`, the height of a small x from the outline in the embedded face, contrasts, red
frames and the ink of words from `pdftoppm`. With a volume, the figures are held against the least
sizes of tests/reference/sheets/label_sizes.csv, a line distance of 1.2 and a contrast of 7:1.
Prints the figures as JSON, one object a page; exit status 1 if a rule is broken.
"""

import argparse
import csv
import functools
import json
import math
import pathlib
import re
import subprocess
import sys
from html.parser import HTMLParser

import numpy
from fontTools.pens.boundsPen import BoundsPen

from pdf_rule_file import RuleFile

MM = 72 / 25.4
SIZES = pathlib.Path(__file__).resolve().parent.parent / "reference" / "sheets" / "label_sizes.csv"
LINE_DISTANCE = 1.2  # Regulation (EU) 2024/2865 as summarised; see label_sizes.csv
CONTRAST = 7
SHORT_LETTERS = set("acemnorsuvwxz")  # neither ascender, descender nor accent
LARGEST_SIDE_MM = 160  # of pages that are rasterised finely


class Word:
    def __init__(self, text, left, top, right, foot):
        self.text, self.left, self.top, self.right, self.foot = text, left, top, right, foot


class WordReader(HTMLParser):
    """The pages of `pdftotext -bbox`: (width, height, words), points from the upper left corner."""

    def __init__(self):
        super().__init__()
        self.pages = []
        self.word = None

    def handle_starttag(self, tag, attrs):
        values = dict(attrs)
        if tag == "page":
            self.pages.append((float(values["width"]), float(values["height"]), []))
        if tag == "word":
            self.word = Word("", *(float(values[key]) for key in ("xmin", "ymin", "xmax", "ymax")))
            self.pages[-1][2].append(self.word)

    def handle_endtag(self, tag):
        if tag == "word":
            self.word = None

    def handle_data(self, data):
        if self.word is not None:
            self.word.text += data


class Faces:
    """Heights of the file's faces in em, as their own outlines and descriptors have them."""

    def __init__(self, path):
        fonts = RuleFile(path).fonts
        lines = {(descriptor["/Ascent"], descriptor["/Descent"]) for _, _, descriptor, *_ in fonts}
        if len(lines) != 1:
            sys.exit(f"{path}: the lines of its faces differ in height: {lines}")
        ascent, descent = lines.pop()
        self.ascent, self.descent = ascent / 1000, -descent / 1000
        heights = [x_height(program, glyphs) for _, _, _, program, glyphs, _ in fonts]
        self.least_x, self.most_x = min(heights), max(heights)

    def size(self, word):
        return (word.foot - word.top) / (self.ascent + self.descent)

    def baseline(self, word):
        return word.top + self.ascent * self.size(word)


def x_height(program, glyphs):
    """The height in em of an x, or of another flat letter if the file shows no x."""
    shapes = program.getGlyphSet()
    for letter in "xzvwumnr":
        pen = BoundsPen(shapes)
        shapes[program.getGlyphOrder()[glyphs[ord(letter)]]].draw(pen)
        if pen.bounds is not None:
            return pen.bounds[3] / program["head"].unitsPerEm
    sys.exit("a face shows no flat small letter")


class Raster:
    """One page in pixels: an array of rows, columns and the three parts of a colour."""

    def __init__(self, path, page, dots_per_inch):
        data = subprocess.run(["pdftoppm", "-r", str(dots_per_inch), "-f", str(page), "-l", str(page), path],
                              check=True, capture_output=True).stdout
        head = re.match(rb"P6\s+(\d+)\s+(\d+)\s+255\s", data)
        width, height = int(head.group(1)), int(head.group(2))
        self.pixels = numpy.frombuffer(data, numpy.uint8, offset=head.end()).reshape(height, width, 3)
        self.scale = dots_per_inch / 72

    def cut(self, left, top, right, foot):
        """The pixels of a rectangle in points."""
        return self.pixels[max(0, round(top * self.scale)):round(foot * self.scale),
                           max(0, round(left * self.scale)):round(right * self.scale)]


@functools.cache
def luminance(colour):
    """Relative luminance of an sRGB colour. Source: WCAG 2.1, definitions"""
    parts = [value / 255 for value in colour]
    linear = [v / 12.92 if v <= 0.04045 else ((v + 0.055) / 1.055) ** 2.4 for v in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(raster, word):
    """Of the word's ink with what it stands on: the most frequent colour around it, and the colour
    that differs most from that."""
    pixels = raster.cut(word.left, word.top, word.right, word.foot).reshape(-1, 3)
    colours, counts = numpy.unique(pixels @ numpy.array([1 << 16, 1 << 8, 1]), return_counts=True)
    inks = [luminance(int(colour).to_bytes(3, "big")) for colour in colours]
    ground = inks[counts.argmax()]
    return max((max(ground, ink) + 0.05) / (min(ground, ink) + 0.05) for ink in inks)


def ink_height(raster, word, faces):
    """From the highest to the lowest row with ink between the baseline and just above an x, in
    points: lines above and below reach into a word's own rectangle."""
    baseline = faces.baseline(word)
    size = faces.size(word)
    red = raster.cut(word.left, baseline - 1.3 * faces.most_x * size, word.right,
                     baseline + 0.05 * size)[:, :, 0].astype(int)
    inked = numpy.flatnonzero((abs(red - red[0, 0]) > 127).any(axis=1))
    return (inked[-1] - inked[0] + 1) / raster.scale if inked.size else 0


def line_distances(words, faces):
    """From each word's line to the next one below it of the same size, in sizes."""
    found = []
    for upper in words:
        size = faces.size(upper)
        below = [faces.baseline(lower) - faces.baseline(upper) for lower in words
                 if abs(faces.size(lower) - size) < 0.05 and lower.left < upper.right
                 and upper.left < lower.right]
        nearest = min((distance for distance in below if distance > 0.5 * size), default=None)
        if nearest is not None and nearest < 2 * size:
            found.append(nearest / size)
    return found


def red_frames(path, page):
    """The sides in mm of the red squares set at a point: each patch of red is one frame."""
    dots = 150
    pixels = Raster(path, page, dots).pixels
    is_red = (pixels[:, :, 0] > 150) & (pixels[:, :, 1] < 90) & (pixels[:, :, 2] < 90)
    red = {(int(x), int(y)) for y, x in numpy.argwhere(is_red)}
    sides = []
    while red:
        reached = [red.pop()]
        patch = list(reached)
        while reached:
            x, y = reached.pop()
            for beside in ((x + dx, y + dy) for dx in (-1, 0, 1) for dy in (-1, 0, 1)):
                if beside in red:
                    red.remove(beside)
                    reached.append(beside)
                    patch.append(beside)
        width = max(x for x, _ in patch) - min(x for x, _ in patch) + 1
        sides.append(width / dots * 25.4 / math.sqrt(2))
    return sorted(side for side in sides if side > 3)


def measure_page(path, number, page, faces):
    width, height, words = page
    fine = max(width, height) / MM <= LARGEST_SIDE_MM
    raster = Raster(path, number, 600 if fine else 300)
    letters = [word for word in words if any(character.isalnum() for character in word.text)]
    figures = [(faces.size(word) * faces.least_x / MM, contrast(raster, word), word.text)
               for word in letters]
    distances = line_distances(letters, faces)
    short = [word for word in letters if set(word.text) <= SHORT_LETTERS]
    return {
        "page": number, "width_mm": round(width / MM, 2), "height_mm": round(height / MM, 2),
        "words": len(letters),
        "least_x_height_mm": round(min(figures)[0], 3),
        "least_x_height_of": min(figures)[2],
        "least_line_distance": round(min(distances), 3) if distances else None,
        "least_contrast": round(min(figure[1] for figure in figures), 2),
        "least_contrast_of": min(figures, key=lambda figure: figure[1])[2],
        "pictogram_sides_mm": [round(side, 1) for side in red_frames(path, number)],
        "ink": [{"word": word.text, "inked_mm": round(ink_height(raster, word, faces) / MM, 3),
                 "least_mm": round(faces.size(word) * faces.least_x / MM, 3),
                 "most_mm": round(faces.size(word) * faces.most_x / MM, 3)} for word in short],
    }


def measure(path):
    reader = WordReader()
    reader.feed(subprocess.run(["pdftotext", "-bbox", path, "-"], check=True, capture_output=True,
                               text=True).stdout)
    faces = Faces(path)
    return [measure_page(path, number, page, faces) for number, page in enumerate(reader.pages, 1)]


def sizes_for(litres):
    with open(SIZES, encoding="utf-8") as file:
        rows = list(csv.DictReader(line for line in file if not line.startswith("#")))
    return next((row for row in rows if litres <= float(row["litres"])), rows[-1])


def broken_rules(figures, litres=None):
    """One sentence for each rule that a page breaks. What `litres` asks is asked with a volume only."""
    broken = []
    for ink in figures["ink"]:
        # Round letters reach past flat ones by about 0.012 em at each end; a pixel at each end.
        if not ink["least_mm"] - 0.09 <= ink["inked_mm"] <= 1.05 * ink["most_mm"] + 0.09:
            broken.append(f"the ink of {ink['word']} is {ink['inked_mm']} mm high, its x "
                          f"{ink['least_mm']} mm")
    if figures["least_contrast"] < CONTRAST:
        broken.append(f"{figures['least_contrast_of']} has a contrast of {figures['least_contrast']} to 1")
    if litres is None:
        return broken
    least = sizes_for(litres)
    if figures["least_x_height_mm"] < float(least["x_height"]) - 0.001:
        broken.append(f"the x-height of {figures['least_x_height_of']} is {figures['least_x_height_mm']} mm, "
                      f"less than {least['x_height']} mm")
    if figures["least_line_distance"] is not None and figures["least_line_distance"] < LINE_DISTANCE - 0.001:
        broken.append(f"lines stand {figures['least_line_distance']} sizes apart, less than {LINE_DISTANCE}")
    for side in figures["pictogram_sides_mm"]:
        if side < float(least["pictogram"]) - 0.2:  # a pixel of the coarse raster
            broken.append(f"a pictogram has a side of {side} mm, less than {least['pictogram']} mm")
    return broken


def main():
    options = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    options.add_argument("file")
    options.add_argument("--litres", type=float, help="what the label's package holds")
    given = options.parse_args()
    broken = []
    for figures in measure(given.file):
        print(json.dumps(figures, ensure_ascii=False))
        broken += [f"page {figures['page']}: {rule}" for rule in broken_rules(figures, given.litres)]
    for rule in broken:
        print(f"{given.file}: {rule}", file=sys.stderr)
    sys.exit(1 if broken else 0)


if __name__ == "__main__":
    main()
