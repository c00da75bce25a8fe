"""What the checks of this folder share: a check of a project, and of itself on what it plants."""

import argparse
import pathlib


def plant(root, files):
    for name, text in files.items():
        path = root / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text + "\n", encoding="utf-8")


def verdict(faults, sentence):
    """Prints the faults, or the sentence where there are none; the status of the program."""
    print("\n".join(faults) or sentence)
    return 1 if faults else 0


def run(description, look, self_test, options=()):
    """`look(project, given)` gives the faults and what to say without any; `self_test(given)` a
    status. `options`: names of further options and their defaults."""
    parser = argparse.ArgumentParser(description=description)
    parser.add_argument("project", nargs="?", type=pathlib.Path)
    parser.add_argument("--self-test", action="store_true")
    for name, default in options:
        parser.add_argument(name, default=default)
    given = parser.parse_args()
    if given.self_test:
        return self_test(given)
    if given.project is None:
        parser.error("PROJECT is missing")
    return verdict(*look(given.project.resolve(), given))
