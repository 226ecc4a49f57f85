#!/usr/bin/env python3
"""Holds a printed PDF against every rule of the index that concerns what we print.

usage: pdf_rules.py FILE.pdf …

Each row of tests/reference/pdf/rule_index.json is either checked, or does not apply because the
file has nothing of its kind, which is checked in its stead. The file declares PDF/A-1b, so that
rows about the identification of other standards ask that it is not there. Passing is no claim of
conformance to PDF/A-2b or PDF/UA-1: none of their validators was asked.
Exit status 0 if nothing is wrong, else 1 with a line for each fault.
"""

import json
import pathlib
import subprocess
import sys

import pdf_rule_checks as files
import pdf_rule_tags as tags
from pdf_rule_file import RuleFile

INDEX = pathlib.Path(__file__).resolve().parent.parent / "reference" / "pdf" / "rule_index.json"


def rows(part, text):
    """"6.1.2 1,2 6.1.3 1" as the rows of a part of the index; "1-3" counts on."""
    words = text.split()
    found = []
    for clause, tests in zip(words[::2], words[1::2]):
        for piece in tests.split(","):
            first, _, last = piece.partition("-")
            found += [(part, clause, test) for test in range(int(first), int(last or first) + 1)]
    return found


def archive(text):
    return rows("pdfa_2b", text)


def access(text):
    return rows("pdfua_1", text)


CHECKED = {
    files.header: archive("6.1.2 1,2") + access("6.1 1"),
    files.identifier: archive("6.1.3 1"),
    files.end_of_file: archive("6.1.3 3"),
    files.cross_references: archive("6.1.4 2"),
    files.hexadecimal_strings: archive("6.1.6 1,2"),
    files.streams: archive("6.1.7.1 1,2"),
    files.filters: archive("6.1.7.2 1"),
    files.names: archive("6.1.8 1 6.1.13 4"),
    files.spacing: archive("6.1.9 1"),
    files.numbers: archive("6.1.13 1,2,5"),
    files.strings: archive("6.1.13 3"),
    files.object_count: archive("6.1.13 7"),
    files.nesting: archive("6.1.13 8"),
    files.page_sizes: archive("6.1.13 11"),
    files.operators: archive("6.2.2 1"),
    files.own_resources: archive("6.2.2 2"),
    files.pictures: archive("6.2.8 4"),
    files.output_profile: archive("6.2.3 1,2 6.2.4.3 2,4 6.2.10 2"),
    files.font_names: archive("6.2.11.2 1-3"),
    files.font_encodings: archive("6.2.11.3.1 1 6.2.11.3.3 1") + access("7.21.3.1 1 7.21.3.3 1"),
    files.glyph_tables: archive("6.2.11.3.2 1") + access("7.21.3.2 1"),
    files.embedded: archive("6.2.11.4.1 1") + access("7.21.4.1 1"),
    files.glyphs: archive("6.2.11.4.1 2 6.2.11.8 1") + access("7.21.4.1 2 7.21.8 1"),
    files.listed_glyphs: archive("6.2.11.4.2 2") + access("7.21.4.2 2"),
    files.widths: archive("6.2.11.5 1") + access("7.21.5 1"),
    files.characters: access("7.21.7 1,2"),
    files.metadata: archive("6.6.2.1 1") + access("7.1 8"),
    files.packet: archive("6.6.2.1 2-5"),
    files.properties: archive("6.6.2.3.1 1,2"),
    files.identification: archive("6.6.4 1,3-5"),
    tags.marked: access("6.2 1 7.1 4"),
    tags.marked_content: access("7.1 1-3"),
    tags.standard_kinds: access("7.1 5-7"),
    tags.title: access("7.1 9,10"),
    tags.tree: access("7.1 11,12"),
    tags.tables: access("7.2 3,4,8-10"),
    tags.grids: access("7.2 15,41-43"),
    tags.header_cells: access("7.5 1,2"),
    tags.lists: access("7.2 17-20"),
    tags.language: access("7.2 21-23,29-34"),
    tags.figures: access("7.3 1"),
    tags.headings: access("7.4.2 1 7.4.4 1-3"),
}

