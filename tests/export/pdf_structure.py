"""Faults of a PDF's inner structure that no validator at hand looks for: tags, names, metadata.

Rules: ISO 32000-1, 14.7 and 14.8 (structure, tags); ISO 19005-1 (PDF/A-1), 6.1 to 6.8.
The file is read through `qpdf --json`, whose strings begin with "u:" and references end in " R".
"""

import base64
import json
import re
import subprocess
import xml.etree.ElementTree as ElementTree

PAINTING = {"f", "F", "f*", "B", "B*", "b", "b*", "S", "s", "Tj", "TJ", "'", '"', "Do", "sh"}
PARENTS = {"TR": {"Table"}, "TH": {"TR"}, "TD": {"TR"}, "LI": {"L"}, "Lbl": {"LI"},
           "LBody": {"LI"}, "Sect": {"Document", "Sect"}, "Document": {"StructTreeRoot"}}
TYPES = set("Document Sect H1 H2 H3 P L LI Lbl LBody Table TR TH TD Figure Span".split())
TOKEN = re.compile(rb"\((?:\\.|[^\\)])*\)|<<|>>|<[0-9A-Fa-f\s]*>|\[|\]|/?[^\s/<>\[\]()]+")
LONGEST_ARRAY = 8191  # ISO 19005-1, 6.1.12
LONGEST_NAME = 127


class File:
    def __init__(self, path):
        done = subprocess.run(
            ["qpdf", "--json=2", "--json-stream-data=inline", "--decode-level=generalized", path],
            capture_output=True, check=True)
        self.objects = json.loads(done.stdout)["qpdf"][1]
        self.trailer = self.objects["trailer"]["value"]

    def get(self, value):
        """The object that a reference names, or the value itself."""
        if isinstance(value, str) and re.fullmatch(r"\d+ \d+ R", value):
            held = self.objects[f"obj:{value}"]
            return held["stream"]["dict"] if "stream" in held else held["value"]
        return value

    def data(self, reference):
        return base64.b64decode(self.objects[f"obj:{reference}"]["stream"]["data"])

    def pages(self):
        """References of all pages; ours have one level of page tree."""
        root = self.get(self.get(self.trailer["/Root"])["/Pages"])
        return root["/Kids"]


def text(value):
    return value[2:] if isinstance(value, str) and value.startswith("u:") else value


def check_bytes(faults, content):
    first, second = content.split(b"\n", 2)[:2]
    if first != b"%PDF-1.4":
        faults.append(f"the first line is {first!r}")
    if second[:1] != b"%" or sum(byte > 127 for byte in second) < 4:
        faults.append("no comment of four high bytes follows the first line")
    if not content.rstrip(b"\r\n").endswith(b"%%EOF") or content.count(b"%%EOF") != 1:
        faults.append("the file does not end with its only %%EOF")
    if b"/ObjStm" in content or b"/XRef" in content or b"\ntrailer" not in content:
        faults.append("there are object streams, or no plain cross-reference table")


def check_catalog(faults, file):
    catalog = file.get(file.trailer["/Root"])
    if len(file.trailer.get("/ID", [])) != 2 or "/Encrypt" in file.trailer:
        faults.append("the trailer has no identifier, or the file is encrypted")
    if not re.fullmatch(r"[a-z]{2,3}(-[A-Za-z0-9]+)*", text(catalog.get("/Lang", "")) or ""):
        faults.append(f"/Lang is {catalog.get('/Lang')}")
    if file.get(catalog.get("/MarkInfo")) != {"/Marked": True}:
        faults.append("the file does not say that it is tagged")
    wanted = {"/DisplayDocTitle": True, "/PrintScaling": "/None"}
    told = dict(file.get(catalog.get("/ViewerPreferences")))
    if told.pop("/Duplex", "/Simplex") != "/Simplex" or told != wanted:
        faults.append("the viewer preferences are not title and no scaling")


def local(tag):
    return tag.split("}")[1]


def metadata_of(faults, file):
    """The packet's properties by their names without prefix; a list's first member."""
    reference = file.get(file.trailer["/Root"])["/Metadata"]
    if "/Filter" in file.get(reference):
        faults.append("the metadata is packed, so that searching programs cannot read it")
    packet = file.data(reference).decode("utf-8")
    description = ElementTree.fromstring(packet.split("?>", 1)[1].rsplit("<?", 1)[0])[0][0]
    return {local(node.tag): node[0][0].text if len(node) else node.text for node in description}


