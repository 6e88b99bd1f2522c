"""Prints words that the fuzzer puts into its inputs: dictionary.py file|link|quantity

Names come from where the program has them, so that none is forgotten: those of inputs and options from the words that
links are packed with, those of units from their table.
"""

import pathlib
import re
import sys

DESIGN = pathlib.Path(__file__).resolve().parent.parent / "src/design"
# The words end with whole designs, which are no names.
LONGEST = 40
SIGNS = ['{"hearthplan":2,', '{"hearthplan":1,', "null", "true", "1e400", "-0", "\\u0000", "\\ud800", "[[[[[[[[", "~1.", "~0"]
FORMAT_1 = ["gas_temperature", "cooler_drop", "filter_drop", "dirty_filter_drop", "fittings", "place", "other_load"]
ANSWER = ['"base":{', '"changed":{', '"note":"', "2.", "1.", "2~", "1~"]
FIGURES = ["1/2", "½", "⅓", "1 1/16", "1-1/2", "1,500", "1.500,5", "e308", "e-308", "−", "\u202f", "\u00a0", "′", "″"]


def strings(path, pattern):
    return re.findall(pattern, (DESIGN / path).read_text(encoding="utf-8"))


def words(target):
    if target == "quantity":
        return strings("quantity/units.rs", r'"((?:[^"\\\n]|\\.)+)"') + FIGURES
    names = [line for line in strings("defaults/v2.words", r"(?m)^[^#\n].*$") if len(line) <= LONGEST]
    return names + SIGNS + FORMAT_1 + (ANSWER if target == "link" else [])


def entry(word):
    return '"' + "".join(f"\\x{byte:02x}" for byte in word.encode()) + '"'


print("\n".join(sorted({entry(word) for word in words(sys.argv[1])})))
