"""Files are written whole or not at all."""
import fcntl
import json
import os
import random
import shutil
import stat
import struct
import subprocess
import sys
import tempfile
import time
import unittest
import zlib

from program import EXAMPLE, PROGRAM, SOURCE, example, run

sys.path.insert(0, os.path.join(SOURCE, "tests", "export"))
import check_pdf  # noqa: E402
import check_picture  # noqa: E402


def png(width, height, padding=0):
    """A grey picture, made by hand (W3C PNG, chunks IHDR, IDAT, IEND), with bytes of comment."""
    def chunk(kind, data):
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))
    rows = b"".join(b"\0" + b"\x80" * width for _ in range(height))
    return (b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", struct.pack(">IIBBBBB", width, height, 8, 0, 0, 0, 0))
            + chunk(b"tEXt", b"Comment\0" + b"x" * padding) + chunk(b"IDAT", zlib.compress(rows)) + chunk(b"IEND", b""))


class InFolder(unittest.TestCase):
    def setUp(self):
        self.folder = tempfile.TemporaryDirectory()
        self.addCleanup(self.folder.cleanup)

    def path(self, name):
        return os.path.join(self.folder.name, name)

    def write(self, name, content):
        with open(self.path(name), "wb") as file:
            file.write(content if isinstance(content, bytes) else content.encode())
        return self.path(name)

    def names(self):
        return sorted(os.listdir(self.folder.name))


class Output(InFolder):
    def print(self, out, *words):
        return run("print", EXAMPLE, "--out", out, *words)

    def test_the_format_follows_the_ending_or_the_option(self):
        starts = {"pdf": b"%PDF-1.4", "svg": b"<?xml", "png": b"\x89PNG", "pbm": b"P4"}
        for ending, start in starts.items():
            self.assertEqual(self.print(self.path("card." + ending)).returncode, 0)
        self.assertEqual(self.print(self.path("odd.name"), "--format", "pdf").returncode, 0)
        self.assertEqual(self.print(self.path("noending")).returncode, 0)
        for name in self.names():
            with open(self.path(name), "rb") as file:
                start = starts.get(name.rsplit(".", 1)[-1], starts["pdf"])
                self.assertEqual(file.read(len(start)), start, name)

    def test_pages_of_pictures_are_numbered(self):
        self.assertEqual(self.print(self.path("card.png"), "--stock", "letter").returncode, 0)
        self.assertEqual(self.names(), ["card-1.png", "card-2.png"])
        done = run("print", EXAMPLE, "--out", "-", "--format", "png", "--stock", "letter", text=False)
        self.assertEqual((done.returncode, done.stdout), (2, b""))

    def test_a_picture_has_the_dots_per_inch_that_it_says(self):
        # A4 is 210 mm wide: 8.268 in.
        self.assertEqual(self.print(self.path("card.png"), "--dpi", "50").returncode, 0)
        with open(self.path(self.names()[0]), "rb") as file:
            width = struct.unpack(">I", file.read(20)[16:20])[0]
        self.assertAlmostEqual(width, 8.268 * 50, delta=1)

    def test_standard_output_gets_the_same_bytes_as_a_file(self):
        self.print(self.path("card.pdf"))
        done = run("print", EXAMPLE, "--out", "-", "--format", "pdf", text=False)
        with open(self.path("card.pdf"), "rb") as file:
            self.assertEqual(done.stdout, file.read())

    def test_a_failed_run_leaves_the_old_file_as_it_was(self):
        old = self.write("card.pdf", "old")
        self.assertEqual(run("print", "-", "--out", old, stdin="{}").returncode, 1)
        # Nothing larger than a block can be written: a disk that is full, for one process.
        limited = subprocess.run(["bash", "-c", 'ulimit -f 1; trap "" XFSZ; exec "$@"', "bash", PROGRAM, "print",
                                  EXAMPLE, "--out", old], capture_output=True, text=True)
        self.assertEqual(limited.returncode, 3, limited.stderr)
        self.assertIn("cannot be written", limited.stderr)
        with open(old, encoding="utf-8") as file:
            self.assertEqual(file.read(), "old")
        self.assertEqual(self.names(), ["card.pdf"])

    def test_a_full_disk_and_a_closed_pipe_are_the_machines_fault(self):
        for words in (["plan", EXAMPLE], ["plan", EXAMPLE, "--json"], ["new"], ["list", "units"], ["schema", "job"],
                      ["--help"], ["print", EXAMPLE, "--out", "-"]):
            with open("/dev/full", "wb") as full:
                done = subprocess.run([PROGRAM, *words], stdout=full, stderr=subprocess.PIPE, text=True)
            self.assertEqual(done.returncode, 3, words)
            self.assertIn("No space left on device", done.stderr)
        for words in (["print", EXAMPLE, "--out", "/dev/full"], ["new", "--out", "/dev/full"]):
            self.assertEqual(run(*words).returncode, 3, words)
        reader, writer = os.pipe()
        os.close(reader)
        done = subprocess.run([PROGRAM, "list", "units"], stdout=writer, stderr=subprocess.PIPE, text=True)
        os.close(writer)
        self.assertEqual(done.returncode, 3)

    def test_closed_streams_are_not_taken_for_files(self):
        for closed, status in (("<&-", 0), (">&-", 3), ("2>&-", 0)):
            done = subprocess.run(["bash", "-c", f'"$@" {closed}', "bash", PROGRAM, "plan", EXAMPLE], capture_output=True)
            self.assertEqual(done.returncode, status, closed)
        job = self.write("job.json", "{}")
        done = subprocess.run(["bash", "-c", '"$@" <&- >&- 2>&-', "bash", PROGRAM, "print", job, "--out",
                               self.path("card.pdf")])
        self.assertEqual((done.returncode, self.names()), (1, ["job.json"]))
        with open(job, encoding="utf-8") as file:
            self.assertEqual(file.read(), "{}")

    def test_a_folder_that_is_not_there_is_the_machines_fault(self):
        done = self.print(self.path("no/such/folder/card.pdf"))
        self.assertEqual(done.returncode, 3)
        self.assertIn("No such file or directory", done.stderr)

    def test_a_file_keeps_its_mode_and_a_link_stays_a_link(self):
        target = self.write("target.pdf", "old")
        os.chmod(target, 0o600)
        os.symlink(target, self.path("link.pdf"))
        self.assertEqual(self.print(self.path("link.pdf")).returncode, 0)
        self.assertTrue(os.path.islink(self.path("link.pdf")))
        self.assertEqual(stat.S_IMODE(os.stat(target).st_mode), 0o600)
        with open(target, "rb") as file:
            self.assertEqual(file.read(4), b"%PDF")


