"""Sections drawn at random (polygons with holes, arcs, piles of planks), against shapely.

shapely clips and measures polygons; arcs are fine polygons there, so shapes with arcs are compared to a wider bound that
the number of sides gives. The seed is new at each run and printed; give it as an argument to repeat a run.
"""

import math
import random
import sys
import time

from glueline import Rows, values
from shapely.geometry import Polygon, box
from shapely.ops import unary_union

COUNT = 60
SIDES = 4096  # of a circle; the area of its polygon falls short by 2/3 (pi/n)^2 = 4e-7


def integrals(shape):
    """Area, first and second moments about the axes, exactly for the polygon (sums over its sides)."""
    out = [0.0] * 6  # A, Sx = int y, Sy = int x, Ixx = int y2, Iyy = int x2, Ixy = int xy
    polygons = getattr(shape, "geoms", [shape])
    for polygon in polygons:
        if polygon.is_empty or polygon.geom_type != "Polygon":
            continue
        for number, ring in enumerate([polygon.exterior, *polygon.interiors]):
            points = list(ring.coords)
            sign = (1 if ring.is_ccw else -1) * (1 if number == 0 else -1)
            for (x0, y0), (x1, y1) in zip(points, points[1:]):
                c = (x0 * y1 - x1 * y0) * sign
                out[0] += c / 2
                out[1] += c * (y0 + y1) / 6
                out[2] += c * (x0 + x1) / 6
                out[3] += c * (y0 * y0 + y0 * y1 + y1 * y1) / 12
                out[4] += c * (x0 * x0 + x0 * x1 + x1 * x1) / 12
                out[5] += c * (x0 * y1 + 2 * x0 * y0 + 2 * x1 * y1 + x1 * y0) / 24
    return out


def corner(x, y):
    return f'{{ corner = ["{x} mm", "{y} mm"] }}'


def polygon(rng):
    """A star-shaped polygon about the origin on a grid of a tenth of a millimetre, with one round or square hole."""
    count = rng.randint(5, 14)
    angles = sorted(rng.uniform(0, 2 * math.pi) for _ in range(count))
    if max((b - a) % (2 * math.pi) for a, b in zip(angles, angles[1:] + angles[:1])) > 2.5:
        return polygon(rng)
    points = [(round(rng.uniform(60, 140) * math.cos(a), 1), round(rng.uniform(60, 140) * math.sin(a), 1)) for a in angles]
    shape = Polygon(points)
    if not shape.is_valid or shape.area < 1000:
        return polygon(rng)
    lines = ["[section]", "outline = [" + ", ".join(corner(*p) for p in points) + "]"]
    hole, exact = None, True
    kind = rng.choice(["none", "square", "round"])
    size = rng.randint(10, 25)
    inside = shape.buffer(-2)
    if kind == "square":
        h = box(-size, -size, size, size)
        if inside.contains(h):
            hole = h
            lines.append("holes = [{ outline = [" + ", ".join(corner(*p) for p in [(-size, -size), (size, -size), (size, size), (-size, size)]) + "] }]")
    elif kind == "round":
        h = Polygon([(size * math.cos(2 * math.pi * k / SIDES), size * math.sin(2 * math.pi * k / SIDES)) for k in range(SIDES)])
        if inside.contains(h):
            hole, exact = h, False
            lines.append(
                "holes = [{ outline = ["
                + f'{corner(size, 0)}, {{ arc-to = ["{-size} mm", "0 mm"], centre = ["0 mm", "0 mm"] }}, '
                + f'{{ arc-to = ["{size} mm", "0 mm"], centre = ["0 mm", "0 mm"] }}] }}]'
            )
    return lines, shape.difference(hole) if hole else shape, exact


def planks(rng):
    """A pile of planks, each centred on the one below or to a side of it."""
    lines, shapes, y = ["[section]", "parts = ["], [], 0
    for number in range(rng.randint(2, 5)):
        b, h = rng.randrange(20, 220, 10), rng.randrange(10, 90, 10)
        lines.append(f'  {{ name = "plank {number + 1}", width = "{b} mm", height = "{h} mm", left = "{-b // 2} mm", bottom = "{y} mm" }},')
        shapes.append(box(-b // 2, y, -b // 2 + b, y + h))
        y += h
    lines.append("]")
    return lines, unary_union(shapes), True


HEAD = """title = "drawn at random"
units = "metric"
[beam]
length = "4 m"
supports = [{ pin = "0 m" }, { roller = "4 m" }]
loads = [{ force = "10 kN", at = "1 m" }]
[material]
E = "210 GPa"
[slice]
at = "0.5 m"
length = "10 mm"
[cut]
at = "neutral axis"
"""


def main():
    seed = int(sys.argv[1]) if len(sys.argv) > 1 else random.SystemRandom().randrange(10**9)
    print(f"sections drawn at random, seed {seed}")
    rng = random.Random(seed)
    compared, worst, started = 0, 0.0, time.time()
    for number in range(COUNT):
        lines, shape, exact = rng.choice([polygon, planks])(rng)
        bottom, top = shape.bounds[1], shape.bounds[3]
        cuts = sorted({round(rng.uniform(bottom + 0.05 * (top - bottom), top - 0.05 * (top - bottom)), 2) + 0.003 for _ in range(3)})
        lesson = HEAD + "\n".join(lines) + "\n"
        rows = Rows(values(lesson, cuts=[f"{y} mm" for y in cuts])["rows"])
        area, sx, sy, ixx, iyy, ixy = integrals(shape)
        yc, xc = sx / area, sy / area
        I = ixx - area * yc * yc
        height = top - bottom
        V = 7500.0
        checks = [
            ("area", {}, area * 1e-6, area * 1e-6),
            ("centroid height", {}, yc * 1e-3, height * 1e-3),
            ("second moment", {}, I * 1e-12, I * 1e-12),
            ("second moment of area about the upright axis", {}, (iyy - area * xc * xc) * 1e-12, iyy * 1e-12),
            ("product moment of area", {}, (ixy - area * xc * yc) * 1e-12, (ixx + iyy) * 1e-12),
        ]
        for y in cuts:
            above = shape.intersection(box(-1e4, y, 1e4, 1e4))
            chord = shape.intersection(box(-1e4, y - 1e-6, 1e4, y + 1e-6)).area / 2e-6
            a, s = integrals(above)[:2]
            q = s - a * yc
            place = {"height": y * 1e-3}
            checks += [
                ("area above the cut", place, a * 1e-6, area * 1e-6),
                ("first moment of the part above the cut", place, q * 1e-9, area * height * 1e-9),
                ("width at the cut", place, chord * 1e-3, height * 1e-3),
                ("shear stress on the cut", place, V * abs(q) / (I * chord) * 1e6, V / area * 1e6),
            ]
        for name, place, want, scale in checks:
            got = rows.find(name, **place)
            if name in ("first moment of the part above the cut", "shear stress on the cut"):
                got, want = abs(got), abs(want)
            bound = (1e-6 if name in ("width at the cut", "shear stress on the cut") else 1e-9) if exact else 1e-5
            off = abs(got - want) / abs(scale)
            compared += 1
            if exact:
                worst = max(worst, off)
            if off > bound:
                print(lesson)
                raise SystemExit(f"section {number}: {name} at {place}: {got!r}, shapely {want!r}")
    print(f"{COUNT} sections, {compared} values compared, worst difference without arcs {worst:.1e}, {time.time() - started:.1f} s")


if __name__ == "__main__":
    main()
