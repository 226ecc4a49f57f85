"""What is asked of a PDF by rules on files and fonts: each check returns its faults.

The rules are those of tests/reference/pdf/rule_index.json; pdf_rules.py says which check serves
which rule.
"""

import re
import xml.etree.ElementTree as ElementTree

import pdf_structure
from pdf_rule_file import NUMBER, OBJECT_HEAD

# ISO 32000-1, Annex A
OPERATORS = set("b B b* B* BDC BI BMC BT BX c cm CS cs d d0 d1 Do DP EI EMC ET EX f F f* G g gs h i "
                "ID j J K k l m M MP n q Q re RG rg ri s S SC sc SCN scn sh T* Tc Td TD Tf Tj TJ TL Tm "
                "Tr Ts Tw Tz v w W W* y ' \"".split())
PREDEFINED = {  # XMP Specification (2005), schemas dc, xmp, pdf; ISO 19005-1, 6.7.11: pdfaid
    "http://purl.org/dc/elements/1.1/": {"format": str, "title": "Alt", "creator": "Seq",
                                         "description": "Alt", "language": "Bag"},
    "http://ns.adobe.com/xap/1.0/": {"CreatorTool": str, "CreateDate": "date", "ModifyDate": "date"},
    "http://ns.adobe.com/pdf/1.3/": {"Producer": str, "Keywords": str},
    "http://www.aiim.org/pdfa/ns/id/": {"part": str, "conformance": str},
}


def unless(is_good, fault):
    return [] if is_good else [fault]


def header(pdf):
    lines = pdf.bytes.split(b"\n", 2)
    good = (re.fullmatch(rb"%PDF-1\.[0-7]", lines[0]) and lines[1][:1] == b"%"
            and len(lines[1]) >= 5 and min(lines[1][1:5]) > 127)
    return unless(good, f"the file begins with {lines[0]!r} and {lines[1][:8]!r}")


def identifier(pdf):
    ids = pdf.file.trailer.get("/ID", [])
    return unless(len(ids) == 2 and all(len(part) > 3 for part in ids), "there is no file identifier")


def end_of_file(pdf):
    return unless(pdf.bytes.endswith((b"%%EOF\n", b"%%EOF")), "something follows %%EOF")


def cross_references(pdf):
    start = int(pdf.bytes.rsplit(b"startxref", 1)[1].split()[0])
    good = re.match(rb"xref\n0 \d+\n0000000000 65535 f \n(\d{10} 00000 n \n)+trailer ", pdf.bytes[start:])
    return unless(good, "the cross-reference table is not of lines of 20 bytes")


def hexadecimal_strings(pdf):
    without_texts = re.sub(rb"\((?:\\.|[^\\)])*\)", b"", pdf.outside_of_streams, flags=re.DOTALL)
    found = re.findall(rb"(?<!<)<([^<>]*)>(?!>)", without_texts)
    for page in pdf.operations:
        found += [operand[1:-1].encode() for _, operands in page for operand in operands
                  if operand.startswith("<") and not operand.startswith("<<")]
    bad = [text for text in found if not re.fullmatch(rb"([0-9A-Fa-f]{2})*", re.sub(rb"\s", b"", text))]
    return [f"a string is not of pairs of hexadecimal digits: {text[:20]!r}" for text in bad]


def streams(pdf):
    faults = []
    for head, rest in pdf.streams:
        length = int(re.search(rb"/Length (\d+)", head).group(1))
        if rest[length:] != b"\nendstream\nendobj\n" and rest[length:length + 11] != b"\nendstream\n":
            faults.append(f"a stream is not {length} bytes long, or its keywords have no line ends")
    return faults + unless(pdf.streams, "there are no streams")


def spacing(pdf):
    bad = [number for number, held in pdf.object_bytes.items()
           if not OBJECT_HEAD.match(held) or int(OBJECT_HEAD.match(held).group(1)) != number
           or not held.endswith(b"\nendobj\n")]
    return [f"object {number} is not set off by its keywords as it should be" for number in bad]


def filters(pdf):
    used = {name for head, _ in pdf.streams for name in re.findall(rb"/Filter\s*(/\w+|\[.*?\])", head)}
    return unless(used <= {b"/FlateDecode"}, f"streams are packed by {used}")


