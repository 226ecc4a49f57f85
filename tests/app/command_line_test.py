"""What the commands print, and their exit status."""
import json
import os
import pty
import re
import subprocess
import tempfile
import unicodedata
import unittest

from program import EXAMPLE, PROGRAM, SOURCE, example, run


class Help(unittest.TestCase):
    def test_help_and_version_go_to_standard_output(self):
        for words in (["--help"], ["help"], ["-h"]):
            done = run(*words)
            self.assertEqual((done.returncode, done.stderr), (0, ""))
            self.assertIn("usage: tubwright", done.stdout)
        self.assertEqual(run("--version").stdout, f"tubwright {os.environ['TUB_VERSION']}\n")

    def test_every_command_has_help(self):
        for command in ("new", "check", "plan", "print", "water", "list", "schema", "completion"):
            done = run(command, "--help")
            self.assertEqual((done.returncode, done.stderr), (0, ""), command)
            self.assertIn(f"usage: tubwright {command}", done.stdout)

    def test_completion_is_sound_bash_and_completes(self):
        script = run("completion", "bash").stdout
        ask = script + """
COMP_WORDS=(tubwright "$@"); COMP_CWORD=$#; _tubwright; printf '%s\\n' "${COMPREPLY[@]}"
"""
        def completed(*words):
            done = subprocess.run(["bash", "-c", ask, "bash", *words], capture_output=True, text=True,
                                  env={**os.environ, "PATH": os.path.dirname(PROGRAM) + ":" + os.environ["PATH"]})
            self.assertEqual(done.stderr, "")
            return done.stdout.split()
        self.assertEqual(completed("pr"), ["print"])
        self.assertEqual(completed("print", "--fo"), ["--force", "--format"])
        self.assertEqual(completed("print", "--form"), ["--format"])
        self.assertEqual(completed("print", "--format", "p"), ["pdf", "png"])
        self.assertEqual(completed("list", "san"), ["sanitizers"])
        self.assertIn("startup_card", completed("print", "--sheet", "start"))


class WhatIsShown(unittest.TestCase):
    """Whatever a job, a name or a file says, the terminal gets letters."""
    def assert_harmless(self, said):
        for letter in said:
            # Unicode general categories: controls, formats (turned writing), separators.
            harmless = letter == "\n" or unicodedata.category(letter) not in ("Cc", "Cf", "Zl", "Zp")
            self.assertTrue(harmless, repr(said))

    def test_no_escape_of_a_job_reaches_the_terminal(self):
        done = run("check", os.path.join(SOURCE, "tests", "app", "odd", "terminal-escape.json"))
        self.assertEqual(done.returncode, 1)
        self.assert_harmless(done.stderr)
        self.assertIn("<U+001B>[31mX<U+202E>abc", done.stderr)

    def test_no_escape_of_the_command_line_reaches_the_terminal(self):
        for words in (["\x1b[2J"], ["plan", "\u202eno\x1b[31m.json"], ["print", EXAMPLE, "--out", "a.pdf", "--sheet", "\x9b"],
                      ["list", "\x1b]0;title\x07"]):
            done = run(*words)
            self.assertNotEqual(done.returncode, 0)
            self.assert_harmless(done.stderr)
            self.assertIn("<U+", done.stderr)

    def test_what_follows_a_nul_is_an_error_with_its_place(self):
        done = run("check", os.path.join(SOURCE, "tests", "app", "odd", "nul-then-garbage.json"))
        self.assertEqual(done.returncode, 1)
        self.assertIn("NUL (U+0000)", done.stderr)
        self.assertIn("line 40, column 1\n", done.stderr)

    def test_an_accent_that_is_typed_apart_prints_as_the_letter_that_has_it(self):
        printed = []
        for name in ("Caf\u00e9 Mar\u00edn", "Cafe\u0301 Mari\u0301n"):
            job = json.loads(example())
            job["vessel"]["name"] = name
            done = run("print", "-", "--out", "-", "--format", "pdf", stdin=json.dumps(job), text=False)
            self.assertEqual((done.returncode, done.stderr), (0, b""))
            printed.append(done.stdout)
        self.assertEqual(*printed)


