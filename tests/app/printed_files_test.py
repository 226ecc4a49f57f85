"""The examples' cards as files: valid, tagged as laid out, the same twice, and alike in every format."""
import glob
import os
import subprocess
import sys
import tempfile
import unittest

from program import SOURCE, run

sys.path.insert(0, os.path.join(SOURCE, "tests", "export"))
import check_pdf  # noqa: E402
import check_picture  # noqa: E402
import measure_pdf  # noqa: E402

DUMP_PAGES = os.environ["TUB_DUMP_PAGES"]
FACES = os.environ["TUB_FACES"]
CONTAINERS = os.path.join(SOURCE, "tests", "app", "containers.json")
SHEETS = (("cabinet_label", "label_100x150"), ("cabinet_label", "label_4x6in"), ("dose_tag", "label_74x52"),
          ("container_label", "label_74x105"), ("hazard_sheet", "a4"),
          ("label_sheet", "a4_2x2_105x149"), ("label_sheet", "letter_2x2_102x127"))
EXAMPLES = sorted(glob.glob(os.path.join(SOURCE, "examples", "*.json")))


def content(path):
    with open(path, "rb") as file:
        return file.read()


class PrintedFiles(unittest.TestCase):
    def setUp(self):
        self.folder = tempfile.TemporaryDirectory()
        self.addCleanup(self.folder.cleanup)
        self.assertGreaterEqual(len(EXAMPLES), 4)

    def printed(self, job, stock, name, *words, sheet="startup_card"):
        """The paths of the files that one call writes, in the order of their pages."""
        stem, ending = os.path.splitext(os.path.join(self.folder.name, name))
        for old in glob.glob(f"{stem}*{ending}"):
            os.remove(old)
        done = run("print", job, "--sheet", sheet, "--stock", stock, "--out", stem + ending, *words)
        self.assertEqual((done.returncode, done.stdout), (0, ""), done.stderr)
        paths = sorted(glob.glob(f"{stem}*{ending}"))
        self.assertTrue(paths)
        return paths

    def dumped(self, job, stock, *words, sheet="startup_card"):
        path = os.path.join(self.folder.name, "pages.txt")
        with open(path, "wb") as file:
            subprocess.run([DUMP_PAGES, job, "--sheet", sheet, "--stock", stock, *words],
                           check=True, stdout=file)
        return path

    def test_validators_and_readers_find_what_was_laid_out(self):
        for job in EXAMPLES:
            for stock in ("a4", "letter"):
                with self.subTest(job=job, stock=stock):
                    pdf, = self.printed(job, stock, "card.pdf")
                    self.assertEqual(check_pdf.check(pdf, self.dumped(job, stock), FACES), [])

    def test_every_sheet_in_every_language_is_read_as_it_was_laid_out(self):
        for language in ("en", "es", "fr", "de"):
            for sheet, stock in SHEETS:
                with self.subTest(sheet=sheet, language=language):
                    words = ("--language", language)
                    pdf, = self.printed(CONTAINERS, stock, "sheet.pdf", *words, sheet=sheet)
                    dump = self.dumped(CONTAINERS, stock, *words, sheet=sheet)
                    self.assertEqual(check_pdf.check(pdf, dump, FACES), [])
                    for figures in measure_pdf.measure(pdf):
                        litres = 0.5 if sheet == "container_label" else None
                        self.assertEqual(measure_pdf.broken_rules(figures, litres), [])

    def test_pictures_show_what_the_pdf_prints(self):
        for job in EXAMPLES:
            pdf, = self.printed(job, "a4", "card.pdf")
            pictures = self.printed(job, "a4", "card.png", "--dpi", "144")
            for number, path in enumerate(pictures, 1):
                with self.subTest(job=job, page=number):
                    difference, place = check_picture.worst(pdf, number, check_picture.read_png(path))
                    self.assertLessEqual(difference, check_picture.TOLERANCE, place)

    def test_the_same_job_gives_the_same_bytes(self):
        for job in EXAMPLES:
            for ending in ("pdf", "svg"):
                with self.subTest(job=job, ending=ending):
                    first = self.printed(job, "letter", f"one.{ending}")
                    second = self.printed(job, "letter", f"two.{ending}")
                    self.assertTrue(list(map(content, first)) == list(map(content, second)))


if __name__ == "__main__":
    unittest.main()
