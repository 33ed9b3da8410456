#!/usr/bin/env python3
"""schema_test.py [ACCEPTS] - docs/formula.schema.json, judged by an independent validator (python3-jsonschema).

Every document of demo/ and every whole example of docs/formula.md is accepted. A sound document with one small change is refused, one
change a rule. With ACCEPTS (tests/formula/accepts.cpp) given, the program's own reader must agree on each of them.
"""
import copy
import json
import pathlib
import subprocess
import sys
import tempfile
import tomllib

try:
    import jsonschema
except ImportError:
    sys.exit("the package python3-jsonschema is not installed")

ROOT = pathlib.Path(__file__).resolve().parents[2]
SOUND = {
    "bloomset": 1,
    "title": "Sound",
    "serves": 2,
    "targets": ["serve.abv 5-30 %", "serve.abv at 10 min >= 4 %", "'cloud'.volume <= 500 mL", "serve.ph = 3.4"],
    "part": [
        {
            "name": "cloud",
            "made": "ahead",
            "batches": 1,
            "makes": "400 g",
            "step": [
                {"do": "infuse", "take": ["330 g orange juice", {"take": "36 g honey", "at": "20 C", "mark": "sweet"}], "at": "70 C", "time": "10-12 min"},
                {"do": "combine", "take": ["2 % 'sweet' citric acid", "1 1/2 bar spoons syrup (50 brix, pasteurised)"]},
                {"do": "bloom", "take": ["1.1 % gelatin, gold leaf"], "in": "cold water", "time": "5-30 min"},
                {"do": "reduce", "until": "90 %"},
                {"do": "chill", "to": "-2 to 8 C", "loss": "2-3 %"},
                {"do": "charge", "vessel": "siphon, half litre", "charges": 1, "gas": "N2O"},
                {"do": "rest", "at": "4 C", "time": "3-5 h", "keeps": "2 d", "hard": "shorter"},
            ],
        },
        {
            "name": "sour",
            "made": "to order",
            "step": [{"do": "shake", "take": ["50 mL spirit (40 %vol)", "20 mL lemon juice"], "ice": "180 g ice cubes", "ice_at": "-5 C", "leave": ["ice"], "time": "10-14 s"}],
        },
    ],
    "serve": {"vessel": "cup, 240 mL", "pour": [{"take": ["all 'sour'"]}, {"do": "dispense", "take": ["12 g 'cloud'"]}, {"do": "garnish", "take": ["1 piece mint sprig"], "maybe": True}]},
}
ABSENT = object()
STEP = ("part", 0, "step")

# What is changed (a path, and its new value or ABSENT), one rule a line.
CHANGES = [
    ("the version must be there", ("bloomset",), ABSENT),
    ("the version is 1", ("bloomset",), 2),
    ("the title must be there", ("title",), ABSENT),
    ("the title is a text", ("title",), 5),
    ("keys of the head are known", ("author",), "somebody"),
    ("measures are one of four", ("measures",), "metrik"),
    ("serves is at least 1", ("serves",), 0),
    ("serves is at most 10000", ("serves",), 10001),
    ("serves is whole", ("serves",), 2.5),
    ("targets are a list", ("targets",), "serve.abv 8 %"),
    ("a target begins with where", ("targets", 0), "abv 8 %"),
    ("a target names a property", ("targets", 0), "serve.strength 8 %"),
    ("a target has its property's unit", ("targets", 0), "serve.abv 8 mL"),
    ("a target has a wish", ("targets", 0), "serve.abv %"),
    ("only the serve has moments", ("targets", 0), "'cloud'.abv at 10 min >= 4 %"),
    ("borrow is a table", ("borrow",), ["syrups.toml"]),
    ("a part has a name", ("part", 0, "name"), ABSENT),
    ("a name begins with no unit word", ("part", 0, "name"), "Cup cloud"),
    ("a name holds no quote", ("part", 0, "name"), "cook's cloud"),
    ("a part says how it is made", ("part", 0, "made"), ABSENT),
    ("made is one of two", ("part", 0, "made"), "later"),
    ("a part has steps", ("part", 0, "step"), []),
    ("batches are above 0", ("part", 0, "batches"), 0),
    ("batches go with ahead", ("part", 1, "batches"), 2),
    ("makes is an amount", ("part", 0, "makes"), "a lot"),
    ("keys of a part are known", ("part", 0, "steps"), []),
    ("a step has an act", (*STEP, 0, "do"), ABSENT),
    ("acts are known", (*STEP, 0, "do"), "infusse"),
    ("keys of a step are known", (*STEP, 0, "tiem"), "5 min"),
    ("until goes with acts of heat and time", (*STEP, 1, "until"), "65 brix"),
    ("charges go with bottles", (*STEP, 1, "charges"), 1),
    ("a step has one end", (*STEP, 3, "to"), "70 C"),
    ("held at and ends at do not go together", (*STEP, 0, "to"), "70 C"),
    ("a take has a unit", (*STEP, 0, "take", 0), "330 orange juice"),
    ("units have one spelling", (*STEP, 0, "take", 0), "330 grams orange juice"),
    ("a take has a thing", (*STEP, 0, "take", 0), "330 g"),
    ("a thing begins with no unit word", (*STEP, 0, "take", 0), "330 g oz juice"),
    ("words of a bracket are known", (*STEP, 0, "take", 0), "330 g orange juice (fresh)"),
    ("a strength has a number", (*STEP, 0, "take", 0), "330 g spirit (%vol)"),
    ("all is for made parts", (*STEP, 0, "take", 0), "all orange juice"),
    ("as foam goes with a volume", ("serve", "pour", 1, "take", 0), "12 g 'cloud' as foam"),
    ("amounts are not negative", (*STEP, 0, "take", 0), "-5 g honey"),
    ("keys of a take are known", (*STEP, 0, "take", 1, "name"), "x"),
    ("a temperature has a unit", (*STEP, 0, "at"), "70"),
    ("a temperature is C or F", (*STEP, 0, "at"), "343 K"),
    ("a time has a unit", (*STEP, 0, "time"), "10-12"),
    ("a time is a text", (*STEP, 0, "time"), 600),
    ("overnight is no time", (*STEP, 6, "time"), "overnight"),
    ("a share is at most 100 %", (*STEP, 4, "loss"), "120 %"),
    ("until is brix, pH, mass or share", (*STEP, 3, "until"), "thick"),
    ("charges are whole", (*STEP, 5, "charges"), 1.5),
    ("gas is N2O or CO2", (*STEP, 5, "gas"), "helium"),
    ("a pressure is in bar", (*STEP, 5, "pressure"), "30 psi"),
    ("hard is one of four", (*STEP, 6, "hard"), "very"),
    ("ice at goes with ice", ("part", 1, "step", 0, "ice"), ABSENT),
    ("ice is an amount", ("part", 1, "step", 0, "ice"), "10 % ice"),
    ("leave is a list", ("part", 1, "step", 0, "leave"), "ice"),
    ("a serve has a vessel", ("serve", "vessel"), ABSENT),
    ("a serve has pours", ("serve", "pour"), []),
    ("keys of a serve are known", ("serve", "glass"), "cup"),
    ("maybe is true or false", ("serve", "pour", 2, "maybe"), "yes"),
]


