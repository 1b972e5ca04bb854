"""The JSON Schema of the lesson file against a validator that is not ours (Python's jsonschema, draft 2020-12).

Every built-in lesson and the starting lesson fit it; what an editor should underline without the program does not.
"""

import json
import pathlib
import subprocess
import tempfile
import tomllib

from glueline import COMMAND, ROOT
from jsonschema import Draft202012Validator

WRONG = [  # what stands in lessons/overhang.toml, and what is put in its place
    ('length = "5 m"', 'lenght = "5 m"'),
    ('title = "A hoist rail over a loading bay"\n', ""),
    ('shape = "T"', 'shape = "TT"'),
    ('web-thickness = "15 mm"', ""),
    ('{ pin = "0 m", name = "A" }', '{ name = "A" }'),
    ('{ force = "P_1", at = "2 m" }', '{ force = "P_1" }'),
    ("marks = 1", "marks = 0"),
]


def main():
    schema = json.loads(subprocess.run([COMMAND, "schema"], capture_output=True, check=True).stdout)
    Draft202012Validator.check_schema(schema)
    validator = Draft202012Validator(schema)
    lessons = {path.name: path.read_text(encoding="utf-8") for path in sorted((ROOT / "lessons").glob("*.toml"))}
    with tempfile.TemporaryDirectory() as folder:
        subprocess.run([COMMAND, "start", "roof-beam"], cwd=folder, capture_output=True, check=True)
        lessons["the starting lesson"] = (pathlib.Path(folder) / "roof-beam.toml").read_text(encoding="utf-8")
    for name, text in lessons.items():
        errors = [f"{error.json_path}: {error.message}" for error in validator.iter_errors(tomllib.loads(text))]
        assert not errors, f"{name}: {errors}"
    sound = lessons["overhang.toml"]
    for right, wrong in WRONG:
        assert right in sound, right
        value = tomllib.loads(sound.replace(right, wrong, 1))
        assert not validator.is_valid(value), f"{wrong!r} in place of {right!r} passes"
    print(f"{len(lessons)} lessons fit the schema, {len(WRONG)} wrong ones do not")


if __name__ == "__main__":
    main()
