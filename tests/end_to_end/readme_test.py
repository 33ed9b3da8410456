#!/usr/bin/env python3
"""readme_test.py PROGRAM [--rewrite] [FILE …] - keeps the output shown in README.md and docs/ true.

Every fenced block marked ```console is read: a line `$ COMMAND` is run in the project's root, where `build/bloomset`
stands for PROGRAM, and what it prints must be the lines that follow it. A line `…` alone stands for any lines in between,
for long output. --rewrite puts the real output into the files; a command followed by a single `…`, or whose output holds
one between two kept lines, keeps its shortening only if its shown lines are still printed.
"""
import pathlib
import re
import subprocess
import sys

ROOT = pathlib.Path(__file__).resolve().parents[2]
GAP = "…"


def blocks(lines):
    """(first, last) line indexes inside each console block."""
    start = None
    for index, line in enumerate(lines):
        if start is None and line.strip() == "```console":
            start = index + 1
        elif start is not None and line.strip() == "```":
            yield start, index
            start = None
    if start is not None:
        raise ValueError(f"line {start}: the console block does not end")


def commands(lines, start, end):
    """[command, its index, the shown lines] of one block."""
    found = []
    for index in range(start, end):
        if lines[index].startswith("$ "):
            found.append([lines[index][2:], index, []])
        elif found:
            found[-1][2].append(lines[index])
        else:
            raise ValueError(f"line {index + 1}: output before the first command of its block")
    return found


def run(command, program):
    """What a shell shows for the command: its standard output, then its diagnostics."""
    real = re.sub(r"(?<![\w/])build/bloomset\b", str(program), command)
    done = subprocess.run(["bash", "-c", real], cwd=ROOT, capture_output=True, text=True, timeout=60)
    return [line.rstrip() for line in (done.stdout + done.stderr).splitlines()]


def agrees(shown, printed):
    """Whether the shown lines are the printed ones, `…` standing for any lines."""
    pieces, piece = [], []
    for line in shown:
        if line.strip() == GAP:
            pieces.append(piece)
            piece = []
        else:
            piece.append(line.rstrip())
    pieces.append(piece)
    if len(pieces) == 1:
        return pieces[0] == printed
    first, last = pieces[0], pieces[-1]
    if printed[: len(first)] != first or (last and printed[-len(last):] != last) or len(printed) < len(first) + len(last):
        return False
    at, end = len(first), len(printed) - len(last)
    for middle in pieces[1:-1]:
        while at + len(middle) <= end and printed[at:at + len(middle)] != middle:
            at += 1
        if at + len(middle) > end:
            return False
        at += len(middle)
    return True


def judge(text, program, runner=run):
    """(number of commands, faults, the text with the real output)."""
    lines = text.splitlines()
    faults, count, edits = [], 0, []
    for start, end in blocks(lines):
        for command, index, shown in commands(lines, start, end):
            count += 1
            printed = runner(command, program)
            if not agrees(shown, printed):
                faults.append(f"line {index + 1}: `{command}` now prints\n" + "\n".join("    " + line for line in printed))
                edits.append((index + 1, index + 1 + len(shown), printed))
    for start, end, printed in reversed(edits):
        lines[start:end] = printed
    return count, faults, "\n".join(lines) + "\n"


def main(arguments):
    rewrite = "--rewrite" in arguments
    arguments = [a for a in arguments if a != "--rewrite"]
    program = pathlib.Path(arguments[0] if arguments else ROOT / "build/bloomset").resolve()
    if not program.exists():
        print(f"{program} is not there: ./run build first", file=sys.stderr)
        return 2
    files = [pathlib.Path(a).resolve() for a in arguments[1:]] or [ROOT / "README.md", *sorted((ROOT / "docs").glob("*.md"))]
    total, red = 0, 0
    for path in files:
        text = path.read_text(encoding="utf-8")
        count, faults, real = judge(text, program)
        total += count
        if faults and rewrite:
            path.write_text(real, encoding="utf-8")
            print(f"{path.relative_to(ROOT)}: {len(faults)} of {count} rewritten")
        elif faults:
            red += len(faults)
            print("\n".join(f"{path.relative_to(ROOT)}: {fault}" for fault in faults))
    if not total:
        print("no console block was found: the README lost its worked example")
        return 1
    return 1 if red else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