class ExitStatus(unittest.TestCase):
    def status(self, *words, **more):
        done = run(*words, **more)
        if done.returncode:
            self.assertIn("error: ", done.stderr)
            self.assertIn("  help:  ", done.stderr)
        return done.returncode

    def test_done(self):
        self.assertEqual(self.status("check", EXAMPLE), 0)
        self.assertEqual(self.status("plan", "-", stdin=example()), 0)

    def test_the_job_is_at_fault(self):
        self.assertEqual(self.status("check", "-", stdin="{}"), 1)
        self.assertEqual(self.status("plan", "-", stdin="{"), 1)
        self.assertEqual(run("water", stdin="{}\n").returncode, 1)
        job = json.loads(example())
        del job["sheets"]
        self.assertEqual(self.status("print", "-", "--out", "-", "--format", "pdf", stdin=json.dumps(job)), 1)

    def test_the_command_line_is_at_fault(self):
        for words in ([], ["plam"], ["plan"], ["plan", EXAMPLE, "--jsn"], ["list", "nothing"],
                      ["schema", "card"], ["print", EXAMPLE], ["print", EXAMPLE, "--out", "card.doc"],
                      ["print", EXAMPLE, "--out", "c.pdf", "--sheet", "card"],
                      ["print", EXAMPLE, "--out", "c.pdf", "--sheet", "upkeep_card"],
                      ["print", EXAMPLE, "--out", "c.pdf", "--stock", "a5"],
                      ["print", EXAMPLE, "--out", "c.pdf", "--stock", "1x1mm"],
                      ["print", EXAMPLE, "--out", "c.pdf", "--language", "xx"],
                      ["print", EXAMPLE, "--out", "c.pdf", "--format", "doc"],
                      ["print", EXAMPLE, "--out", "c.pdf", "--dpi", "203"],
                      ["print", EXAMPLE, "--out", "c.png", "--dpi", "0"],
                      ["print", EXAMPLE, "--out", "c.png", "--dpi", "many"]):
            self.assertEqual(self.status(*words), 2, words)
        self.assertFalse(os.path.exists("c.pdf") or os.path.exists("c.png"))

    def test_the_machine_is_at_fault(self):
        for words in (["check", "no-such-job.json"], ["check", EXAMPLE, "--shop", "no-such-shop.json"],
                      ["check", EXAMPLE, "--data", "no-such-folder"], ["water", "no-such-file"],
                      ["check", SOURCE]):
            self.assertEqual(self.status(*words), 3, words)

    def test_an_unmet_target_is_still_a_plan(self):
        job = json.loads(example())
        job["shelf"] = ["dichlor_dihydrate"]
        done = run("plan", "-", "--json", stdin=json.dumps(job))
        self.assertEqual(done.returncode, 0)
        self.assertTrue(json.loads(done.stdout)["unmet"])


