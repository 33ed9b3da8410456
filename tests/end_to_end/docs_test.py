#!/usr/bin/env python3
"""docs_test.py PROGRAM - every whole formula printed in README.md and docs/ is read by the program without a fault.

A fenced block marked ```toml that begins with `bloomset = 1` is a whole formula. Standard library only.
"""
import pathlib
import re
import subprocess
import sys
import tempfile

ROOT = pathlib.Path(__file__).resolve().parents[2]


def main(program):
    count, red = 0, 0
    for path in [ROOT / "README.md", *sorted((ROOT / "docs").glob("*.md"))]:
        for text in re.findall(r"^```toml\n(bloomset = 1\n.*?)^```$", path.read_text(encoding="utf-8"), re.S | re.M):
            count += 1
            with tempfile.TemporaryDirectory() as folder:
                formula = pathlib.Path(folder) / "formula.toml"
                formula.write_text(text, encoding="utf-8")
                done = subprocess.run([program, "check", formula], capture_output=True, text=True, timeout=60)
            if done.returncode != 0:
                red += 1
                print(f"{path.relative_to(ROOT)}: a formula of it ends with exit code {done.returncode}\n{done.stdout}{done.stderr}")
    if not count:
        print("no formula was found in README.md and docs/")
    return 1 if red or not count else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]) if len(sys.argv) == 2 else __doc__)