class Overwriting(InFolder):
    """What is there already is replaced only where that can be meant."""
    def assert_asks(self, done, said):
        self.assertEqual(done.returncode, 2, done.stderr)
        self.assertIn(said, done.stderr)
        self.assertIn("--force", done.stderr)

    def test_a_starter_job_never_replaces_a_file_unasked(self):
        job = self.write("job.json", "readings of a whole afternoon")
        self.assert_asks(run("new", "--out", job), "there is a file at")
        os.symlink(job, self.path("link.json"))
        self.assert_asks(run("new", "--out", self.path("link.json")), "there is a file at")
        with open(job, encoding="utf-8") as file:
            self.assertEqual(file.read(), "readings of a whole afternoon")
        self.assertEqual(run("new", "--out", job, "--force").returncode, 0)
        with open(job, encoding="utf-8") as file:
            self.assertIn('"tubwright"', file.read())
        self.assertEqual(run("new", "--out", self.path("another.json")).returncode, 0)

    def test_a_print_never_replaces_what_it_is_made_from_unasked(self):
        job = json.loads(example())
        job["heading"]["prepared_by"]["logo"] = "logo.png"
        inputs = {"job.json": json.dumps(job), "shop.json": '{ "language": "en" }', "logo.png": png(40, 20)}
        for name, content in inputs.items():
            self.write(name, content)
        os.mkdir(self.path("languages"))
        with open(os.path.join(SOURCE, "templates", "languages", "en.json"), encoding="utf-8") as file:
            inputs["languages/en.json"] = file.read()
        self.write("languages/en.json", inputs["languages/en.json"])
        os.mkdir(self.path("elsewhere"))
        words = [self.path("job.json"), "--shop", self.path("shop.json"), "--data", self.folder.name, "--format", "pdf"]
        for number, (name, said) in enumerate((("job.json", "is the job itself"), ("shop.json", "is the shop's file"),
                                               ("logo.png", "is the logo"), ("languages/en.json", "is a template"))):
            link = self.path(f"elsewhere/link-{number}")
            os.symlink(self.path(name), link)
            other_name = self.path(f"elsewhere/other-{number}")
            os.link(self.path(name), other_name)
            for out in (self.path(name), self.path("elsewhere/../" + name), link, other_name):
                self.assert_asks(run("print", *words, "--out", out), said)
        for name, content in inputs.items():
            with open(self.path(name), "rb") as file:
                self.assertEqual(file.read(), content if isinstance(content, bytes) else content.encode(), name)
        self.assertEqual(run("print", *words, "--out", self.path("shop.json"), "--force").returncode, 0)

    def test_an_older_print_is_replaced_beside_the_shops_templates_too(self):
        out = self.path("card.pdf")
        for _ in range(2):
            self.assertEqual(run("print", EXAMPLE, "--data", self.folder.name, "--out", out).returncode, 0)

    def test_a_file_keeps_its_mode_whatever_the_mask_is(self):
        for mode in (0o666, 0o640, 0o444):
            old = self.write("card.pdf", "old")
            os.chmod(old, mode)
            done = subprocess.run(["bash", "-c", 'umask 077; exec "$@"', "bash", PROGRAM, "print", EXAMPLE, "--out", old],
                                  capture_output=True, text=True)
            self.assertEqual((done.returncode, done.stderr), (0, ""))
            self.assertEqual(stat.S_IMODE(os.stat(old).st_mode), mode)
            os.remove(old)

    @unittest.skipUnless(os.geteuid() == 0, "only root can leave a file to somebody else")
    def test_an_owner_that_cannot_be_kept_is_said(self):
        nobody = 65534
        os.chmod(self.folder.name, 0o777)
        old = self.write("card.pdf", "old")
        os.chmod(old, 0o666)
        done = subprocess.run([PROGRAM, "print", EXAMPLE, "--out", old], capture_output=True, text=True,
                              user=nobody, group=nobody, extra_groups=[])
        self.assertEqual(done.returncode, 0, done.stderr)
        self.assertIn("its owner and group could not be kept: Operation not permitted", done.stderr)
        self.assertEqual(stat.S_IMODE(os.stat(old).st_mode), 0o666)


