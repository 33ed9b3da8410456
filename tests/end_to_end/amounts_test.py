#!/usr/bin/env python3
"""amounts_test.py PROGRAM [CLASS …] - refit, batch and ratio from outside, and what a sheet says of a service and of scatter.

Expected figures were worked by hand, each with its basis. Standard library only.
"""
import pathlib
import sys
import unittest

import cli_test
from cli_test import CORDIAL, STIRRED, Cli

ROOT = pathlib.Path(__file__).resolve().parents[2]
SOUR, HARBOUR = ROOT / "demo/01-quay-sour.toml", ROOT / "demo/08-harbour-light.toml"


class Amounts(Cli):
    def page(self, *arguments, code=0):
        """What a person reads: 80 columns, nothing that is no number. The document behind it is the author's own."""
        out, err = self.call(*arguments, code=code)
        self.assertEqual(err, "")
        for line in out.split("bloomset = 1")[0].splitlines():
            if not line.startswith("#"):
                self.assertLessEqual(len(line), 80, line)
        self.assertNotRegex(out.lower(), r"\b(nan|inf|safe)\b")
        return out


class Refit(Amounts):
    KEYS = "met amounts targets conflict exchange before after formula findings"

    def refit(self, path, *swaps, code=0):
        options = [word for swap in swaps for word in ("--swap", swap)]
        answer = self.document("refit", path, *options, code=code)
        self.keys(answer, self.KEYS)
        for amount in answer["amounts"]:
            self.keys(amount, "thing part step before_g after_g rounded written whole")
        self.assertEqual(answer["met"], code == 0)
        self.page("refit", path, *options, code=code)
        return answer

    def test_the_new_document_is_the_same_drink(self):
        answer = self.refit(SOUR, "juniper spirit (43 %vol)=juniper spirit (47 %vol)", "'house syrup'=syrup (66 brix)")
        for target in answer["targets"]:
            self.assertTrue(target["met"], target)
            self.assertAlmostEqual(target["value"], target["before"], delta=0.0201 * target["before"])
        self.assertTrue(answer["formula"].startswith("# Invented"))
        (self.folder / "syrups.toml").write_text((ROOT / "demo/syrups.toml").read_text())
        again = self.document("sheet", self.file(answer["formula"]))
        self.assertAlmostEqual(again["serve"]["at_service"]["abv_percent"], answer["after"]["abv_percent"], places=6)

    def test_gelatin_and_bottle(self):
        # Square law of the Bloom test: 4 g at 200 Bloom are 4 (200/225)^0.5 = 3.77 g at 225.
        answer = self.refit(HARBOUR, "gelatin, gold leaf=gelatin, powder (225 bloom)")
        self.assertAlmostEqual(answer["amounts"][0]["after_g"], 3.77, delta=0.01)
        answer = self.refit(HARBOUR, "siphon, half litre=siphon, one litre")
        self.assertIn('"siphon, one litre"', answer["formula"])
        self.assertIn("assumption", self.codes(answer))

    def test_what_cannot_be_met_ends_with_one(self):
        path = self.file(CORDIAL.replace("orange juice", "spirit (50 %vol)"))
        answer = self.refit(path, "spirit (50 %vol)=spirit (20 %vol)", code=1)
        self.assertIn(False, [target["met"] for target in answer["targets"]])

    def test_bad_swaps(self):
        for swap, word in (
            ("juniper spirit (43 %vol)", "="),
            ("=water", "="),
            ("plum wine=water", "plum wine"),
            ("juniper spirt (43 %vol)=water", "juniper spirit"),
            ("lemon juice=lemom juice", "lemon juice"),
            ("lemon juice='nothing'", "nothing"),
            ("lemon juice=lemon juice (400 % acid)", "acid"),
            ("white sugar=honey", "borrows"),
        ):
            with self.subTest(swap=swap):
                self.assertIn(word, self.refused("refit", SOUR, "--swap", swap))
        self.refused("refit", HARBOUR, "--swap", "siphon, half litre=bucket")
        self.refused("refit", SOUR)
        self.refused("refit", "nowhere.toml", "--swap", "a=b")


class Batch(Amounts):
    def test_the_bottle_pours_what_the_ice_would_have_given(self):
        path = self.file(STIRRED)
        answer = self.document("batch", path, "--part", "'stirred'", "--serves", 20)
        self.keys(answer, "part serves amounts water_per_serve_g pour_g pour_ml spare_g bottles bottle_ml volume_20c_ml first_ice_c hold to_order bottled formula")
        self.properties(answer["bottled"], "abv_percent")
        sheet = self.document("sheet", path, "--serves", 20)
        part, takes = sheet["parts"][0], sheet["parts"][0]["takes"]
        self.assertAlmostEqual(answer["pour_g"], part["mass_g"], places=6)
        self.assertAlmostEqual(answer["bottled"]["abv_percent"], part["abv_percent"], places=6)
        self.assertAlmostEqual(answer["bottled"]["sugar_percent"], part["sugar_percent"], places=6)
        # Sugar is as much as went in, 10 mL of 60 Brix (1.286 g/mL, sucrose tables): so is all that is poured, by its share.
        self.assertAlmostEqual(20 * 10 * 1.286 * 0.6, sum(a["mass_g"] for a in answer["amounts"]) * answer["bottled"]["sugar_percent"] / 100, delta=1.0)
        self.assertEqual(answer["amounts"][-1]["thing"], "water")
        self.assertGreater(len(takes), 0)
        again = self.document("sheet", self.file(answer["formula"], "batch.toml"))
        self.assertEqual(again["parts"][0]["made"], "ahead")
        self.assertAlmostEqual(again["parts"][0]["abv_percent"], part["abv_percent"], delta=0.01)
        self.assertIn("bottles of", self.page("batch", path, "--part", "stirred", "--serves", 20))

    def test_the_freezer_is_told(self):
        answer = self.document("batch", self.file(STIRRED), "--part", "stirred", "--hold", "freezer")
        self.assertEqual(answer["hold"]["temperature_c"], -18)
        self.assertLess(answer["first_ice_c"], 0)
        self.page("batch", self.file(STIRRED), "--part", "stirred", "--hold", "freezer")

    def test_bad_batches(self):
        path = self.file(STIRRED)
        for arguments, word in (
            (["--part", "stired"], "stirred"),
            (["--part", "stirred", "--hold", "cellar"], "cellar"),
            (["--part", "stirred", "--bottle", "700"], "bottle"),
            (["--part", "stirred", "--bottle", "700 g"], "volume"),
            (["--part", "stirred", "--bottle", "0 mL"], "bottle"),
            (["--part", "stirred", "--serves", "0"], "serves"),
            ([], "part"),
        ):
            with self.subTest(arguments=arguments):
                self.assertIn(word, self.refused("batch", path, *arguments))
        self.refused("batch", self.file(CORDIAL), "--part", "cordial")


