#!/usr/bin/env python3
"""cli_test.py PROGRAM [CLASS …] - the program from outside: exit codes, documents, diagnostics.

Form and closure only (every gram in is a gram out, a document is one document); whether the numbers are right is judged
against published values in tests/reference. Exit codes: 0 done; 1 a `stop` finding or an unmet target in a document;
2 bad input; 3 our own fault, which no input may bring about. Standard library only.
"""
import json
import os
import pathlib
import shutil
import subprocess
import sys
import tempfile
import unittest

PROGRAM = ""

# The keys under which a property stands wherever matter is described, with the unit in the name.
PROPERTIES = {
    "amount": "mass_g volume_ml volume_20c_ml ice_g",
    "strength": "abv_percent abv_percent_all_melted ethanol_g",
    "sweet": "brix_percent brix_read_percent sugars_g sugar_percent sweetness_percent_sucrose",
    "sour": "ph_25c titratable_acidity_g_100g_citric titratable_acidity_g_l_citric",
    "cold": "temperature_c freezing_point_c water_activity heat_capacity_kj_kg_k",
    "other": "density_kg_m3 viscosity_mpa_s refractive_index_20c co2_volumes energy_kcal",
}
PROPERTY_KEYS = " ".join(PROPERTIES.values()).split()
SEVERITIES = {"stop", "mind", "note"}

STIRRED = """bloomset = 1
title = "Lantern"
serves = 4
[[part]]
name = "stirred"
made = "to order"
step = [
  { do = "stir", take = ["60 mL spirit (45 %vol)", "10 mL syrup (60 brix)"], ice = "240 g ice cubes", leave = ["ice"], time = "20-30 s" },
]
[serve]
vessel = "low glass, 300 mL"
pour = [ { take = ["110 g ice cubes", "all 'stirred'"] } ]
"""

CORDIAL = """bloomset = 1
title = "Slipway"
serves = 4
targets = ["serve.sugar 1-20 %", "serve.headroom >= 5 mL"]
[[part]]
name = "cordial"
made = "ahead"
  [[part.step]]
  do = "combine"
  take = ["180 g orange juice", "90 g white sugar", "40 mL lime juice"]
  [[part.step]]
  do = "warm"
  to = "60 C"
  [[part.step]]
  do = "chill"
  in = "ice bath"
  to = "6 C"
  keeps = "2 d"
[serve]
vessel = "tall glass, 400 mL"
pour = [ { take = ["100 g ice cubes", "50 g 'cordial'", "150 g water"] } ]
"""


def refuse_constant(name):
    raise ValueError(f"{name} is no JSON number")


class Cli(unittest.TestCase):
    maxDiff = None

    @classmethod
    def setUpClass(cls):
        cls.folder = pathlib.Path(tempfile.mkdtemp(prefix="bloomset_cli_"))

    @classmethod
    def tearDownClass(cls):
        shutil.rmtree(cls.folder)

    def file(self, text, name="formula.toml"):
        path = self.folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(text if isinstance(text, bytes) else text.encode())
        return path

    def call(self, *arguments, code=0):
        done = subprocess.run([PROGRAM, *map(str, arguments)], capture_output=True, stdin=subprocess.DEVNULL, timeout=120, cwd=self.folder)
        out, err = done.stdout.decode("utf-8"), done.stderr.decode("utf-8")
        self.assertIn(done.returncode, (0, 1) if code is None else (code,), f"{arguments}\nstdout: {out[-400:]}\nstderr: {err[-2000:]}")
        self.code = done.returncode
        return out, err

    def document(self, *arguments, code=0):
        """The one JSON document of a command that was done."""
        out, _ = self.call(*arguments, "--json", code=code)
        answer = json.loads(out, parse_constant=refuse_constant)  # fails on anything behind the document, too
        self.assertEqual(answer["schema"], 1)
        self.findings(answer)
        return answer

    def refused(self, *arguments):
        """What is said of bad input, in both forms of the output: on stderr, with nothing on stdout."""
        out, err = self.call(*arguments, "--json", code=2)
        self.assertEqual(out, "")
        plain_out, plain_err = self.call(*arguments, code=2)
        self.assertEqual(plain_out, "")
        self.assertTrue(err.strip() and plain_err.strip(), arguments)
        return err

    def keys(self, thing, names):
        missing = [name for name in names.split() if name not in thing]
        self.assertFalse(missing, f"missing {missing} in {sorted(thing)}")

    def properties(self, thing, *always_numbers):
        self.keys(thing, " ".join(PROPERTY_KEYS))
        for key in PROPERTY_KEYS:
            self.assertIsInstance(thing[key], (int, float, type(None)), key)
        for key in always_numbers:
            self.assertIsInstance(thing[key], (int, float), key)

    def findings(self, document):
        self.assertIsInstance(document["findings"], list)
        for finding in document["findings"]:
            self.keys(finding, "code severity where says why source remedies")
            self.assertIn(finding["severity"], SEVERITIES)
            for key in ("code", "says", "source"):
                self.assertTrue(finding[key], f"{key} is empty in {finding}")
            self.assertNotRegex(finding["says"] + str(finding["why"]), r"\{\w*\}", "a gap in the words was not filled")
            self.assertNotRegex(finding["says"].lower(), r"\bsafe\b")
            for remedy in finding["remedies"]:
                self.assertTrue(remedy["says"])

    def codes(self, document):
        return {finding["code"] for finding in document["findings"]}


