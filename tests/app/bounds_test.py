"""Whatever is in a job, a shop's folder or a scanned code, it is answered with a sentence: nothing
crashes, and work is bounded before it is begun. How long things take is measured by tests/bench;
here a run is only ended that works for longer than a person waits."""
import json
import os
import re
import resource
import subprocess
import tempfile
import unittest

from program import PROGRAM, SOURCE, example, run

HERE = os.path.dirname(os.path.abspath(__file__))
# What a run may take: 200 MB, and as much again of addresses that are never touched (libraries).
MOST_MEMORY = 400 << 20
# What it may compute for, in seconds.
MOST_WORK = 2
SENTENCE = "error: there is not enough memory\n"


def limited(memory):
    def limit():
        resource.setrlimit(resource.RLIMIT_AS, (memory, memory))
        resource.setrlimit(resource.RLIMIT_CPU, (MOST_WORK, MOST_WORK))
    return limit


def job(**changes):
    return {**json.loads(example()), **changes}


class InFolder(unittest.TestCase):
    def setUp(self):
        self.folder = tempfile.TemporaryDirectory()
        self.addCleanup(self.folder.cleanup)

    def path(self, *names):
        return os.path.join(self.folder.name, *names)

    def write(self, name, content):
        os.makedirs(os.path.dirname(self.path(name)), exist_ok=True)
        with open(self.path(name), "w", encoding="utf-8") as file:
            file.write(content if isinstance(content, str) else json.dumps(content, ensure_ascii=False))
        return self.path(name)

    def refused(self, words, *sentences, status=1):
        """The run ends with that status and says all of that, in few words."""
        done = run(*words, preexec_fn=limited(MOST_MEMORY))
        self.assertEqual((done.returncode, done.stdout), (status, ""), done.stderr[:2000])
        for sentence in sentences:
            self.assertIn(sentence, done.stderr)
        self.assertLess(len(done.stderr), 16384, done.stderr[:2000])
        return done.stderr


class NothingCrashes(InFolder):
    def card(self, *words):
        return ["print", self.write("job.json", example()), "--data", self.folder.name,
                "--out", self.path("card.pdf"), *words]

    def test_a_shop_whose_stocks_lack_the_one_that_a_sheet_is_meant_for_is_told_which(self):
        self.write("stocks.json", [{"name": "my_roll", "width_mm": 80, "height_mm": 120, "keep_out_mm": 1}])
        self.refused(self.card(), 'the sheet startup_card is meant for the stock "a4"',
                     "startup_card.json: /stock", "choose another with --stock")
        done = run(*self.card("--sheet", "dose_tag", "--stock", "my_roll"))
        self.assertEqual(done.returncode, 0, done.stderr)

    def test_an_empty_table_of_stocks_is_an_error_in_that_table(self):
        self.write("stocks.json", [])
        self.refused(self.card(), "the table of stocks is empty", self.path("stocks.json") + ": /")

    def test_a_stock_that_a_template_misspells_is_named_with_its_place_and_the_nearest(self):
        with open(os.path.join(SOURCE, "templates", "sheets", "startup_card.json"), encoding="utf-8") as file:
            sheet = json.load(file)
        self.write("sheets/startup_card.json", {**sheet, "stock": "lettr"})
        said = self.refused(self.card(), 'the stock "lettr"', "did you mean letter?",
                            self.path("sheets", "startup_card.json") + ": /stock")
        self.assertNotIn("memory", said)

    def test_a_scanned_code_that_is_nested_too_deep_is_damaged(self):
        self.refused(["check", os.path.join(HERE, "nested-label.code")],
                     "the scanned text is damaged: the JSON is nested deeper than 100 levels")

    def test_json_that_is_nested_too_deep_is_an_error_with_its_place_in_every_input(self):
        deep = "[" * 50000
        place = "line 1, column 101"
        said = "nested deeper than 100 levels"
        self.refused(["check", self.write("deep.json", deep)], said, self.path("deep.json") + ": " + place)
        sound = self.write("job.json", example())
        self.refused(["check", sound, "--shop", self.path("deep.json")], said, place)
        for name in ("stocks.json", "sheets/startup_card.json", "languages/en.json"):
            with self.subTest(name):
                self.write(name, deep)
                self.refused(self.card(), said, self.path(name) + ": " + place)
                os.remove(self.path(name))
        water = run("water", "-", stdin=deep + "\n")
        self.assertEqual(water.returncode, 1)
        self.assertIn(said, water.stdout)


