"""What the documents show is what the program prints.

A block of code under one of these comments is compared with what the comment names:
  <!-- output: tubwright … -->            the command's output, its job paths from the project's root
  <!-- output: tubwright … # /steps/2 -->  that part of its JSON
  <!-- file: examples/quince-row.json -->  the file
  <!-- sound job -->                       a job that `check` finds nothing wrong with
  <!-- shop -->                            a shop's file, of which the same is true
Numbers may differ in their last digits. TUB_UPDATE_GOLDEN=1 writes the blocks anew.
"""
import json
import math
import os
import re
import shlex
import tempfile
import unittest

from program import EXAMPLE, SOURCE, run

BLOCK = re.compile(r"<!-- (output|file|sound job|shop)(?:: (.*?))? -->\n\n?```\w*\n(.*?)```", re.S)
NUMBER = re.compile(r"(-?\d+(?:\.\d+)?(?:e[-+]?\d+)?)")


def part(value, pointer):
    for step in pointer.split("/")[1:]:
        value = value[int(step)] if isinstance(value, list) else value[step.replace("~1", "/").replace("~0", "~")]
    return value


def in_lines(value, depth=0, taken=0):
    """As the program writes JSON: what fits into 100 columns stays on one line."""
    line = one_line(value)
    if not isinstance(value, (dict, list)) or not value or 2 * depth + taken + len(line) < 100:
        return line
    inset = "  " * (depth + 1)
    if isinstance(value, dict):
        items = [json.dumps(k) + ": " + in_lines(v, depth + 1, len(json.dumps(k)) + 2) for k, v in value.items()]
    else:
        items = [in_lines(item, depth + 1) for item in value]
    marks = "{}" if isinstance(value, dict) else "[]"
    return marks[0] + "\n" + ",\n".join(inset + item for item in items) + "\n" + "  " * depth + marks[1]


def one_line(value):
    if isinstance(value, dict) and value:
        return "{ " + ", ".join(json.dumps(k) + ": " + one_line(v) for k, v in value.items()) + " }"
    if isinstance(value, list) and value:
        return "[ " + ", ".join(one_line(item) for item in value) + " ]"
    return json.dumps(value, ensure_ascii=False)


def output_of(command):
    words, _, pointer = command.partition(" # ")
    done = run(*shlex.split(words)[1:], cwd=SOURCE)
    text = done.stdout + done.stderr
    return in_lines(part(json.loads(text), pointer)) + "\n" if pointer else text


def agree(one, other):
    a, b = NUMBER.split(one), NUMBER.split(other)
    return len(a) == len(b) and all(
        x == y or (NUMBER.fullmatch(x) and NUMBER.fullmatch(y) and math.isclose(float(x), float(y), rel_tol=1e-9))
        for x, y in zip(a, b))


def documents():
    folder = os.path.join(SOURCE, "docs")
    pages = [os.path.join(folder, name) for name in os.listdir(folder) if name.endswith(".md")]
    return sorted(pages) + [os.path.join(SOURCE, "README.md")]


class Documents(unittest.TestCase):
    def check(self, kind, shown):
        if kind == "sound job":
            return run("check", "-", stdin=shown)
        with tempfile.NamedTemporaryFile("w", suffix=".json", encoding="utf-8") as shop:
            shop.write(shown)
            shop.flush()
            return run("check", EXAMPLE, "--shop", shop.name)

    def test_blocks_are_real(self):
        count = 0
        for path in documents():
            with open(path, encoding="utf-8") as file:
                text = file.read()

            def checked(match):
                nonlocal count
                count += 1
                kind, what, shown = match.groups()
                if kind in ("sound job", "shop"):
                    done = self.check(kind, shown)
                    self.assertEqual((done.returncode, done.stderr), (0, ""), path)
                    return match.group(0)
                if kind == "file":
                    with open(os.path.join(SOURCE, what), encoding="utf-8") as file:
                        real = file.read()
                else:
                    real = output_of(what)
                if not agree(shown, real) and not os.environ.get("TUB_UPDATE_GOLDEN"):
                    self.assertEqual(shown, real, f"{path}: {what}")
                head = match.group(0)[: match.start(3) - match.start(0)]
                return match.group(0) if agree(shown, real) else head + real + "```"

            renewed = BLOCK.sub(checked, text)
            if renewed != text:
                with open(path, "w", encoding="utf-8") as file:
                    file.write(renewed)
        self.assertGreater(count, 10)


if __name__ == "__main__":
    unittest.main()