class Usage(Cli):
    def test_help_names_every_command(self):
        out, _ = self.call("--help")
        for word in ("sheet", "check", "mix", "chill", "--json", "--larder", "--kit"):
            self.assertIn(word, out)

    def test_each_command_has_help(self):
        for command in ("sheet", "check", "mix", "chill"):
            out, _ = self.call(command, "--help")
            self.assertIn(f"bloomset {command}", out)

    def test_no_command_an_unknown_one_and_an_unknown_option_are_bad_input(self):
        for arguments in ([], ["brew"], ["mix"], ["mix", "10 g water", "--shaken"], ["sheet"], ["chill", "10 g water"]):
            out, err = self.call(*arguments, code=2)
            self.assertEqual(out, "", arguments)
            self.assertTrue(err.strip(), arguments)


class Mix(Cli):
    def test_a_mixture_has_every_property(self):
        answer = self.document("mix", "30 g ethanol + 50 g water + 15 g sucrose + 1 g citric acid + 0.5 g trisodium citrate")
        self.properties(answer, *(set(PROPERTY_KEYS) - {"co2_volumes"}))
        self.assertAlmostEqual(answer["mass_g"], 96.5, places=6)
        self.assertAlmostEqual(answer["ethanol_g"], 30.0, places=6)
        self.assertAlmostEqual(answer["sugars_g"], 15.0, places=6)
        self.assertAlmostEqual(answer["temperature_c"], 20.0, places=6)  # unless given
        self.assertAlmostEqual(answer["density_kg_m3"], answer["mass_g"] / answer["volume_ml"] * 1000, delta=1e-3)

    def test_below_freezing_ice_forms_and_the_rest_is_stronger(self):
        cold = self.document("mix", "20 g ethanol + 80 g water", "--at", "-18C")
        warm = self.document("mix", "20 g ethanol + 80 g water")
        self.assertGreater(cold["ice_g"], 0)
        self.assertEqual(warm["ice_g"], 0)
        self.assertGreater(cold["abv_percent"], warm["abv_percent"])
        self.assertAlmostEqual(cold["mass_g"] + cold["ice_g"], 100, places=6)  # properties are of what stays liquid
        self.assertAlmostEqual(cold["abv_percent_all_melted"], warm["abv_percent"], places=6)

    def test_things_of_the_larder_and_pure_ones_mix(self):
        answer = self.document("mix", "60 mL spirit (40 %vol) + 20 mL lemon juice + 5 g sodium chloride", "--at", "4 C")
        self.properties(answer, "mass_g", "abv_percent", "ph_25c")
        self.assertAlmostEqual(answer["temperature_c"], 4.0, places=6)

    def test_fahrenheit_is_understood(self):
        self.assertAlmostEqual(self.document("mix", "10 g water", "--at", "68 F")["temperature_c"], 20.0, places=6)

    def test_an_unmeasured_property_is_null_and_a_finding_says_so(self):
        answer = self.document("mix", "100 g water")
        missing = [key for key in PROPERTY_KEYS if answer[key] is None]
        for key in missing:
            self.assertIn(key, [finding["where"].get("property") for finding in answer["findings"]], "null without a finding")

    def test_the_readable_form_gives_units(self):
        out, _ = self.call("mix", "40 g ethanol + 60 g water")
        for word in ("%vol", "°C"):
            self.assertIn(word, out)
        self.assertNotRegex(out.lower(), r"\b(nan|inf)\b")

    def test_bad_mixtures(self):
        for text, word in (
            ("5 g unobtainium", "unobtainium"),
            ("-1 g water", ""),
            ("0 g water", ""),
            ("water", ""),
            ("5 parsec water", "parsec"),
            ("2 cup water", "cup"),  # a command has no document that could say which cup
            ("10 g water +", ""),
            ("10 g water (40 %vol)", ""),
            ("", ""),
        ):
            with self.subTest(text=text):
                self.assertIn(word, self.refused("mix", text))

    def test_bad_temperatures(self):
        for at in ("-300C", "20", "warm", "20 K C", "1e9 C", ""):
            with self.subTest(at=at):
                self.refused("mix", "10 g water", "--at", at)

    def test_a_near_name_is_offered(self):
        self.assertIn("lemon juice", self.refused("mix", "10 g lemom juice"))