class WorkIsBounded(InFolder):
    def check(self, content, *sentences, words=()):
        return self.refused(["check", self.write("job.json", content), *words], *sentences)

    def test_twenty_thousand_comments_are_read(self):
        done = run("check", self.write("job.json", job(**{f"// {i}": "" for i in range(20000)})),
                   preexec_fn=limited(MOST_MEMORY))
        self.assertEqual((done.returncode, done.stdout, done.stderr), (0, "", ""))

    def test_of_twenty_thousand_unknown_fields_ten_are_shown_and_the_others_counted(self):
        said = self.check(job(**{f"f{i}": 0 for i in range(20000)}), "  and 19,990 more like it\n")
        self.assertEqual(said.count("is not known here"), 10)

    def test_wrong_fields_of_the_shop_are_counted_once_though_they_are_read_twice(self):
        shop = {"heading": {"prepared_by": {f"f{i}": "" for i in range(12)}}}
        said = self.check(example(), "  and 2 more like it\n",
                          words=("--shop", self.write("shop.json", shop)))
        self.assertEqual(said.count("is not known here"), 10)

    def test_lists_say_how_much_they_hold_how_much_is_read_and_the_way_out(self):
        label = {"sheet": "cabinet_label", "stock": "label_100x150"}
        cases = [({"shelf": ["dry_acid"] * 60000}, "holds 60,000 entries, and at most 40 are read",
                  "list each product once"),
                 ({"sheets": ["startup_card"] * 1000}, "holds 1,000 entries, and at most 50", "with --sheet"),
                 ({"sheets": [{**label, "language": ["en"] * 5000}]}, "holds 5,000 entries, and at most",
                  "list each language once"),
                 ({"readings": [{"date": "2026-06-01", "ph": 7.4}] * 5000},
                  "holds 5,000 entries, and at most 100", "begin a new job"),
                 ({"shelf": [{"product": "dry_acid", "hazard_statements": ["H302"] * 5000}]},
                  "holds 5,000 entries, and at most 30", "list each code once")]
        for changes, *sentences in cases:
            with self.subTest(sentences[0]):
                self.check(job(**changes), *sentences)

    def test_a_file_that_is_too_large_for_a_job_is_refused_with_its_size(self):
        text = json.dumps({"x" * (4 << 20): 0})
        said = f"the file holds {len(text):,} bytes, and at most 1,048,576 bytes are read"
        self.check(text, said)
        self.refused(["check", self.write("sound.json", example()), "--shop", self.path("job.json")], said)

    def test_a_text_of_a_megabyte_is_answered_by_its_beginning_wherever_it_stands(self):
        def places(value, at=()):
            steps = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
            yield at
            for step, part in steps:
                yield from places(part, (*at, step))

        def replaced(value, at, text):
            if not at:
                return text
            copy = dict(value) if isinstance(value, dict) else list(value)
            copy[at[0]] = replaced(value[at[0]], at[1:], text)
            return copy

        whole = job(shelf=[{"product": "sodium_hypochlorite", "strength": "10 g/100 mL as Cl2", "package": "1 L",
                            "hazard_statements": ["H314"], "made_on": "2026-01-01", "supplier": {"name": "Reed"}},
                           {"product": "sequestrant", "dose": "45 mL per 1000 L"}],
                    readings=[{"date": "2026-06-01", "ph": 7.4}])
        for text in ("x" * 900000, "1" * 900000, "\"é\u0301\u0316" * 100000):
            for at in places(whole):
                with self.subTest(str(at), text=text[:3]):
                    self.check(replaced(whole, at, text), "error: ")

    def test_a_name_of_a_megabyte_is_answered_by_its_beginning(self):
        self.check(job(**{"x" * 900000: 0}), "the field \"xxx", "…\" is not known here")
        self.check(job(heading={"y" * 900000: 0}), "/heading/yyy")

    def test_more_labels_than_are_printed_at_once_are_refused_before_they_are_made(self):
        copies = {"sheet": "cabinet_label", "stock": "label_100x150", "copies": 999}
        self.check(job(sheets=[copies]), "expected a whole number from 1 to 400, found 999")
        many = [{**copies, "copies": 300}] * 40
        self.check(job(sheets=many), "600 labels and pages or more would be printed, and at most 400",
                   "job.json: /sheets/1", "ask for fewer copies")
        sound = self.write("job.json", example())
        self.refused(["print", sound, "--out", self.path("a.pdf"), "--copies", "401"],
                     "from 1 to 400", status=2)
        self.assertFalse(os.path.exists(self.path("a.pdf")))

    def test_a_picture_of_too_many_pixels_says_how_many_and_what_dpi_would_do(self):
        # A3 is 297 x 420 mm (ISO 216): 11.69 x 16.54 in, 278.4 million pixels at 1,200 a inch.
        words = ["print", self.write("job.json", example()), "--stock", "a3", "--out", self.path("a.png"), "--dpi"]
        said = self.refused([*words, "1200"], "278.4 million pixels, and at most 36.0 million", status=2)
        dots = int(re.search(r"--dpi (\d+) would do", said).group(1))
        self.refused([*words, str(dots + 1)], "million pixels", status=2)
        done = run(*words, str(dots), preexec_fn=limited(MOST_MEMORY))
        self.assertEqual(done.returncode, 0, done.stderr)

    def test_more_pictures_than_are_written_at_once_are_refused(self):
        sound = self.write("job.json", example())
        self.refused(["print", sound, "--sheet", "cabinet_label", "--stock", "label_100x150", "--copies", "101",
                      "--out", self.path("a.svg")],
                     "101 pages are 101 files, and at most 100", "print as pdf", status=2)
        self.assertEqual(os.listdir(self.folder.name), ["job.json"])


