"""A drawing of ours, an SVG, as a tikzpicture of the same lines, polygons, circles, paths and words."""

import cmath
import math
import re

from .words import macro, words

# px of a drawing at 96 to the inch, and the width that our template gives a drawing at most.
BP_A_PX = 0.75
FULL_WIDTH = 170 / 25.4 * 72  # bp


def drawing(svg):
    """Of the size that it has in our PDF: px at 96 to the inch, less where it would be wider than the page."""
    left, top, width, height = map(float, svg.get("viewBox").split())
    unit = min(BP_A_PX, FULL_WIDTH / width)
    begin = f"\\begin{{tikzpicture}}[x={unit:.4g}bp,y=-{unit:.4g}bp,line join=round]\n"
    room = f"\\path[use as bounding box] ({left:g},{top:g}) rectangle ({left + width:g},{top + height:g});\n"
    return begin + room + "".join(mark(element, unit) for element in svg) + "\\end{tikzpicture}"


def mark(element, unit):
    number = lambda name: float(element.get(name))
    match element.tag:
        case "title" | "desc":
            return ""
        case "g":
            return "".join(mark(child, unit) for child in element)
        case "text":
            return label(element, unit)
        case "line":
            way = f"({number('x1'):g},{number('y1'):g}) -- ({number('x2'):g},{number('y2'):g})"
        case "polygon":
            way = " -- ".join(f"({point})" for point in element.get("points").split()) + " -- cycle"
        case "circle":
            way = f"({number('cx'):g},{number('cy'):g}) circle[radius={number('r') * unit:.4g}bp]"
        case "path":
            way = steps(element.get("d"))
        case other:
            raise ValueError(f"no LaTeX is known for <{other}> in a drawing")
    pen = []
    if element.get("fill", "none") != "none":
        pen.append(f"fill={colour(element.get('fill'))}")
        if element.get("fill-rule") == "evenodd":
            pen.append("even odd rule")
    if element.get("stroke"):
        pen.append(f"draw={colour(element.get('stroke'))},line width={number('stroke-width') * unit:.4g}bp")
    if dashes := element.get("stroke-dasharray", "").split():
        lengths = (f"{kind} {float(dash) * unit:.4g}bp" for kind, dash in zip(["on", "off"] * len(dashes), dashes))
        pen.append(f"dash pattern={' '.join(lengths)}")
    return f"\\path[{','.join(pen)}] {way};\n"


def steps(d):
    """The steps of a path; each names its letter."""
    way, here = [], 0j
    for letter, rest in re.findall("([A-Z])([^A-Z]*)", d):
        at = [float(number) for number in re.findall(r"-?[\d.]+", rest)]
        to = complex(*at[-2:]) if at else here
        point = f"({to.real:g},{to.imag:g})"
        match letter:
            case "M":
                way.append(point)
            case "L":
                way.append(f"-- {point}")
            case "C":
                way.append(f".. controls ({at[0]:g},{at[1]:g}) and ({at[2]:g},{at[3]:g}) .. {point}")
            case "A":
                way.append(arc(here, to, radius=at[0], large=at[3] == 1, clockwise=at[4] == 1))
            case "Z":
                way.append("-- cycle")
            case _:
                raise ValueError(f"no LaTeX is known for the step {letter} of a path")
        here = to
    return " ".join(way)


def arc(begin, end, radius, large, clockwise):
    """An SVG arc by its angles about its centre (SVG 2, appendix B.2.4); TikZ's y runs down here as that of SVG does."""
    half = (end - begin) / 2
    aside = math.sqrt(max(radius**2 - abs(half) ** 2, 0))
    centre = begin + half + 1j * half / abs(half) * (aside if large != clockwise else -aside)
    first, last = (math.degrees(cmath.phase(point - centre)) for point in (begin, end))
    last += 360 if clockwise and last < first else -360 if not clockwise and last > first else 0
    return f"arc[start angle={first:.3f},end angle={last:.3f},radius={radius:g}]"


def label(text, unit):
    """Words in a drawing. A shift of the baseline holds for all that follows it."""
    runs, shift = [words(text.text)], 0.0
    for part in text:
        run, shift = words(part.text), shift + float(part.get("dy", 0))
        if part.get("font-style") == "italic":
            run = macro("textit", run)
        if part.get("font-size"):
            run = letters(part, unit) + run
        runs += [macro("raisebox", f"{-shift * unit:.4g}bp", run) if abs(shift) > 0.01 else run, words(part.tail)]
    anchor = {"middle": "base", "end": "base east"}.get(text.get("text-anchor"), "base west")
    pen = f"words,anchor={anchor},text={colour(text.get('fill'))},font={letters(text, unit)}"
    return f"\\node[{pen}] at ({text.get('x')},{text.get('y')}) {{{''.join(runs)}}};\n"


def letters(text, unit):
    return macro("letters", f"{float(text.get('font-size')) * unit:.4g}")


def colour(code):
    return "hue" + code.removeprefix("#")
