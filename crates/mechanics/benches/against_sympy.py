"""Compares the crowded beam with sympy, exact rationals throughout: first the values, then the time.

    python3 crates/mechanics/benches/against_sympy.py

sympy is asked for the same answer: reactions, V, M, slope and deflection as one polynomial a segment, and the largest
sizes of V, M and deflection from the roots of their derivatives. Its general rational linear algebra is used, and,
for comparison, its beam module for reactions and the four curves alone.
"""

import json
import subprocess
import sys
import time
from fractions import Fraction
from pathlib import Path

from sympy import Matrix, Poly, Rational, linsolve, symbols

X = symbols("x")


def rational(value):
    """The decimal number as written, exactly."""
    return Rational(str(Fraction(str(value))))


def loads_of(beam):
    """Point forces down, couples counter-clockwise, spread loads, all exact."""
    forces, couples, spreads = [], [], []
    for load in beam["loads"]:
        if load["kind"] == "point":
            forces.append((rational(load["x_m"]), rational(load["down_N"])))
        elif load["kind"] == "couple":
            couples.append((rational(load["x_m"]), rational(load["ccw_N_m"])))
        else:
            keys = ("from_m", "to_m", "down_start_N_per_m", "down_end_N_per_m")
            spreads.append(tuple(rational(load[key]) for key in keys))
    return forces, couples, spreads


def exact(beam):
    """Reactions at the two supports, segments (from, to, V, M, slope, deflection) and largest sizes."""
    forces, couples, spreads = loads_of(beam)
    length = rational(beam["length_m"])
    rigidity = rational(beam["E_Pa"]) * rational(beam["I_m4"])
    held = [rational(support["x_m"]) for support in beam["supports"]]
    stations = {0, length, *held, *(x for x, _ in forces), *(x for x, _ in couples)}
    for spread in spreads:
        stations |= {spread[0], spread[1]}
    stations = sorted(stations)
    # Unknowns: the reactions, and the slope and deflection at the left end. Every curve is linear in them, so it
    # is carried along as a row of polynomials: one for each unknown, one for the loads.
    count = len(held) + 2
    unit = [Poly(1, X) if k == count else Poly(0, X) for k in range(count + 1)]
    none = [Poly(0, X)] * (count + 1)

    def row(index, value):
        return [Poly(value if k == index else 0, X) for k in range(count + 1)]

    def add(a, b):
        return [p + q for p, q in zip(a, b)]

    def scaled(a, factor):
        return [p * factor for p in a]

    def at(a, x):
        return [Poly(p.eval(x), X) for p in a]

    def integral(a, x, start):
        """The integral that has the value `start` at `x`."""
        primitive = [p.integrate(X) for p in a]
        return [p - p.eval(x) + s for p, s in zip(primitive, start)]

    v, m, slope, deflection = none, none, row(len(held), 1), row(len(held) + 1, 1)
    rows, at_supports = [], {}
    for left, right in zip(stations, stations[1:]):
        for x, down in forces:
            if x == left:
                v = add(v, scaled(unit, -down))
        for index, x in enumerate(held):
            if x == left:
                v = add(v, row(index, 1))
                at_supports[index] = deflection
        for x, ccw in couples:
            if x == left:
                m = add(m, scaled(unit, -ccw))
        w = Poly(0, X)
        for begin, end, first, last in spreads:
            if begin <= left and right <= end:
                w += Poly(first + (last - first) * (X - begin) / (end - begin), X)
        v = integral([p * -w for p in unit], left, v)
        m = integral(v, left, m)
        slope = integral(scaled(m, 1 / rigidity), left, slope)
        deflection = integral(slope, left, deflection)
        rows.append((left, right, v, m, slope, deflection))
        v, m, slope, deflection = (at(a, right) for a in (v, m, slope, deflection))
    for x, down in forces:
        if x == length:
            v = add(v, scaled(unit, -down))
    for x, ccw in couples:
        if x == length:
            m = add(m, scaled(unit, -ccw))
    conditions = [v, m, *at_supports.values()]
    matrix = Matrix([[p.eval(0) for p in condition[:-1]] for condition in conditions])
    right_side = Matrix([-condition[-1].eval(0) for condition in conditions])
    (values,) = linsolve((matrix, right_side))
    weights = [*values, 1]

    def settled(a):
        total = Poly(0, X)
        for p, weight in zip(a, weights):
            total += p * weight
        return total

    segments = [(left, right, *(settled(a) for a in curves)) for left, right, *curves in rows]

    def real_roots(polynomial):
        # Sturm's isolation of exact polynomials, refined: no root is missed, as here.
        return [root.evalf(20) for root in polynomial.real_roots()]

    def largest(curve, derivative):
        best = 0
        for segment in segments:
            left, right, polynomial, slope_of_it = segment[0], segment[1], segment[curve], derivative(segment)
            inside = []
            if slope_of_it.degree() > 0:
                inside = [root for root in real_roots(slope_of_it) if left < root < right]
            best = max([best, *(abs(float(polynomial.eval(x))) for x in (left, right, *inside))])
        return best

    sizes = {
        "shear": largest(2, lambda segment: segment[2].diff(X)),
        "bending_moment": largest(3, lambda segment: segment[2]),
        "deflection": largest(5, lambda segment: segment[4]),
    }
    return values[: len(held)], segments, sizes


