#!/usr/bin/env python3
"""Writes, once at build, the streams that are the same in every PDF: character maps and colour profile.

Usage: pdf_constants.py PROFILE OUTPUT_DIRECTORY NAME=FACE...

For each face (a TrueType file with a Unicode character map) it writes, deflated for a
FlateDecode stream:
  NAME.tounicode   characters of the codes; a code is the character's UTF-16 value
  NAME.cidtogid    glyph of each code
  NAME.cidset      which codes the face has (PDF/A-1, ISO 19005-1, 6.3.5)
and srgb.icc from PROFILE.
"""
import pathlib
import sys
import zlib

from fontTools.ttLib import TTFont

RANGES_A_BLOCK = 100  # ISO 32000-1, 9.7.5.4 and Adobe technical note 5014: at most 100 a block


def runs(characters):
    """First and last of each run of neighbouring characters that share their high byte."""
    found = []
    for character in characters:
        if found and found[-1][1] + 1 == character and character & 0xFF:
            found[-1][1] = character
        else:
            found.append([character, character])
    return found


def to_unicode(characters):
    ranges = runs(characters)
    blocks = [ranges[i:i + RANGES_A_BLOCK] for i in range(0, len(ranges), RANGES_A_BLOCK)]
    lines = ["/CIDInit /ProcSet findresource begin", "12 dict begin", "begincmap",
             "/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def",
             "/CMapName /Adobe-Identity-UCS def", "/CMapType 2 def",
             "1 begincodespacerange", "<0000> <FFFF>", "endcodespacerange"]
    for block in blocks:
        lines.append(f"{len(block)} beginbfrange")
        lines += [f"<{first:04X}> <{last:04X}> <{first:04X}>" for first, last in block]
        lines.append("endbfrange")
    lines += ["endcmap", "CMapName currentdict /CMap defineresource pop", "end", "end", ""]
    return "\n".join(lines).encode("ascii")


def cid_to_gid(glyph_of, last):
    return b"".join(glyph_of.get(code, 0).to_bytes(2, "big") for code in range(last + 1))


def cid_set(characters, last):
    """One bit a code, the highest bit first; code 0 is the glyph of what is missing."""
    bits = bytearray(last // 8 + 1)
    for code in [0, *characters]:
        bits[code // 8] |= 0x80 >> code % 8
    return bytes(bits)


def prepare(name, face, directory):
    font = TTFont(face)
    glyph_of = {character: font.getGlyphID(glyph) for character, glyph in font.getBestCmap().items()}
    characters = sorted(glyph_of)
    if not characters or characters[-1] > 0xFFFF:
        sys.exit(f"{face}: every character must lie in U+0000 to U+FFFF, and there must be one")
    parts = {"tounicode": to_unicode(characters), "cidtogid": cid_to_gid(glyph_of, characters[-1]),
             "cidset": cid_set(characters, characters[-1])}
    for ending, content in parts.items():
        (directory / f"{name}.{ending}").write_bytes(zlib.compress(content, 9))


def main(profile, output, *faces):
    directory = pathlib.Path(output)
    directory.mkdir(parents=True, exist_ok=True)
    content = pathlib.Path(profile).read_bytes()
    if content[16:20] != b"RGB " or content[36:40] != b"acsp":
        sys.exit(f"{profile}: not an RGB colour profile")
    (directory / "srgb.icc").write_bytes(zlib.compress(content, 9))
    for named in faces:
        name, _, face = named.partition("=")
        prepare(name, face, directory)


if __name__ == "__main__":
    if len(sys.argv) < 4:
        sys.exit(__doc__)
    main(*sys.argv[1:])
