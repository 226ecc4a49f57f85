#!/usr/bin/env python3
"""Every row of the rule index is settled once, and every check of the rules names its damage.

usage: pdf_rules_test.py GOOD.pdf WORK_DIRECTORY

A damage is an edit of the good file that keeps its length, so that nothing else changes; what qpdf
would not read with it is given to the check by hand.
"""

import pathlib
import re
import subprocess
import sys
import types

import pdf_rule_checks as files
import pdf_rules

DAMAGES = [  # what finds it, before, after: padded with blanks to the same length
    ("header", rb"%PDF-1.4", b"%PDF-2.4"),
    ("identifier", rb"/ID \[<", b"/IX [<"),
    ("operators", rb"\nEMC\n", b"\nEMX\n"),
    ("own_resources", rb"/Resources", b"/Resorts"),
    ("output_profile", rb"/S /GTS_PDFA1", b"/S /GTS_PDFX9"),
    ("font_names", rb"/Subtype /CIDFontType2", b"/Subtype /CIDFontType0"),
    ("font_encodings", rb"/Encoding /Identity-H", b"/Encoding /Identity-V"),
    ("glyph_tables", rb"/CIDToGIDMap \d+ 0 R", b"/CIDToGIDMap 0"),
    ("embedded", rb"/FontFile2", b"/FontFile9"),
    ("glyphs", rb"<[0-9A-F]{4}(?=[0-9A-F]*> ?Tj)", b"<E000"),
    ("listed_glyphs", rb"/CapHeight \d+", b"/CapHeight 1"),
    ("widths", rb"/W \[ 32 \[ 260", b"/W [ 32 [ 460"),
    ("characters", rb"<0020> <007E> <0020>", b"<0020> <007E> <FEFE>"),
    ("metadata", rb"/Subtype /XML", b"/Subtype /XMX"),
    ("packet", rb'id="W5M0Mp', b'bytes="0Mp'),
    ("properties", rb"<xmp:CreateDate>2026-", b"<xmp:CreateDate>2026x"),
    ("identification", rb"<pdfaid:part>1", b"<pdfaid:part>3"),
    ("marked", rb"/Marked true", b"/Marked null"),
    ("marked_content", rb"/MCID 3>> BDC", b"/MCID 4>> BDC"),
    ("standard_kinds", rb"/S /Span", b"/S /Spam"),
    ("title", rb"/DisplayDocTitle true", b"/DisplayDocTitle null"),
    ("tree", rb"/P (?=\d+ 0 R)", b"/Q "),
    ("tables", rb"/S /TR", b"/S /LI"),
    ("grids", rb"/ColSpan 2", b"/ColSpan 3"),
    ("header_cells", rb"/S /TH", b"/S /TD"),
    ("lists", rb"/S /LBody", b"/S /Note"),
    ("language", rb"/Lang \(en\)", b"/Lang (-n)"),
    ("figures", rb"/Alt ", b"/Oth "),
    ("headings", rb"/S /H1", b"/S /H3"),
    ("/Perms is there", rb"/Author", b"/Perms"),
    ("ri is there", rb"\nEMC\n", b"\nri\n"),
    ("=Note is there", rb"/S /LBody", b"/S /Note"),
]

TABLE = b"startxref\n0\n%%EOF"  # which follows the table of a file of nothing else

BY_HAND = [
    (files.pictures, {"dictionaries": [{"/Subtype": "/Image", "/ColorSpace": "/DeviceRGB", "/BitsPerComponent": 3}],
                      "operations": [[("Do", ["/X1"])]]}),
    (files.pictures, {"dictionaries": [], "operations": [[("Do", ["/X1"])]]}),
    (files.cross_references, {"bytes": b"xref\n0 2\n0000000000 65535 f \n0000000015 00000 n\n\ntrailer " + TABLE}),
    (files.hexadecimal_strings, {"outside_of_streams": b"<< /ID [ <4g> ] >>", "operations": []}),
    (files.hexadecimal_strings, {"outside_of_streams": b"", "operations": [[("Tj", ["<004>"])]]}),
    (files.streams, {"streams": [(b"<< /Length 3 >>", b"abcd\nendstream\nendobj\n")]}),
    (files.streams, {"streams": [(b"<< /Length 3 >>", b"abcendstream\nendobj\n")]}),
    (files.spacing, {"object_bytes": {2: b"2 0 obj <<>>\nendobj\n"}}),
    (files.spacing, {"object_bytes": {2: b"2 0 obj\n<<>>endobj\n"}}),
    (files.filters, {"streams": [(b"<< /Filter /LZWDecode >>", b"")]}),
    (files.filters, {"streams": [(b"<< /Filter [ /FlateDecode /FlateDecode ] >>", b"")]}),
    (files.names, {"names": {"/Auth\u00F6r"}}),
    (files.names, {"names": {"/" + 128 * "a"}}),
    (files.numbers, {"values": [2**31], "operations": []}),
    (files.numbers, {"values": [], "operations": [[("w", ["0." + 39 * "0" + "1"])]]}),
    (files.strings, {"values": [32768 * "a"], "operations": []}),
    (files.object_count, {"object_bytes": range(8388608)}),
    (files.nesting, {"operations": [29 * [("q", [])]]}),
    (files.page_sizes, {"pages": [{"/MediaBox": [0, 0, 2, 100]}]}),
    (files.page_sizes, {"pages": [{"/MediaBox": [0, 0, 100, 100], "/TrimBox": [0, 0, 100, 14401]}]}),
    (files.end_of_file, {"bytes": b"%%EOF\nmore"}),
]


def plain(good, work):
    """The file as it is but for its streams, which are not packed."""
    path = work / "plain.pdf"
    subprocess.run(["qpdf", "--stream-data=uncompress", "--object-streams=disable", "--deterministic-id",
                    "--newline-before-endstream", "--no-original-object-ids", good, str(path)],
                   check=True)
    return path


def named(content, before, after, work):
    found = re.search(before, content)
    if not found:
        sys.exit(f"there is no {before} to damage")
    padded = after + (len(found.group()) - len(after)) * (b"\n" if after.endswith(b"\n") else b" ")
    path = work / "damaged.pdf"
    path.write_bytes(content[:found.start()] + padded + content[found.end():])
    return pdf_rules.faults_of(str(path))


def main(good, directory):
    work = pathlib.Path(directory)
    faults = pdf_rules.unsettled() + pdf_rules.faults_of(good)
    content = plain(good, work).read_bytes()
    faults += pdf_rules.faults_of(str(work / "plain.pdf"))
    for name, before, after in DAMAGES:
        said = named(content, before, after, work)
        if not any(fault.startswith(name) for fault in said):
            faults.append(f"{name} does not name {before} -> {after}: {said}")
    for check, parts in BY_HAND:
        if not check(types.SimpleNamespace(**parts)):
            faults.append(f"{check.__name__} finds nothing wrong with {str(parts)[:80]}")
    tried = {name for name, _, _ in DAMAGES} | {check.__name__ for check, _ in BY_HAND}
    faults += [f"{check.__name__} is damaged by nothing" for check in pdf_rules.CHECKED
               if check.__name__ not in tried]
    for fault in faults:
        print(fault)
    print(f"{len(DAMAGES) + len(BY_HAND)} damages")
    sys.exit(1 if faults else 0)


if __name__ == "__main__":
    if len(sys.argv) != 3:
        sys.exit(__doc__)
    main(*sys.argv[1:])
