"""Papers of a class by `glueline papers`, against the same papers by pdflatex with TikZ.

    python3 crates/glueline/benches/against_pdflatex.py [STUDENTS] [--glueline target/release/glueline] [--keep FOLDER]

STUDENTS are 100 where nothing is said. Both make a PDF of four pages for each student with the same words, the same drawings (beam
with its loads, section with its sizes, signs, axis for a sketch, outline to mark on) and that student's numbers. The command makes
besides: the draw and the proof that it is fair, the key as a PDF with the worked solution, both as pages of HTML, and the files for
the printer; all of that is in its time. pdflatex is given the numbers and makes the paper alone. It is run in two ways: once for
each paper, as papers are made one by one, and once for many papers in one document, where it starts only once; from SAMPLE papers,
since each takes as long as the other.

Needs pdflatex with TikZ (Debian: texlive-latex-base, texlive-pictures) and a build with the typesetter. Prints seconds a paper and
the ratio.
"""

import argparse
import json
import pathlib
import shutil
import subprocess
import sys
import tempfile
import time
import tomllib

ROOT = pathlib.Path(__file__).resolve().parents[3]
SAMPLE = 10

PREAMBLE = r"""\documentclass[11pt,a4paper]{article}
\usepackage[margin=16mm,top=24mm,headsep=4mm]{geometry}
\usepackage{tikz}
\usetikzlibrary{patterns,arrows.meta}
\pagestyle{empty}\setlength{\parindent}{0pt}\setlength{\parskip}{4pt}
\newcommand{\head}[2]{\par\medskip\textbf{\large #1}\hfill #2\par}
\newcommand{\subhead}[2]{\par\medskip\textbf{#1}\hfill #2\par}
\newcommand{\answer}[3]{\par\vspace{#1}#2 \fbox{\rule{0pt}{5mm}\hspace{36mm}} #3\par}
\newcommand{\tickbox}{\fbox{\rule{0pt}{1.6mm}\hspace{1.6mm}}}
\tikzset{>={Stealth[length=1.6mm]},
  pin/.pic={\draw (0,0) -- (-.18,-.3) -- (.18,-.3) -- cycle; \fill[white,draw=black] (0,0) circle (.05);
    \fill[pattern=north east lines] (-.3,-.42) rectangle (.3,-.3); \draw (-.3,-.3) -- (.3,-.3);},
  roller/.pic={\draw (0,0) -- (-.18,-.26) -- (.18,-.26) -- cycle; \fill[white,draw=black] (0,0) circle (.05);
    \foreach \x in {-.12,0,.12} \draw (\x,-.32) circle (.06);
    \fill[pattern=north east lines] (-.3,-.5) rectangle (.3,-.38); \draw (-.3,-.38) -- (.3,-.38);},
  tick/.pic={\draw[thin] (-.08,-.08) -- (.08,.08);}}
\begin{document}
"""


def beam(v, dimensions):
    """The beam 12 cm long with its load, its supports, and its dimensions."""
    span, total = 6.0, 12.0
    out = [r"\begin{center}\begin{tikzpicture}"]
    out.append(r"\draw[fill=gray!10,thick] (0,-.14) rectangle (12,.14); \draw (0,1) -- (12,1);")
    out.append(r"\foreach \i in {0,...,32} \draw[->,thin] ({\i*0.375},1) -- ({\i*0.375},.16);")
    out.append(rf"\node[above] at (6,1) {{\small $w = {v['w']}$ kN/m}};")
    for x, kind, name in [(0, "pin", "A"), (span, "roller", "B"), (total, "roller", "C")]:
        out.append(rf"\pic at ({x},-.14) {{{kind}}}; \node at ({x - 0.5},-.4) {{\small {name}}};")
    if dimensions:
        x = 0.5 / (2 * v["L"]) * total
        out.append(rf"\draw[violet,thick] ({x},-.14) rectangle ({x + 0.08},.14); \draw[violet,dashed] ({x},-.2) -- ({x},-1.3);")
        out.append(rf"\draw[thin] (0,-1.2) -- ({x},-1.2); \pic at (0,-1.2) {{tick}}; \pic at ({x},-1.2) {{tick}};")
        out.append(rf"\node[right] at ({x},-1.2) {{\footnotesize $x = 0.5$ m}};")
        out.append(r"\draw[thin] (0,-1.8) -- (12,-1.8) (0,-2.4) -- (12,-2.4); \draw[very thin] (0,-.8) -- (0,-2.5) (12,-.8) -- (12,-2.5) (6,-.8) -- (6,-1.9);")
        out.extend(rf"\pic at ({x},{y}) {{tick}};" for x, y in [(0, -1.8), (6, -1.8), (12, -1.8), (0, -2.4), (12, -2.4)])
        out.append(rf"\node[above] at (3,-1.85) {{\footnotesize {v['L']} m}}; \node[above] at (9,-1.85) {{\footnotesize {v['L']} m}}; \node[above] at (6,-2.45) {{\footnotesize {2 * v['L']:g} m}};")
    else:
        out.append(r"\draw (-.2,-2.6) -- (12.3,-2.6); \node[left] at (-.2,-2.6) {\small $M$, kN$\cdot$m};")
        out.append(r"\foreach \x in {0,6,12} \draw[dotted] (\x,-.8) -- (\x,-4.4);")
    out.append(r"\end{tikzpicture}\end{center}")
    return "\n".join(out)