class Chill(Cli):
    DRINK = "60 mL spirit (40 %vol) + 20 mL syrup (50 brix)"

    def chill(self, *more, drink=DRINK):
        answer = self.document("chill", drink, "--at", "20C", "--ice", "200g", "--ice-at", "0C", *more)
        self.properties(answer, "mass_g", "abv_percent", "temperature_c")
        self.keys(answer, "melted_g ice_left_g dilution_percent_of_initial_mass dilution_percent_of_initial_volume")
        self.assertAlmostEqual(answer["melted_g"] + answer["ice_left_g"], 200, delta=0.01)
        return answer

    def test_ice_is_kept_account_of(self):
        before = self.document("mix", self.DRINK)
        after = self.chill()
        self.assertAlmostEqual(after["mass_g"], before["mass_g"] + after["melted_g"], delta=0.01)
        self.assertAlmostEqual(after["ethanol_g"], before["ethanol_g"], delta=1e-4)
        self.assertAlmostEqual(after["dilution_percent_of_initial_mass"], after["melted_g"] / before["mass_g"] * 100, delta=0.01)
        self.assertLess(after["abv_percent"], before["abv_percent"])
        self.assertLess(after["temperature_c"], 0)  # spirit and sugar on ice go below the freezing point of water

    def test_a_wished_temperature_is_reached(self):
        self.assertAlmostEqual(self.chill("--to", "0C")["temperature_c"], 0, delta=0.01)

    def test_a_short_shake_melts_less_than_equilibrium(self):
        short, long = (self.chill("--by", "shake", "--for", seconds) for seconds in ("2s", "12s"))
        full = self.chill()
        self.assertLess(short["melted_g"], long["melted_g"])
        self.assertLessEqual(long["melted_g"], full["melted_g"] + 0.01)

    def test_warmth_of_the_vessel_and_water_on_the_ice_dilute(self):
        bare = self.chill()["melted_g"]
        self.assertGreater(self.chill("--vessel-heat", "70J/K")["melted_g"], bare)
        self.assertGreater(self.chill("--surface-water", "10g")["melted_g"], bare)

    def test_leftover_ice_follows_or_is_inert(self):
        self.assertNotAlmostEqual(self.chill("--leftover-ice", "follows")["melted_g"], self.chill("--leftover-ice", "inert")["melted_g"], places=2)
        self.assertAlmostEqual(self.chill("--leftover-ice", "inert")["melted_g"], self.chill()["melted_g"], places=9)

    def test_bad_ice(self):
        for more in (
            ["--ice", "-5g", "--ice-at", "0C"],
            ["--ice", "200g", "--ice-at", "5C"],
            ["--ice", "200g", "--ice-at", "-300C"],
            ["--ice", "lots"],
            ["--ice", "200g", "--to", "90C"],
            ["--ice", "200g", "--by", "wishing", "--for", "3s"],
            ["--ice", "200g", "--for", "3 parsec"],
            ["--ice", "200g", "--leftover-ice", "maybe"],
            ["--ice", "200g", "--surface-water", "300g"],
            ["--ice", "200g", "--vessel-heat", "warm"],
        ):
            with self.subTest(more=more):
                self.refused("chill", self.DRINK, "--at", "20C", *more)


