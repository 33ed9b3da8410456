#!/usr/bin/env python3
"""scatter_test.py PROGRAM [CLASS …] - `bloomset scatter` as its user meets it."""
import pathlib
import sys
import unittest

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent))
import cli_test
from cli_test import Cli

ROOT = pathlib.Path(__file__).resolve().parents[2]
DEMO = ROOT / "demo"
SOUR = """bloomset = 1
title = "Test"
serves = 2
targets = ["serve.abv 12-16 %", "'sour'.mass >= 1 g"]
[[part]]
name = "sour"
made = "to order"
  [[part.step]]
  do = "shake"
  take = ["50 mL spirit (40 %vol)", "25 mL lime juice", "20 mL simple syrup"]
  ice = "200 g ice cubes"
  leave = ["ice"]
  time = "10-14 s"
[serve]
vessel = "low glass, 300 mL"
pour = [ { take = ["all 'sour'"] } ]
"""


class Scatter(Cli):
    def sour(self):
        return self.file(SOUR)

    def test_the_document_has_the_keys_of_the_contract(self):
        v = self.document("scatter", self.sour(), "--draws", "4096", "--seed", "1")
        self.keys(v, "schema title draws seed properties holds causes rests_on says findings")
        for row in v["properties"]:
            self.keys(row, "where key p05 p50 p95 error draws")
            self.assertLessEqual(row["p05"], row["p50"])
            self.assertLessEqual(row["p50"], row["p95"])
            self.assertGreaterEqual(row["error"], 0)
        self.assertEqual({row["where"] for row in v["properties"]}, {"serve", "'sour'"})
        for row in v["causes"]:
            self.keys(row, "knob of first_order total first_order_error total_error")
            self.assertGreaterEqual(row["total"] + row["total_error"], 0.01)
        self.assertEqual([row["target"] for row in v["holds"]], ["serve.abv 12-16 %", "'sour'.mass >= 1 g"])
        self.assertEqual(v["holds"][1]["share"], 1)
        self.assertIn("assumption", self.codes(v))
        knobs = {row["knob"] for row in v["causes"]}
        self.assertLessEqual(knobs, {row["knob"] for row in v["varies"]})
        for row in v["varies"]:
            self.keys(row, "knob law rests_on source")
            self.assertEqual(row["rests_on"] == "memory", row["source"].startswith("memory: "))
        self.assertIn("acid of the lime juice", knobs)
        self.assertIn("wetness of the ice cubes", knobs)

    def test_the_largest_cause_of_a_property_comes_first(self):
        causes = self.document("scatter", self.sour())["causes"]
        for before, after in zip(causes, causes[1:]):
            if before["of"] == after["of"]:
                self.assertGreaterEqual(before["total"], after["total"])

    def test_the_same_question_has_the_same_answer_and_another_seed_another(self):
        path = self.sour()
        first, _ = self.call("scatter", path, "--draws", "1000", "--json")
        again, _ = self.call("scatter", path, "--draws", "1000", "--json")
        other, _ = self.call("scatter", path, "--draws", "1000", "--seed", "2", "--json")
        self.assertEqual(first, again)
        self.assertNotEqual(first, other)

    def test_one_draw_and_many_are_answered(self):
        path = self.sour()
        one = self.document("scatter", path, "--draws", "1")
        self.assertTrue(all(row["draws"] == 1 and row["p05"] == row["p95"] for row in one["properties"]))
        many = self.document("scatter", path, "--draws", "50000")
        for row in many["properties"]:
            self.assertEqual(row["draws"], 50000 if row["where"] == "serve" else 16384)

    def test_the_page_reads(self):
        for path in sorted(DEMO.glob("*.toml")):
            with self.subTest(path=path.name):
                out, err = self.call("scatter", path, "--draws", "256")
                self.assertEqual(err, "")  # progress is for a terminal only
                for line in out.splitlines():
                    self.assertLessEqual(len(line), 80, line)
                self.assertNotRegex(out.lower(), r"\b(nan|inf|safe)\b")
                self.assertRegex(" ".join(out.split()), r"(Measure|Mind) the .*: it causes \d+ % of the scatter in |Nothing here varies")

    def test_bad_input(self):
        path = self.sour()
        for arguments, word in (
            ([path, "--draws", "0"], "not in range 1 to 100000000"),
            ([path, "--draws", "1000000000000"], "not in range 1 to 100000000"),
            ([path, "--draws", "-5"], "--draws"),
            ([path, "--draws", "many"], "--draws"),
            ([path, "--draws", "1e30"], "--draws"),
            ([path, "--seed", "x"], "--seed"),
            ([path, "--seed", "-1"], "--seed"),
            (["nowhere.toml"], "nowhere.toml"),
            ([], "FORMULA"),
            ([self.file(SOUR.replace("lime juice", "lyme juice"), "bad.toml")], "lime juice"),
            ([self.file(SOUR.replace("'sour'.mass", "'sower'.mass"), "worse.toml")], "sower"),
            ([path, "--vary", "lime juice"], "--vary"),
        ):
            with self.subTest(arguments=arguments):
                out, err = self.call("scatter", *arguments, code=2)
                self.assertEqual(out, "")
                self.assertIn(word.lower(), err.lower())


if __name__ == "__main__":
    if len(sys.argv) < 2:
        sys.exit(__doc__)
    cli_test.PROGRAM = str(pathlib.Path(sys.argv.pop(1)).resolve())
    unittest.main()
