"""What is asked of a PDF by rules on tags: each check returns its faults.

The rules are those of tests/reference/pdf/rule_index.json; pdf_rules.py says which check serves
which rule.
"""

import re

import pdf_structure
from pdf_rule_checks import unless

# ISO 32000-1, 14.8.4; the kinds that pages of ours are made of
KINDS = set("Document Sect H1 H2 H3 P L LI Lbl LBody Table TR TH TD Figure Span".split())


def marked(pdf):
    told = pdf.get(pdf.catalog.get("/MarkInfo", {}))
    return unless(told.get("/Marked") is True and not told.get("/Suspects"),
                  "the file does not say that it is tagged, or suspects its tags")


def marked_content(pdf):
    """Everything that paints is in one marked content, of an element or of an artifact."""
    faults = []
    pdf_structure.check_marks(faults, pdf.file)
    return faults


def standard_kinds(pdf):
    root = pdf.get(pdf.catalog["/StructTreeRoot"])
    return unless("/RoleMap" not in root and pdf.kinds <= KINDS,
                  f"elements are renamed, or of kinds that no one knows: {pdf.kinds - KINDS}")


def title(pdf):
    shown = pdf.get(pdf.catalog.get("/ViewerPreferences", {})).get("/DisplayDocTitle")
    faults = unless(shown is True, "the title is not what a window shows")
    return faults + unless(re.search(rb"<dc:title>.*<rdf:li[^>]*>[^<]", pdf.packet), "there is no title")


def tree(pdf):
    faults = []
    pdf_structure.check_tree(faults, pdf.file)
    parents = [node for node, _, _ in pdf.elements if "/P" not in node]
    return faults + unless(not parents, "an element does not name its parent")


def language(pdf):
    """The catalog tells the language of all that is read; every told one has the form of one."""
    told = [pdf_structure.text(value["/Lang"]) for value in pdf.dictionaries if "/Lang" in value]
    bad = [tag for tag in told if not re.fullmatch(r"[a-zA-Z]{1,8}(-[a-zA-Z0-9]{1,8})*", tag)]
    faults = [f"a language is told as {tag}" for tag in bad]
    return faults + unless("/Lang" in pdf.catalog, "the catalog tells no language")


def tables(pdf):
    faults = []
    for node, parent, kids in pdf.elements:
        kind = node["/S"]
        if kind == "/Table" and (set(kids) != {"TR"}):
            faults.append(f"a table holds {set(kids)}")
        if kind == "/TR" and (parent != "Table" or not set(kids) <= {"TH", "TD"} or not kids):
            faults.append(f"a row stands in {parent} and holds {set(kids)}")
        if kind in ("/TH", "/TD") and parent != "TR":
            faults.append(f"a cell stands in {parent}")
    return faults


def spans_of(pdf, row):
    """(cell, first column, past its last) of each cell of a row."""
    cells = []
    column = 0
    for cell in pdf.kids(row):
        attributes = pdf.get(cell.get("/A", {}))
        width = attributes.get("/ColSpan", 1)
        cells.append((cell, column, column + width))
        column += width
    return cells


def grids(pdf):
    """All rows of a table have as many columns; nothing spans rows, so cells cannot meet."""
    faults = []
    for node, _, _ in pdf.elements:
        if node["/S"] != "/Table":
            continue
        widths = {spans_of(pdf, row)[-1][2] for row in pdf.kids(node)}
        faults += unless(len(widths) == 1, f"the rows of a table have {sorted(widths)} columns")
    rows = [value for value in pdf.dictionaries if "/RowSpan" in value]
    return faults + unless(not rows, "a cell spans rows")


def is_headed(cell_from, cell_to, row, above):
    def scope(cell):
        return cell.get("/A", {}).get("/Scope")
    across = any(cell["/S"] == "/TH" and scope(cell) == "/Row" for cell, _, _ in row)
    over = any(cell["/S"] == "/TH" and scope(cell) == "/Column" and first < cell_to and last > cell_from
               for cells in above for cell, first, last in cells)
    return across or over


def header_cells(pdf):
    """Every cell has a heading above it or in its row, which says what it heads."""
    faults = []
    for node, _, _ in pdf.elements:
        if node["/S"] != "/Table":
            continue
        rows = [spans_of(pdf, row) for row in pdf.kids(node)]
        for number, row in enumerate(rows):
            for cell, first, last in row:
                if cell["/S"] == "/TD" and not is_headed(first, last, row, rows[:number]):
                    faults.append(f"a cell of row {number + 1} of a table is headed by nothing")
    return faults


def lists(pdf):
    faults = []
    for node, parent, kids in pdf.elements:
        kind = node["/S"]
        if kind == "/L" and set(kids) != {"LI"}:
            faults.append(f"a list holds {set(kids)}")
        if kind == "/LI" and (parent != "L" or not set(kids) <= {"Lbl", "LBody"} or not kids):
            faults.append(f"a list's item stands in {parent} and holds {set(kids)}")
        if kind == "/LBody" and parent != "LI":
            faults.append(f"an item's body stands in {parent}")
    return faults


def figures(pdf):
    bad = [node for node, _, _ in pdf.elements if node["/S"] == "/Figure"
           and not pdf_structure.text(node.get("/Alt", ""))]
    return unless(not bad, f"{len(bad)} figures have no alternative text")


def headings(pdf):
    """No level is left out, and headings without a level are not used."""
    levels = [int(node["/S"][2]) for node, _, _ in pdf.elements if re.fullmatch(r"/H\d", node["/S"])]
    bad = [(before, level) for before, level in zip([0, *levels], levels) if level > before + 1]
    return [f"a heading of level {level} follows one of level {before}" for before, level in bad] + \
        unless("H" not in pdf.kinds, "a heading has no level")