class Kills(InFolder):
    """SIGKILL, which no program can do anything about."""
    def test_a_kill_leaves_the_old_file_or_the_new_one_and_nothing_else(self):
        new = run("new").stdout.encode()
        old = self.write("job.json", "old")
        draws = random.Random(12)
        started = time.monotonic()
        run("new", "--out", self.path("other.json"))
        usual = time.monotonic() - started
        os.remove(self.path("other.json"))
        seen = set()
        for _ in range(200):
            self.write("job.json", "old")
            process = subprocess.Popen([PROGRAM, "new", "--out", old, "--force"], stderr=subprocess.DEVNULL)
            time.sleep(draws.uniform(0, 1.5 * usual))
            process.kill()
            process.wait()
            with open(old, "rb") as file:
                seen.add(file.read())
        self.assertLessEqual(seen, {b"old", new})
        self.assertEqual(len(seen), 2, "no kill came too late, or each did")
        self.assertEqual(run("new", "--out", old, "--force").returncode, 0)
        self.assertEqual(self.names(), ["job.json"])

    def test_what_an_earlier_kill_left_is_removed_and_what_is_anothers_stays(self):
        left = ".tubwright-0123456789abcdef.draft"
        running = ".tubwright-fedcba9876543210.draft"
        not_ours = [".job.json.17", ".tubwright-notes.draft", ".tubwright-0123456789ABCDEF.draft", "tubwright.draft"]
        for name in [left, running, *not_ours]:
            self.write(name, "half")
        with open(self.path(running), "rb") as file:
            fcntl.flock(file, fcntl.LOCK_EX)
            self.assertEqual(run("new", "--out", self.path("job.json")).returncode, 0)
            self.assertEqual(self.names(), sorted(["job.json", running, *not_ours]))
        self.assertEqual(run("new", "--out", self.path("job.json"), "--force").returncode, 0)
        self.assertEqual(self.names(), sorted(["job.json", *not_ours]))


