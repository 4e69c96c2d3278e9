"""Checks files against a schema with a general-purpose library; prints a line for each fault."""

import json
import sys
import tomllib

import jsonschema

with open(sys.argv[1], encoding="utf-8") as file:
    schema = json.load(file)
jsonschema.Draft202012Validator.check_schema(schema)
validator = jsonschema.Draft202012Validator(schema)
for path in sys.argv[2:]:
    with open(path, "rb") as file:
        content = json.load(file) if path.endswith(".json") else tomllib.load(file)
    for error in validator.iter_errors(content):
        print(path, "/".join(map(str, error.absolute_path)), error.message)