def section(v, sizes):
    """The box to scale, 4 cm high or wide, with its sizes and the cut; or its outline with the levels of its corners."""
    b, h, f, t = (v[key] for key in ("b", "h", "f", "t"))
    k = 4.0 / max(b, h)
    out = [rf"\begin{{center}}\begin{{tikzpicture}}[x={k:.5f}cm,y={k:.5f}cm]"]
    out.append(rf"\draw[fill=gray!10,thick] (0,0) rectangle ({b},{h}); \draw[fill=white,thick] ({t},{f}) rectangle ({b - t},{h - f});")
    out.append(rf"\draw[dotted] (0,{f}) -- ({b},{f}) (0,{h - f}) -- ({b},{h - f});")
    if sizes:
        g = 1 / k
        cut = h - f
        out.append(rf"\node at ({b / 2},{h - f / 2}) {{\footnotesize top}}; \node at ({b / 2},{f / 2}) {{\footnotesize bottom}};")
        out.append(rf"\node[right] at ({t},{h / 2 - 2}) {{\footnotesize left web}}; \node[left] at ({b - t},{h / 2 + 8}) {{\footnotesize right web}};")
        out.append(rf"\draw[violet,very thick,dash dot] ({-0.4 * g},{cut}) -- ({b + 0.9 * g},{cut}) node[right] {{\footnotesize cut}};")
        for x, stops in [(-0.7 * g, [0, f, h - f, h]), (-1.3 * g, [0, h])]:
            out.append(rf"\draw[thin] ({x},0) -- ({x},{h});")
            out.extend(rf"\pic at ({x},{y}) {{tick}}; \draw[very thin] ({-0.08 * g},{y}) -- ({x - 0.1 * g},{y});" for y in stops)
            out.extend(rf"\node[left] at ({x},{(low + high) / 2}) {{\footnotesize {high - low:g}}};" for low, high in zip(stops, stops[1:]))
        for y, stops in [(-0.6 * g, [0, t, b - t, b]), (-1.3 * g, [0, b])]:
            out.append(rf"\draw[thin] (0,{y}) -- ({b},{y});")
            out.extend(rf"\pic at ({x},{y}) {{tick}}; \draw[very thin] ({x},{-0.08 * g}) -- ({x},{y - 0.1 * g});" for x in stops)
            out.extend(rf"\node[above] at ({(low + high) / 2},{y}) {{\footnotesize {high - low:g}}};" for low, high in zip(stops, stops[1:]))
        x = b + 0.7 * g
        out.append(rf"\draw[thin] ({x},0) -- ({x},{cut}); \pic at ({x},0) {{tick}}; \pic at ({x},{cut}) {{tick}}; \node[right] at ({x},{cut / 2}) {{\footnotesize {cut:g} mm}};")
        out.append(rf"\draw[violet,very thick,dash dot] (0,{-1.9 * g}) -- ({0.7 * g},{-1.9 * g}) node[right,black] {{\footnotesize cut \quad unit of the sizes: mm}};")
    out.append(r"\end{tikzpicture}\end{center}")
    return "\n".join(out)


