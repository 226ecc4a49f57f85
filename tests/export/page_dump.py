"""Reads the program's text dump of pages back: elements with their texts, words with their places."""

import dataclasses
import re

from fontTools.ttLib import TTFont

KINDS = {"section": "Sect", "paragraph": "P", "list": "L", "list_item": "LI", "label": "Lbl",
         "list_body": "LBody", "table": "Table", "row": "TR", "header_cell": "TH", "cell": "TD",
         "figure": "Figure", "span": "Span"}
TEXT = re.compile(r'text (\S+) (\S+) width (\S+) (\S+) (\S+) (\S+) "(.*)"')


@dataclasses.dataclass
class Run:
    x: float
    baseline: float
    width: float
    face: str
    size: float
    text: str


@dataclasses.dataclass
class Element:
    kind: str  # as in a PDF: "H1"
    alt: str = ""
    text: str = ""


@dataclasses.dataclass
class Page:
    elements: list = dataclasses.field(default_factory=list)
    runs: list = dataclasses.field(default_factory=list)


@dataclasses.dataclass
class Word:
    text: str
    left: float
    right: float
    top: float


def unquoted(text):
    return re.sub(r"\\(.)", r"\1", text)


def read_line(page, line, holder):
    """Adds a line to the page; returns the element that following items belong to, if any."""
    word = line.split(" ", 1)[0]
    if word == "artifacts":
        return None
    if word in ("rule", "box", "path", "image"):
        return holder
    if word == "text":
        x, baseline, width, face, size, _, text = TEXT.fullmatch(line).groups()
        run = Run(float(x), float(baseline), float(width), face, float(size), unquoted(text))
        page.runs.append(run)
        if holder:
            holder.text += run.text
        return holder
    kind = f"H{line.split()[1]}" if word == "heading" else KINDS[word]
    quoted = re.search(r'"(.*)"$', line)
    page.elements.append(Element(kind, unquoted(quoted.group(1)) if quoted else ""))
    return page.elements[-1]


def read(path):
    pages = []
    holder = None
    with open(path, encoding="utf-8", newline="\n") as lines:
        for line in lines:
            if line.startswith("page "):
                pages.append(Page())
            else:
                holder = read_line(pages[-1], line.rstrip("\n").lstrip(" "), holder)
    return pages


class Faces:
    """Advances and ascents of the prepared faces, in em."""

    def __init__(self, directory):
        self.fonts = {face: TTFont(f"{directory}/NotoSans-{face.capitalize()}.ttf")
                      for face in ("regular", "bold")}

    def advance(self, face, character):
        font = self.fonts[face]
        return font["hmtx"][font.getBestCmap()[ord(character)]][0] / 1000

    def ascent(self, face):
        """What readers take the top of a line from: the font descriptor's, hhea's here."""
        return self.fonts[face]["hhea"].ascent / 1000


def words_of(run, faces):
    """The run's words as readers part them: white space of any width ends one."""
    words = []
    x = run.x
    for character in run.text:
        right = x + faces.advance(run.face, character) * run.size
        if character.isspace():
            words.append(None)
        elif words and words[-1]:
            words[-1].text += character
            words[-1].right = right
        else:
            top = run.baseline - faces.ascent(run.face) * run.size
            words.append(Word(character, x, right, top))
        x = right
    return [word for word in words if word]


def width(run, faces):
    return sum(faces.advance(run.face, character) for character in run.text) * run.size


def placed_words(page, faces):
    return [word for run in page.runs for word in words_of(run, faces)]
