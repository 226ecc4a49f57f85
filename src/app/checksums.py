#!/usr/bin/env python3
"""Writes FOLDER/checksums.txt: for each file below FOLDER its CRC-32 and its name.

Usage: checksums.py FOLDER

The program checks each file of its own against its line, so that a damaged table or character map
is told, not used. CRC-32 as zlib has it (ISO 3309): it finds damage, not intent.
"""
import pathlib
import sys
import zlib

LIST = "checksums.txt"


def lines(folder):
    for path in sorted(folder.rglob("*")):
        name = path.relative_to(folder).as_posix()
        if path.is_file() and name != LIST:
            yield f"{zlib.crc32(path.read_bytes()):08x}  {name}\n"


def main(folder):
    text = "".join(lines(folder))
    target = folder / LIST
    if not target.exists() or target.read_text(encoding="utf-8") != text:
        target.write_text(text, encoding="utf-8")


if __name__ == "__main__":
    if len(sys.argv) != 2:
        sys.exit(__doc__)
    main(pathlib.Path(sys.argv[1]))