SIGNS = r"""\begin{center}\begin{tikzpicture}
\draw[->] (0,0) -- (1,0) node[right] {\small $x$}; \draw[->] (0,0) -- (0,1) node[above] {\small $y$};
\draw[fill=violet!10] (3,0) rectangle (4,1); \draw[violet,thick,->] (2.8,.1) -- (2.8,.9) node[midway,left] {\small $V$};
\draw[violet,thick,->] (4.2,.9) -- (4.2,.1) node[midway,right] {\small $V$}; \node at (3.5,-.5) {\small positive $V$};
\draw[fill=violet!10] (7,0) rectangle (8,1); \draw[violet,thick,->] (6.8,0) arc (240:120:.6) node[midway,left] {\small $M$};
\draw[violet,thick,->] (8.2,0) arc (-60:60:.6) node[midway,right] {\small $M$}; \node at (7.5,-.6) {\small positive $M$};
\draw[red,thick,densely dashed] (7,1) -- (8,1); \node[red] at (7.5,1.2) {\small compression}; \draw[blue,thick] (7,0) -- (8,0); \node[blue] at (7.5,-.2) {\small tension};
\end{tikzpicture}\end{center}
"""


def paper(v):
    """The words of the command's own paper, with one student's values."""
    page = 0

    def running():
        nonlocal page
        page += 1
        new = "" if page == 1 else "\\newpage\n"
        return rf"{new}{v['name']} $\cdot$ {v['id']} $\cdot$ paper {v['number']}\hfill page {page} of 4\par\hrule\medskip" + "\n"

    choices = "".join(rf"\par\tickbox\quad ${value}\times10^3$ mm$^3$" for value in v["choices"])
    return "\n".join([
        running(),
        r"{\small PAPER $\cdot$ MECHANICS OF MATERIALS}\par{\LARGE\bfseries A conveyor rail on three trestles\par}\smallskip\hrule\medskip",
        rf"\begin{{tabular}}{{@{{}}p{{.5\textwidth}}l}}\textbf{{Name:}} {v['name']} & \textbf{{Student number:}} {v['id']}\\ \textbf{{Paper:}} {v['number']} & \textbf{{Marks in all:}} 13\end{{tabular}}\par",
        "Write each answer into its box, in the unit that stands beside it: three figures, four where the first is 1, with a decimal point. Carry one figure more on the way. Work in the free room above the box.",
        r"\head{What is given}{}", beam(v, True), "The beam and its loads.", section(v, True), "The section.\n",
        rf"The slice is taken at $x = 0.5$ m; it is $\Delta x = 25$ mm long. It is cut level {v['h'] - v['f']:g} mm above the lowest fibre; the part beyond the cut is what lies above it. Where the width jumps at the cut, that just below it counts." + "\n",
        r"Given besides.\par\begin{tabular}{lll}\hline\textbf{Quantity}&\textbf{Symbol}&\textbf{Value}\\\hline elastic modulus&$E$&200 GPa\\\hline\end{tabular}",
        running(),
        r"Reactions count as positive upwards. Shear stress, shear flow and the force on the cut have the sign of $V$.", SIGNS, "The signs of this course.",
        r"\head{Question 1}{2 marks}", rf"How much of the load does trestle A carry, where each span is {v['L']} m long?", r"\answer{34mm}{$R_\mathrm{A}=$}{kN}",
        r"\head{Question 2}{2 marks}", "Draw the bending moment along the beam. Mark its values at the supports and loads, and wherever it jumps, passes through zero or is largest.", beam(v, False),
        running(),
        r"\head{Question 3}{2 marks}Find the largest hogging moment $M_\mathrm{min}$, and the station where it occurs.",
        r"\subhead{(a) largest hogging moment}{1 mark}\answer{17mm}{$M_\mathrm{min}=$}{kN$\cdot$m}",
        r"\subhead{(b) station where it occurs}{1 mark}\answer{12mm}{from the left end:}{m}",
        r"\head{Question 4}{1 mark}Which of these is the first moment at the cut $Q$?\par\vspace{12mm}" + choices,
        r"\head{Question 5}{5 marks}Find the shear force at the slice $V$, the moment of inertia $I$ and the width at the cut $t$; from them find the shear stress on the cut $\tau$.",
        r"\subhead{(a) shear force at the slice}{1 mark}\answer{17mm}{$V=$}{kN}",
        running(),
        r"\subhead{(b) moment of inertia}{1 mark}\answer{17mm}{$I=$}{$\times10^6$ mm$^4$}",
        r"\subhead{(c) width at the cut}{1 mark}\answer{17mm}{$t=$}{mm}",
        r"\subhead{(d) shear stress on the cut}{2 marks}\answer{34mm}{$\tau=$}{MPa}",
        r"\head{Question 6}{1 mark}Mark on the section where over the depth the shear stress is largest, and say why there.", section(v, False),
    ])