# What there is not, by the names, operators or kinds of elements that would show it.
ABSENT = [
    ("nothing is encrypted or signed",
     "/Encrypt /Perms /Sig /ByteRange",
     archive("6.1.3 2 6.1.12 1,2 6.4.3 1-3") + access("7.16 1")),
    ("no stream lies in another file, and none has parameters", "/FFilter /FDecodeParms /DecodeParms",
     archive("6.1.7.1 3")),
    ("no picture is set among the text", "BI ID EI", archive("6.1.10 1")),
    ("a picture is plain samples, and no other drawing stands outside of a page's content",
     "/Form /PS /SMask /Mask /ImageMask /Interpolate /Alternates /OPI /JPXDecode",
     archive("6.2.8 1-3,5 6.2.8.3 1-5 6.2.9 1-3") + access("7.20 1,2")),
    ("colours are plain RGB and grey: no others, no named inks, no profiles of their own",
     "/DeviceN /Separation /ICCBased /DeviceCMYK k K cs CS",
     archive("6.1.13 9 6.2.4.2 1,2 6.2.4.3 3 6.2.4.4 1,2")),
    ("no graphics state, halftone, blend mode or rendering intent is set",
     "/ExtGState gs ri /TR2 /HTP /HalftoneType /BM /Intent",
     archive("6.2.5 1-6 6.2.6 1 6.2.10 1")),
    ("the only output intent is that of PDF/A", "/GTS_PDFX /DestOutputProfileRef", archive("6.2.3 3")),
    ("all fonts are composite TrueType", "/Type1 /MMType1 /TrueType /Type3 /FontFile /FontFile3 /CharSet",
     archive("6.2.11.2 4-7 6.2.11.4.2 1 6.2.11.6 1-4") + access("7.21.4.2 1 7.21.6 1-4")),
    ("no character map is embedded", "/CMap /WMode /UseCMap",
     archive("6.1.13 10 6.2.11.3.3 2,3") + access("7.21.3.3 2,3")),
    ("there are no annotations, links or form fields",
     "/Annots /Annot /Widget /Link /AcroForm /XFA /NeedAppearances /TrapNet /PrinterMark /MediaClip",
     archive("6.3.1 1 6.3.2 1,2 6.3.3 1-4 6.4.1 1-3 6.4.2 1")
     + access("7.2 24,25 7.15 1 7.18.1 1-3 7.18.2 1 7.18.3 1 7.18.4 1,2 7.18.5 1,2 7.18.6.2 1,2 7.18.8 1")),
    ("nothing needs rendering or is done by itself", "/NeedsRendering /AA /OpenAction /Action /JavaScript",
     archive("6.4.2 2 6.5.1 1,2 6.5.2 1,2")),
    ("the metadata has no schema of its own, and no other identification",
     "pdfaExtension pdfaSchema pdfaid:amd pdfaid:corr pdfuaid",
     archive("6.6.2.3.2 1 6.6.2.3.3 1-18 6.6.4 6,7") + access("5 1-5")),
    ("the file is of part 1, which has no other number", "<pdfaid:part>2", archive("6.6.4 2")),
    ("no file is embedded or named", "/Filespec /EF /EmbeddedFiles /EmbeddedFile",
     archive("6.8 2,5") + access("7.11 1")),
    ("there are no layers", "/OCProperties /OCG /OCMD /OC", archive("6.9 1-4") + access("7.10 1,2")),
    ("there are no presentations or requirements", "/AlternatePresentations /PresSteps /Requirements",
     archive("6.10 1,2 6.11 1")),
    ("there is no outline", "/Outlines", access("7.2 2")),
    ("no table has a head, body, foot or caption of its own", "=THead =TBody =TFoot =Caption",
     access("7.2 5-7,11-14,16,36-40")),
    ("there is no table of contents", "=TOC =TOCI", access("7.2 26-28")),
    ("there are no formulas and no notes", "=Formula =Note", access("7.7 1 7.9 1,2")),
]


def find(pdf, sign):
    if sign.startswith("="):
        return sign[1:] in pdf.kinds
    if sign.startswith("/"):
        return sign in pdf.names
    if "pdf" in sign:
        return sign.encode() in pdf.packet
    return sign in pdf.operators


def faults_of(path):
    try:
        pdf = RuleFile(path)
    except subprocess.CalledProcessError as failure:
        return [f"qpdf cannot read it: {failure.stderr.decode('utf-8', 'replace').strip()}"]
    faults = []
    for check in CHECKED:
        try:
            faults += [f"{check.__name__}: {fault}" for fault in check(pdf)]
        except (KeyError, IndexError, TypeError, ValueError, AttributeError) as failure:
            faults.append(f"{check.__name__} meets a part that is not there: {failure!r}")
    for reason, signs, _ in ABSENT:
        faults += [f"{sign} is there, although {reason}" for sign in signs.split() if find(pdf, sign)]
    return faults


def all_rows():
    index = json.loads(INDEX.read_text(encoding="utf-8"))
    return [(part, row["clause"], row["test"]) for part in ("pdfa_2b", "pdfua_1") for row in index[part]]


def unsettled():
    """Rows of the index that are settled not exactly once, and settled rows that it has not."""
    settled = [row for served in CHECKED.values() for row in served]
    settled += [row for _, _, served in ABSENT for row in served]
    wanted = all_rows()
    return [f"{row} is settled {settled.count(row)} times" for row in wanted if settled.count(row) != 1] + \
        [f"{row} is no row of the index" for row in settled if row not in wanted]


def main():
    faults = unsettled()
    for path in sys.argv[1:]:
        faults += [f"{path}: {fault}" for fault in faults_of(path)]
    for fault in faults:
        print(fault)
    checked = sum(map(len, CHECKED.values()))
    print(f"{len(all_rows())} rows: {checked} checked, {len(all_rows()) - checked} absent")
    sys.exit(1 if faults else 0)


if __name__ == "__main__":
    main()
