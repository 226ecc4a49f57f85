"""Every number of a plan says where it comes from: `plan --why`, as text and as JSON."""
import json
import os
import unittest

from program import SOURCE, run

JOBS = [os.path.join(SOURCE, "examples", name) for name in ("quince-row.json", "chalk.json")]
JOBS += [os.path.join(SOURCE, "tests", "app", "jobs", name)
         for name in sorted(os.listdir(os.path.join(SOURCE, "tests", "app", "jobs")))]
EVERY = 101  # a prime: all kinds of numbers have their turn. All of them: tests/why


def numbers(value, pointer=""):
    if isinstance(value, bool):
        return
    if isinstance(value, (int, float)):
        yield pointer, value
    for step, item in value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ():
        yield from numbers(item, pointer + "/" + str(step).replace("~", "~0").replace("/", "~1"))


def nodes(node):
    yield node
    for item in node.get("inputs", []):
        yield from nodes(item)


class Why(unittest.TestCase):
    def test_numbers_are_explained_down_to_their_grounds(self):
        for job in JOBS:
            plan = json.loads(run("plan", job, "--json").stdout)
            for pointer, value in list(numbers(plan))[::EVERY]:
                with self.subTest(job=os.path.basename(job), pointer=pointer):
                    done = run("plan", job, "--why", pointer, "--json")
                    self.assertEqual(done.returncode, 0, done.stderr)
                    why = json.loads(done.stdout)
                    self.assertEqual((why["pointer"], why["value"]), (pointer, value))
                    names = set()
                    for node in nodes(why):
                        name = node.get("pointer", node.get("id"))
                        if node.get("explained") == "above":
                            self.assertIn(name, names)
                            continue
                        names.add(name)
                        self.assertTrue(node["inputs"] or node["origin"]["kind"], name)

    def test_the_text_has_the_same_number_and_fits_a_terminal(self):
        job = JOBS[0]
        plan = json.loads(run("plan", job, "--json").stdout)
        for pointer, value in list(numbers(plan))[::EVERY]:
            with self.subTest(pointer=pointer):
                done = run("plan", job, "--why", pointer)
                self.assertEqual(done.returncode, 0, done.stderr)
                head = done.stdout.split("\n\n")[0].replace("\n     ", " ")
                self.assertTrue(head.startswith(f"[1]  {pointer} = "), head)
                self.assertEqual(float(head.split(" = ")[1].split()[0]), value)
                self.assertLessEqual(max(len(line) for line in done.stdout.splitlines()), 80)

    def test_a_pointer_to_nothing_names_the_nearest(self):
        for pointer, near in (("/steps/3/amount_gg", "/steps/3/amount_g"), ("/steps", "/steps/0/number"),
                              ("/sanitizer", "/"), ("", "/tubwright_plan")):
            done = run("plan", JOBS[0], "--why", pointer)
            self.assertEqual((done.returncode, done.stdout), (2, ""))
            self.assertIn(near, done.stderr)


if __name__ == "__main__":
    unittest.main()
