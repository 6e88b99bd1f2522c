"""Writes what the fuzzer starts from: seeds.py file|link|quantity FOLDER

Each line of seeds/TARGET.txt, and for files and links each entry of the fixtures as a small document of its own: so every
name is met, and no seed is so large that it slows the search.
"""

import json
import pathlib
import sys

HERE = pathlib.Path(__file__).resolve().parent
FIXTURES = HERE.parent / "tests/fixtures"


def seeds(target):
    yield from (HERE / f"seeds/{target}.txt").read_text(encoding="utf-8").split("\n")[:-1]
    if target == "quantity":
        return
    for fixture in sorted(FIXTURES.glob("*.json")):
        document = json.loads(fixture.read_text(encoding="utf-8"))
        version = document.pop("hearthplan")
        for name, entry in document.items():
            entry = {name: entry[:2] if isinstance(entry, list) else entry}
            whole = {"hearthplan": version, **entry} if target == "file" else entry
            yield json.dumps(whole, ensure_ascii=False)
            if target == "link":
                yield json.dumps({"base": entry, "changed": {name: []}, "note": ""}, ensure_ascii=False)
    if target == "link":
        for fixture in sorted(FIXTURES.glob("*.link")):
            yield fixture.read_text(encoding="utf-8").strip()


folder = pathlib.Path(sys.argv[2])
for number, seed in enumerate(seeds(sys.argv[1])):
    (folder / f"seed-{number}").write_text(seed, encoding="utf-8")
