#!/usr/bin/env python3
"""Cards print in every language beside English on A4 and on Letter, in that language's words."""

import json
import os
import subprocess
import sys
import tempfile

TUBWRIGHT = os.environ["TUBWRIGHT"]
SOURCE = os.environ["TUB_SOURCE_DIR"]


def run(*command):
    return subprocess.run(command, capture_output=True, text=True, check=False)


def faults_of(job, language, stock, folder):
    """What is wrong with one printed card, one line each."""
    path = os.path.join(folder, "card.pdf")
    printed = run(TUBWRIGHT, "print", job, "--language", language, "--stock", stock, "--out", path)
    if printed.returncode != 0:
        return [printed.stderr]
    with open(os.path.join(SOURCE, "templates", "languages", language + ".json"), encoding="utf-8") as file:
        messages = json.load(file)["messages"]
    text = run("pdftotext", "-layout", path, "-").stdout
    words = [messages["startup_card"]["kind"], messages["never_mix"]["word"], messages["ladder"]["wait"]]
    faults = [f"no \"{word}\" on the card" for word in words if word not in text]
    structure = run("pdfinfo", "-struct", path).stdout
    if "H1" not in structure:
        faults.append("no heading in the structure")
    return faults


def main():
    bad = 0
    with tempfile.TemporaryDirectory() as folder:
        for name in ("quince-row", "desert"):
            job = os.path.join(SOURCE, "examples", name + ".json")
            for language in ("es", "fr", "de"):
                for stock in ("a4", "letter"):
                    for fault in faults_of(job, language, stock, folder):
                        print(f"{name} {language} {stock}: {fault}")
                        bad += 1
    return 1 if bad else 0


if __name__ == "__main__":
    sys.exit(main())
