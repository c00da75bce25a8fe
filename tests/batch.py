#!/usr/bin/env python3
"""Writes one source file of several tests: batch.py OUT TEST...

Half of compiling a test is reading what it includes. So all includes come first, each once, and
behind them what stands in each file, in a namespace of its own: tests may name their helpers as
they like. Lines and files are said as they are, for messages and for Catch2's tags of files.

A file that this cannot be done with (it defines a macro, asks the preprocessor, or opens a
namespace with a name) is refused: is_alone() says which, and they are compiled alone.
"""

import pathlib
import re
import sys

ALONE = re.compile(r"^\s*#\s*(?:if|else|elif|endif|define|undef|pragma)|^(?:inline )?namespace \w|^template <>", re.M)
INCLUDE = re.compile(r'^#include (?:<[^>]*>|"(?P<file>[^"]*)")')


def is_alone(text):
    return ALONE.search(text) is not None


def parts_of(path):
    """What a test includes, and the rest, with an empty line for each include."""
    includes, rest = [], []
    for line in path.read_text(encoding="utf-8").split("\n"):
        found = INCLUDE.match(line)
        if not found:
            rest.append(line)
            continue
        beside = path.parent / (found["file"] or "")
        includes.append(f'#include "{beside.resolve()}"' if found["file"] and beside.exists() else line)
        rest.append("")
    return includes, "\n".join(rest)


def batch(paths):
    includes, bodies = {}, []
    for number, path in enumerate(paths):
        if is_alone(path.read_text(encoding="utf-8")):
            raise SystemExit(f"{path}: has to be compiled alone")
        included, body = parts_of(path)
        includes.update(dict.fromkeys(included))
        bodies.append(f'namespace test_file_{number} {{\n#line 1 "{path}"\n{body}\n}}\n')
    return "\n".join(includes) + "\n" + "".join(bodies)


def main():
    if sys.argv[1] == "--alone":
        print(";".join(name for name in sys.argv[2:] if is_alone(pathlib.Path(name).read_text(encoding="utf-8"))))
        return
    pathlib.Path(sys.argv[1]).parent.mkdir(parents=True, exist_ok=True)
    pathlib.Path(sys.argv[1]).write_text(batch([pathlib.Path(name) for name in sys.argv[2:]]), encoding="utf-8")


main()
