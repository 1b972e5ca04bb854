"""Papers and keys of a class by `glueline papers`, against the same papers and keys by pdflatex with TikZ.

    python3 crates/glueline/benches/against_pdflatex.py [STUDENTS] [--sample SAMPLE] [--glueline target/release/glueline] [--keep FOLDER]

STUDENTS are 100 and SAMPLE is 10 where nothing is said. For each student both make a paper and a key with the worked solution, each a
PDF, with the same words, tables, formulas, rooms to work in and drawings, of the same sizes; `as_latex` beside this file writes them
as LaTeX from the command's own pages of HTML, and that work is not in pdflatex's time. pdflatex sets them in its own letters, so
the pages need not break at the same places; a document longer or shorter than ours by more than a page stops the bench.

What the command does besides is in its time: it draws each student's numbers, solves the lesson for them, proves that the papers
are alike, makes paper and key as pages of HTML too, and puts all papers in files for the printer as well. Its PDFs are tagged, with the
words of each drawing and formula for who does not see them.

On both sides pages are numbered "1 of 4"; for that "of 4" pdflatex runs twice on each document, and is said to. It is run in two ways:
for each document, as papers are made one by one, and for the papers and keys of all students of the sample in one document, where it
starts only twice. The command uses all cores of the machine, pdflatex one; so both ways are run one after another, and on all cores at
once, as many at a time as there are cores. Where a machine is shared the clock says little; so the work, seconds of the processor,
stands beside it.

Needs pdflatex with TikZ and pdfinfo (Debian: texlive-latex-recommended, texlive-pictures, poppler-utils), and a build with the
typesetter.
"""

import argparse
import os
import pathlib
import resource
import shutil
import subprocess
import sys
import tempfile
import time
from concurrent.futures import ThreadPoolExecutor

from as_latex import page

ROOT = pathlib.Path(__file__).resolve().parents[3]
CORES = len(os.sched_getaffinity(0))
LATEX = ["pdflatex", "-interaction=nonstopmode", "-halt-on-error"]


def run(command, folder):
    done = subprocess.run(command, cwd=folder, capture_output=True, text=True, errors="replace")
    if done.returncode or "Missing character" in done.stdout:
        sys.exit(f"{' '.join(map(str, command))} failed:\n{done.stdout[-2000:]}{done.stderr[-2000:]}")


def timed(commands, folder, at_once=1, times=1):
    """Seconds of the clock, and of the processor, that the commands take, each so many times and so many of them at once."""
    spent = lambda: sum(resource.getrusage(resource.RUSAGE_CHILDREN)[:2])
    clock, processor = time.perf_counter(), spent()
    with ThreadPoolExecutor(at_once) as workers:
        list(workers.map(lambda command: [run(command, folder) for _ in range(times)], commands))
    return time.perf_counter() - clock, spent() - processor


def pages(pdf):
    told = subprocess.run(["pdfinfo", pdf], capture_output=True, text=True).stdout
    return int(next(line.split()[1] for line in told.splitlines() if line.startswith("Pages:")))


def papers_of_a_class(glueline, students, folder):
    """Papers and keys in the folder `papers`, and what they took."""
    # Smaller steps, so that a thousand students have numbers of their own.
    lesson = (ROOT / "lessons/conveyor.toml").read_text()
    (folder / "conveyor.toml").write_text(lesson.replace('step = "1 kN/m"', 'step = "0.5 kN/m"').replace('step = "0.1 m"', 'step = "0.05 m"'))
    rows = [f"{number:05},Student {number:05}" for number in range(1, students + 1)]
    (folder / "class.csv").write_text("student id,name\n" + "\n".join(rows) + "\n")
    (folder / "term.secret").write_text("0123456789abcdef0123456789abcdef")
    shutil.rmtree(folder / "papers", ignore_errors=True)
    return timed([[glueline.resolve(), "papers", "conveyor.toml", "class.csv", "-o", "papers"]], folder)


def write_latex(out, tex, sample):
    """Each document of the sample as a file of LaTeX, all in one, and the names of the single ones."""
    tex.mkdir(exist_ok=True)
    htmls = [html for pair in zip(*(sorted((out / kind).glob("*.html"))[:sample] for kind in ("papers", "keys"))) for html in pair]
    bodies = [page.body(html.read_text()) for html in htmls]
    for html, body in zip(htmls, bodies):
        (tex / html.with_suffix(".tex").name).write_text(page.document([body]))
    for copy in range(CORES):
        (tex / f"all-{copy}.tex").write_text(page.document(bodies))
    return htmls


def hold_to_our_pages(htmls, tex):
    """Stops where a document is not the same on both sides."""
    for html in htmls:
        ours, theirs = pages(html.with_suffix(".pdf")), pages(tex / html.with_suffix(".pdf").name)
        if abs(ours - theirs) > 1:
            sys.exit(f"{html.stem} has {ours} pages, and {theirs} by pdflatex: that is not the same document")


def told(seconds):
    clock, processor = seconds
    return f"{clock:.3f} s a student ({processor:.3f} s of the processor)"


def main():
    read = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    read.add_argument("students", nargs="?", type=int, default=100)
    read.add_argument("--sample", type=int, default=10, help="of how many students pdflatex makes paper and key")
    read.add_argument("--glueline", default=ROOT / "target/release/glueline", type=pathlib.Path)
    read.add_argument("--keep", type=pathlib.Path, help="leave everything that was made in this folder")
    asked = read.parse_args()
    for program in ("pdflatex", "pdfinfo"):
        if shutil.which(program) is None:
            sys.exit(f"there is no {program}: install texlive-latex-recommended, texlive-pictures and poppler-utils")
    folder = asked.keep or pathlib.Path(tempfile.mkdtemp(prefix="against-"))
    folder.mkdir(parents=True, exist_ok=True)
    sample, tex = min(asked.sample, asked.students), folder / "tex"

    ours = [seconds / asked.students for seconds in papers_of_a_class(asked.glueline, asked.students, folder)]
    print(f"glueline papers, {asked.students} students, {CORES} cores: {told(ours)}")
    print("  for the draw, the solution, the proof of fairness, paper and key, both also as HTML, and the files for the printer")

    htmls = write_latex(folder / "papers", tex, sample)
    single = [[*LATEX, html.with_suffix(".tex").name] for html in htmls]
    together = [[*LATEX, f"all-{copy}.tex"] for copy in range(CORES)]
    print(f"pdflatex twice, {sample} students, for paper and key alone:")
    for way, commands, at_once, students in [
        ("for each document", single, 1, sample),
        ("all in one document", together[:1], 1, sample),
        (f"for each document, {CORES} at once", single, CORES, sample),
        (f"all in one document, {CORES} of them at once", together, CORES, CORES * sample),
    ]:
        theirs = [seconds / students for seconds in timed(commands, tex, at_once, times=2)]
        hold_to_our_pages(htmls, tex)
        print(f"  {way}: {told(theirs)}: {theirs[0] / ours[0]:.1f} times as long, {theirs[1] / ours[1]:.1f} times the work")
    if not asked.keep:
        shutil.rmtree(folder)


if __name__ == "__main__":
    main()