class OwnFiles(InFolder):
    """The program's own tables, maps and faces are those it was built with."""
    def setUp(self):
        super().setUp()
        os.mkdir(self.path("bin"))
        self.program = shutil.copy2(PROGRAM, self.path("bin/tubwright"))
        self.share = self.path("share/tubwright")
        shutil.copytree(os.path.join(os.path.dirname(PROGRAM), "share", "tubwright"), self.share)

    def print(self):
        job = json.loads(example())
        job["rules"] = "clp"
        job["shelf"][-1]["package"] = "1 L"
        job["sheets"] = ["startup_card", "cabinet_label", "hazard_sheet"]
        return subprocess.run([self.program, "print", "-", "--out", self.path("card.pdf")], input=json.dumps(job),
                              capture_output=True, text=True)

    def assert_refused(self, name, said):
        done = self.print()
        self.assertEqual(done.returncode, 3, name + done.stderr)
        self.assertIn(said, done.stderr)
        self.assertIn(name, done.stderr)
        self.assertFalse(os.path.exists(self.path("card.pdf")), name)

    def test_a_damaged_file_of_the_programs_own_is_refused_not_used(self):
        """Zeroed, shortened, one bit turned: whichever file it is that this print reads."""
        names = ["pdf/regular.cidtogid", "pdf/bold.tounicode", "pdf/regular.cidset", "pdf/srgb.icc",
                 "fonts/NotoSans-Regular.ttf", "fonts/NotoSans-Bold.ttf", "data/species.json", "data/products.json",
                 "data/targets.json", "data/hazards.json", "data/label_hazards.json",
                 "templates/languages/en.json", "templates/sheets/startup_card.json", "templates/styles/card.json",
                 "templates/stocks.json"]
        for name in names:
            path = os.path.join(self.share, name)
            with open(path, "rb") as file:
                whole = file.read()
            middle = len(whole) // 2
            turned = whole[:middle] + bytes([whole[middle] ^ 1]) + whole[middle + 1:]
            for damaged in (bytes(len(whole)), whole[:-1], turned):
                with open(path, "wb") as file:
                    file.write(damaged)
                self.assert_refused(name, "is damaged")
            with open(path, "wb") as file:
                file.write(whole)
        done = self.print()
        self.assertEqual((done.returncode, done.stderr), (0, ""))

    def test_a_list_of_checksums_that_is_not_there_is_no_leave_to_go_on(self):
        os.remove(os.path.join(self.share, "checksums.txt"))
        self.assert_refused("checksums.txt", "No such file or directory")

    def test_a_file_that_the_program_was_not_built_with_is_not_taken_for_its_own(self):
        shutil.copy(os.path.join(self.share, "templates/sheets/startup_card.json"),
                    os.path.join(self.share, "templates/sheets/another_card.json"))
        self.assert_refused("another_card.json", "not one that the program was built with")


class Logo(InFolder):
    def check(self, logo, content):
        if content is not None:
            self.write(logo, content)
        job = json.loads(example())
        job["heading"]["prepared_by"]["logo"] = logo
        return run("check", self.write("job.json", json.dumps(job)))

    def test_a_logo_is_found_beside_its_job(self):
        self.assertEqual(self.check("logo.png", png(40, 20)).returncode, 0)

    def test_a_logo_is_printed_alike_in_every_format(self):
        self.check("logo.png", png(40, 20))
        for out in ("card.pdf", "card.svg", "card.png", "card.pbm"):
            dpi = ("--dpi", "144") if out == "card.png" else ()
            done = run("print", self.path("job.json"), "--out", self.path(out), *dpi)
            self.assertEqual((done.returncode, done.stderr), (0, ""))
        images = subprocess.run(["pdfimages", "-list", self.path("card.pdf")], capture_output=True, text=True).stdout
        width, height = images.splitlines()[2].split()[3:5]
        self.assertEqual((width, height), ("40", "20"), images)
        self.assertEqual(check_pdf.check(self.path("card.pdf")), [])
        picture = check_picture.read_png(self.path("card-1.png"))
        difference, place = check_picture.worst(self.path("card.pdf"), 1, picture)
        self.assertLessEqual(difference, check_picture.TOLERANCE, place)

    def test_what_is_wrong_with_a_logo_is_the_jobs_fault(self):
        for content, said in ((None, "No such file"), (b"GIF89a", "is no PNG"), (png(2001, 1), "2001 x 1 pixels"),
                              (png(8, 8, padding=1 << 20), "bytes, and at most 1,048,576 bytes are read"),
                              (png(40, 20)[:-30], "is damaged")):
            done = self.check("logo.png", content)
            self.assertEqual(done.returncode, 1)
            self.assertIn(said, done.stderr)
            self.assertIn("/heading/prepared_by/logo", done.stderr)


class Data(InFolder):
    def test_a_shops_own_template_comes_first_and_its_faults_are_the_jobs(self):
        os.mkdir(self.path("languages"))
        with open(os.path.join(SOURCE, "templates", "languages", "en.json"), encoding="utf-8") as file:
            words = json.load(file)
        words["messages"]["startup_card"]["kind"] = "Our own card"
        self.write("languages/en.json", json.dumps(words))
        out = self.path("card.svg")
        done = run("print", EXAMPLE, "--out", self.path("card.pdf"), "--data", self.folder.name)
        self.assertEqual(done.returncode, 0, done.stderr)
        text = subprocess.run(["pdftotext", self.path("card.pdf"), "-"], capture_output=True, text=True).stdout
        self.assertIn("Our own card", text)
        del words["messages"]["startup_card"]["kind"]
        self.write("languages/en.json", json.dumps(words))
        done = run("print", EXAMPLE, "--out", out, "--data", self.folder.name)
        self.assertEqual(done.returncode, 1)
        self.assertIn("startup_card.kind", done.stderr.replace("/", "."))


if __name__ == "__main__":
    unittest.main()
