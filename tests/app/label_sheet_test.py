"""Labels on sheets, as a shop prints them: positions, copies, corrections and marks in the file."""
import json
import os
import re
import subprocess
import tempfile
import unittest

from program import EXAMPLE, SOURCE, run

MM = 72 / 25.4
HUNDREDTH = 0.01 * MM
GRID = "a4_2x4_99x68"  # left 4.65, top 13.1, pitch 101.6 x 67.7 mm
LABEL = {"sheet": "dose_tag", "facts": "plan", "title": "Tag", "subject": "Tag",
         "blocks": [{"text": {"paragraphs": ["Quokka {volume}"]}}],
         "foot": {"left": "", "right": "", "page_of": ""},
         "alternatives": {"tick": "tick", "triangle": "warning", "fill": "line", "arrow": "then"}}
SMALL = {"page_width_least": 20, "page_height_least": 20, "margin_side": 4.5, "margin_top": 4.5}


class LabelSheets(unittest.TestCase):
    def setUp(self):
        self.folder = tempfile.TemporaryDirectory()
        self.addCleanup(self.folder.cleanup)
        with open(os.path.join(SOURCE, "templates", "styles", "card.json"), encoding="utf-8") as file:
            style = json.load(file)
        style["lengths_mm"].update(SMALL)
        for step in style.get("give_way", []):
            step.get("lengths_mm", {}).pop("margin_top", None)
        self.write("data/sheets/dose_tag.json", LABEL)
        self.write("data/styles/card.json", style)

    def path(self, name):
        return os.path.join(self.folder.name, name)

    def write(self, name, content):
        path = self.path(name)
        os.makedirs(os.path.dirname(path), exist_ok=True)
        with open(path, "w", encoding="utf-8") as file:
            json.dump(content, file)
        return path

    def printed(self, *words, job=EXAMPLE):
        """The finished process of printing test labels to labels.pdf."""
        return run("print", job, "--data", self.path("data"), "--out", self.path("labels.pdf"), *words)

    def places(self, *words, job=EXAMPLE):
        """Page by page where the labels' word begins in the printed file: x, y of its top, in mm."""
        done = self.printed(*words, job=job)
        self.assertEqual((done.returncode, done.stdout), (0, ""), done.stderr)
        text = subprocess.run(["pdftotext", "-bbox", self.path("labels.pdf"), "-"], check=True,
                              capture_output=True, text=True).stdout
        word = r'<word xMin="([\d.]+)" yMin="([\d.]+)" [^>]*>Quokka</word>'
        return [[(float(x) / MM, float(y) / MM) for x, y in re.findall(word, page)]
                for page in text.split("<page ")[1:]]

    def problem(self, *words, job=EXAMPLE):
        """Exit status and what is said; nothing may have been printed."""
        done = self.printed(*words, job=job)
        self.assertFalse(os.path.exists(self.path("labels.pdf")))
        return done.returncode, done.stderr

    def assert_apart(self, one, other, x, y):
        """One place stands so many millimetres right of and below another, to a hundredth."""
        self.assertAlmostEqual(one[0] - other[0], x, delta=HUNDREDTH)
        self.assertAlmostEqual(one[1] - other[1], y, delta=HUNDREDTH)

    def test_copies_fill_the_sheet_from_the_first_free_label_on(self):
        pages = self.places("--sheet", "dose_tag", "--stock", GRID, "--copies", "4", "--start-at", "6")
        self.assertEqual([len(page) for page in pages], [3, 1])
        self.assert_apart(pages[0][1], pages[0][0], -101.6, 67.7)
        self.assert_apart(pages[0][2], pages[0][1], 101.6, 0)
        self.assert_apart(pages[1][0], pages[0][1], 0, -3 * 67.7)

    def test_a_tenth_of_a_millimetre_is_honoured(self):
        words = ("--sheet", "dose_tag", "--stock", GRID, "--copies", "8")
        plain, = self.places(*words)
        shop = self.write("shop.json", {"printer": {"right": "0.1 mm", "down": "-0.1 mm"}})
        shifted, = self.places(*words, "--shop", shop)
        self.assertEqual(len(shifted), 8)
        for before, after in zip(plain, shifted):
            self.assert_apart(after, before, -0.1, 0.1)

    def test_labels_stand_closer_by_what_the_printer_stretches(self):
        words = ("--sheet", "dose_tag", "--stock", GRID, "--copies", "8")
        plain, = self.places(*words)
        shop = self.write("shop.json", {"printers": [{"name": "counter", "across_100_mm": "100.4 mm",
                                                      "down_100_mm": "99.5 mm"}]})
        held, = self.places(*words, "--shop", shop, "--printer", "counter")
        unnamed, = self.places(*words, "--shop", shop)
        self.assertEqual(unnamed, plain)
        # What is printed 0.4 % too wide and 0.5 % too short brings each label back to its place.
        for index, (before, after) in enumerate(zip(plain, held)):
            left, top = 4.65 + 101.6 * (index % 2), 13.1 + 67.7 * (index // 2)
            self.assert_apart(after, before, left / 1.004 - left, top / 0.995 - top)

    def test_a_label_sheet_holds_the_labels_that_the_job_asks_for(self):
        with open(EXAMPLE, encoding="utf-8") as file:
            job = json.load(file)
        job["sheets"] = [{"sheet": "label_sheet", "stock": GRID, "labels": ["dose_tag"], "copies": 2,
                          "start_at": 8}]
        pages = self.places(job=self.write("job.json", job))
        self.assertEqual([len(page) for page in pages], [1, 1])
        info = subprocess.run(["pdfinfo", self.path("labels.pdf")], capture_output=True, text=True,
                              check=True).stdout
        self.assertIn(f"Label sheet ({GRID})", info)
        with open(self.path("labels.pdf"), "rb") as file:
            self.assertIn(b"/Duplex /Simplex", file.read())

    def test_bleed_and_crop_marks_are_told_in_the_page_boxes(self):
        self.places("--sheet", "dose_tag", "--stock", "label_74x52", "--bleed", "2mm", "--crop-marks")
        boxes = subprocess.run(["pdfinfo", "-box", self.path("labels.pdf")], check=True,
                               capture_output=True, text=True).stdout
        def box(name):
            found = re.search(name + r":\s+([\d.]+)\s+([\d.]+)\s+([\d.]+)\s+([\d.]+)", boxes)
            return [float(number) / MM for number in found.groups()]
        for name, edge in (("MediaBox", 0), ("BleedBox", 3), ("TrimBox", 5)):
            wanted = [edge, edge, 84 - edge, 62 - edge]
            for found, expected in zip(box(name), wanted):
                self.assertAlmostEqual(found, expected, delta=HUNDREDTH)

    def test_what_cannot_be_is_said_with_the_way_out_and_nothing_is_printed(self):
        label = ("--sheet", "dose_tag", "--stock", GRID)
        shop = self.write("shop.json", {"printer": {"right": "5.2 mm"}})
        cases = [(2, "did you mean a4_2x4_99x68?", "--sheet", "dose_tag", "--stock", "a4_2x4_99x86"),
                 (2, "did you mean label_100x150?", "--sheet", "dose_tag", "--stock", "label_100x15"),
                 (2, "give sides from 20 to 1200 mm: 80x120mm", "--stock", "5x120mm"),
                 (2, "position 9 is not on the sheet: a4_2x4_99x68 has positions 1 to 8", *label,
                  "--start-at", "9"),
                 (2, "no whole number from 1 to 999", *label, "--start-at", "0"),
                 (2, "no whole number from 1 to 400", *label, "--copies", "1.5"),
                 (2, "--bleed 2 is not from 0 to 5 mm", *label, "--bleed", "2"),
                 (2, "there is no position 2 on label_74x52, which is no sheet of labels", "--sheet",
                  "dose_tag", "--stock", "label_74x52", "--start-at", "2"),
                 (2, "there is no printer \"counter\"", *label, "--printer", "counter"),
                 (2, "the label sheet has no stock", "--sheet", "label_sheet"),
                 (1, "a bleed of 2 mm would reach the next label", *label, "--bleed", "2mm"),
                 (1, "the printer is 5.2 mm off, and at most 5 mm are corrected", *label, "--shop", shop)]
        for status, wanted, *words in cases:
            with self.subTest(words=words):
                found, said = self.problem(*words)
                self.assertEqual(found, status, said)
                self.assertIn(wanted, said)
                self.assertIn("help:", said)

    def test_a_position_off_the_sheet_is_told_where_the_job_says_it(self):
        with open(EXAMPLE, encoding="utf-8") as file:
            job = json.load(file)
        job["sheets"] = [{"sheet": "dose_tag", "stock": GRID, "start_at": 9}]
        path = self.write("job.json", job)
        status, said = self.problem(job=path)
        self.assertEqual(status, 1)
        self.assertIn(f"{path}: /sheets/0/start_at", said)

    def test_the_alignment_page_serves_every_stock_in_every_language(self):
        listed = json.loads(run("list", "stocks", "--json").stdout)
        self.assertGreater(len(listed), 30)
        for stock in listed:
            for language in ("en", "es", "fr", "de"):
                with self.subTest(stock=stock["stock"], language=language):
                    done = run("print", EXAMPLE, "--alignment-page", "--stock", stock["stock"],
                               "--language", language, "--out", self.path("rulers.svg"))
                    self.assertEqual((done.returncode, done.stderr), (0, ""))


if __name__ == "__main__":
    unittest.main()