class Sheet(Cli):
    def sheet(self, text, *more, code=0):
        answer = self.document("sheet", self.file(text), *more, code=code)
        self.whole_sheet(answer)
        return answer

    def whole_sheet(self, sheet):
        self.keys(sheet, "serves parts streams serve findings targets balance digest")
        self.assertTrue(sheet["parts"] and sheet["streams"] and sheet["digest"])
        for part in sheet["parts"]:
            self.keys(part, "name made batch_mass_g used_per_serve_g batches rounds left_over_g short_g losses takes steps agents siphon ready_after_h keeps_h")
            self.properties(part, "mass_g", "volume_ml", "density_kg_m3", "temperature_c")
            self.assertTrue(part["takes"] and part["steps"])
            for take in part["takes"]:
                self.keys(take, "thing step mass_g volume_ml pieces percent_of_base percent_of_total measure")
            for step in part["steps"]:
                self.keys(step, "do seconds")
                self.properties(step)
            for loss in part["losses"]:
                self.keys(loss, "kind step mass_g")
        names = set()
        for stream in sheet["streams"]:
            self.keys(stream, "id from to mass_g temperature_c look")
            self.assertGreaterEqual(stream["mass_g"], 0)
            names.add(stream["id"])
            for end in (stream["from"], stream["to"]):
                self.assertRegex(end, r"^(take:\d+\.\d+\.\d+|step:\d+\.\d+|serve|stays|lost)$")
        self.assertEqual(len(names), len(sheet["streams"]), "two streams share an id")
        serve = sheet["serve"]
        self.keys(serve, "at_service merged over_time headroom_ml cost vessel standard_drinks allergens")
        self.properties(serve["at_service"], "mass_g", "volume_ml", "temperature_c", "abv_percent")
        self.properties(serve["merged"])
        self.keys(serve["vessel"], "name brim_ml inside_mm")
        self.keys(serve["standard_drinks"], "us uk au eu")
        for target in sheet["targets"]:
            self.keys(target, "target value met until_minute")
        balance = sheet["balance"]
        out = balance["served_g"] + balance["stays_g"] + balance["lost_g"] + balance["gas_g"]
        self.assertAlmostEqual(balance["in_g"], out, delta=0.005)
        must_change = any(finding["severity"] == "stop" for finding in sheet["findings"]) or any(target["met"] is False for target in sheet["targets"])
        self.assertEqual(self.code, 1 if must_change else 0)
        self.assertIn("defer", self.codes(sheet))  # the notice that stands on every sheet

    def test_a_drink_made_to_order(self):
        sheet = self.sheet(STIRRED)
        self.assertEqual(sheet["serves"], 4)
        self.assertEqual([part["name"] for part in sheet["parts"]], ["stirred"])
        self.assertEqual(sheet["parts"][0]["made"], "to order")
        # All takes and both ices, for all serves. Spirit and syrup enter by volume, so their mass is read off the takes.
        takes = sum(take["mass_g"] for take in sheet["parts"][0]["takes"])
        self.assertGreaterEqual(sheet["balance"]["in_g"], 4 * takes - 0.01)
        self.assertGreater(sheet["serve"]["at_service"]["ice_g"], 0)
        self.assertIn("alcohol", self.codes(sheet))

    def test_a_batch_made_ahead(self):
        sheet = self.sheet(CORDIAL)
        part = sheet["parts"][0]
        self.assertEqual(part["made"], "ahead")
        self.assertAlmostEqual(part["used_per_serve_g"], 50, delta=1e-6)
        self.assertAlmostEqual(part["left_over_g"], part["batch_mass_g"] - 4 * 50, delta=0.01)
        self.assertAlmostEqual(part["keeps_h"], 48, delta=1e-9)
        self.assertEqual([target["met"] for target in sheet["targets"]], [True, True])
        self.assertIn("left_over", self.codes(sheet))
        self.assertNotIn("alcohol", self.codes(sheet))
        self.assertAlmostEqual(sum(take["percent_of_base"] for take in part["takes"]), 100, delta=1e-6)

    def test_twice_the_serves_is_twice_the_balance_of_a_drink_made_to_order(self):
        four, eight = self.sheet(STIRRED), self.sheet(STIRRED, "--serves", 8)
        self.assertEqual(eight["serves"], 8)
        self.assertAlmostEqual(eight["balance"]["in_g"], 2 * four["balance"]["in_g"], delta=0.01)
        # Full rounds both: each serve bears the same share of the warm vessel.
        self.assertEqual(eight["serve"]["at_service"], four["serve"]["at_service"])

    def test_more_serves_than_the_batch_gives_is_short(self):
        sheet = self.sheet(CORDIAL, "--serves", 20, code=None)
        self.assertGreater(sheet["parts"][0]["short_g"], 0)
        self.assertIn("short", self.codes(sheet))

    def test_an_unmet_target_ends_with_one_and_still_gives_the_sheet(self):
        sheet = self.sheet(CORDIAL.replace("serve.sugar 1-20 %", "serve.sugar 30-40 %"), code=1)
        self.assertEqual([target["met"] for target in sheet["targets"]], [False, True])
        self.assertIn("target_unmet", self.codes(sheet))
        out, _ = self.call("sheet", self.folder / "formula.toml", code=1)
        self.assertIn("Slipway", out)

    def test_the_same_input_gives_the_same_bytes(self):
        path = self.file(CORDIAL)
        self.assertEqual(self.call("sheet", path, "--json")[0], self.call("sheet", path, "--json")[0])
        self.assertEqual(self.call("sheet", path)[0], self.call("sheet", path)[0])

    def test_the_digest_follows_the_text(self):
        self.assertNotEqual(self.sheet(CORDIAL)["digest"], self.sheet(CORDIAL.replace("180 g", "181 g"))["digest"])

    def test_the_readable_sheet_names_what_a_cook_looks_for(self):
        out, err = self.call("sheet", self.file(CORDIAL))
        self.assertEqual(err, "")
        for word in ("Slipway", "cordial", "orange juice", "°C", " g"):
            self.assertIn(word, out)
        self.assertNotRegex(out.lower(), r"\b(nan|inf|safe)\b")

    def test_the_place_where_one_stands_and_the_language_do_not_matter(self):
        path = self.file(CORDIAL)
        here = self.call("sheet", path, "--json")[0]
        there = subprocess.run([PROGRAM, "sheet", str(path), "--json"], capture_output=True, cwd="/", env={**os.environ, "LC_ALL": "C", "LANG": "de_DE.UTF-8"}, timeout=120)
        self.assertEqual(there.returncode, 0)
        self.assertEqual(there.stdout.decode(), here)

    def test_a_part_can_be_borrowed_from_a_file_beside_the_formula(self):
        self.file(CORDIAL, "store/cordial.toml")
        text = CORDIAL[: CORDIAL.index("targets")] + "borrow = { cordial = \"cordial.toml\" }\n" + CORDIAL[CORDIAL.index("[serve]"):]
        sheet = self.document("sheet", self.file(text, "store/borrowing.toml"))
        self.assertEqual([part["name"] for part in sheet["parts"]], ["cordial"])

    def test_windows_line_ends_are_read(self):
        # The digest may differ, the matter may not.
        self.assertEqual(self.sheet(CORDIAL.replace("\n", "\r\n"))["balance"], self.sheet(CORDIAL)["balance"])