def names(pdf):
    bad = [name for name in pdf.names if not name.isascii() or len(name) - 1 > 127]
    return [f"a name is not ASCII or over 127 bytes: {name}" for name in bad]


def numbers(pdf):
    faults = []
    found = [value for value in pdf.values if type(value) in (int, float)]
    found += [float(operand) for page in pdf.operations for _, operands in page
              for operand in operands if NUMBER.fullmatch(operand)]
    for number in found:
        if isinstance(number, int) and not -2**31 <= number < 2**31 or abs(number) > 3.403e38:
            faults.append(f"a number is too large: {number}")
        if number and abs(number) < 1.175e-38:
            faults.append(f"a number is too small: {number}")
    return faults


def strings(pdf):
    long = [value for value in pdf.values if isinstance(value, str) and len(value) > 32767]
    long += [operand for page in pdf.operations for _, operands in page for operand in operands
             if len(operand) / 2 > 32767]
    return [f"a string is longer than 32,767 bytes: {text[:20]}" for text in long]


def object_count(pdf):
    return unless(len(pdf.object_bytes) <= 8388607, "there are too many objects")


def nesting(pdf):
    deepest = 0
    for page in pdf.operations:
        depth = 0
        for operator, _ in page:
            depth += {"q": 1, "Q": -1}.get(operator, 0)
            deepest = max(deepest, depth)
    return unless(deepest <= 28, f"graphics states nest {deepest} deep")


def page_sizes(pdf):
    faults = []
    for page in pdf.pages:
        for key in ("/MediaBox", "/CropBox", "/BleedBox", "/TrimBox", "/ArtBox"):
            box = page.get(key, [0, 0, 100, 100])
            if not all(3 <= abs(box[i + 2] - box[i]) <= 14400 for i in (0, 1)):
                faults.append(f"{key} is {box}")
    return faults


def operators(pdf):
    unknown = pdf.operators - OPERATORS
    return unless(not unknown, f"unknown operators are used: {unknown}")


def pictures(pdf):
    found = [value for value in pdf.dictionaries if value.get("/Subtype") == "/Image"]
    good = all(picture.get("/ColorSpace") == "/DeviceRGB" and picture.get("/BitsPerComponent") == 8
               for picture in found)
    drawn = any(operator == "Do" for page in pdf.operations for operator, _ in page)
    return unless(good, "a picture is not of three bytes a pixel") + \
        unless(bool(found) == drawn, "a picture is drawn that is not there, or there and not drawn")


def own_resources(pdf):
    return unless(all("/Resources" in page for page in pdf.pages), "a page inherits its resources")


def output_profile(pdf):
    intents = [pdf.get(intent) for intent in pdf.catalog.get("/OutputIntents", [])]
    if [intent.get("/S") for intent in intents] != ["/GTS_PDFA1"]:
        return ["there is not exactly one output intent, of PDF/A"]
    profile = pdf.file.data(intents[0]["/DestOutputProfile"])
    good = profile[12:16] in (b"mntr", b"prtr") and profile[16:20] == b"RGB " and profile[8] < 5
    return unless(good, "the output intent's profile is none of an RGB device")


def font_names(pdf):
    faults = []
    for font, descendant, _, _, _, _ in pdf.fonts:
        kinds = (font.get("/Type"), font.get("/Subtype"), descendant.get("/Subtype"))
        if kinds != ("/Font", "/Type0", "/CIDFontType2") or not font.get("/BaseFont"):
            faults.append(f"a font is {kinds}, called {font.get('/BaseFont')}")
    return faults + unless(pdf.fonts, "no font is used")


def font_encodings(pdf):
    bad = [font["/BaseFont"] for font, _, _, _, _, _ in pdf.fonts if font.get("/Encoding") != "/Identity-H"]
    return [f"{name} is not encoded by Identity-H" for name in bad]


def glyph_tables(pdf):
    bad = [font["/BaseFont"] for font, descendant, _, _, _, _ in pdf.fonts
           if not str(descendant.get("/CIDToGIDMap")).endswith(" R")]
    return [f"{name} has no table of glyphs" for name in bad]


def embedded(pdf):
    bad = [font["/BaseFont"] for font, _, descriptor, _, _, _ in pdf.fonts if "/FontFile2" not in descriptor]
    return [f"{name} is not embedded" for name in bad]


