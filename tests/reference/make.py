"""Write the reference data, or check that it still follows from the scripts.

    python make.py                 write every file in data/
    python make.py NAME...         write only the files of these modules in cases/
    python make.py --check         make everything in memory and compare with data/
"""

import argparse
import importlib
import json
import math
import pathlib
import sys

HERE = pathlib.Path(__file__).resolve().parent
DATA = HERE / "data"
CASES = HERE / "cases"
# A document may ask for another tolerance in its own field `relative_tolerance`.
RELATIVE_TOLERANCE = 1e-6
ABSOLUTE_TOLERANCE = 1e-14
SIGNIFICANT_DIGITS = 10


def case_names():
    return sorted(p.stem for p in CASES.glob("*.py") if p.stem != "__init__")


def make(name):
    """The documents of one module by file name, rounded as they are written."""
    module = importlib.import_module(f"cases.{name}")
    # A module without `files` holds a model that several subjects share.
    if not hasattr(module, "files"):
        return {}
    return {file: rounded(document) for file, document in module.files().items()}


def rounded(value):
    if isinstance(value, dict):
        return {key: rounded(item) for key, item in value.items()}
    if isinstance(value, (list, tuple)):
        return [rounded(item) for item in value]
    if isinstance(value, (bool, str, int)) or value is None:
        return value
    number = float(value)
    if not math.isfinite(number):
        raise ValueError("a reference value is not finite")
    return float(f"{number:.{SIGNIFICANT_DIGITS}g}")


def text(document):
    """JSON with one row per line, so that a change shows where it happened."""
    parts = []
    for key, value in document.items():
        if isinstance(value, list) and value and isinstance(value[0], dict):
            rows = ",\n    ".join(json.dumps(row, ensure_ascii=False) for row in value)
            parts.append(f"  {json.dumps(key)}: [\n    {rows}\n  ]")
        else:
            parts.append(f"  {json.dumps(key)}: {json.dumps(value, ensure_ascii=False)}")
    return "{\n" + ",\n".join(parts) + "\n}\n"


def first_difference(made, kept, tolerance, where=""):
    """Where two documents differ by more than the tolerance, or None."""
    if isinstance(made, dict) and isinstance(kept, dict):
        if list(made) != list(kept):
            return f"{where}: fields differ"
        pairs = ((f"{where}.{key}", made[key], kept[key]) for key in made)
    elif isinstance(made, list) and isinstance(kept, list):
        if len(made) != len(kept):
            return f"{where}: {len(made)} entries made, {len(kept)} kept"
        pairs = ((f"{where}[{i}]", a, b) for i, (a, b) in enumerate(zip(made, kept)))
    elif is_number(made) and is_number(kept):
        same = math.isclose(made, kept, rel_tol=tolerance, abs_tol=ABSOLUTE_TOLERANCE)
        return None if same else f"{where}: made {made}, kept {kept}"
    else:
        return None if made == kept else f"{where}: made {made!r}, kept {kept!r}"
    return next((d for w, a, b in pairs if (d := first_difference(a, b, tolerance, w))), None)


def is_number(value):
    return isinstance(value, (int, float)) and not isinstance(value, bool)


def write(names):
    DATA.mkdir(exist_ok=True)
    for name in names:
        for file, document in make(name).items():
            (DATA / file).write_text(text(document), encoding="utf-8")
            print(f"wrote {file}")


def check():
    """The complaints about data/, one line each."""
    complaints = []
    made_by = {}
    for name in case_names():
        for file, document in make(name).items():
            if file in made_by:
                complaints.append(f"{file}: made by both {made_by[file]} and {name}")
            made_by[file] = name
            path = DATA / file
            if not path.exists():
                complaints.append(f"{file}: made by {name} but missing from data/")
                continue
            try:
                kept = json.loads(path.read_text(encoding="utf-8"))
            except ValueError as error:
                complaints.append(f"{file}: not readable as JSON ({error})")
                continue
            tolerance = document.get("relative_tolerance", RELATIVE_TOLERANCE)
            if difference := first_difference(document, kept, tolerance):
                complaints.append(f"{file}: {difference}")
    for path in sorted(DATA.iterdir()):
        if path.name not in made_by:
            complaints.append(f"{path.name}: no script makes this file")
    return complaints


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawTextHelpFormatter)
    parser.add_argument("--check", action="store_true", help="compare instead of writing")
    parser.add_argument("names", nargs="*", help="modules of cases/ to write (all if none)")
    arguments = parser.parse_args()
    if arguments.check:
        complaints = check()
        for complaint in complaints:
            print(complaint)
        if complaints:
            print(f"{len(complaints)} drifted")
            return 1
        print("reference data follows from the scripts")
        return 0
    unknown = set(arguments.names) - set(case_names())
    if unknown:
        parser.error(f"no such module: {', '.join(sorted(unknown))}")
    write(arguments.names or case_names())
    return 0


if __name__ == "__main__":
    sys.exit(main())
