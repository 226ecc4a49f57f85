"""Labels as files: the code is read back from paper as the job, and what must not be printed is not."""
import glob
import json
import os
import subprocess
import sys
import tempfile
import unittest

from program import EXAMPLE, SOURCE, example, run

sys.path.insert(0, os.path.join(SOURCE, "tests", "export"))
import check_pdf  # noqa: E402
import measure_pdf  # noqa: E402

DUMP_PAGES = os.environ["TUB_DUMP_PAGES"]
FACES = os.environ["TUB_FACES"]
EXAMPLES = sorted(glob.glob(os.path.join(SOURCE, "examples", "*.json")))
SHOP = {"name": "Thrushwater Tubs", "phone": "555-0142", "address": "3 Sluice Lane, Millbeck"}


def fingerprint(job_text):
    done = run("plan", "-", "--json", stdin=job_text)
    return json.loads(done.stdout)["fingerprint"]


class Labels(unittest.TestCase):
    def setUp(self):
        self.folder = tempfile.TemporaryDirectory()
        self.addCleanup(self.folder.cleanup)

    def path(self, name):
        return os.path.join(self.folder.name, name)

    def scanned(self, picture):
        """The text of the one square code on a picture, as a stranger's reader has it."""
        read = subprocess.run(["zbarimg", "--quiet", "--raw", "-S*.disable", "-Sqrcode.enable", picture],
                              capture_output=True, text=True, check=False)
        self.assertEqual(read.returncode, 0, f"no code was read on {picture}")
        return read.stdout.rstrip("\n")

    def test_the_code_is_read_from_the_pdf_and_from_the_bitmap(self):
        for job in EXAMPLES:
            with open(job, encoding="utf-8") as file:
                wanted = fingerprint(file.read())
            for dpi in ("203", "300"):
                with self.subTest(job=job, dpi=dpi):
                    pdf = self.path("label.pdf")
                    done = run("print", job, "--sheet", "cabinet_label", "--out", pdf)
                    self.assertEqual(done.returncode, 0, done.stderr)
                    subprocess.run(["pdftoppm", "-r", dpi, "-gray", "-png", pdf, self.path("label")], check=True)
                    picture, = glob.glob(self.path("label-*.png"))
                    bitmap = self.path("bits.png")
                    done = run("print", job, "--sheet", "cabinet_label", "--format", "bitmap", "--dpi", dpi,
                               "--out", bitmap)
                    self.assertEqual(done.returncode, 0, done.stderr)
                    for source in (picture, bitmap):
                        text = self.scanned(source)
                        self.assertEqual(fingerprint(text), wanted)
                        again = run("print", "-", "--sheet", "startup_card", "--out", self.path("again.pdf"),
                                    stdin=text)
                        self.assertEqual(again.returncode, 0, again.stderr)

    def test_no_name_and_no_address_is_in_the_code(self):
        pdf = self.path("label.pdf")
        job = json.loads(example())
        other = json.loads(example())
        other["heading"]["prepared_for"] = "Somebody Else"
        other["vessel"]["name"] = "Elsewhere"
        texts = []
        for each in (job, other):
            run("print", "-", "--sheet", "cabinet_label", "--out", pdf, stdin=json.dumps(each))
            subprocess.run(["pdftoppm", "-r", "300", "-png", pdf, self.path("label")], check=True)
            picture, = glob.glob(self.path("label-*.png"))
            texts.append(self.scanned(picture))
        self.assertEqual(texts[0], texts[1])

    def big_job(self):
        """A job of its own targets, strengths and dates: more than the square holds."""
        job = json.loads(example())
        job["targets"] = {"set": "common_practice",
                          "calcium_hardness": {"low": "160 mg/L", "high": "240 mg/L"},
                          "total_alkalinity": {"low": "85 mg/L", "ideal": "95 mg/L", "high": "115 mg/L"}}
        job["second_source"] = {
            "tested_with": "photometer", "ph": 7.61, "total_alkalinity": "143.7 mg/L as CaCO3",
            "calcium_hardness": "219.3 mg/L as CaCO3", "sulfate": "87.13 mg/L", "chloride": "39.77 mg/L",
            "nitrate": "17.31 mg/L", "sodium": "23.97 mg/L", "copper": "0.037 mg/L", "iron": "0.113 mg/L",
            "manganese": "0.017 mg/L", "temperature": "11.7 °C"}
        for number, item in enumerate(job["shelf"]):
            name = item if isinstance(item, str) else item["product"]
            job["shelf"][number] = {**(item if isinstance(item, dict) else {"product": name}),
                                    "package": f"{1371 + 17 * number} g", "made_on": f"2026-03-{11 + number}"}
            if name == "dichlor_dihydrate":
                job["shelf"][number]["strength"] = "54.6 % w/w as Cl2"
        return job

    def test_a_job_too_big_for_its_square_has_a_label_without_one_and_says_so(self):
        out = self.path("label.pdf")
        done = run("print", "-", "--sheet", "cabinet_label", "--out", out, stdin=json.dumps(self.big_job()))
        self.assertEqual(done.returncode, 0, done.stderr)
        self.assertIn("cabinet_label leaves out the code: the job takes", done.stderr)
        self.assertIn("bytes in the label's code", done.stderr)
        self.assertIn("leave out", done.stderr)
        text = subprocess.run(["pdftotext", "-layout", out, "-"], capture_output=True, text=True, check=True).stdout
        self.assertIn("160–240", text)  # its own target
        self.assertNotIn("Scan", text)
        self.assertNotIn("leaves out the fourth reading", done.stderr)

    def test_a_job_that_its_square_holds_says_nothing_of_it(self):
        done = run("print", EXAMPLE, "--sheet", "cabinet_label", "--out", self.path("label.pdf"))
        self.assertEqual((done.returncode, done.stderr), (0, ""))

    def test_a_shelf_of_ten_products_has_its_hazard_sheet(self):
        job = os.path.join(SOURCE, "tests", "app", "jobs", "ten-on-the-shelf.json")
        for stock in ("a4", "letter"):
            for language in ("en", "es", "fr", "de"):
                with self.subTest(stock=stock, language=language):
                    out, dump = self.path("hazards.pdf"), self.path("pages.txt")
                    words = ("--sheet", "hazard_sheet", "--stock", stock, "--language", language)
                    done = run("print", job, *words, "--out", out)
                    self.assertEqual((done.returncode, done.stderr), (0, ""))
                    with open(dump, "wb") as file:
                        subprocess.run([DUMP_PAGES, job, *words], check=True, stdout=file)
                    self.assertEqual(check_pdf.check(out, dump, FACES), [])

    def test_labels_of_a_tub_without_a_name_have_titles_that_are_sentences(self):
        job = json.loads(example())
        del job["vessel"]["name"]
        for sheet, title in (("cabinet_label", "Cabinet label: Tub of 1340\u202fL"),
                             ("dose_tag", "Dose tag: Sodium bicarbonate, Tub of 1340\u202fL"),
                             ("hazard_sheet", "Hazard sheet: Tub of 1340\u202fL"),
                             ("startup_card", "Startup card: Tub of 1340\u202fL")):
            with self.subTest(sheet=sheet):
                out = self.path("label.pdf")
                done = run("print", "-", "--sheet", sheet, "--out", out, stdin=json.dumps(job))
                self.assertEqual(done.returncode, 0, done.stderr)
                found = subprocess.run(["pdfinfo", "-enc", "UTF-8", out], capture_output=True, text=True,
                                       check=True).stdout
                self.assertIn(f"Title:           {title}\n", found)

    def test_a_tag_too_small_is_refused_with_its_figure_and_the_sizes_that_work(self):
        done = run("print", EXAMPLE, "--sheet", "dose_tag", "--stock", "label_50x30", "--language", "de",
                   "--out", self.path("tag.pdf"))
        self.assertEqual(done.returncode, 1)
        self.assertRegex(done.stderr, r"dose_tag does not fit on label_50x30: \d+\.\d mm are missing in height")
        self.assertIn("dose_tag fits on 60 × 40, 63 × 38, 70 × 37 or 52 × 74 mm and larger", done.stderr)

    def test_what_a_small_tag_leaves_out_is_said(self):
        done = run("print", EXAMPLE, "--sheet", "dose_tag", "--stock", "label_50x30", "--out",
                   self.path("tag.pdf"))
        self.assertEqual(done.returncode, 0, done.stderr)
        self.assertIn("dose_tag of dry_acid on label_50x30 leaves out the date, the second amount of each "
                      "reading, more than one use on a tag", done.stderr)

    def test_help_and_lists_name_the_sizes_of_the_templates(self):
        listed = {row["sheet"]: row["sizes"] for row in json.loads(run("list", "sheets", "--json").stdout)}
        told = " ".join(run("print", "--help").stdout.split())
        for sheet in ("startup_card", "hazard_sheet", "cabinet_label", "dose_tag", "container_label"):
            least = listed[sheet].split(" and larger")[0]
            with self.subTest(sheet=sheet, least=least):
                self.assertIn(least, told)
        stocks = {row["stock"]: row["sheets"] for row in json.loads(run("list", "stocks", "--json").stdout)}
        self.assertEqual(stocks["label_50x30"], [])
        self.assertEqual(stocks["label_74x52"], ["dose_tag"])
        self.assertIn("cabinet_label", stocks["label_100x150"])
        self.assertIn("dose_tag", run("list", "stocks").stdout)

    def container_job(self, **item):
        job = json.loads(example())
        job["rules"] = "clp"
        job["heading"]["prepared_by"] = {**job["heading"]["prepared_by"], **SHOP}
        job["heading"]["prepared_by"].pop("logo", None)
        job["shelf"] = [each for each in job["shelf"] if each != "dry_acid"]
        job["shelf"].append({"product": "dry_acid", "package": "500 g", "stays_in": "workplace", **item})
        return job

    def refused(self, job, *words, status=1):
        out = self.path("label.pdf")
        if "--out" in words:
            out = words[words.index("--out") + 1]
        else:
            words = (*words, "--out", out)
        done = run("print", "-", "--sheet", "container_label", *words, stdin=json.dumps(job))
        self.assertEqual(done.returncode, status, done.stderr)
        self.assertFalse(os.path.exists(out))
        return done.stderr

    def test_a_container_label_prints_in_every_language_and_set_of_rules(self):
        for rules, languages in (("clp", ["en"]), ("clp", ["es"]), ("clp", ["fr"]), ("clp", ["de"]),
                                 ("clp", ["de", "en"]), ("hazcom", ["en"]), ("hazcom", ["en", "es"])):
            with self.subTest(rules=rules, languages=languages):
                job = self.container_job()
                job["rules"] = rules
                stock = "label_74x105" if len(languages) == 1 else "label_105x148"
                job["sheets"] = [{"sheet": "container_label", "language": languages, "stock": stock}]
                out = self.path("label.pdf")
                done = run("print", "-", "--out", out, stdin=json.dumps(job))
                self.assertEqual(done.returncode, 0, done.stderr)
                text = subprocess.run(["pdftotext", "-layout", out, "-"], capture_output=True, text=True,
                                      check=True).stdout
                words = {"en": "Danger", "es": "Peligro", "fr": "Danger", "de": "Gefahr"}
                for language in languages:
                    self.assertIn(words[language], text)

    def test_what_a_container_label_lacks_is_told_with_its_place(self):
        job = self.container_job()
        del job["rules"]
        self.assertIn("/rules", self.refused(job))
        job = self.container_job()
        del job["heading"]["prepared_by"]["address"]
        message = self.refused(job)
        self.assertIn("address is missing", message)
        self.assertIn("/heading/prepared_by", message)
        message = self.refused(self.container_job(package={"capacity": "0.5 L"}))
        self.assertIn("the package of dry_acid has a size and no contents", message)
        self.assertIn("/shelf/", message)
        message = self.refused(self.container_job(), "--format", "bitmap", "--out", self.path("label.png"))
        self.assertIn("one ink", message)

    def test_an_owners_sanitizer_is_refused_and_the_tag_offered(self):
        job = self.container_job()
        job["shelf"] = [each for each in job["shelf"] if each != "dichlor_dihydrate"]
        job["shelf"].append({"product": "dichlor_dihydrate", "package": "500 g"})
        message = self.refused(job)
        self.assertIn("not re-labelled", message)
        self.assertIn("dose_tag", message)

    def test_the_finished_pdf_of_a_container_label_keeps_the_rules(self):
        for grams, litres, stock in ((400, 0.4, "label_74x105"), (2000, 2, "label_74x105"),
                                     (15000, 15, "label_105x148")):
            with self.subTest(litres=litres):
                job = self.container_job(package={"contents": f"{grams} g", "capacity": f"{litres} L"})
                out = self.path("label.pdf")
                done = run("print", "-", "--sheet", "container_label", "--stock", stock, "--out", out,
                           stdin=json.dumps(job))
                self.assertEqual(done.returncode, 0, done.stderr)
                figures, = measure_pdf.measure(out)
                self.assertEqual(measure_pdf.broken_rules(figures, litres), [])
                self.assertEqual(len(figures["pictogram_sides_mm"]), 1)

    def test_every_sheet_passes_the_checks_of_a_file_in_every_language(self):
        for sheet in ("dose_tag", "cabinet_label", "hazard_sheet"):
            for language in ("en", "es", "fr", "de"):
                with self.subTest(sheet=sheet, language=language):
                    out, dump = self.path("label.pdf"), self.path("pages.txt")
                    words = ("--sheet", sheet, "--language", language)
                    done = run("print", EXAMPLE, *words, "--out", out)
                    self.assertEqual(done.returncode, 0, done.stderr)
                    with open(dump, "wb") as file:
                        subprocess.run([DUMP_PAGES, EXAMPLE, *words], check=True, stdout=file)
                    self.assertEqual(check_pdf.check(out, dump, FACES), [])


if __name__ == "__main__":
    unittest.main()
