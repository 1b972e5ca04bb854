"""A page of HTML of a paper or of its key, as LaTeX: the same words, tables, formulas, rooms to work in and drawings.

`body(html)` gives what stands for one page, `document(bodies)` a whole file for pdflatex, one body after the other. It is what a
lecturer would write: a preamble, displayed equations of amsmath, tables of booktabs, and each drawing a tikzpicture; no picture is
taken from elsewhere. The list of contents, which a PDF has beside the page, and the words of a drawing, which it has as alternative
text, are left out. What it does not know it refuses, so that nothing is lost unseen.
"""

import pathlib
import re
import xml.etree.ElementTree as xml

from .drawing import drawing
from .words import formula, macro, words

PREAMBLE = pathlib.Path(__file__).with_name("preamble.tex").read_text()


def body(html):
    page = re.search("<body.*</body>", html, re.S)[0]
    return blocks(xml.fromstring(re.sub(' xmlns="[^"]*"', "", page))) + "\n" + macro("paperends")


def document(bodies):
    inner = "\n".join(bodies)
    hues = sorted(set(re.findall(r"=hue(\w{6})", inner)))
    colours = "".join(macro("definecolor", f"hue{hue}", "HTML", hue.upper()) + "\n" for hue in hues)
    return PREAMBLE + colours + environment("document", inner) + "\n"


def environment(name, *inner):
    return "\n".join([macro("begin", name), *inner, macro("end", name)])


# ---- within a line ----


def line(element):
    return words(element.text) + "".join(inline(child) + words(child.tail) for child in element)


def inline(element):
    match element.tag:
        case "math":
            return f"${formula(element).strip()}$"
        case "strong":
            return macro("textbf", line(element))
        case "span" | "a":
            return line(element)
        case "input":
            return ""
    raise ValueError(f"no LaTeX is known for <{element.tag}> within a line")


# ---- blocks ----


def blocks(parent):
    made = []
    for element, after in zip(parent, [*parent[1:], None]):
        made.append(block(element, parent))
        # Words that lead to a drawing or a table stay with it.
        if element.tag == "p" and after is not None and (after.tag == "figure" or after.get("class") == "scroll"):
            made.append(r"\par\nopagebreak")
    return "\n".join(made)


def block(element, parent):
    kind = element.get("class", "")
    match element.tag, kind:
        case ("nav" | "details"), _:
            return ""
        case ("header" | "main"), _:
            return blocks(element)
        case "p", "running":
            return macro("newpaper", line(element))
        case "p", "kind":
            return macro("kind", line(element))
        case "p", "answer":
            before, _, behind = element
            return macro("answer", line(before), line(behind))
        case "p", "":
            # The empty line stands before it: a formula that follows belongs to it and is not parted from it.
            return "\n" + line(element)
        case "h1", _:
            return macro("papertitle", line(element))
        case "h2", _:
            return macro("section*", line(element))
        case "h3", _:
            return macro("subsection*", line(element))
        case "dl", _:
            return "\n".join(macro("fact", line(word), line(meaning)) for word, meaning in element) + r"\par\vspace{4pt}"
        case ("ul" | "ol"), _:
            return environment({"ul": "itemize", "ol": "enumerate"}[element.tag], *(r"\item " + line(item) for item in element))
        case "figure", _:
            caption = element.find("figcaption")
            told = "" if caption is None else macro("figurecaption", line(caption))
            return environment("together", r"{\centering", drawing(element.find("div/svg")), r"\par}", told)
        case "div", "scroll":
            return table(element.find("table"))
        case "div", "choices":
            return "\n".join(macro("choice", line(choice.find("label")).strip()) for choice in element) + r"\par"
        case "div", ("equation" | "equation rows"):
            number = element.findtext("span").strip("()")
            return environment("equation*", macro("tag", number), formula(element.find("div/math")))
        case "section", ("question" | "part"):
            return question(element)
        case "textarea", "room":
            return macro("room", f"{room(element, parent):.3g}mm")
    raise ValueError(f"no LaTeX is known for <{element.tag}> of the class {kind!r}")


# Shares of the width: of all columns without the gaps between them, and of one sign of a table.
COLUMNS, A_SIGN = 0.96, 0.0127


def table(element):
    """Columns of many words share what the others leave of the width."""
    head, rows = element.find("thead/tr"), element.findall("tbody/tr")
    signs = [max(len("".join(row[place].itertext())) for row in rows) for place in range(len(head))]
    narrow = [count for count in signs if count <= 40]
    wide = (COLUMNS - A_SIGN * sum(narrow)) / max(len(signs) - len(narrow), 1)
    wordy = r">{\raggedright\arraybackslash}" + f"m{{{wide:.3g}\\textwidth}}"
    columns = "".join(wordy if count > 40 else cell.get("class", "l") for cell, count in zip(head, signs))
    heads = "&".join(macro("textbf", line(cell)) for cell in head) + r"\\\midrule"
    cells = "\\\\\n".join("&".join(map(line, row)) for row in rows) + r"\\\bottomrule"
    caption = element.find("caption")
    told = "" if caption is None else macro("tablecaption", line(caption))
    tabular = environment("tabular", f"{{{columns}}}" + r"\toprule", heads, cells)
    return environment("together", r"\tablesize", told, tabular)


# ---- questions ----


def question(element):
    """A part stands on one page with its room and its answer; the words of the question keep to its first part."""
    (label, marks), inner = element[0], list(element[1:])
    first = next((place + 1 for place, one in enumerate(inner) if one.tag == "section"), len(inner))
    made = [block(one, element) for one in inner]
    asked = macro(f"{element.get('class')}head", line(label), line(marks))
    return "\n".join([environment("together", asked, *made[:first]), *made[first:]])


# Room for each mark, and the least and the most of it, mm.
A_MARK, LEAST, MOST = 17, 12, 75
# The lines of the page of HTML, mm.
A_LINE = 7.5


def room(element, asked):
    """Its height, mm, as the PDF of ours has it. The page of HTML says it in lines, and must agree."""
    marks = float(asked.findtext("*[1]/span[@class='marks']").split()[0])
    box, sketch = asked.find("p[@class='answer']/input"), asked.find("figure/div/svg")
    if box is not None:
        share = 0.5 if box.get("aria-label").startswith(("station", "height")) else 1.0
    elif asked.find("div[@class='choices']") is not None:
        share = 0.7
    elif sketch is not None:
        share = 0.7 if "section-outline" in sketch.get("aria-labelledby") else 0.35
    else:
        share = 2.0
    height = min(max(share * A_MARK * marks, LEAST), MOST)
    if abs(height / A_LINE - int(element.get("rows"))) > 0.51:
        raise ValueError(f"{element.get('aria-label')}: {height} mm are not {element.get('rows')} lines")
    return height
