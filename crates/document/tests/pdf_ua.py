"""Checks PDF files against PDF/UA-1 with tools that are not ours: python3 pdf_ua.py FILE.pdf ...

1. the structure, read with pikepdf: language, title, every Figure and Formula with its text, headings without gaps,
   tables with header cells, everything on a page either tagged or an artifact;
2. `outloud`: the Matterhorn checkpoints that a machine can check, no error allowed;
3. `pdfua`: a second reading of a smaller set, no error allowed.

Install the tools with: python3 -m pip install -r pdf_ua_requirements.txt
A tool that is not installed is an error, unless --without-outside-tools is given.
"""

import shutil
import subprocess
import sys

import pikepdf


def elements(node, seen=None):
    """Every structure element, in reading order."""
    seen = set() if seen is None else seen
    if isinstance(node, pikepdf.Array):
        for kid in node:
            yield from elements(kid, seen)
        return
    if not isinstance(node, pikepdf.Dictionary):
        return
    if node.is_indirect:
        if node.objgen in seen:
            return
        seen.add(node.objgen)
    if "/S" in node:
        yield node
    if "/K" in node:
        yield from elements(node["/K"], seen)


def faults_of(path):
    """What the structure lacks."""
    with pikepdf.open(path) as file:
        root = file.Root
        if str(root.get("/Lang", "")) == "":
            yield "no language"
        if not root.get("/ViewerPreferences", {}).get("/DisplayDocTitle", False):
            yield "the window does not show the title"
        with file.open_metadata() as data:
            if data.get("pdfuaid:part") != "1":
                yield "does not say that it is PDF/UA-1"
            if not data.get("dc:title"):
                yield "no title"
        if "/StructTreeRoot" not in root:
            yield "no structure"
            return
        level = 0
        for element in elements(root.StructTreeRoot.K):
            kind = str(element.S)
            if kind in ("/Figure", "/Formula") and not str(element.get("/Alt", "")).strip():
                yield f"a {kind[1:]} without a text"
            if kind == "/Table" and not any(str(cell.S) == "/TH" for cell in elements(element.K)):
                yield "a table without header cells"
            if kind[:2] == "/H" and kind[2:].isdigit():
                if int(kind[2:]) > level + 1:
                    yield f"{kind[1:]} after H{level}"
                level = int(kind[2:])


def main():
    paths = [word for word in sys.argv[1:] if not word.startswith("--")]
    failed = not paths
    for path in paths:
        faults = list(faults_of(path))
        for fault in faults:
            print(f"{path}: {fault}")
        failed |= bool(faults)
    if "--without-outside-tools" not in sys.argv:
        for command in (["outloud", "--fail-on", "error"], ["pdfua", "check", "--min-severity", "error"]):
            if shutil.which(command[0]) is None:
                print(f"{command[0]} is not installed")
                failed = True
            elif paths:
                done = subprocess.run([*command, *paths], check=False, capture_output=True, text=True)
                if done.returncode != 0:
                    print(done.stdout, done.stderr, sep="")
                    failed = True
    print("PDF/UA-1: " + ("not passed" if failed else f"passed by {len(paths)} files"))
    return int(failed)


if __name__ == "__main__":
    sys.exit(main())