def glyphs(pdf):
    """Every code that is shown has a glyph of the program, and that is not .notdef."""
    faults = []
    for font, _, _, program, table, codes in pdf.fonts:
        order = program.getGlyphOrder()
        for code in codes:
            glyph = table[code] if code < len(table) else 0
            if not 0 < glyph < len(order) or order[glyph] == ".notdef":
                faults.append(f"{font['/BaseFont']} shows U+{code:04X}, for which it has no glyph")
    return faults


def listed_glyphs(pdf):
    faults = []
    for font, _, _, _, _, _ in pdf.fonts:
        pdf_structure.check_face(faults, pdf.file, font)
    return faults


def widths(pdf):
    """Width of each shown code: as the font's dictionary has it, and as the program has it."""
    faults = []
    for font, descendant, _, program, table, codes in pdf.fonts:
        told = told_widths(pdf, descendant)
        for code in codes:
            own = program["hmtx"][program.getGlyphOrder()[table[code]]][0]
            own *= 1000 / program["head"].unitsPerEm
            if abs(told.get(code, descendant.get("/DW", 1000)) - own) > 1:
                faults.append(f"{font['/BaseFont']} tells another width of U+{code:04X} than it has")
    return faults


def told_widths(pdf, descendant):
    entries = list(pdf.get(descendant["/W"]))
    told = {}
    while entries:
        first, second = entries[0], pdf.get(entries[1])
        if isinstance(second, list):
            told.update(enumerate(second, first))
            entries = entries[2:]
        else:
            told.update({code: entries[2] for code in range(first, second + 1)})
            entries = entries[3:]
    return told


def characters(pdf):
    """Every code that is shown is mapped to a character, and none to a mark of byte order."""
    faults = []
    for font, _, _, _, _, codes in pdf.fonts:
        mapped = set()
        for first, last, to in re.findall(rb"<(\w{4})> <(\w{4})> <(\w{4})>",
                                          pdf.file.data(font["/ToUnicode"])):
            span = int(last, 16) - int(first, 16)
            mapped |= set(range(int(first, 16), int(first, 16) + span + 1))
            bad = {0, 0xFFFE, 0xFEFF} & set(range(int(to, 16), int(to, 16) + span + 1))
            faults += [f"{font['/BaseFont']} maps a code to U+{code:04X}" for code in bad]
        faults += [f"{font['/BaseFont']} maps U+{code:04X} to nothing" for code in codes - mapped]
    return faults


def metadata(pdf):
    stream = pdf.get(pdf.catalog.get("/Metadata", {}))
    return unless(stream.get("/Type") == "/Metadata" and stream.get("/Subtype") == "/XML",
                  "the catalog has no metadata")


def packet(pdf):
    opening = pdf.packet.split(b"?>", 1)[0]
    faults = unless(b"bytes=" not in opening and b"encoding=" not in opening,
                    "the metadata packet tells its bytes or encoding")
    try:
        pdf.packet.decode("utf-8")
        ElementTree.fromstring(pdf.packet)
    except (UnicodeDecodeError, ElementTree.ParseError) as failure:
        faults.append(f"the metadata packet cannot be read: {failure}")
    return faults


def properties(pdf):
    faults = []
    rdf = "{http://www.w3.org/1999/02/22-rdf-syntax-ns#}"
    for node in ElementTree.fromstring(pdf.packet).iter(f"{rdf}Description"):
        for found in node:
            space, name = found.tag[1:].split("}")
            kind = PREDEFINED.get(space, {}).get(name)
            held = [child.tag for child in found]
            is_date = re.fullmatch(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d[+-]\d\d:\d\d", found.text or "")
            good = (kind is str and not held or kind == "date" and is_date
                    or isinstance(kind, str) and held == [f"{rdf}{kind}"])
            faults += unless(good, f"the metadata's {name} is none of the schema {space}, or no {kind}")
    return faults


def identification(pdf):
    good = (b"<pdfaid:part>1</pdfaid:part>" in pdf.packet
            and b"<pdfaid:conformance>B</pdfaid:conformance>" in pdf.packet)
    return unless(good, "the metadata does not say PDF/A-1b")