class Commands(unittest.TestCase):
    def test_check_prints_nothing_about_a_sound_job(self):
        done = run("check", EXAMPLE)
        self.assertEqual((done.stdout, done.stderr), ("", ""))

    def test_a_problem_is_not_a_names_because_its_sentence_has_the_name_in_it(self):
        job = json.loads(example())
        job["vessel"]["name"] = "startup_card"
        done = run("print", "-", "--out", "-", "--stock", "40x40mm", "--format", "pdf", stdin=json.dumps(job))
        self.assertEqual(done.returncode, 1)
        self.assertIn("startup_card does not fit on 40x40mm", done.stderr)
        self.assertIn("  where: startup_card\n", done.stderr)
        self.assertNotIn("/vessel/name", done.stderr)

    def test_a_larger_stock_is_named_only_where_it_takes_all(self):
        with tempfile.TemporaryDirectory() as folder:
            def printed(stock, sheet, job=example()):
                return run("print", "-", "--out", os.path.join(folder, "x.pdf"), "--sheet", sheet, "--stock", stock, stdin=job)
            for sheet, stock in (("dose_tag", "label_50x30"), ("cabinet_label", "label_74x105")):
                told = set(re.findall(r"help:  take (\S+) for all of it", printed(stock, sheet).stderr))
                self.assertTrue(told)
                if sheet == "cabinet_label":
                    for larger in told:
                        self.assertNotIn("leaves out", printed(larger, sheet).stderr, larger)
            # A word that no paper takes is not told to go on a larger one, on the largest least of all.
            job = json.loads(example())
            job["vessel"]["name"] = "W" * 60
            for stock in ("a4", "a3"):
                said = printed(stock, "startup_card", json.dumps(job)).stderr
                self.assertIn("mm too wide", said)
                self.assertNotIn("take ", said)

    def test_a_text_too_wide_for_its_place_is_told_where_the_job_has_it(self):
        job = json.loads(example())
        job["vessel"]["name"] = "W" * 60
        done = run("check", "-", stdin=json.dumps(job))
        self.assertEqual(done.returncode, 1)
        self.assertIn("mm too wide", done.stderr)
        self.assertIn("where: standard input: /vessel/name", done.stderr)

    def test_check_tells_what_keeps_people_out_in_the_words_of_the_plan(self):
        open_gate = run("check", EXAMPLE)
        self.assertEqual(open_gate.returncode, 0)
        self.assertNotIn("Nobody gets in", open_gate.stderr)
        job = json.loads(example())
        job["shelf"] = [item for item in job["shelf"] if isinstance(item, str)]  # no sequestrant for the iron
        closed = run("check", "-", stdin=json.dumps(job))
        self.assertEqual(closed.returncode, 0)
        told = [line.removeprefix("warning: ") for line in closed.stderr.splitlines() if "Nobody gets in" in line]
        self.assertEqual(len(told), 2)
        planned = " ".join(run("plan", "-", stdin=json.dumps(job)).stdout.split())
        for line in told:
            self.assertIn(" ".join(line.split()), planned)

    def test_standard_input_is_named_in_messages(self):
        self.assertIn("where: standard input: /", run("check", "-", stdin="{}").stderr)

    def test_a_starter_job_needs_only_its_readings(self):
        starter = run("new", env={"SOURCE_DATE_EPOCH": "1777852800"})
        self.assertEqual(starter.returncode, 0)
        job = json.loads(starter.stdout)
        self.assertEqual(job["heading"]["date"], "2026-05-04")
        self.assertTrue(any(name.startswith("//") for name in job))
        unfilled = run("check", "-", stdin=starter.stdout)
        self.assertEqual(unfilled.returncode, 1)
        self.assertEqual(unfilled.stderr.count("error: this is not filled in"), 4)
        self.assertIn("where: standard input: /vessel/volume", unfilled.stderr)
        job["vessel"]["volume"] = "1340 L"
        water = job["source_water"]
        # The starter's slip is a strip's, and strips show total hardness.
        water["ph"], water["total_alkalinity"], water["total_hardness"] = 7.8, "80 mg/L", "200 mg/L"
        self.assertEqual(run("plan", "-", stdin=json.dumps(job)).returncode, 0)

    def test_a_starter_job_takes_over_what_the_shop_sets(self):
        with tempfile.TemporaryDirectory() as folder:
            shop = os.path.join(folder, "shop.json")
            with open(shop, "w", encoding="utf-8") as file:
                json.dump({"heading": {"prepared_by": {"name": "Thrushwater Tubs", "logo": "a.png"}}, "measure": "ounces"}, file)
            job = json.loads(run("new", "--shop", shop).stdout)
        self.assertEqual(job["heading"]["prepared_by"]["name"], "Thrushwater Tubs")
        self.assertEqual(job["heading"]["prepared_by"]["logo"], os.path.join(folder, "a.png"))
        self.assertEqual(job["measure"], "ounces")

    def test_the_plan_is_the_same_bytes_each_time(self):
        self.assertEqual(run("plan", EXAMPLE, "--json").stdout, run("plan", EXAMPLE, "--json").stdout)

    def test_a_terminal_view_has_no_colour_in_a_file(self):
        self.assertNotIn("\x1b", run("plan", EXAMPLE).stdout)

    def test_a_terminal_gets_colour_unless_it_asks_for_none(self):
        def shown(**env):
            ours, theirs = pty.openpty()
            surroundings = {name: value for name, value in os.environ.items() if name != "NO_COLOR"}
            done = subprocess.run([PROGRAM, "check", "-"], input=b"{}", stderr=theirs,
                                  env={**surroundings, "TERM": "xterm", **env})
            os.close(theirs)
            text = os.read(ours, 1 << 16)
            os.close(ours)
            self.assertEqual(done.returncode, 1)
            return text
        self.assertIn(b"\x1b[1merror\x1b[0m: ", shown())
        self.assertNotIn(b"\x1b", shown(NO_COLOR="1"))
        self.assertNotIn(b"\x1b", shown(TERM="dumb"))

    def test_lists_start_with_the_name_and_have_json(self):
        for what in ("products", "targets", "sanitizers", "sheets", "stocks", "languages", "units"):
            rows = json.loads(run("list", what, "--json").stdout)
            lines = run("list", what).stdout.splitlines()
            self.assertEqual(len(rows), len(lines), what)
            for row, line in zip(rows, lines):
                self.assertTrue(line.startswith(next(iter(row.values()))), line)

    def test_identifiers_of_the_format_are_all_listed(self):
        listed = {row["sanitizer"] for row in json.loads(run("list", "sanitizers", "--json").stdout)}
        self.assertEqual(listed, {"dichlor", "dichlor_then_hypochlorite", "sodium_hypochlorite",
                                  "calcium_hypochlorite", "two_step_bromine", "bromine_tablets"})
        self.assertEqual(len(json.loads(run("list", "products", "--json").stdout)), 18)

    def test_schemas_are_json_of_the_2020_12_dialect(self):
        for what in ("job", "plan", "water"):
            schema = json.loads(run("schema", what).stdout)
            self.assertEqual(schema["$schema"], "https://json-schema.org/draft/2020-12/schema", what)

    def test_water_answers_line_by_line_in_order(self):
        lines = "".join(json.dumps({"id": i, "temperature_c": 25, "ph": 7.5, "total_alkalinity_mg_l": 100,
                                    "chloride_mg_l": 50}) + "\n" for i in range(500))
        done = run("water", stdin=lines + "{\n" + lines)
        answers = [json.loads(line) for line in done.stdout.splitlines()]
        self.assertEqual(done.returncode, 1)
        self.assertEqual(len(answers), 1001)
        self.assertEqual([a["id"] for a in answers[:500]], list(range(500)))
        self.assertEqual(answers[500]["line"], 501)
        self.assertIn("error", answers[500])

    def test_water_answers_who_asks_before_the_next_line_is_written(self):
        with subprocess.Popen([PROGRAM, "water"], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True) as program:
            for number in (1, 2):
                program.stdin.write(json.dumps({"id": number, "temperature_c": 25, "ph": 7.5,
                                                "total_alkalinity_mg_l": 100}) + "\n")
                program.stdin.flush()
                self.assertEqual(json.loads(program.stdout.readline())["id"], number)
            program.stdin.close()


if __name__ == "__main__":
    unittest.main()