class WithoutMemory(InFolder):
    def least_that_starts(self):
        """The least memory, in MiB, with which the system's loader can start the program."""
        for mebibytes in range(4, 400):
            done = subprocess.run([PROGRAM, "--version"], capture_output=True, check=False,
                                  preexec_fn=limited(mebibytes << 20))
            if done.returncode in (0, 3):
                return mebibytes
        self.fail("the program does not start with 400 MiB")

    def test_a_run_that_lacks_memory_ends_with_status_3_a_sentence_and_no_new_file(self):
        sound = self.write("job.json", example())
        least = self.least_that_starts()
        words = {"pdf": ("--out", self.path("out.pdf")), "svg": ("--out", self.path("out.svg")),
                 "png": ("--out", self.path("out.png"), "--dpi", "250"), "pbm": ("--out", self.path("out.pbm"))}
        for ending, more in words.items():
            statuses = set()
            for half_mebibytes in range(2 * least, 2 * least + 160):
                with self.subTest(ending, mebibytes=half_mebibytes / 2):
                    done = run("print", sound, "--sheet", "cabinet_label", *more,
                               preexec_fn=limited(half_mebibytes << 19))
                    statuses.add(done.returncode)
                    self.assertIn(done.returncode, (0, 3), done.stderr)
                    if done.returncode == 3:
                        self.assertTrue(done.stderr.startswith(SENTENCE), done.stderr)
                        self.assertEqual(os.listdir(self.folder.name), ["job.json"])
                    if done.returncode == 0:
                        os.remove(more[1])
                if done.returncode == 0:
                    break
            self.assertEqual(statuses, {0, 3}, ending)


if __name__ == "__main__":
    unittest.main()
