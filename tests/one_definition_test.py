#!/usr/bin/env python3
"""Asks that every type has one definition: two of one name in one namespace would be linked together
in silence (C++20, 6.3 [basic.def.odr]). What stands in an unnamed namespace is its file's own."""
import collections
import os
import pathlib
import subprocess
import tempfile
import unittest

SOURCE = pathlib.Path(os.environ["TUB_SOURCE_DIR"])


def defined_twice(folder):
    """(scope, name) of each type that more than one file below the folder defines, with the files.
    An alias may be said again."""
    tags = subprocess.run(["ctags", "-x", "--languages=C++", "--kinds-C++=csug", "--_xformat=%N|%Z|%F",
                           "-R", str(folder)], check=True, capture_output=True, text=True).stdout
    files = collections.defaultdict(set)
    for line in tags.splitlines():
        name, scope, file = line.split("|")
        if "__anon" not in name + scope:
            files[scope, name].add(file)
    return {type_: sorted(found) for type_, found in files.items() if len(found) > 1}


class OneDefinition(unittest.TestCase):
    def test_every_type_of_the_program_has_one_definition(self):
        self.assertEqual(defined_twice(SOURCE / "src"), {})

    def test_every_type_of_a_test_program_has_one_definition(self):
        for folder in sorted((SOURCE / "tests").iterdir()):
            if folder.is_dir():
                self.assertEqual(defined_twice(folder), {})

    def test_a_second_definition_is_found_unless_it_is_its_files_own(self):
        with tempfile.TemporaryDirectory() as folder:
            for name, text in (("a.h", "namespace tub { struct Flow { int a; }; }"),
                               ("b.cpp", "namespace tub { struct Flow { double b; }; struct Own {}; }"),
                               ("c.cpp", "namespace tub { namespace { struct Own { int c; }; } }")):
                pathlib.Path(folder, name).write_text(text, encoding="utf-8")
            self.assertEqual(list(defined_twice(folder)), [("tub", "Flow")])


if __name__ == "__main__":
    unittest.main()
