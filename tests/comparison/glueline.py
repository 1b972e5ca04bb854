"""Running the project's own command on a lesson text, from a comparison."""

import json
import os
import pathlib
import subprocess
import tempfile

ROOT = pathlib.Path(__file__).resolve().parents[2]
COMMAND = os.environ.get("GLUELINE", str(ROOT / "target" / "release" / "glueline"))


def values(lesson, at=(), cuts=()):
    """The rows of `glueline values --json` for a lesson text, at further stations and cuts."""
    with tempfile.TemporaryDirectory() as folder:
        path = pathlib.Path(folder) / "lesson.toml"
        path.write_text(lesson, encoding="utf-8")
        call = [COMMAND, "values", str(path), "--json"]
        for x in at:
            call += ["--at", x]
        for y in cuts:
            call += ["--cut", y]
        done = subprocess.run(call, capture_output=True, text=True, encoding="utf-8")
    if done.returncode != 0:
        raise SystemExit(f"glueline refused a lesson that should be good:\n{lesson}\n{done.stderr}")
    return json.loads(done.stdout)


class Rows:
    """Looks rows up by name and place."""

    def __init__(self, rows):
        self.rows = rows

    def find(self, name, **place):
        found = [
            row
            for row in self.rows
            if row["name"] == name
            and all(
                (row.get(key) is None) if want is None
                else isinstance(row.get(key), str) and row[key] == want if isinstance(want, str)
                else row.get(key) is not None and abs(row[key] - want) < 1e-9 * max(1.0, abs(want))
                for key, want in place.items()
            )
        ]
        if not found:
            raise SystemExit(f"no row {name!r} at {place}; rows: {sorted({row['name'] for row in self.rows})}")
        return found[0]["value"]