def check_metadata(faults, file):
    found = metadata_of(faults, file)
    information = {key: text(value) for key, value in file.get(file.trailer["/Info"]).items()}
    names = {"/Title": "title", "/Author": "creator", "/Subject": "description",
             "/Keywords": "Keywords", "/Creator": "CreatorTool", "/Producer": "Producer"}
    for key, name in names.items():
        if information.get(key) != found.get(name):
            faults.append(f"{key} is {information.get(key)!r}, the metadata has {found.get(name)!r}")
    if not found.get("title"):
        faults.append("there is no title")
    for key, name in (("/CreationDate", "CreateDate"), ("/ModDate", "ModifyDate")):
        digits = re.sub(r"\D", "", found[name])
        if not information[key].endswith("+00'00'") or digits != re.sub(r"\D", "", information[key]):
            faults.append(f"{key} is {information[key]}, the metadata has {found[name]}")
    if (found.get("part"), found.get("conformance")) != ("1", "B"):
        faults.append("the metadata does not say PDF/A-1b")
    language = text(file.get(file.trailer["/Root"])["/Lang"])
    if found.get("language") != language:
        faults.append(f"/Lang is {language}, the metadata has {found.get('language')}")


def check_colours(faults, file):
    intents = file.get(file.trailer["/Root"]).get("/OutputIntents", [])
    profiles = [file.get(intent)["/DestOutputProfile"] for intent in intents]
    if [file.get(intent)["/S"] for intent in intents] != ["/GTS_PDFA1"]:
        faults.append("there is not one output intent of PDF/A-1")
    for profile in profiles:
        content = file.data(profile)
        if file.get(profile)["/N"] != 3 or content[16:20] != b"RGB ":
            faults.append("the output intent's profile is not one of three colours")
        if int.from_bytes(content[:4], "big") != len(content):
            faults.append("the output intent's profile is cut short")


