#!/usr/bin/env python3
"""What is measured in a PDF is what stands in it, and each broken rule is named.

usage: measure_pdf_test.py GOOD.pdf DUMP.txt WORK_DIRECTORY

The good file is the one whose pages the dump tells; damages keep its length.
"""

import math
import pathlib
import sys

import measure_pdf
import page_dump
import pdf_rules_test

LITRES = 0.25  # the smallest package: an x-height of 1.2 mm
FACTOR = 25.4 / 72
X_HEIGHT = 0.536  # of Noto Sans Regular, em; source: its table OS/2

DAMAGES = [
    ("small type", rb"/F2 9 Tf", b"/F2 4 Tf", "the x-height of Größe: is 0.756 mm, less than 1.2 mm"),
    ("close lines", rb"739.88977 Tm", b"742.38977 Tm", "lines stand 1.0 sizes apart, less than 1.2"),
    ("red type", rb"0 0 0 rg(?=\nBT\n/F1 20 Tf)", b"1 0 0 rg", "Garden has a contrast of 4.0 to 1"),
]


def check_good(good, dump):
    faults = []
    for figures, page in zip(measure_pdf.measure(good), page_dump.read(dump)):
        least = min(run.size for run in page.runs if any(c.isalnum() for c in run.text)) * X_HEIGHT * FACTOR
        if not math.isclose(figures["least_x_height_mm"], least, abs_tol=0.001):
            faults.append(f"the least x-height is {least}, measured {figures['least_x_height_mm']}")
        faults += measure_pdf.broken_rules(figures, LITRES)
    return faults


def check_damage(content, before, after, wanted, work):
    pdf_rules_test.named(content, before, after, work)
    figures = measure_pdf.measure(str(work / "damaged.pdf"))[0]
    broken = measure_pdf.broken_rules(figures, LITRES)
    return [] if wanted in broken else [f"{wanted!r} is not among {broken}"]


def main(good, dump, directory):
    work = pathlib.Path(directory)
    faults = check_good(good, dump)
    content = pdf_rules_test.plain(good, work).read_bytes()
    for _, before, after, wanted in DAMAGES:
        faults += check_damage(content, before, after, wanted, work)
    for fault in faults:
        print(fault)
    sys.exit(1 if faults else 0)


if __name__ == "__main__":
    if len(sys.argv) != 4:
        sys.exit(__doc__)
    main(*sys.argv[1:])