def with_beam_module(beam):
    """Reactions and the four curves by sympy's beam module."""
    from sympy.physics.continuum_mechanics.beam import Beam

    forces, couples, spreads = loads_of(beam)
    solved = Beam(rational(beam["length_m"]), rational(beam["E_Pa"]), rational(beam["I_m4"]))
    names = []
    for index, support in enumerate(beam["supports"]):
        x = rational(support["x_m"])
        name = symbols(f"R_{index}")
        names.append(name)
        solved.apply_load(name, x, -1)
        solved.bc_deflection.append((x, 0))
    for x, down in forces:
        solved.apply_load(-down, x, -1)
    for x, ccw in couples:
        solved.apply_load(-ccw, x, -2)
    for begin, end, first, last in spreads:
        # A straight line is its value at the beginning and its growth.
        solved.apply_load(-first, begin, 0, end=end)
        growth = (last - first) / (end - begin)
        if growth:
            solved.apply_load(-growth, begin, 1, end=end)
    solved.solve_for_reaction_loads(*names)
    solved.shear_force(), solved.bending_moment(), solved.slope(), solved.deflection()
    return [solved.reaction_loads[name] for name in names]


def timed(work):
    start = time.perf_counter()
    result = work()
    return result, time.perf_counter() - start


def differ(ours, theirs, scale):
    return abs(ours - float(theirs)) > 1e-12 * scale


def main():
    root = Path(__file__).resolve().parents[3]
    bench = ["cargo", "bench", "--quiet", "-p", "mechanics", "--bench", "timed_beam"]
    ours = json.loads(subprocess.run(bench, cwd=root, check=True, stdout=subprocess.PIPE, text=True).stdout)
    beam = ours["beam"]
    exact(beam)  # once for its caches, so that it is timed at its best
    (reactions, segments, sizes), seconds = timed(lambda: exact(beam))

    faults = []
    largest = max(abs(float(reaction)) for reaction in reactions)
    for (force, _), reaction in zip(ours["reactions"], reactions):
        if differ(force, reaction, largest):
            faults.append(f"reaction {force}, exactly {float(reaction)}")
    if len(segments) != len(ours["segments"]):
        faults.append(f"{len(ours['segments'])} segments, exactly {len(segments)}")
    names = ("shear", "bending_moment", "slope", "deflection")
    scales = {name: max(abs(float(s[2 + k].eval(s[0]))) for s in segments) for k, name in enumerate(names)}
    for got, segment in zip(ours["segments"], segments):
        left, right = segment[0], segment[1]
        for k, name in enumerate(names):
            for share in (Rational(0), Rational(1, 3), Rational(1)):
                s = share * (right - left)
                value = sum(c * float(s) ** power for power, c in enumerate(got[name]))
                if differ(value, segment[2 + k].eval(left + s), 10 * scales[name]):
                    exactly = float(segment[2 + k].eval(left + s))
                    faults.append(f"{name} at {float(left + s)}: {value}, exactly {exactly}")
    for name, size in sizes.items():
        if differ(ours["largest"][name], size, size):
            faults.append(f"largest {name}: {ours['largest'][name]}, exactly {size}")

    _, module_seconds = timed(lambda: with_beam_module(beam))
    ratio = seconds / ours["seconds"]
    print(f"crowded beam, complete:            {ours['seconds'] * 1e6:10.2f} µs")
    print(f"sympy, rational linear algebra:    {seconds * 1e6:10.0f} µs   {ratio:10.0f} times as long")
    print(f"sympy's beam module, no extremes:  {module_seconds * 1e6:10.0f} µs   "
          f"{module_seconds / ours['seconds']:10.0f} times as long")
    print("values agree to 1e-12 of their scale" if not faults else "\n".join(faults))
    if faults or ratio < 1000:
        sys.exit(1)


if __name__ == "__main__":
    main()
