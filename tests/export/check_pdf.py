#!/usr/bin/env python3
"""Asks other programs, and pdf_structure.py, whether a printed PDF is as good as we say.

usage: check_pdf.py FILE.pdf --dump PAGES.txt --faces DIRECTORY
       check_pdf.py FILE.pdf

The dump is the program's text dump of the same pages. With it, the structure text that a reader
extracts must equal the dump's, and every word must lie where layout placed it, to 0.01 pt.
Exit status 0 if nothing is wrong, else 1 with a line for each fault. A missing program is a fault.
"""

import argparse
import re
import subprocess
import sys
from html.parser import HTMLParser

import page_dump
import pdf_rules
import pdf_structure

JARS = "preflight pdfbox2 xmpbox fontbox2 commons-logging javax.activation jaxb-api".split()
CLASS_PATH = ":".join(f"/usr/share/java/{jar}.jar" for jar in JARS)
TOLERANCE = 0.01  # points


def run(faults, *command):
    """A program's output; what it says on standard error, and any failure, is a fault."""
    try:
        done = subprocess.run(command, capture_output=True, check=False)
    except FileNotFoundError:
        faults.append(f"{command[0]} is not installed")
        return ""
    errors = done.stderr.decode("utf-8", "replace").strip()
    output = done.stdout.decode("utf-8", "replace")
    if errors:
        faults.append(f"{' '.join(command[:2])} says: {errors}")
    if done.returncode != 0:
        faults.append(f"{' '.join(command[:2])} fails ({done.returncode}): {output.strip()}")
    return output


def check_syntax(faults, path):
    output = run(faults, "qpdf", "--check", path)
    if "No syntax or stream encoding errors found" not in output or "WARNING" in output:
        faults.append(f"qpdf --check is not content: {output.strip()}")


def check_archival(faults, path):
    output = run(faults, "java", "-cp", CLASS_PATH, "org.apache.pdfbox.preflight.Validator_A1b",
                 path)
    if "is a valid PDF/A-1b file" not in output:
        faults.append(f"the PDF/A-1b validator is not content: {output.strip()}")


def check_fonts(faults, path):
    """pdffonts: name, type (two words), encoding, embedded, subset, Unicode."""
    for line in run(faults, "pdffonts", path).splitlines()[2:]:
        fields = line.split()
        if fields[1:7] != ["CID", "TrueType", "Identity-H", "yes", "yes", "yes"]:
            faults.append(f"a font is not an embedded subset with a Unicode map: {line}")


def spaces_alike(text):
    """White space of any kind and length is one space; none at the ends."""
    return " ".join(text.split())


def pattern(text):
    """What a reader may make of a text. A soft hyphen where a line breaks (ISO 32000-1, 14.8.2.2.3)
    is read as a hyphen, with or without a space after it, or dropped, which joins the word."""
    return "(?:[\u00AD-] ?)?".join(re.escape(part) for part in spaces_alike(text).split("\u00AD"))


def structure_text(output):
    """(type, text) of each node that `pdfinfo -struct-text` prints, in its order."""
    nodes = []
    for line in output.splitlines():
        content = line.strip()
        if content.startswith('"'):
            nodes[-1][1] += content[1:-1]
        elif content and not content.startswith("/"):
            nodes.append([re.split(r"[ :]", content)[0], ""])
    return [(kind, spaces_alike(text)) for kind, text in nodes]


def check_structure_text(faults, path, pages):
    found = structure_text(run(faults, "pdfinfo", "-struct-text", path))
    wanted = [("Document", "")]
    for page in pages:
        wanted += [(element.kind, element.text) for element in page.elements]
    if len(found) != len(wanted):
        faults.append(f"the structure text has {len(found)} nodes, the pages {len(wanted)}")
    for (kind, text), (wanted_kind, wanted_text) in zip(found, wanted):
        if kind != wanted_kind or not re.fullmatch(pattern(wanted_text), text):
            faults.append(f"the structure text has {kind} {text!r}, "
                          f"the pages {wanted_kind} {wanted_text!r}")


class WordReader(HTMLParser):
    """The words of each page of `pdftotext -bbox`: text, left, right, top."""

    def __init__(self):
        super().__init__()
        self.pages = []
        self.place = None

    def handle_starttag(self, tag, attrs):
        values = dict(attrs)
        if tag == "page":
            self.pages.append([])
        if tag == "word":
            self.place = [float(values[key]) for key in ("xmin", "xmax", "ymin")]
            self.pages[-1].append(["", *self.place])

    def handle_endtag(self, tag):
        if tag == "word":
            self.place = None

    def handle_data(self, data):
        if self.place is not None:
            self.pages[-1][-1][0] += data


def near(one, other):
    return abs(one - other) <= TOLERANCE + 1e-9


def take_word(left, word):
    """Removes the placed words that a reader joined into this one; false if they are not there."""
    text, x, end, top = word
    while text:
        matches = [w for w in left if near(w.left, x) and near(w.top, top)
                   and text.startswith(w.text)]
        if not matches:
            return False
        left.remove(matches[0])
        text = text[len(matches[0].text):]
        x = matches[0].right
    return near(x, end)


def check_places(faults, path, pages, faces):
    reader = WordReader()
    reader.feed(run(faults, "pdftotext", "-bbox", path, "-"))
    if len(reader.pages) != len(pages):
        faults.append(f"pdftotext finds {len(reader.pages)} pages, there are {len(pages)}")
    for number, (page, words) in enumerate(zip(pages, reader.pages), 1):
        faults += [f"page {number}: {run} is not as wide as its characters"
                   for run in page.runs if not near(run.width, page_dump.width(run, faces))]
        left = page_dump.placed_words(page, faces)
        if not left and words or left and not words:
            faults.append(f"page {number}: {len(left)} words were placed, {len(words)} are found")
        for word in words:
            if not take_word(left, word):
                faults.append(f"page {number}: {word[0]!r} is at x {word[1]} to {word[2]}, top "
                              f"{word[3]}, which is not where it was placed")
        faults += [f"page {number}: {word} is not found" for word in left]


def check(path, dump=None, faces=None):
    faults = []
    check_syntax(faults, path)
    check_archival(faults, path)
    check_fonts(faults, path)
    run(faults, "pdfinfo", path)
    faults += pdf_structure.faults_of(path)
    faults += pdf_rules.faults_of(path)
    if dump is not None:
        pages = page_dump.read(dump)
        check_structure_text(faults, path, pages)
        check_places(faults, path, pages, page_dump.Faces(faces))
    return faults


def main():
    options = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    options.add_argument("file")
    options.add_argument("--dump", help="the text dump of the same pages")
    options.add_argument("--faces", help="directory of the prepared faces; needed with --dump")
    given = options.parse_args()
    if (given.dump is None) != (given.faces is None):
        options.error("--dump and --faces go together")
    faults = check(given.file, given.dump, given.faces)
    for fault in faults:
        print(f"{given.file}: {fault}")
    sys.exit(1 if faults else 0)


if __name__ == "__main__":
    main()
