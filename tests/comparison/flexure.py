"""The elastic shear stresses of five sections, against a general finite-element library (scikit-fem, meshed by gmsh).

An I, a T, a channel and a Z with rounded corners, and a polygon with two holes. The library solves the same boundary-value problem
written anew here, from the differential equations: warping function, cubic triangles, a mesh graded by gmsh. Compared are
torsion constant, shear centre, form factors, and both components of the stress at points of the section, under a
force up and under one to the right. Exits with 1 on any difference.

    cargo build --release -p mechanics --example elastic
    python3 tests/comparison/flexure.py
"""

import json
import math
import os
import pathlib
import subprocess
import sys

import gmsh
import numpy as np
import skfem
from skfem.helpers import dot, grad

ROOT = pathlib.Path(__file__).resolve().parents[2]
TARGET = pathlib.Path(os.environ.get("CARGO_TARGET_DIR", ROOT / "target"))
NU = 0.3

# The library's arcs are polygons of this many sides a full turn: 5e-5 of a circle's area.
SIDES = 360


def line(x, y):
    return {"line_to_m": [x, y]}


def arc(x, y, cx, cy, turn):
    return {"arc_to_m": [x, y], "centre_m": [cx, cy], "turn": turn}


def loop(kind, start, *path):
    return {"kind": kind, "start_m": list(start), "path": list(path)}


def polygon(kind, points):
    return loop(kind, points[0], *(line(*p) for p in points[1:]))


def i_section(r=0.01):
    h, b, s, t = 0.16, 0.1, 0.008, 0.012
    c, w, e = b / 2, s / 2, s / 2 + r
    return [loop(
        "solid", (-c, 0), line(c, 0), line(c, t), line(e, t), arc(w, t + r, e, t + r, "cw"),
        line(w, h - t - r), arc(e, h - t, e, h - t - r, "cw"), line(c, h - t), line(c, h), line(-c, h), line(-c, h - t),
        line(-e, h - t), arc(-w, h - t - r, -e, h - t - r, "cw"), line(-w, t + r), arc(-e, t, -e, t + r, "cw"), line(-c, t),
    )]


def tee():
    h, b, s, t, r = 0.12, 0.1, 0.014, 0.016, 0.012
    c, w, e = b / 2, s / 2, s / 2 + r
    return [loop(
        "solid", (-w, 0), line(w, 0), line(w, h - t - r), arc(e, h - t, e, h - t - r, "cw"), line(c, h - t), line(c, h),
        line(-c, h), line(-c, h - t), line(-e, h - t), arc(-w, h - t - r, -e, h - t - r, "cw"),
    )]


def channel():
    h, b, s, t, r = 0.14, 0.06, 0.01, 0.012, 0.008
    return [loop(
        "solid", (0, 0), line(b, 0), line(b, t), line(s + r, t), arc(s, t + r, s + r, t + r, "cw"), line(s, h - t - r),
        arc(s + r, h - t, s + r, h - t - r, "cw"), line(b, h - t), line(b, h), line(0, h),
    )]


def zed():
    h, b, s, t, r = 0.14, 0.06, 0.008, 0.01, 0.008
    w, e = s / 2, s / 2 + r
    return [loop(
        "solid", (-w, 0), line(b - w, 0), line(b - w, t), line(e, t), arc(w, t + r, e, t + r, "cw"), line(w, h),
        line(w - b, h), line(w - b, h - t), line(-e, h - t), arc(-w, h - t - r, -e, h - t - r, "cw"),
    )]


def two_holes():
    round_hole = loop("hole", (0.055, 0.035), arc(0.025, 0.035, 0.04, 0.035, "ccw"), arc(0.055, 0.035, 0.04, 0.035, "ccw"))
    other = loop("hole", (0.082, 0.06), arc(0.058, 0.06, 0.07, 0.06, "ccw"), arc(0.082, 0.06, 0.07, 0.06, "ccw"))
    outline = polygon("solid", [(0, 0), (0.09, 0.005), (0.115, 0.05), (0.08, 0.1), (0.02, 0.085)])
    return [outline, round_hole, other]