def changed(path, value):
    document = copy.deepcopy(SOUND)
    place = document
    for key in path[:-1]:
        place = place[key]
    if value is ABSENT:
        del place[path[-1]]
    else:
        place[path[-1]] = value
    return document


def toml(value):
    """An inline TOML value: JSON's texts and numbers are TOML's too."""
    if isinstance(value, dict):
        return "{" + ", ".join(f"{json.dumps(k)} = {toml(v)}" for k, v in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(map(toml, value)) + "]"
    return json.dumps(value, ensure_ascii=False)


def written(document):
    return "".join(f"{key} = {toml(value)}\n" for key, value in document.items())


def examples():
    for path in sorted((ROOT / "demo").rglob("*.toml")):
        document = tomllib.loads(path.read_text(encoding="utf-8"))
        if "bloomset" in document:  # kits, larders and services have another head
            yield str(path.relative_to(ROOT)), document
    for number, block in enumerate((ROOT / "docs/formula.md").read_text(encoding="utf-8").split("```toml\n")[1:]):
        yield f"docs/formula.md, example {number + 1}", tomllib.loads(block.split("```")[0])


def main():
    schema = json.loads((ROOT / "docs/formula.schema.json").read_text(encoding="utf-8"))
    jsonschema.Draft202012Validator.check_schema(schema)
    validator = jsonschema.Draft202012Validator(schema)
    passed, failed = 0, []

    def check(name, well, note=""):
        nonlocal passed
        passed += bool(well)
        if not well:
            failed.append(f"{name}: {note}")

    for name, document in [("the sound document", SOUND), *examples()]:
        faults = [f"{list(e.absolute_path)}: {e.message[:100]}" for e in validator.iter_errors(document)]
        check(name, not faults, faults[:3])
    for rule, path, value in CHANGES:
        check(rule, not validator.is_valid(changed(path, value)), "the schema accepts what breaks it")

    if len(sys.argv) > 1:
        cases = [("the sound document", SOUND, "yes")] + [(rule, changed(path, value), "no") for rule, path, value in CHANGES]
        with tempfile.TemporaryDirectory() as folder:
            files = [pathlib.Path(folder) / f"{number}.toml" for number in range(len(cases))]
            for file, (_, document, _) in zip(files, cases):
                file.write_text(written(document), encoding="utf-8")
            answers = subprocess.run([sys.argv[1], *map(str, files)], capture_output=True, text=True, timeout=60, check=True).stdout.splitlines()
        check("one answer a document", len(answers) == len(cases), len(answers))
        for (rule, _, expected), answer in zip(cases, answers):
            check(f"{rule}, by the reader", answer.startswith(expected + " ") and "not_toml" not in answer, answer)

    for line in failed:
        print("-", line)
    print(f"{passed} passed, {len(failed)} failed")
    return 1 if failed or passed < 60 else 0


if __name__ == "__main__":
    sys.exit(main())
