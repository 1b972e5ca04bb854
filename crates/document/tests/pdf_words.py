"""Looks where the words of PDF files stand, with a reader that is not ours: python3 pdf_words.py FILE.pdf ...

No word lies on another, and none stands outside its page. Needs pdftotext (Debian: poppler-utils).
"""

import subprocess
import sys
import xml.etree.ElementTree as tree

# Letters of formulas reach far beyond what is seen of them; a word of so many letters is no formula.
LETTERS = 3
# Of the height of a line this much about its middle belongs to it alone.
CORE = 0.4


def words_of(page):
    """The words of a page with the cores of their boxes: left, top, right, bottom, in points."""
    for word in page.iter("{http://www.w3.org/1999/xhtml}word"):
        text = word.text or ""
        if len(text) < LETTERS or not text.isalpha():
            continue
        left, top, right, bottom = (float(word.get(side)) for side in ("xMin", "yMin", "xMax", "yMax"))
        middle, half = (top + bottom) / 2, CORE * (bottom - top) / 2
        yield text, (left, middle - half, right, middle + half)


def lie_on_one_another(one, other):
    across = min(one[2], other[2]) - max(one[0], other[0])
    down = min(one[3], other[3]) - max(one[1], other[1])
    return down > 0 and across > 0.2 * min(one[2] - one[0], other[2] - other[0])


def faults_of(path):
    told = subprocess.run(["pdftotext", "-bbox", path, "-"], capture_output=True, check=True).stdout
    # What a lesson may say and XML may not is no matter here.
    text = "".join(c if c in "\t\n" or c >= " " else " " for c in told.decode(errors="replace"))
    pages = list(tree.fromstring(text).iter("{http://www.w3.org/1999/xhtml}page"))
    if not any(True for page in pages for _ in words_of(page)):
        yield "no word at all"
    for number, page in enumerate(pages, 1):
        width, height = float(page.get("width")), float(page.get("height"))
        words = sorted(words_of(page), key=lambda word: word[1][1])
        for place, (text, box) in enumerate(words):
            if box[0] < 0 or box[1] < 0 or box[2] > width or box[3] > height:
                yield f"page {number}: {text!r} stands outside"
            for other_text, other in words[place + 1:]:
                if other[1] >= box[3]:
                    break
                if lie_on_one_another(box, other):
                    yield f"page {number}: {text!r} lies on {other_text!r}"


def main(paths):
    faulty = 0
    for path in paths:
        found = list(faults_of(path))
        faulty += bool(found)
        for fault in found[:10]:
            print(f"{path}: {fault}")
    print(f"{len(paths)} files, {faulty} with words on one another or outside their pages")
    return 1 if faulty or not paths else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
