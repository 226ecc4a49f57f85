#!/usr/bin/env python3
"""Asks whether a PDF and the program's own pictures of its pages show the same.

usage: check_picture.py FILE.pdf PAGE-1.png PAGE-2.png ...

The pictures are 24-bit PNG files of the program's, at 144 dots an inch. Two rasterisers differ
along every edge, so not pixels are compared but the mean colours of small squares.
Exit status 0 if nothing is wrong, else 1 with a line for each page that differs.
"""

import struct
import subprocess
import sys
import zlib

import numpy

SQUARE = 6  # points
FINER = 4  # poppler moves glyphs to whole pixels, so its pages are drawn at more dots an inch
# Mean colours differ by at most 7 of 255 on pages of text and shapes (measured with poppler 22.12);
# on the same pages ink a quarter of a point off its place differs by 16, half a point by 26.
TOLERANCE = 11


def chunks(content):
    at = 8
    while at < len(content):
        length, kind = struct.unpack(">I4s", content[at:at + 8])
        yield kind, content[at + 8:at + 8 + length]
        at += length + 12


def read_png(path):
    """(width, height, dots an inch, rows) of a PNG with 3 bytes a pixel and filters None or Up."""
    with open(path, "rb") as file:
        content = file.read()
    parts = {}
    for kind, data in chunks(content):
        parts[kind] = parts.get(kind, b"") + data
    width, height, depth, colour = struct.unpack(">IIBB", parts[b"IHDR"][:10])
    if (depth, colour) != (8, 2):
        sys.exit(f"{path}: not a PNG of 24 bits")
    data = zlib.decompress(parts[b"IDAT"])
    lines = numpy.frombuffer(data, numpy.uint8).reshape(height, 3 * width + 1)
    if not numpy.isin(lines[:, 0], (0, 2)).all():
        sys.exit(f"{path}: a PNG filter that the program does not use")
    rows = numpy.zeros((height, 3 * width), numpy.uint8)
    for y, line in enumerate(lines):
        rows[y] = line[1:] + (rows[y - 1] if line[0] == 2 and y > 0 else 0)  # modulo 256
    rows = rows.reshape(height, width, 3)
    return width, height, round(struct.unpack(">I", parts[b"pHYs"][:4])[0] * 0.0254), rows


def read_page(pdf, number, dots_an_inch):
    """(width, height, rows) of a page as poppler draws it."""
    done = subprocess.run(["pdftoppm", "-r", str(dots_an_inch), "-f", str(number), "-l", str(number),
                           pdf], capture_output=True, check=True)
    magic, size, _, pixels = done.stdout.split(b"\n", 3)
    if magic != b"P6":
        sys.exit(f"{pdf}: pdftoppm does not give a picture")
    width, height = map(int, size.split())
    return width, height, numpy.frombuffer(pixels, numpy.uint8).reshape(height, width, 3)


def means(rows, side):
    """The mean colour of each square, by its place."""
    height, width, _ = rows.shape
    return {(left, top): rows[top:top + side, left:left + side].mean(axis=(0, 1))
            for top in range(0, height, side) for left in range(0, width, side)}


def worst(pdf, number, picture):
    """(difference, place in points) of the square that differs most; a picture as read_png's."""
    width, height, dots_an_inch, rows = picture
    finer = FINER * dots_an_inch
    drawn_width, drawn_height, drawn = read_page(pdf, number, finer)
    if max(abs(FINER * width - drawn_width), abs(FINER * height - drawn_height)) > FINER:
        return 255, (drawn_width, drawn_height)
    side = SQUARE * dots_an_inch // 72
    ours = means(rows, side)
    theirs = means(drawn, FINER * side)
    difference, place = max((abs(ours[x, y] - theirs[FINER * x, FINER * y]).max(), (x, y))
                            for x, y in ours)
    return difference, tuple(round(72 * value / dots_an_inch) for value in place)


def main(pdf, *pngs):
    is_wrong = False
    for number, png in enumerate(pngs, 1):
        difference, place = worst(pdf, number, read_png(png))
        print(f"{png}: page {number} differs by {difference:.1f} of 255 at {place}")
        is_wrong = is_wrong or difference > TOLERANCE
    sys.exit(1 if is_wrong else 0)


if __name__ == "__main__":
    if len(sys.argv) < 3:
        sys.exit(__doc__)
    main(*sys.argv[1:])