def values(out, entry):
    """What one student's paper says, from its lesson and from what its key says there is to choose from."""
    lesson = tomllib.loads((out / "lessons" / f"{entry['paper']}.toml").read_text())
    number = lambda text: float(text.split()[0])
    mm = lambda key: number(lesson["section"][key])
    chosen = next(part["remark"] for part in entry["key"] if part.get("remark", "").startswith("chosen from "))
    return {
        "name": f"Student {entry['student']}", "id": entry["student"], "number": entry["paper"],
        "w": f"{number(lesson['values']['w']):g}", "L": number(lesson["values"]["L"]),
        "b": mm("width"), "h": mm("height"), "f": mm("flange-thickness"), "t": mm("web-thickness"),
        "choices": [value.split("×")[0].strip() for value in chosen.removeprefix("chosen from ").split(";")],
    }


def timed(command, folder):
    start = time.perf_counter()
    done = subprocess.run(command, cwd=folder, capture_output=True, text=True)
    if done.returncode:
        sys.exit(f"{' '.join(map(str, command))} failed:\n{done.stdout[-2000:]}{done.stderr[-2000:]}")
    return time.perf_counter() - start


def pages(pdf):
    told = subprocess.run(["pdfinfo", pdf], capture_output=True, text=True).stdout
    return int(next(line.split()[1] for line in told.splitlines() if line.startswith("Pages:")))


def main():
    read = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    read.add_argument("students", nargs="?", type=int, default=100)
    read.add_argument("--glueline", default=ROOT / "target/release/glueline", type=pathlib.Path)
    read.add_argument("--keep", type=pathlib.Path, help="leave everything that was made in this folder")
    asked = read.parse_args()
    if shutil.which("pdflatex") is None:
        sys.exit("there is no pdflatex: install texlive-latex-base and texlive-pictures")
    folder = asked.keep or pathlib.Path(tempfile.mkdtemp(prefix="against-"))
    folder.mkdir(parents=True, exist_ok=True)
    # Smaller steps, so that a thousand students have numbers of their own.
    lesson = (ROOT / "lessons/conveyor.toml").read_text()
    (folder / "conveyor.toml").write_text(lesson.replace('step = "1 kN/m"', 'step = "0.5 kN/m"').replace('step = "0.1 m"', 'step = "0.05 m"'))
    rows = [f"{number:05},Student {number:05}" for number in range(1, asked.students + 1)]
    (folder / "class.csv").write_text("student id,name\n" + "\n".join(rows) + "\n")
    (folder / "term.secret").write_text("0123456789abcdef0123456789abcdef")
    shutil.rmtree(folder / "papers", ignore_errors=True)
    ours = timed([asked.glueline.resolve(), "papers", "conveyor.toml", "class.csv", "-o", "papers"], folder)
    out = folder / "papers"
    key = json.loads((out / "keys/key.json").read_text())["papers"]

    sample = key[:SAMPLE]
    bodies = [paper(values(out, entry)) for entry in sample]
    tex = folder / "tex"
    tex.mkdir(exist_ok=True)
    latex = ["pdflatex", "-interaction=nonstopmode", "-halt-on-error"]
    each = 0.0
    for place, (entry, body) in enumerate(zip(sample, bodies)):
        (tex / f"paper-{place}.tex").write_text(PREAMBLE + body + "\\end{document}\n")
        each += timed([*latex, f"paper-{place}.tex"], tex)
        own = next((out / "papers").glob(f"*-{entry['paper']}.pdf"))
        if pages(tex / f"paper-{place}.pdf") != pages(own):
            sys.exit(f"{own.name} has {pages(own)} pages, the other paper {pages(tex / f'paper-{place}.pdf')}")
    (tex / "all.tex").write_text(PREAMBLE + "\n\\newpage\n".join(bodies) + "\\end{document}\n")
    together = timed([*latex, "all.tex"], tex) / len(bodies)
    each /= len(bodies)
    ours /= len(key)
    print(f"glueline papers, {len(key)} students: {ours:.4f} s a student for paper, key and pages of HTML")
    print(f"pdflatex, run for each of {len(bodies)} papers: {each:.3f} s a paper, the paper alone: {each / ours:.1f} times as long")
    print(f"pdflatex, {len(bodies)} papers in one document: {together:.3f} s a paper: {together / ours:.1f} times as long")
    if not asked.keep:
        shutil.rmtree(folder)


if __name__ == "__main__":
    main()
