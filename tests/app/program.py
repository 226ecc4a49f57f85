"""Runs the program under test, for the other scripts of this folder."""
import os
import subprocess

PROGRAM = os.environ["TUBWRIGHT"]
SOURCE = os.environ["TUB_SOURCE_DIR"]
EXAMPLE = os.path.join(SOURCE, "examples", "quince-row.json")


def run(*words, stdin="", env=None, **more):
    """The finished process; its output as text unless `text=False` is given."""
    more.setdefault("text", True)
    if not more["text"] and isinstance(stdin, str):
        stdin = stdin.encode()
    surroundings = {**os.environ, **(env or {})}
    return subprocess.run([PROGRAM, *words], input=stdin, capture_output=True, env=surroundings, **more)


def example():
    with open(EXAMPLE, encoding="utf-8") as file:
        return file.read()