def check_face(faults, file, font):
    descendant = file.get(file.get(font["/DescendantFonts"])[0])
    descriptor = file.get(descendant["/FontDescriptor"])
    names = {font["/BaseFont"], descendant["/BaseFont"], descriptor["/FontName"]}
    name = names.pop()
    if names or not re.fullmatch(r"/[A-Z]{6}\+[A-Za-z-]+", name):
        faults.append(f"a font is called {name} and {names}")
    if not 500 < descriptor.get("/CapHeight", 0) < 1000 or "/DW2" in descendant:
        faults.append(f"{name} has no height of capitals, or a vertical width")
    glyphs = file.data(descendant["/CIDToGIDMap"])
    present = file.data(descriptor["/CIDSet"])
    codes = {code for code in range(len(glyphs) // 2) if any(glyphs[2 * code:2 * code + 2])} | {0}
    listed = {code for code in range(len(present) * 8) if present[code // 8] & 0x80 >> code % 8}
    if codes != listed:
        faults.append(f"{name} lists {len(listed)} codes as present, {len(codes)} have a glyph")
    mapped = set()
    for first, last, to in re.findall(rb"<(\w{4})> <(\w{4})> <(\w{4})>", file.data(font["/ToUnicode"])):
        if first != to or first[:2] != last[:2]:
            faults.append(f"{name} maps {first} to {to}")
        mapped |= set(range(int(first, 16), int(last, 16) + 1))
    if mapped | {0} != codes:
        faults.append(f"{name} maps {len(mapped)} codes to characters, {len(codes)} have a glyph")


def check_faces(faults, file):
    for held in file.objects.values():
        value = held.get("value")
        if isinstance(value, dict) and value.get("/Subtype") == "/Type0":
            check_face(faults, file, value)


def check_limits(faults, value):
    if isinstance(value, list):
        if len(value) > LONGEST_ARRAY:
            faults.append(f"an array has {len(value)} members")
        for member in value:
            check_limits(faults, member)
    elif isinstance(value, dict):
        for key, member in value.items():
            if len(key) > LONGEST_NAME:
                faults.append(f"a name is long: {key}")
            check_limits(faults, member)


def marks_of(faults, page, content):
    """(tag, id) of the marked contents in the order of a page's stream; artifacts have no id."""
    marks = []
    state = {"open": False, "text": False}
    operands = []
    for token in TOKEN.findall(content):
        token = token.decode("latin-1")
        if token in ("BDC", "BMC"):
            if state["open"] or state["text"]:
                faults.append(f"page {page}: a marked content begins inside another or a text")
            state["open"] = True
            number = int(operands[operands.index("/MCID") + 1]) if "/MCID" in operands else None
            marks.append((operands[0], number))
        elif token == "EMC":
            if not state["open"] or state["text"]:
                faults.append(f"page {page}: a marked content ends where none is open")
            state["open"] = False
        elif token in ("BT", "ET"):
            state["text"] = token == "BT"
        elif token in PAINTING and not state["open"]:
            faults.append(f"page {page}: {token} paints outside of every marked content")
        operands = [] if re.fullmatch(r"[A-Za-z'\"*0-9]*[A-Za-z'\"*]", token) else operands + [token]
    if state["open"]:
        faults.append(f"page {page}: a marked content is not ended")
    return marks


def kids_of(node):
    kids = node.get("/K", [])
    return kids if isinstance(kids, list) else [kids]


def check_marks(faults, file):
    """Each marked content has an id of its own, and the tree knows both ways between it and its
    element."""
    root = file.get(file.get(file.trailer["/Root"])["/StructTreeRoot"])
    numbers = file.get(root["/ParentTree"])["/Nums"]
    parents = dict(zip(numbers[::2], (file.get(entry) for entry in numbers[1::2])))
    for number, reference in enumerate(file.pages(), 1):
        page = file.get(reference)
        marks = marks_of(faults, number, file.data(page["/Contents"]))
        tagged = [mark for mark in marks if mark[1] is not None]
        if any(tag != "/Artifact" for tag, mark in marks if mark is None):
            faults.append(f"page {number}: a marked content has neither id nor artifact's tag")
        if [mark for _, mark in tagged] != list(range(len(tagged))):
            faults.append(f"page {number}: the ids of marked contents do not count from 0")
        elements = parents.pop(page.get("/StructParents"), [])
        if len(elements) != len(tagged):
            faults.append(f"page {number}: {len(tagged)} marked contents, {len(elements)} elements")
        for (tag, mark), element in zip(tagged, elements):
            node = file.get(element)
            if mark not in kids_of(node) or node["/S"] != tag or node.get("/Pg") != reference:
                faults.append(f"page {number}: marked content {mark}, {tag}, is not in its element")
    if parents:
        faults.append("the parent tree names pages that are not there")


def check_node(faults, node, kind, parent_kind):
    if kind not in TYPES:
        faults.append(f"an element is a {kind}")
    if parent_kind not in PARENTS.get(kind, {parent_kind}):
        faults.append(f"a {kind} stands in a {parent_kind}")
    kids = kids_of(node)
    if not kids and kind not in ("TD", "TH"):
        faults.append(f"a {kind} is empty")
    if len({isinstance(kid, int) for kid in kids}) > 1:
        faults.append(f"a {kind} holds both elements and contents")
    if kind == "Figure" and not text(node.get("/Alt")):
        faults.append("a figure has no alternative text")
    if kind == "TH" and node.get("/A", {}).get("/Scope") not in ("/Column", "/Row"):
        faults.append("a heading cell does not say what it heads")


def walk(faults, file, reference, parent, levels):
    """Checks an element and all below it; returns how many marked contents they hold."""
    node = file.get(reference)
    kind = node["/S"][1:]
    parent_node = file.get(parent)
    check_node(faults, node, kind, parent_node.get("/S", "/StructTreeRoot")[1:])
    if node["/P"] != parent:
        faults.append(f"a {kind} does not name its parent")
    if re.fullmatch(r"H\d", kind):
        levels.append(int(kind[1]))
    contents = 0
    for kid in kids_of(node):
        contents += 1 if isinstance(kid, int) else walk(faults, file, kid, reference, levels)
    return contents


def check_tree(faults, file):
    reference = file.get(file.trailer["/Root"])["/StructTreeRoot"]
    root = file.get(reference)
    levels = []
    contents = walk(faults, file, root["/K"], reference, levels)
    numbers = file.get(root["/ParentTree"])["/Nums"]
    marked = sum(len(file.get(entry)) for entry in numbers[1::2])
    if contents != marked:
        faults.append(f"the elements hold {contents} marked contents, the pages {marked}")
    for before, level in zip([0, *levels], levels):
        if level > before + 1:
            faults.append(f"a heading of level {level} follows one of level {before}")
    sections = kids_of(file.get(root["/K"]))
    if len(sections) != len(file.pages()):
        faults.append(f"{len(sections)} sections for {len(file.pages())} pages")


def holds(outer, inner):
    return (outer[0] <= inner[0] and outer[1] <= inner[1]
            and outer[2] >= inner[2] and outer[3] >= inner[3])


def check_boxes(faults, file):
    """The sheet begins at 0 0; it holds the bleed, and the bleed what is left when it is cut."""
    for number, reference in enumerate(file.pages(), 1):
        page = file.get(reference)
        media, trim = page.get("/MediaBox"), page.get("/TrimBox")
        bleed = page.get("/BleedBox", trim)
        if media[:2] != [0, 0] or not holds(media, bleed) or not holds(bleed, trim):
            faults.append(f"page {number}: the boxes are {media}, {bleed} and {trim}")
        if "/BleedBox" not in page and media != trim:
            faults.append(f"page {number}: a cut page does not say how far it is printed")


def faults_of(path):
    faults = []
    with open(path, "rb") as content:
        check_bytes(faults, content.read())
    try:
        file = File(path)
    except (FileNotFoundError, subprocess.CalledProcessError) as failure:
        return faults + [f"qpdf cannot read it: {failure}"]
    check_limits(faults, file.objects)
    for look in (check_catalog, check_metadata, check_colours, check_faces, check_boxes,
                 check_marks, check_tree):
        try:
            look(faults, file)
        except (KeyError, IndexError, TypeError, ValueError, AttributeError) as failure:
            faults.append(f"{look.__name__} meets a part that is not there: {failure!r}")
    return faults
