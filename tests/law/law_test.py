#!/usr/bin/env python3
"""The law must catch what it forbids: small made-up trees, each with one fault, and one without."""
import pathlib
import sys
import tempfile
import unittest

sys.path.insert(0, str(pathlib.Path(__file__).parent))
import law  # noqa: E402

TABLES = """
| module | state | may include | holds |
| --- | --- | --- | --- |
| `low` | here | – | the ground |
| `middle` | here | low | the first floor |
| `high` | here | middle | the roof |
| `side` | here | low | a shed |
| `later` | planned | high | nothing yet |
| `cli` | here | high | the door |

| library | headers begin with | CMake target | module |
| --- | --- | --- | --- |
| parser | `parse/` | `parser::parser` | `middle` |
"""
ESSAY = "// {0} - answers a made-up question for the test of the law, within made-up limits.\n// Called by nobody.\n#pragma once\n"
GOOD = {
    "ARCHITECTURE.md": TABLES,
    "src/low/CMakeLists.txt": "bloomset_module(low SOURCES low.cpp)\n",
    "src/low/low.hpp": ESSAY.format("low/low.hpp") + "#include <vector>\n",
    "src/low/low.cpp": '#include "low/low.hpp"\n\nstatic const int n = 1'
    "'000; // printf( in a comment is no call\n",
    "src/middle/CMakeLists.txt": "bloomset_module(middle SOURCES middle.cpp  # a comment (with brackets\n  PUBLIC low\n  PRIVATE parser::parser)\n",
    "src/middle/middle.cpp": '#include <parse/parse.hpp>\n#include "low/low.hpp"\n',
    "src/side/CMakeLists.txt": "bloomset_module(side SOURCES side.cpp PUBLIC low)\n",
    "src/side/side.cpp": '#include "low/low.hpp"\n',
    "src/high/CMakeLists.txt": "bloomset_module(high SOURCES high.cpp PUBLIC middle)\n",
    "src/high/high.cpp": '#include "low/low.hpp"\nstatic int helper(int n);\n',
    "src/cli/CMakeLists.txt": "add_executable(program main.cpp)\ntarget_link_libraries(program PRIVATE high)\n",
    "src/cli/main.cpp": "#include <iostream>\nint main() { std::cout << 1; }\n",
    "README.md": "See ARCHITECTURE.md.\n",
}


def misses(changes, rules=tuple(law.RULES)):
    with tempfile.TemporaryDirectory() as folder:
        root = pathlib.Path(folder)
        for name, text in {**GOOD, **changes}.items():
            if text is not None:
                (root / name).parent.mkdir(parents=True, exist_ok=True)
                (root / name).write_text(text, encoding="utf-8")
        return law.judge(root, rules)


