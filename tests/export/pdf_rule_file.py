"""A PDF as the rules look at it: its bytes, its objects, what its pages draw, its faces."""

import functools
import io
import re

from fontTools.ttLib import TTFont

import pdf_structure

NUMBER = re.compile(r"[+-]?(\d+\.?\d*|\.\d+)")
OBJECT_HEAD = re.compile(rb"(\d+) 0 obj\n")


class RuleFile:
    def __init__(self, path):
        with open(path, "rb") as content:
            self.bytes = content.read()
        self.file = pdf_structure.File(path)
        self.catalog = self.get(self.file.trailer["/Root"])

    def get(self, value):
        return self.file.get(value)

    @functools.cached_property
    def offsets(self):
        """Where each object begins, by the cross-reference table."""
        start = int(self.bytes.rsplit(b"startxref", 1)[1].split()[0])
        table = self.bytes[start:self.bytes.index(b"trailer", start)]
        return [int(entry[:10]) for entry in re.findall(rb"\d{10} \d{5} [nf]", table)[1:]]

    @functools.cached_property
    def object_bytes(self):
        """Each object's bytes up to the next one or the table, by its number."""
        start = int(self.bytes.rsplit(b"startxref", 1)[1].split()[0])
        ends = sorted(self.offsets)[1:] + [start]
        spans = dict(zip(sorted(self.offsets), ends))
        return {number: self.bytes[offset:spans[offset]]
                for number, offset in enumerate(self.offsets, 1)}

    @functools.cached_property
    def streams(self):
        """(dictionary, bytes from the stream's first on) of each stream, as they are in the file."""
        found = []
        for held in self.object_bytes.values():
            head, keyword, rest = held.partition(b"\nstream\n")
            if keyword:
                found.append((head, rest))
        return found

    @functools.cached_property
    def outside_of_streams(self):
        parts = [held.partition(b"\nstream\n")[0] for held in self.object_bytes.values()]
        return b"\n".join(parts) + self.bytes[self.bytes.rindex(b"trailer"):]

    @functools.cached_property
    def values(self):
        """Every object and every value in one, with dictionaries' keys as strings."""
        found = []

        def add(value):
            found.append(value)
            if isinstance(value, dict):
                for key, member in value.items():
                    found.append(key)
                    add(member)
            elif isinstance(value, list):
                for member in value:
                    add(member)

        for held in self.file.objects.values():
            add(held["stream"]["dict"] if "stream" in held else held.get("value"))
        return found

    @functools.cached_property
    def dictionaries(self):
        return [value for value in self.values if isinstance(value, dict)]

    @functools.cached_property
    def names(self):
        return {value for value in self.values if isinstance(value, str) and value.startswith("/")}

    @functools.cached_property
    def pages(self):
        return [self.get(reference) for reference in self.file.pages()]

    @functools.cached_property
    def operations(self):
        """(operator, operands) of each page's content, one list a page."""
        return [operations_of(self.file.data(page["/Contents"])) for page in self.pages]

    @functools.cached_property
    def operators(self):
        return {operator for page in self.operations for operator, _ in page}

    @functools.cached_property
    def shown(self):
        """The codes that are shown, by the font's reference."""
        codes = {}
        for page, operations in zip(self.pages, self.operations):
            fonts = self.get(self.get(page["/Resources"])["/Font"])
            font = None
            for operator, operands in operations:
                if operator == "Tf":
                    font = fonts[operands[0]]
                elif operator in ("Tj", "'", '"', "TJ"):
                    text = bytes.fromhex("".join(re.findall(r"[0-9A-Fa-f]", operands[-1])))
                    pairs = zip(text[::2], text[1::2])
                    codes.setdefault(font, set()).update(256 * high + low for high, low in pairs)
        return codes

    @functools.cached_property
    def fonts(self):
        """(font, descendant, descriptor, program, glyph of each code, shown codes) of each font."""
        found = []
        for reference, codes in self.shown.items():
            font = self.get(reference)
            descendant = self.get(self.get(font["/DescendantFonts"])[0])
            descriptor = self.get(descendant["/FontDescriptor"])
            program = TTFont(io.BytesIO(self.file.data(descriptor["/FontFile2"])))
            table = self.file.data(descendant["/CIDToGIDMap"])
            glyphs = [256 * high + low for high, low in zip(table[::2], table[1::2])]
            found.append((font, descendant, descriptor, program, glyphs, codes))
        return found

    @functools.cached_property
    def elements(self):
        """Each structure element with its parent's kind and its kids' kinds: (node, parent, kids)."""
        root = self.get(self.catalog["/StructTreeRoot"])
        found = []

        def add(reference, parent):
            node = self.get(reference)
            kids = [kid for kid in pdf_structure.kids_of(node) if not isinstance(kid, int)]
            found.append((node, parent, [self.get(kid)["/S"][1:] for kid in kids]))
            for kid in kids:
                add(kid, node["/S"][1:])

        add(root["/K"], "StructTreeRoot")
        return found

    @functools.cached_property
    def kinds(self):
        return {node["/S"][1:] for node, _, _ in self.elements}

    def kids(self, node):
        return [self.get(kid) for kid in pdf_structure.kids_of(node) if not isinstance(kid, int)]

    @functools.cached_property
    def packet(self):
        return self.file.data(self.catalog["/Metadata"])


def operations_of(content):
    found = []
    operands = []
    for token in pdf_structure.TOKEN.findall(content):
        token = token.decode("latin-1")
        if token[0] in "/<>[](" or token in ("]", "true", "false", "null") or NUMBER.fullmatch(token):
            operands.append(token)
        else:
            found.append((token, operands))
            operands = []
    return found
