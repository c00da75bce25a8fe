#!/usr/bin/env python3
"""DEVELOPERS.md is read in ten minutes, and names nothing that is not there.

    check_guide.py PROJECT       reads PROJECT/DEVELOPERS.md
    check_guide.py --self-test   plants one fault of each kind and expects to see it

What is held: at most 1,600 words, as `wc -w` counts; every path and file named in code (between
backticks, in an indented block or as a link) exists, with any name in place of NAME or LAYER; what
follows a script of tools/ in code (`tools/bench pickup --slips 20`) stands in that script; the
table of layers has the layers of check_layers.py in their order, and each has a folder.

Status 0: all well. 1: faults, one a line as DEVELOPERS.md:line: what.
"""

import pathlib
import re
import sys
import tempfile

from check_layers import ORDER
from checks import run, verdict

GUIDE = "DEVELOPERS.md"
MOST_WORDS = 1600
SOURCE_FILE = re.compile(r"^[\w.-]+\.(cpp|hpp|py|md|txt|yaml|json|cmake)$")
PLACEHOLDER = re.compile(r"\b(NAME|LAYER)(?=[._/]|$)")
IN_CODE = re.compile(r"`([^`]+)`|\]\(([^)]+)\)")
ROW = re.compile(r"^    ([a-z]+)  +\S")


def code_of(line):
    """The pieces of code in a line."""
    if line.startswith("    "):
        yield line.split(" #")[0]
        return
    for backticks, link in IN_CODE.findall(line):
        yield backticks or link


def is_there(name, root):
    """A path from the root, or a file's bare name anywhere in it."""
    if name == "CMakeLists.txt" or (root / name).exists():
        return (root / name).exists()
    pattern = PLACEHOLDER.sub("*", name)
    if "/" in name:
        return pattern != name and any(root.glob(pattern))
    folders = ("include", "src", "tests", "tools", "charts")
    return any(found for folder in folders for found in (root / folder).rglob(pattern))


def words_of(code):
    return [word.strip("\"'.,;:()") if not word.startswith(".") else word for word in code.split()]


def faults_of_script(words, at, root):
    """What a script of tools/ is given must be something that it knows."""
    script = root / words[at]
    if not script.is_file() or script.suffix:
        return
    text = script.read_text(encoding="utf-8")
    for word in words[at + 1:]:
        known = re.search(rf"(?<![\w-]){re.escape(word)}(?![\w-])", text)
        if re.match(r"^(--)?[a-z][a-z-]*$", word) and not known:
            yield f"{words[at]} knows no {word}"


def faults_of_code(code, root):
    words = words_of(code)
    for at, word in enumerate(words):
        is_path = "/" in word and not word.startswith(("build/", "-"))
        if (is_path or SOURCE_FILE.match(word)) and not is_there(word, root):
            yield f"{word} is not there"
        if word.startswith("tools/"):
            yield from faults_of_script(words, at, root)


def faults_of_layers(lines, order, root):
    begins = [number for number, line in enumerate(lines) if line.startswith("## Layers")]
    if not begins:
        yield 1, "has no table of layers"
        return
    rows = []
    for number, line in enumerate(lines[begins[0] + 1:], begins[0] + 2):
        if line.startswith("## "):
            break
        if ROW.match(line):
            rows.append((number, ROW.match(line).group(1)))
    if [name for _, name in rows] != list(order):
        yield begins[0] + 1, (f"the table has the layers {' '.join(name for _, name in rows)}; "
                              f"check_layers.py has {' '.join(order)}")
    for number, name in rows:
        if not (root / "src" / name).is_dir():
            yield number, f"the layer {name} has no folder src/{name}"


def check(root, order):
    text = (root / GUIDE).read_text(encoding="utf-8")
    lines = text.splitlines()
    count = len(text.split())
    faults = []
    if count > MOST_WORDS:
        faults.append(f"{GUIDE}:1: has {count} words; {MOST_WORDS} are the most")
    for number, line in enumerate(lines, 1):
        if not ROW.match(line):
            faults += [f"{GUIDE}:{number}: {fault}"
                       for code in code_of(line) for fault in faults_of_code(code, root)]
    faults += [f"{GUIDE}:{number}: {fault}"
               for number, fault in faults_of_layers(lines, order, root)]
    return faults, count


# --- Self-test: each rule must be able to fail -------------------------------------------------

SOUND = """# Guide

Begin with `src/time/swing.cpp`, tested by `swing_test.cpp`, and [the charts](charts/README.md).
A test is `tests/time/NAME_test.cpp`; `build/dev` is made by `cmake --preset dev`, either/or.

    tools/bench pickup --slips 20   # not/there

## Layers

    app        on top
    time       below
"""
# What is put in place of what, and what is said of it.
PLANTED = (
    ("# Guide", "# Guide" + " word" * MOST_WORDS, "words; 1600 are the most"),
    ("`src/time/swing.cpp`", "`src/time/swings.cpp`", "src/time/swings.cpp is not there"),
    ("`swing_test.cpp`", "`swung_test.cpp`", "swung_test.cpp is not there"),
    ("(charts/README.md)", "(charts/READ.md)", "charts/READ.md is not there"),
    ("tests/time/NAME_test.cpp", "tests/harmony/NAME_test.cpp", "NAME_test.cpp is not there"),
    ("    tools/bench", "    tools/benches", "tools/benches is not there"),
    ("bench pickup", "bench pick", "tools/bench knows no pick"),
    ("--slips", "--slip", "tools/bench knows no --slip"),
    ("    app        on top\n", "", "the table has the layers time;"),
    ("    time       below", "    time       below\n    sound      lower", "no folder src/sound"),
    ("## Layers", "## Rooms", "has no table of layers"),
)
FILES = ("src/app/main.cpp", "src/time/swing.cpp", "tests/time/swing_test.cpp", "charts/README.md")


def self_test(_):
    order = ["app", "time"]
    with tempfile.TemporaryDirectory() as folder:
        root = pathlib.Path(folder)
        for name in (*FILES, "tools/bench"):
            (root / name).parent.mkdir(parents=True, exist_ok=True)
            (root / name).write_text("# bench pickup --slips N\n", encoding="utf-8")
        (root / GUIDE).write_text(SOUND, encoding="utf-8")
        wrong = [f"false alarm: {fault}" for fault in check(root, order)[0]]
        for old, new, said in PLANTED:
            assert SOUND.count(old) == 1, old
            (root / GUIDE).write_text(SOUND.replace(old, new), encoding="utf-8")
            if not any(said in fault for fault in check(root, order)[0]):
                wrong.append(f"not noticed: {said}")
    return verdict(wrong, f"all {len(PLANTED)} planted faults noticed, no false alarm")


def look(project, _):
    faults, count = check(project, ORDER)
    return faults, f"{count} words, and all that they name is there"


if __name__ == "__main__":
    sys.exit(run("Checks that DEVELOPERS.md is short and true.", look, self_test))
