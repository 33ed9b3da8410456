"""tabulate_test.py TABULATE - the maker of constant tables refuses every row that hides where a number comes from."""
import pathlib
import subprocess
import sys
import tempfile

HEAD = "quantity,of,index,value,unit,origin,source\n"
GOOD = HEAD + "phi,citric acid,0,0.5,cm3/g,fit,key1\nphi,citric acid,1,2,cm3/g,fit,key1\nlimit,,,0.7,1,practice,practice\n"
BAD = {
    "no header": GOOD.replace(HEAD, ""),
    "header": GOOD.replace("origin,source", "source,origin"),
    "no source": HEAD + "phi,,,0.5,1,fit,\n",
    "is not in the bibliography": HEAD + "phi,,,0.5,1,published,nobody1900\n",
    "origin `guess`": HEAD + "phi,,,0.5,1,guess,key1\n",
    "origin practice and source practice go together": HEAD + "phi,,,0.5,1,practice,key1\n",
    "origin memory and a source": HEAD + "phi,,,0.5,1,memory,key1\n",
    "is not a number": HEAD + "phi,,,0.5x,1,fit,key1\n",
    "no unit": HEAD + "phi,,,0.5,,fit,key1\n",
    "index 1 wanted": HEAD + "phi,,0,0.5,1,fit,key1\nphi,,2,0.5,1,fit,key1\n",
    "stands twice": HEAD + "phi,,,0.5,1,fit,key1\nphi,,,0.6,1,fit,key1\n",
    "seven fields wanted": HEAD + "phi,,0.5,1,fit,key1\n",
    "cannot be a name": HEAD + "phi*,,,0.5,1,fit,key1\n",
}


def main():
    failed = 0
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        (folder / "sources.bib").write_text("@book{key1,\n  title = {A}\n}\n")
        table, header = folder / "table.csv", folder / "table.hpp"

        def run(text):
            table.write_text(text)
            return subprocess.run([sys.argv[1], table, folder / "sources.bib", "a::b", header], capture_output=True, text=True)

        made = run(GOOD)
        text = header.read_text() if header.exists() else ""
        for wanted in ("std::array<double, 2> phi_citric_acid = {0.5, 2.0};", "double limit = 0.7;", "namespace a::b {", "fit: key1"):
            if made.returncode or wanted not in text:
                print(f"a good table: `{wanted}` is missing: {made.stderr}{text}")
                failed += 1
        before = header.stat().st_mtime_ns
        run("# another comment\n" + GOOD)
        if header.stat().st_mtime_ns != before:
            print("an unchanged header was written again")
            failed += 1
        for words, text in BAD.items():
            answer = run(text)
            if answer.returncode != 2 or (words not in answer.stderr and words != "no header") or "table.csv" not in answer.stderr:
                print(f"`{words}`: exit {answer.returncode}, said: {answer.stderr.strip()}")
                failed += 1
    return 1 if failed else 0


sys.exit(main())