def corners(one):
    """The corners of a loop, its arcs as fine polygons."""
    points = [tuple(one["start_m"])]
    for side in one["path"]:
        if "line_to_m" in side:
            points.append(tuple(side["line_to_m"]))
            continue
        (cx, cy), (x, y) = side["centre_m"], side["arc_to_m"]
        radius = math.hypot(x - cx, y - cy)
        start = math.atan2(points[-1][1] - cy, points[-1][0] - cx)
        sweep = math.atan2(y - cy, x - cx) - start
        sign = 1 if side["turn"] == "ccw" else -1
        sweep = sign * (sweep * sign % (2 * math.pi))
        count = max(2, round(abs(sweep) / (2 * math.pi) * SIDES))
        for k in range(1, count):
            angle = start + sweep * k / count
            points.append((cx + radius * math.cos(angle), cy + radius * math.sin(angle)))
        points.append((x, y))
    return points[:-1] if math.dist(points[0], points[-1]) < 1e-12 else points


def mesh_of(loops, size):
    gmsh.model.add("section")
    lines = []
    for one in loops:
        points = [gmsh.model.geo.addPoint(x, y, 0, size) for x, y in corners(one)]
        sides = [gmsh.model.geo.addLine(a, b) for a, b in zip(points, points[1:] + points[:1])]
        lines.append(gmsh.model.geo.addCurveLoop(sides))
    gmsh.model.geo.addPlaneSurface(lines)
    gmsh.model.geo.synchronize()
    gmsh.model.mesh.generate(2)
    tags, coordinates, _ = gmsh.model.mesh.getNodes()
    place = {tag: k for k, tag in enumerate(tags)}
    _, _, nodes = gmsh.model.mesh.getElements(2)
    triangles = np.array([place[tag] for tag in nodes[0]]).reshape(-1, 3)
    gmsh.model.remove()
    points = coordinates.reshape(-1, 3)[:, :2]
    used = np.unique(triangles)
    renumber = np.zeros(len(points), dtype=int)
    renumber[used] = np.arange(len(used))
    return skfem.MeshTri(points[used].T.copy(), renumber[triangles].T.copy())


class Library:
    """The same problems by the library: warping of bending along each axis and of torsion."""

    def __init__(self, mesh, nu, element=None):
        self.basis = basis = skfem.Basis(mesh, element or skfem.ElementTriP3(), intorder=8)
        weights, at = basis.dx, np.asarray(basis.global_coordinates())
        area = weights.sum()
        self.centroid = [(weights * at[k]).sum() / area for k in (0, 1)]
        x, y = at[0] - self.centroid[0], at[1] - self.centroid[1]
        self.moments = np.array([[(weights * x * x).sum(), (weights * x * y).sum()],
                                 [(weights * x * y).sum(), (weights * y * y).sum()]])
        self.contraction = nu / (2 * (1 + nu))
        stiffness = skfem.BilinearForm(lambda u, v, w: dot(grad(u), grad(v))).assemble(basis)
        self.warping, self.shear = [], []
        free = np.arange(1, basis.N)
        for problem in range(3):
            def load(v, w):
                px, py = w.x[0] - self.centroid[0], w.x[1] - self.centroid[1]
                h = self.carried(problem, px, py)
                pull = (px, py, 0)[problem]
                return pull * v - h[0] * grad(v)[0] - h[1] * grad(v)[1]
            right = skfem.LinearForm(load).assemble(basis)
            values = np.zeros(basis.N)
            values[free] = skfem.solve(stiffness[free][:, free].tocsc(), right[free])
            slope = np.asarray(basis.interpolate(values).grad)
            self.warping.append(values)
            self.shear.append(slope + np.array(self.carried(problem, x, y)))
        tx, ty = self.shear[2]
        self.torsion_constant = (weights * (x * ty - y * tx)).sum()
        w = np.asarray(basis.interpolate(self.warping[2]))
        sums = np.array([(weights * w * x).sum(), (weights * w * y).sum()])
        turned = np.linalg.solve(self.moments, sums)  # w - y_s x + x_s y has no moment
        self.shear_centre = [self.centroid[0] - turned[1], self.centroid[1] + turned[0]]
        self.form_factor = {}
        for name, force in (("right", (1, 0)), ("up", (0, 1))):
            a, b = np.linalg.solve(self.moments, force)
            stress = a * self.shear[0] + b * self.shear[1]
            self.form_factor[name] = area * (weights * (stress**2).sum(axis=0)).sum()

    def carried(self, problem, x, y):
        half = (x * x - y * y) / 2
        c = self.contraction
        return ((-c * half, -c * x * y), (-c * x * y, c * half), (-y, x))[problem]

    def stress(self, force, points):
        a, b = np.linalg.solve(self.moments, force)
        values = a * self.warping[0] + b * self.warping[1]
        basis = self.basis
        cells = basis.mesh.element_finder()(*points)
        local = basis.mapping.invF(points[:, :, None], tind=cells)
        slope = np.zeros(points.shape)
        for k in range(basis.Nbfun):
            field = basis.elem.gbasis(basis.mapping, local, k, tind=cells)[0]
            slope += values[basis.element_dofs[k, cells]] * np.asarray(field.grad)[:, :, 0]
        x, y = points[0] - self.centroid[0], points[1] - self.centroid[1]
        return slope + a * np.array(self.carried(0, x, y)) + b * np.array(self.carried(1, x, y))


