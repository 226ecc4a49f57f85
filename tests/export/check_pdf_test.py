#!/usr/bin/env python3
"""Damages a good PDF, or the dump of its pages, in one place at a time, and asks that the checks
name each damage.

usage: check_pdf_test.py GOOD.pdf DUMP.txt PAGE-1.png FACES_DIRECTORY WORK_DIRECTORY

What `qpdf --check` and the PDF/A-1b validator let pass is what this is about. The edits of the PDF
keep its length, so that nothing else changes.
"""

import pathlib
import re
import subprocess
import sys

import numpy

import check_pdf
import check_picture
import page_dump
import pdf_structure


def change(before, after):
    """An edit at the first place of `before`, a pattern; `after` has as many bytes."""
    def edit(content):
        found = re.search(before, content)
        if not found:
            sys.exit(f"there is no {before} to damage")
        new = found.expand(after)
        if len(new) != len(found.group()):
            sys.exit(f"{found.group()} and {new} differ in length")
        return content[:found.start()] + new + content[found.end():]
    return edit


DAMAGES = [
    ("a mark with another's id", change(rb"/MCID 3>> BDC", rb"/MCID 4>> BDC"),
     "do not count from 0"),
    ("a mark of another kind", change(rb"/P <</MCID 1>>", rb"/L <</MCID 1>>"),
     "marked content 1, /L, is not in its element"),
    ("paint outside of marks", change(rb"EMC(\s+/P <</MCID 1>>) BDC", rb"   \1 EMC"),
     "outside of every marked content"),
    ("an artifact that is none", change(rb"/Artifact BMC", rb"/Article_ BMC"),
     "neither id nor artifact's tag"),
    ("a mark left open", change(rb"EMC\s+endstream", rb"    endstream"), "is not ended"),
    ("a list item in a table", change(rb"/S /TR", rb"/S /LI"), "a LI stands in a Table"),
    ("a heading of level 3 first", change(rb"/S /H1", rb"/S /H3"), "follows one of level 0"),
    ("an unknown kind", change(rb"/S /Span", rb"/S /Spam"), "an element is a Spam"),
    ("a figure without words", change(rb"/Alt (?=\(tick)", rb"/Oth "), "no alternative text"),
    ("a table heading without scope", change(rb"/Scope /Row", rb"/Scope /Raw"),
     "does not say what it heads"),
    ("no language", change(rb"/Lang \(en\)", rb"/Long (en)"), "/Lang is"),
    ("not tagged", change(rb"/Marked true", rb"/Marked null"), "does not say that it is tagged"),
    ("scaled when printed", change(rb"/PrintScaling /None", rb"/PrintScaling /Nono"),
     "viewer preferences"),
    ("another title in the metadata", change(rb"(x-default.>)G", rb"\1B"),
     "/Title is"),
    ("another date in the metadata", change(rb"<xmp:CreateDate>2026", rb"<xmp:CreateDate>2025"),
     "/CreationDate is"),
    ("another part of PDF/A", change(rb"<pdfaid:part>1", rb"<pdfaid:part>2"),
     "does not say PDF/A-1b"),
    ("a font of two names", change(rb"/FontName /(.)", rb"/FontName /_"), "a font is called"),
    ("another version", change(rb"%PDF-1.4", rb"%PDF-1.6"), "the first line is"),
    ("a character mapped to another", change(rb"<0020> <007E> <0020>", rb"<0020> <007E> <0021>"),
     "maps"),
    ("a character not present", change(rb"<0020> <007E> <0020>", rb"<0020> <007D> <0020>"),
     "codes to characters"),
    ("a trimmed page", change(rb"(/TrimBox \[\s+)0", rb"\g<1>9"), "does not say how far it is printed"),
    ("less printed than is left", change(rb"(/BleedBox \[\s+)4", rb"\g<1>9"), "the boxes are"),
]


DUMP_DAMAGES = [
    ("a word 0.02 pt to the right", "text 39.69 90.00", "text 39.71 90.00", "is not where it was placed"),
    ("a word 0.02 pt lower", "text 39.69 90.00", "text 39.69 90.02", "is not where it was placed"),
    ("another word", "affix", "afflx", "the pages P 'Pour"),
    ("another kind", "    heading 1", "    paragraph", "the structure text has H1"),
]


def named_in_pdf(content, edit, work):
    damaged = work / "damaged.pdf"
    damaged.write_bytes(edit(content))
    return pdf_structure.faults_of(str(damaged))


def named_in_dump(good, dump, faces, work):
    damaged = work / "damaged.txt"
    damaged.write_text(dump, encoding="utf-8")
    faults = []
    pages = page_dump.read(damaged)
    check_pdf.check_structure_text(faults, good, pages)
    check_pdf.check_places(faults, good, pages, page_dump.Faces(faces))
    return faults


def named_in_shifted_picture(good, png):
    """What is said of a picture one dot, half a point, to the right of its place."""
    width, height, dots_an_inch, rows = check_picture.read_png(png)
    shifted = numpy.concatenate((rows[:, :1], rows[:, :-1]), axis=1)
    difference, place = check_picture.worst(good, 1, (width, height, dots_an_inch, shifted))
    return [f"differs at {place}"] if difference > 2 * check_picture.TOLERANCE else []


def readable(good, work):
    """The PDF with everything unpacked, so that a pattern finds its place."""
    path = work / "readable.pdf"
    subprocess.run(["qpdf", "--qdf", "--object-streams=disable", "--no-original-object-ids", good,
                    str(path)], check=True)
    return path.read_bytes()


def main(good, dump, png, faces, directory):
    work = pathlib.Path(directory)
    faults = pdf_structure.faults_of(good)
    if faults:
        sys.exit(f"the good file is not good: {faults}")
    content = readable(good, work)
    text = pathlib.Path(dump).read_text(encoding="utf-8")
    results = [(name, wanted, named_in_pdf(content, edit, work)) for name, edit, wanted in DAMAGES]
    for name, before, after, wanted in DUMP_DAMAGES:
        if before not in text:
            sys.exit(f"there is no {before!r} to damage")
        results.append((name, wanted, named_in_dump(good, text.replace(before, after), faces, work)))
    results.append(("a shifted picture", "differs", named_in_shifted_picture(good, png)))
    missing = []
    check_pdf.run(missing, "no-such-program")
    results.append(("a program that is not there", "not installed", missing))
    unnamed = [(name, wanted, named) for name, wanted, named in results
               if not any(wanted in fault for fault in named)]
    for name, wanted, named in unnamed:
        print(f"{name}: {wanted!r} is not among the faults {named}")
    print(f"{len(results) - len(unnamed)} of {len(results)} damages are named")
    sys.exit(1 if unnamed else 0)


if __name__ == "__main__":
    if len(sys.argv) != 6:
        sys.exit(__doc__)
    main(*sys.argv[1:])
