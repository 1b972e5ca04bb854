"""Beams drawn at random, solved by the project and, apart from it, over the rationals with sympy.

The seed is new at each run and printed; give it as an argument to repeat a run.
"""

import random
import sys
import time
from fractions import Fraction

from exact_beam import ExactBeam
from glueline import Rows, values

COUNT = 60
E, I = Fraction(210_000_000_000), Fraction(1, 120_000)  # rectangle of 100 mm x 100 mm: I = 0.1^4 / 12 m4


def draw(rng):
    """A random stable beam on a grid of centimetres, with the text of its lesson."""
    while True:
        grid = rng.choice([50, 100, 250])  # mm
        length = grid * rng.randint(8, 40)
        places = list(range(0, length + 1, grid))
        kind = rng.choice(["simple", "overhang", "cantilever", "propped", "continuous", "gerber", "fixed", "spring"])
        inner = lambda n: sorted(rng.sample(places[1:-1], n))
        supports, hinges = [], []
        if kind == "simple":
            supports = [("pin", 0), ("roller", length)]
        elif kind == "overhang":
            a, b = inner(2)
            supports = [("pin", a), ("roller", b)]
        elif kind == "cantilever":
            supports = [("fixed", rng.choice([0, length]))]
        elif kind == "propped":
            supports = [("fixed", 0), ("roller", rng.choice(places[2:]))]
        elif kind == "continuous":
            middle = inner(rng.randint(1, 3))
            supports = [("pin", 0)] + [("roller", x) for x in middle] + [("roller", length)]
        elif kind == "gerber":
            middle, hinge = inner(2)
            if hinge < middle:
                middle, hinge = hinge, middle
            supports = [("pin", 0), ("roller", middle), ("roller", length)]
            hinges = [hinge]
        elif kind == "fixed":
            supports = [("fixed", 0), ("fixed", length)]
        else:
            supports = [("pin", 0), ("spring", rng.choice(places[1:-1])), ("roller", length)]
        loads = []
        for _ in range(rng.randint(1, 8)):
            what = rng.choice(["force", "force", "couple", "spread", "spread"])
            size = rng.choice([-1, 1, 1, 1]) * rng.randint(1, 60)
            if what == "spread":
                a, b = sorted(rng.sample(places, 2))
                end = rng.choice([size, 0, rng.randint(1, 60)])
                loads.append(("spread", a, b, size, end))
            else:
                x = rng.choice([p for p in places if what == "force" or p not in hinges])
                loads.append((what, x, size))
        settle = rng.choice([0, 0, 0, 5]) if kind == "continuous" else 0
        return length, supports, hinges, loads, settle


def text(length, supports, hinges, loads, settle):
    out = ['title = "drawn at random"', 'units = "metric"', "[beam]", f'length = "{length} mm"', "supports = ["]
    for i, (kind, x) in enumerate(supports):
        more = ', stiffness = "1500 kN/m"' if kind == "spring" else ""
        more += f', settles = "{settle} mm"' if settle and i == 1 else ""
        out.append(f'  {{ {kind} = "{x} mm"{more} }},')
    out.append("]")
    if hinges:
        out.append("hinges = [" + ", ".join(f'"{h} mm"' for h in hinges) + "]")
    out.append("loads = [")
    for load in loads:
        if load[0] == "force":
            out.append(f'  {{ force = "{load[2]} kN", at = "{load[1]} mm" }},')
        elif load[0] == "couple":
            out.append(f'  {{ couple = "{load[2]} kN m", at = "{load[1]} mm" }},')
        else:
            out.append(f'  {{ spread = "{load[3]} kN/m", becoming = "{load[4]} kN/m", from = "{load[1]} mm", to = "{load[2]} mm" }},')
    out += ["]", "[material]", 'E = "210 GPa"', "[section]", 'shape = "rectangle"', 'width = "100 mm"', 'height = "100 mm"']
    out += ["[slice]", f'at = "{length / 2} mm"', 'length = "10 mm"', "[cut]", 'at = "neutral axis"']
    return "\n".join(out) + "\n"


def exact(length, supports, hinges, loads, settle):
    m = lambda mm: Fraction(mm, 1000)
    return ExactBeam(
        m(length),
        E * I,
        [
            {"kind": kind, "x": m(x), "settles": m(settle) if i == 1 else 0, "stiffness": Fraction(1_500_000)}
            for i, (kind, x) in enumerate(supports)
        ],
        [m(h) for h in hinges],
        [
            {"kind": "force", "x": m(l[1]), "down": Fraction(1000 * l[2])}
            if l[0] == "force"
            else {"kind": "couple", "x": m(l[1]), "ccw": Fraction(1000 * l[2])}
            if l[0] == "couple"
            else {"kind": "spread", "from": m(l[1]), "to": m(l[2]), "down_from": Fraction(1000 * l[3]), "down_to": Fraction(1000 * l[4])}
            for l in loads
        ],
    )


def main():
    seed = int(sys.argv[1]) if len(sys.argv) > 1 else random.SystemRandom().randrange(10**9)
    print(f"beams drawn at random, seed {seed}")
    rng = random.Random(seed)
    compared, worst, started = 0, 0.0, time.time()
    for number in range(COUNT):
        drawn = draw(rng)
        lesson = text(*drawn)
        reference = exact(*drawn)
        length = drawn[0]
        stations = sorted({rng.randint(1, length - 1) for _ in range(4)} | {x for _, x in drawn[1]} | {l[1] for l in drawn[3]})
        rows = Rows(values(lesson, at=[f"{x} mm" for x in stations])["rows"])
        scale = {name: 0.0 for name in ("shear force", "bending moment", "slope", "deflection")}
        pairs = []
        for x in stations:
            at = Fraction(x, 1000)
            for side in ("left", "right"):
                if (x == 0 and side == "left") or (x == length and side == "right"):
                    continue
                for name, want in (
                    ("shear force", reference.shear(at, side)),
                    ("bending moment", reference.moment(at, side)),
                    ("slope", reference.slope(at, side)),
                    ("deflection", reference.deflection(at, side)),
                ):
                    got = rows.find(name, station=float(at), side=side)
                    scale[name] = max(scale[name], abs(float(want)))
                    pairs.append((name, x, side, got, float(want)))
        for name, x, side, got, want in pairs:
            off = abs(got - want) / (scale[name] or 1.0)
            worst = max(worst, off)
            compared += 1
            if off > 1e-9:
                print(lesson)
                raise SystemExit(f"beam {number}: {name} at {x} mm, {side}: {got!r}, sympy {want!r}")
    print(f"{COUNT} beams, {compared} values compared, worst difference {worst:.1e} of the largest, {time.time() - started:.1f} s")


if __name__ == "__main__":
    main()
