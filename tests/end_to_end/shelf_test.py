#!/usr/bin/env python3
"""shelf_test.py PROGRAM [CLASS…] - the stored collection from the command line: to and from folders, copied, looked through, and what is refused."""
import os
import pathlib
import re
import shlex
import shutil
import subprocess
import sys
import unittest

sys.path.insert(0, str(pathlib.Path(__file__).parent))
import cli_test

ROOT = pathlib.Path(__file__).resolve().parents[2]


class Shelf(cli_test.Cli):
    def setUp(self):
        self.home = self.folder / self._testMethodName
        (self.home / "my-recipes" / "formula").mkdir(parents=True)
        for demo in sorted((ROOT / "demo").glob("*.toml")):
            shutil.copy(demo, self.home / "my-recipes" / "formula" / demo.name)

    def shelf(self, *words, code=0, env=None):
        env = {**os.environ, "XDG_DATA_HOME": str(self.home / "data")} if env is None else env
        done = subprocess.run([cli_test.PROGRAM, *words], capture_output=True, text=True, cwd=self.home, timeout=60, env=env)
        self.assertEqual(done.returncode, code, done.stdout + done.stderr)
        return done.stdout if code == 0 else done.stderr

    def test_every_example_of_the_help_runs(self):
        examples = [line.strip() for line in self.shelf("shelf", "--help").splitlines() if line.startswith("  bloomset ")]
        self.assertGreaterEqual(len(examples), 4)
        shutil.copytree(self.home / "my-recipes", self.home / "other")
        self.shelf("shelf", "import", "other", "--shelf", "bar.shelf")
        for example in examples:
            with self.subTest(example=example):
                self.assertTrue(self.shelf(*shlex.split(re.split(r"\s{5,}", example)[0])[1:]))
        self.assertTrue((self.home / "friday.shelf").exists())

    def test_a_folder_comes_back_to_the_byte(self):
        count = len(list((self.home / "my-recipes" / "formula").iterdir()))
        self.assertEqual(self.shelf("shelf", "import", "my-recipes"), f"{count} new, 0 changed, 0 as they were\n")
        self.shelf("shelf", "export", "out")
        # A name that begins with a number and holds `-` is a file's name as it stands.
        for path in (self.home / "my-recipes" / "formula").iterdir():
            self.assertEqual((self.home / "out" / "formula" / path.name).read_bytes(), path.read_bytes())
        self.shelf("check", "out/formula", code=1)  # the wreck among the demo's formulas is meant to stop

    def test_json(self):
        self.shelf("shelf", "import", "my-recipes")
        import json
        told = json.loads(self.shelf("shelf", "check", "--json"))
        self.assertEqual((told["schema"], told["faults"], told["findings"]), (1, [], []))
        self.assertEqual(told["documents"], len(list((self.home / "my-recipes" / "formula").iterdir())))
        again = json.loads(self.shelf("--json", "shelf", "import", "my-recipes"))
        self.assertEqual((again["added"], again["changed"], again["same"]), (0, 0, told["documents"]))

    def test_what_is_refused(self):
        self.assertIn("there is no shelf here", self.shelf("shelf", "check", code=2))
        self.assertFalse((self.home / "data").exists(), "asking makes no file")
        self.shelf("shelf", "import", "my-recipes")
        self.assertIn("there is no such folder", self.shelf("shelf", "import", "nowhere", code=2))
        self.assertIn("there already", self.shelf("shelf", "export", "my-recipes", code=2))
        self.assertIn("of this name already", self.shelf("shelf", "backup", "data/bloomset/bloomset.shelf", code=2))
        (self.home / "text.shelf").write_text("x" * 5000)
        self.assertIn("this is not a shelf", self.shelf("shelf", "check", "--shelf", "text.shelf", code=2))
        self.assertIn("--shelf FILE", self.shelf("shelf", "check", code=2, env={"PATH": os.environ["PATH"]}))
        self.shelf("shelf", code=2)
        self.shelf("shelf", "brew", code=2)
        self.shelf("shelf", "backup", code=2)

    def test_a_damaged_file_is_found_out(self):
        self.shelf("shelf", "import", "my-recipes", "--shelf", "a.shelf")
        self.shelf("shelf", "backup", "copy.shelf", "--shelf", "a.shelf")
        whole = bytearray((self.home / "copy.shelf").read_bytes())
        for at in range(3 * 4096, len(whole), 4096):  # the head of every page but the first three
            whole[at:at + 16] = b"\xff" * 16
        (self.home / "copy.shelf").write_bytes(whole)
        self.shelf("shelf", "check", "--shelf", "copy.shelf", code=2)


if __name__ == "__main__":
    cli_test.PROGRAM = str(pathlib.Path(sys.argv[1]).resolve())
    unittest.main(argv=[sys.argv[0], *sys.argv[2:]], verbosity=0)