class Ratio(Amounts):
    THINGS = ["spirit (40 %vol)", "syrup (50 brix)", "lime juice"]

    def test_the_total_is_shared_out(self):
        answer = self.document("ratio", "2 : 1 : 0.75", *self.THINGS, "--total", "90 mL")
        self.properties(answer, "mass_g", "abv_percent")
        self.assertEqual([round(a["volume_ml"], 6) for a in answer["amounts"]], [48, 24, 18])  # 90 / 3.75 = 24
        sheet = self.document("check", self.file(answer["formula"]))
        self.keys(sheet, "findings targets")
        self.assertIn("2 : 1 : 0.75", self.page("ratio", "2 : 1 : 0.75", *self.THINGS))

    def test_water_meets_the_target(self):
        answer = self.document("ratio", "3:2:1", "spirit (40 %vol)", "cane spirit (40 %vol)", "lime juice", "--total", "180 mL", "--target", "abv 20 %", "--exact")
        self.assertTrue(answer["met"])
        self.assertAlmostEqual(answer["abv_percent"], 20, delta=0.5)
        # 60 mL of ethanol (150 mL at 40 %vol) are a fifth of 300 mL: 120 mL of water, volumes added.
        self.assertAlmostEqual(answer["amounts"][-1]["mass_g"], 120, delta=6)
        self.document("ratio", "1:1", "spirit (40 %vol)", "lime juice", "--target", "abv 30 %", code=1)

    def test_bad_ratios(self):
        for arguments, word in (
            (["2:1", *self.THINGS], "2 numbers for 3 things"),
            (["2:1:x", *self.THINGS], ""),
            (["2:0:1", *self.THINGS], "nothing"),
            (["2;1", "water", "ethanol"], "parted"),
            (["1:1", "water", "unobtainium"], "unobtainium"),
            (["1:1", "water", "lime juice", "--total", "90 g"], "volume"),
            (["1:1", "water", "lime juice", "--total", "0 mL"], "something"),
            (["1:1", "water", "lime juice", "--target", "stronger"], "target"),
            (["1:1", "water", "lime juice", "--target", "abv 120 %"], "impossible_target"),
        ):
            with self.subTest(arguments=arguments):
                self.assertIn(word, self.refused("ratio", *arguments))


class Service(Amounts):
    def test_a_sheet_tells_rounds_and_ice(self):
        sheet = self.document("sheet", self.file(STIRRED), "--serves", 40)
        # 240 g a serve on the mixing glass, 110 g in the glass.
        self.assertAlmostEqual(sheet["service"]["ice_in_tins_g"], 9600, delta=0.01)
        self.assertAlmostEqual(sheet["service"]["ice_in_glasses_g"], 4400, delta=0.01)
        self.assertEqual(sheet["service"]["rounds"], sheet["parts"][0]["rounds"])
        self.assertAlmostEqual(sheet["service"]["seconds"], 25 * sheet["service"]["rounds"], delta=1e-6)
        self.assertEqual(sheet["parts"][0]["ratio"]["parts"], [6, 1])
        out = self.page("sheet", self.file(STIRRED), "--serves", 40)
        self.assertIn("For 40 guests:", " ".join(out.split()))
        self.assertIn("6 : 1", out)

    def test_scatter_stands_beside_the_readings(self):
        sheet = self.document("sheet", SOUR, "--scatter")
        rows = {row["key"]: row for row in sheet["scatter"]}
        strength = rows["abv_percent"]
        self.assertLess(strength["p05"], sheet["serve"]["at_service"]["abv_percent"])
        self.assertGreater(strength["p95"], sheet["serve"]["at_service"]["abv_percent"])
        whole = self.document("scatter", SOUR)
        same = next(row for row in whole["properties"] if row["where"] == "serve" and row["key"] == "abv_percent")
        self.assertEqual(strength["p05"], same["p05"])
        self.assertIn("1 in 20", self.page("sheet", SOUR, "--scatter"))
        self.assertNotIn("scatter", self.document("sheet", SOUR))


if __name__ == "__main__":
    if len(sys.argv) < 2:
        sys.exit(__doc__)
    cli_test.PROGRAM = str(pathlib.Path(sys.argv.pop(1)).resolve())
    unittest.main()