# Name, loops, size of the library's triangles, points to be compared: on webs, in flanges, beside holes and fillets.
SECTIONS = [
    ("I", i_section(), 0.006, [(0, 0.08), (0.0039, 0.08), (0.0, 0.154), (0.03, 0.153), (-0.012, 0.0065), (0.0062, 0.1455)]),
    ("T", tee(), 0.006, [(0, 0.06), (0.0068, 0.05), (0.02, 0.112), (-0.04, 0.109), (0.0, 0.108), (0.0085, 0.1005)]),
    ("channel", channel(), 0.005, [(0.005, 0.07), (0.001, 0.02), (0.03, 0.006), (0.05, 0.134), (0.009, 0.01)]),
    ("Z", zed(), 0.005, [(0, 0.07), (0.003, 0.04), (0.03, 0.005), (-0.04, 0.137), (-0.0055, 0.1285)]),
    ("polygon with two holes", two_holes(), 0.006,
     [(0.01, 0.01), (0.0245, 0.035), (0.056, 0.04), (0.0835, 0.06), (0.1, 0.05), (0.05, 0.08), (0.07, 0.02)]),
]

# The library's arcs are polygons, and its cubic triangles of one size throughout; the values differ by less than this.
BOUNDS = {"constant": 1e-3, "centre": 5e-4, "stress": 2e-3}


def main():
    asked = [{"section": {"outline": {"loops": loops}}, "poisson_ratio": NU, "points_m": points,
              "effort": "thorough"}
             for _, loops, _, points in SECTIONS]
    ours = json.loads(subprocess.run([TARGET / "release/examples/elastic"], input=json.dumps(asked), check=True,
                                     capture_output=True, text=True).stdout)
    gmsh.initialize()
    gmsh.option.setNumber("General.Terminal", 0)
    faults = []

    def compare(what, found, wanted, within):
        if not abs(found - wanted) <= within:
            faults.append(f"{what}: {found}, the library {wanted}, allowed {within:.2e}")

    for (name, loops, size, points), found in zip(SECTIONS, ours):
        library = Library(mesh_of(loops, size), NU)
        compare(f"{name}: torsion constant", found["torsion_constant"], library.torsion_constant,
                BOUNDS["constant"] * library.torsion_constant)
        for direction, factor in library.form_factor.items():
            compare(f"{name}: form factor {direction}", found[f"form_factor_{direction}"], factor, BOUNDS["constant"] * factor)
        reach = max(abs(v) for one in loops for corner in corners(one) for v in corner)
        for k, axis in enumerate("xy"):
            compare(f"{name}: shear centre {axis}", found["shear_centre"][k], library.shear_centre[k], BOUNDS["centre"] * reach)
        worst = 0.0
        for direction, force in (("up", (0, 1)), ("right", (1, 0))):
            theirs = library.stress(force, np.array(points, dtype=float).T).T
            scale = np.linalg.norm(theirs, axis=1).max()
            for point, mine, other in zip(points, found[f"stress_{direction}"], theirs):
                for k, axis in enumerate("xy"):
                    worst = max(worst, abs(mine[k] - other[k]) / scale)
                    compare(f"{name}: tau_{axis} at {point}, force {direction}", mine[k], other[k], BOUNDS["stress"] * scale)
        print(f"{name}: {len(points)} points, stresses within {worst:.1e} of the largest compared")
    gmsh.finalize()
    print("all agree" if not faults else "\n".join(faults))
    sys.exit(1 if faults else 0)


if __name__ == "__main__":
    main()
