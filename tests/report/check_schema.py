"""Checks reports against a JSON Schema with Debian's python3-jsonschema.

Usage: check_schema.py SCHEMA REPORT...
Prints a line for each fault, "FILE: where: what". Status 0: none; 1: some.
"""

import json
import sys

import jsonschema


def load(path):
    with open(path, encoding="utf-8") as file:
        return json.load(file)


schema = load(sys.argv[1])
jsonschema.Draft202012Validator.check_schema(schema)
validator = jsonschema.Draft202012Validator(schema)
faults = 0
for path in sys.argv[2:]:
    for fault in validator.iter_errors(load(path)):
        where = "/".join(str(part) for part in fault.absolute_path)
        print(f"{path}: {where}: {fault.message}")
        faults += 1
sys.exit(1 if faults else 0)