class Check(Cli):
    def test_one_file(self):
        answer = self.document("check", self.file(CORDIAL))
        self.keys(answer, "findings targets")

    def test_several_files_and_a_folder(self):
        for n in range(3):
            self.file(STIRRED, f"many/{n}.toml")
        self.document("check", *(self.folder / f"many/{n}.toml" for n in range(3)))
        self.document("check", self.folder / "many")

    def test_one_bad_target_among_many_ends_with_one(self):
        self.file(STIRRED, "mixed/a.toml")
        self.file(CORDIAL.replace(">= 5 mL", ">= 5000 mL"), "mixed/b.toml")
        answer = self.document("check", self.folder / "mixed", code=1)
        self.assertIn(False, [target["met"] for target in answer["targets"]])

    def test_a_fault_in_one_file_is_told_with_its_name(self):
        self.file(STIRRED, "broken/a.toml")
        self.file(STIRRED.replace("syrup", "sirup"), "broken/b.toml")
        self.assertIn("b.toml", self.refused("check", self.folder / "broken"))

    def test_an_empty_or_missing_folder_is_bad_input(self):
        (self.folder / "empty").mkdir(exist_ok=True)
        self.refused("check", self.folder / "empty")
        self.refused("check", self.folder / "nowhere")


class Faults(Cli):
    def test_a_wrong_name_is_shown_with_line_caret_and_the_nearest_name(self):
        path = self.file(STIRRED.replace("syrup (60", "syrop (60"))
        line = next(i for i, text in enumerate(STIRRED.splitlines(), 1) if "syrup" in text)
        err = self.refused("sheet", path)
        self.assertRegex(err, rf"{path.name}:{line}:\d+: error: ")
        self.assertIn("^", err)
        self.assertIn("syrup", err.replace("syrop", ""))

    def test_every_fault_is_told_at_once(self):
        text = STIRRED.replace("syrup", "sirup").replace("240 g ice cubes", "240 q ice cubes").replace("all 'stirred'", "all 'stired'").replace("leave =", "leaf =")
        err = self.refused("sheet", self.file(text))
        document_faults = [word for word in ("leaf", "240 q", "q ice") if word in err]
        self.assertGreaterEqual(err.count("error: "), 2, err)
        self.assertTrue(document_faults, err)

    def test_each_fault_alone(self):
        for old, new in (
            ("bloomset = 1\n", ""),
            ("bloomset = 1", "bloomset = 99"),
            ("serves = 4", "serves = 0"),
            ("serves = 4", "serves = -3"),
            ("serves = 4", 'serves = "four"'),
            ('title = "Lantern"', 'titel = "Lantern"'),
            ('made = "to order"', 'made = "at once"'),
            ('do = "stir"', 'do = "stirr"'),
            ("60 mL spirit", "60 spirit"),
            ("60 mL spirit", "-60 mL spirit"),
            ("60 mL spirit", "1e99 mL spirit"),
            ("60 mL spirit", "60 mL"),
            ("(45 %vol)", "(45 brix)"),
            ("(45 %vol)", "(145 %vol)"),
            ("(45 %vol)", "(45 %vol"),
            ("20-30 s", "30-20 s"),
            ("20-30 s", "a while"),
            ("all 'stirred'", "all 'stirred"),
            ("all 'stirred'", "all 'stirred/clear'"),
            ("low glass, 300 mL", "bucket"),
            ("[serve]", "[serv]"),
            ("pour = [ {", "pour = {"),
        ):
            with self.subTest(new=new):
                self.assertIn(old, STIRRED)
                err = self.refused("sheet", self.file(STIRRED.replace(old, new, 1)))
                self.assertRegex(err, r"formula\.toml:\d+:\d+: error: ")

    def test_parts_that_need_each_other_are_refused(self):
        text = STIRRED.replace('"10 mL syrup (60 brix)"', "\"10 mL 'stirred'\"")
        self.assertIn("stirred", self.refused("sheet", self.file(text)))

    def test_what_is_no_formula_at_all(self):
        for name, content in (("empty", b""), ("zeros", b"\0" * 100), ("noise", bytes(range(256)) * 8), ("deep", b"a = " + b"[" * 20000), ("json", b'{"bloomset": 1}')):
            with self.subTest(name=name):
                self.refused("sheet", self.file(content, f"{name}.toml"))

    def test_files_that_cannot_be_read(self):
        self.assertIn("nowhere.toml", self.refused("sheet", self.folder / "nowhere.toml"))
        self.refused("sheet", self.folder)
        path = self.file(STIRRED)
        self.refused("sheet", path, "--larder", self.folder / "nowhere.toml")
        self.refused("sheet", path, "--kit", self.folder / "nowhere.toml")

    def test_a_wrong_number_of_serves(self):
        path = self.file(STIRRED)
        for serves in ("0", "-1", "many", "1.5", "99999999999999999999"):
            with self.subTest(serves=serves):
                self.refused("sheet", path, "--serves", serves)

    def test_a_borrowed_file_that_is_not_there_or_borrows_itself(self):
        for target in ("nowhere.toml", "loop.toml"):
            text = STIRRED.replace("serves = 4", 'serves = 4\nborrow = { syrup = "' + target + '" }')
            self.assertIn(target, self.refused("sheet", self.file(text, "loop.toml")))

    def test_a_fault_in_a_larder_names_its_file(self):
        larder = self.file("[[thing]]\nname = \n", "larder.toml")
        self.assertIn("larder.toml", self.refused("sheet", self.file(STIRRED), "--larder", larder))


if __name__ == "__main__":
    if len(sys.argv) < 2:
        sys.exit(__doc__)
    PROGRAM = str(pathlib.Path(sys.argv.pop(1)).resolve())
    unittest.main()