class Law(unittest.TestCase):
    def caught(self, changes, *words):
        found = misses(changes)
        self.assertEqual(len(found), 1, found)
        for word in words:
            self.assertIn(word, found[0])

    def add(self, name, line):
        return {name: GOOD[name] + line + "\n"}

    def test_a_tree_that_keeps_the_law_is_let_through(self):
        self.assertEqual(misses({}), [])

    def test_an_include_of_a_higher_module(self):
        self.caught(self.add("src/low/low.cpp", '#include "middle/middle.hpp"'), "src/low/low.cpp:4:", "low includes middle", "nothing")

    def test_an_include_of_a_module_beside(self):
        self.caught(self.add("src/side/side.cpp", '#include "middle/middle.hpp"'), "src/side/side.cpp:2:", "side includes middle", "only low")

    def test_an_include_that_is_allowed_but_not_linked(self):
        self.caught({"src/side/CMakeLists.txt": "bloomset_module(side SOURCES side.cpp)\n"}, "src/side/side.cpp:1:", "does not link")

    def test_a_link_to_a_higher_module(self):
        self.caught({"src/low/CMakeLists.txt": "bloomset_module(low SOURCES low.cpp\n  PRIVATE middle)\n"}, "src/low/CMakeLists.txt:2:", "low links middle")

    def test_a_link_by_alias_and_by_plain_cmake(self):
        self.caught(self.add("src/side/CMakeLists.txt", "target_link_libraries(side PRIVATE bloomset::high)"), "src/side/CMakeLists.txt:2:", "side links high")

    def test_a_link_to_a_library_of_another_module(self):
        self.caught({"src/low/CMakeLists.txt": "bloomset_module(low SOURCES low.cpp PUBLIC parser::parser)\n"}, "parser::parser", "only middle")

    def test_a_link_to_a_library_nobody_named(self):
        self.caught({"src/low/CMakeLists.txt": "bloomset_module(low SOURCES low.cpp PUBLIC fancy::fancy)\n"}, "fancy::fancy", "do not name")

    def test_a_header_of_a_library_of_another_module(self):
        self.caught(self.add("src/side/side.cpp", "#include <parse/parse.hpp>"), "src/side/side.cpp:2:", "belongs to middle only")

    def test_a_header_of_a_library_nobody_named(self):
        self.caught(self.add("src/side/side.cpp", "#  include <fancy.h>"), "src/side/side.cpp:2:", "<fancy.h>")

    def test_a_header_without_its_module(self):
        self.caught(self.add("src/low/low.cpp", '#include "low.hpp"'), "module/file.hpp")

    def test_a_module_that_the_table_lacks(self):
        self.caught({"src/attic/attic.cpp": "\n"}, "src/attic", "lacks")

    def test_a_planned_module_with_code(self):
        self.caught({"src/later/later.cpp": "\n", "src/later/CMakeLists.txt": "\n"}, "src/later", "planned")

    def test_a_module_that_is_said_to_be_here_and_is_not(self):
        self.caught({"src/side/side.cpp": None, "src/side/CMakeLists.txt": None}, "side", "no code")

    def test_a_module_that_is_never_built(self):
        self.caught({"src/side/CMakeLists.txt": None}, "src/side", "no CMakeLists.txt")

    def test_a_circle_in_the_table(self):
        found = misses({"ARCHITECTURE.md": TABLES.replace("| `low` | here | – |", "| `low` | here | high |")}, ["includes"])
        self.assertEqual(len(found), 1)
        self.assertIn("circle", found[0])

    def test_a_table_that_names_an_unknown_module(self):
        found = misses({"ARCHITECTURE.md": TABLES.replace("| here | middle |", "| here | muddle |")}, ["includes"])
        self.assertIn("muddle", found[0])

    def test_no_table_at_all(self):
        self.assertIn("no table", misses({"ARCHITECTURE.md": "nothing\n"}, ["includes"])[0])

    def test_a_header_without_an_essay(self):
        self.caught({"src/low/low.hpp": "#pragma once\n"}, "src/low/low.hpp:1:", "must open")

    def test_a_header_with_the_essay_of_another(self):
        self.caught({"src/low/low.hpp": ESSAY.format("low/other.hpp")}, "low/low.hpp - ")

    def test_an_essay_of_three_words(self):
        self.caught({"src/low/low.hpp": "// low/low.hpp - some helpers.\n#pragma once\n"}, "too short")

    def test_a_header_without_a_guard(self):
        self.caught({"src/low/low.hpp": ESSAY.format("low/low.hpp").replace("#pragma once\n", "")}, "pragma")

    def test_impure_lines(self):
        for line, word in {
            "void f() { std::cout << 1; }": "prints",
            'void f() { printf("x"); }': "prints",
            "#include <fstream>": "files",
            "#include <chrono>": "clock",
            "#include <random>": "dice",
            "int f() { return rand(); }": "dice",
            'const char* f() { return std::getenv("HOME"); }': "environment",
            "void f() { std::abort(); }": "ends the program",
            "static int counter = 0;": "changing",
            "  static std::vector<int> seen;": "changing",
            "inline double factor = 1.0;": "changing",
            "thread_local int n;": "changing",
        }.items():
            with self.subTest(line=line):
                self.caught(self.add("src/low/low.cpp", line), "src/low/low.cpp:4:", word)

    def test_pure_lines_that_look_alike(self):
        for line in (
            'const char* text = "std::cout << rand()";',
            "// std::cout << clock()",
            "/* static int counter = 0; */",
            "int f(char* to) { return std::snprintf(to, 1, \"x\"); }",
            "static constexpr double half = 0.5;",
            "  static const std::vector<int> table = {1, 2};",
            "inline constexpr int n = 2;",
            "static Result<int> make(int n);",
            "inline int twice(int n) { return 2 * n; }",
            "double wanted = box.rand();",
        ):
            with self.subTest(line=line):
                self.assertEqual(misses(self.add("src/low/low.cpp", line)), [])

    def test_a_file_named_in_a_text_that_is_not_there(self):
        self.caught(self.add("README.md", "See `src/low/high.cpp`."), "README.md:2:", "src/low/high.cpp")
        self.assertEqual(misses(self.add("README.md", "See `src/low/low.cpp`, `src/low/` and `tests/<name>/`.")), [])

    def test_words(self):
        for line, word in {
            "// TO" + "DO: later": "unfinished",
            "// FIX" + "ME": "unfinished",
            "see https://registry." + "npmjs.org/x": "registry",
            "cd /wo" + "rk/main": "machine",
            "read ../sha" + "red/notes": "machine",
            "see /ho" + "me/cook": "machine",
            "see PLANS" + ".md": "PLANS",
        }.items():
            with self.subTest(line=line):
                self.caught(self.add("README.md", line), "README.md:2:", word)


if __name__ == "__main__":
    unittest.main()
