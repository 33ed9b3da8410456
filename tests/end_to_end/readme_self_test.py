#!/usr/bin/env python3
"""The README's test must notice a line that is no longer printed."""
import pathlib
import sys
import unittest

sys.path.insert(0, str(pathlib.Path(__file__).parent))
import readme_test  # noqa: E402


def text(*shown):
    return "\n".join(["Before.", "```console", "$ build/bloomset x", *shown, "```", "After.", ""])


def judge(shown, printed):
    return readme_test.judge(text(*shown), "program", lambda command, program: printed)


class Readme(unittest.TestCase):
    def test_true_output_is_let_through(self):
        self.assertEqual(judge(["a", "b"], ["a", "b"]), (1, [], text("a", "b")))

    def test_a_changed_a_lost_and_an_added_line_are_caught(self):
        for printed in (["a", "c"], ["a"], ["a", "b", "c"], []):
            self.assertEqual(len(judge(["a", "b"], printed)[1]), 1, printed)

    def test_rewriting_puts_the_real_lines_in_and_nothing_else(self):
        self.assertEqual(judge(["a", "b"], ["c"])[2], text("c"))

    def test_a_gap_stands_for_any_lines(self):
        for printed in (["a", "z"], ["a", "b", "c", "z"]):
            self.assertEqual(judge(["a", "…", "z"], printed)[1], [], printed)
        self.assertEqual(judge(["a", "…", "m", "…", "z"], ["a", "b", "m", "y", "z"])[1], [])

    def test_a_gap_does_not_hide_a_changed_line(self):
        for printed in (["b", "z"], ["a", "y"], ["a"], []):
            self.assertEqual(len(judge(["a", "…", "z"], printed)[1]), 1, printed)
        self.assertEqual(len(judge(["a", "…", "m", "…", "z"], ["a", "b", "n", "y", "z"])[1]), 1)

    def test_the_program_stands_in_for_the_built_one(self):
        self.assertEqual(readme_test.run("build/bloomset one | cat", "echo"), ["one"])

    def test_a_block_that_does_not_end_is_an_error(self):
        with self.assertRaises(ValueError):
            readme_test.judge("```console\n$ x\n", "program", lambda c, p: [])


if __name__ == "__main__":
    unittest.main()
