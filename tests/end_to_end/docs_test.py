#!/usr/bin/env python3
"""docs_test.py PROGRAM - README.md and docs/ against the program. Standard library only.

Every whole formula printed there (a fenced block marked ```toml that begins with `bloomset = 1`) is read without a fault, and
every key of the program's JSON documents is named in docs/program.md, every demo taken as an example.
"""
import json
import pathlib
import re
import subprocess
import sys
import tempfile

ROOT = pathlib.Path(__file__).resolve().parents[2]
MIXTURE = "30 g ethanol + 60 g water"


def formulas(program):
    count = 0
    for path in [ROOT / "README.md", *sorted((ROOT / "docs").glob("*.md"))]:
        for text in re.findall(r"^```toml\n(bloomset = 1\n.*?)^```$", path.read_text(encoding="utf-8"), re.S | re.M):
            count += 1
            with tempfile.TemporaryDirectory() as folder:
                formula = pathlib.Path(folder) / "formula.toml"
                formula.write_text(text, encoding="utf-8")
                done = subprocess.run([program, "check", formula], capture_output=True, text=True, timeout=60)
            if done.returncode != 0:
                yield f"{path.relative_to(ROOT)}: a formula of it ends with exit code {done.returncode}\n{done.stdout}{done.stderr}"
    if not count:
        yield "no formula was found in README.md and docs/"


def keys_of(document):
    if isinstance(document, dict):
        for key, value in document.items():
            yield key
            yield from keys_of(value)
    elif isinstance(document, list):
        for value in document:
            yield from keys_of(value)


def keys(program):
    named = set(re.findall(r"`(\w+)`", (ROOT / "docs/program.md").read_text(encoding="utf-8")))
    commands = [["mix", MIXTURE], ["chill", MIXTURE, "--ice", "50 g"]]
    commands += [["dose", "300 g orange juice", "--with", "gelatin, gold leaf", "--for", "cold foam"], ["dose", "300 g water", "--with", "agar", "--for", "clarify"]]
    commands += [["gelatin", "3 leaves", "--from", "gelatin, gold leaf", "--to", "gelatin, powder"], ["charge", "--bottle", "0.75 L", "--liquid", "450 g water", "--charges", "1"]]
    commands += [["substitute", str(ROOT / "demo/01-quay-sour.toml"), "--agent", "egg white"]]
    sour = str(ROOT / "demo/01-quay-sour.toml")
    commands += [["balance", sour], ["refit", sour, "--swap", "lemon juice=lemon juice (5 % acid)"], ["batch", str(ROOT / "demo/02-bollard.toml"), "--part", "stirred"]]
    commands += [["ratio", "2 : 1", "spirit (40 %vol)", "lime juice", "--target", "abv 20 %"], ["sheet", sour, "--scatter"]]
    commands += [[command, str(path)] for path in sorted((ROOT / "demo").glob("*.toml")) for command in ("sheet", "check") if "[serve]" in path.read_text(encoding="utf-8")]
    for command in commands:
        done = subprocess.run([program, *command, "--json"], capture_output=True, text=True, timeout=60)
        if done.returncode not in (0, 1):
            yield f"{' '.join(command)} ends with exit code {done.returncode}: {done.stderr}"
            continue
        document = json.loads(done.stdout)
        missing = sorted(set(keys_of(document)) - named - set(document.get("serve", {}).get("allergens", ()) or ()))
        if missing:
            yield f"{' '.join(command)}: docs/program.md does not name {', '.join(missing)}"


def main(program):
    faults = [*formulas(program), *keys(program)]
    print("\n".join(faults), end="\n" if faults else "")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]) if len(sys.argv) == 2 else __doc__)
