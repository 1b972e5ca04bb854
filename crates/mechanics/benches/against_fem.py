"""Compares the largest shear stress of an I section with a general finite-element library: first the values, then the time.

    cargo build --release -p mechanics --example elastic
    python3 crates/mechanics/benches/against_fem.py [path of the built example]

scikit-fem, meshed by gmsh and solved by SciPy, is asked for the same answer: the largest resultant shear stress of a rolled I,
which lies on its root fillets. gmsh grades its curved triangles towards the fillets. Of two orders and many gradings
the quickest is taken whose error is no larger than 0.2 %. Its time counts as ours does: from the outline to the largest stress,
meshing, assembly, solution and search, single thread, best of several runs, libraries loaded, though it solves for no error of
its own. The stress that both are measured against is the library's at its finest.
"""

import json
import os
import subprocess
import sys
import time
from pathlib import Path

os.environ.update(OMP_NUM_THREADS="1", OPENBLAS_NUM_THREADS="1")
ROOT = Path(__file__).resolve().parents[3]
sys.path.insert(0, str(ROOT / "tests" / "comparison"))

import flexure  # noqa: E402
import gmsh  # noqa: E402
import numpy as np  # noqa: E402
import skfem  # noqa: E402

ERROR = 2e-3
RUNS = 3

# So small, m, that the stress is largest on it and not in the web.
FILLET = 0.003


def curved_mesh(loops, size, round_turn):
    """Triangles with six nodes; so many of them round a full turn of an arc."""
    gmsh.model.add("section")
    geo = gmsh.model.geo
    curves, arcs = [], []
    for one in loops:
        ends = [one["start_m"]] + [side.get("line_to_m") or side["arc_to_m"] for side in one["path"]]
        points = [geo.addPoint(x, y, 0, size) for x, y in ends]
        sides = []
        for k, side in enumerate(one["path"]):
            if "centre_m" in side:
                sides.append(geo.addCircleArc(points[k], geo.addPoint(*side["centre_m"], 0), points[k + 1]))
                arcs.append(sides[-1])
            else:
                sides.append(geo.addLine(points[k], points[k + 1]))
        sides.append(geo.addLine(points[-1], points[0]))
        curves.append(geo.addCurveLoop(sides))
    geo.addPlaneSurface(curves)
    geo.synchronize()
    fields = gmsh.model.mesh.field
    away, graded = fields.add("Distance"), fields.add("Threshold")
    fields.setNumbers(away, "CurvesList", arcs)
    fields.setNumber(graded, "InField", away)
    numbers = {"SizeMin": 2 * np.pi * FILLET / round_turn, "SizeMax": size, "DistMin": 0, "DistMax": 2 * size}
    for name, value in numbers.items():
        fields.setNumber(graded, name, value)
    fields.setAsBackgroundMesh(graded)
    for option in ("MeshSizeExtendFromBoundary", "MeshSizeFromPoints"):
        gmsh.option.setNumber(f"Mesh.{option}", 0)
    gmsh.model.mesh.generate(2)
    gmsh.model.mesh.setOrder(2)
    tags, coordinates, _ = gmsh.model.mesh.getNodes()
    _, _, nodes = gmsh.model.mesh.getElements(2)
    gmsh.model.remove()
    nodes = nodes[0].reshape(-1, 6)
    used, numbers = np.unique(nodes, return_inverse=True)
    place = np.empty(int(tags.max()) + 1, dtype=int)
    place[tags] = np.arange(len(tags))
    points = coordinates.reshape(-1, 3)[place[used], :2]
    triangles = numbers.reshape(-1, 6)
    # The library wants the corners of a triangle sorted, and numbers the corners first.
    corners = np.unique(triangles[:, :3])
    renumber = np.full(len(used), -1)
    renumber[corners] = np.arange(len(corners))
    plain = skfem.MeshTri1(points[corners].T.copy(), renumber[triangles[:, :3]].T.copy(), sort_t=True)
    mesh = skfem.MeshTri2.from_mesh(plain)
    # Each middle of a side goes to where gmsh has put it.
    middles = {}
    for (a, b), column in (((0, 1), 3), ((1, 2), 4), ((0, 2), 5)):
        for first, last, middle in zip(renumber[triangles[:, a]], renumber[triangles[:, b]], triangles[:, column]):
            middles[min(first, last), max(first, last)] = middle
    places = mesh.doflocs.copy()
    dofs = mesh.dofs
    for facet, (first, last) in enumerate(mesh.facets.T):
        places[:, dofs.facet_dofs[0, facet]] = points[middles[min(first, last), max(first, last)]]
    return skfem.MeshTri2(places, mesh.t)


def largest(mesh, element):
    """The largest resultant under an upward force of one, over a lattice of 28 points of each triangle."""
    library = flexure.Library(mesh, flexure.NU, element)
    a, b = np.linalg.solve(library.moments, (0, 1))
    values = a * library.warping[0] + b * library.warping[1]
    lattice = [(i / 6, j / 6) for i in range(7) for j in range(7 - i)]
    places = np.array(lattice).T
    basis = skfem.Basis(mesh, element, quadrature=(places, np.ones(len(lattice))))
    at = np.asarray(basis.global_coordinates())
    x, y = at[0] - library.centroid[0], at[1] - library.centroid[1]
    slope = np.asarray(basis.interpolate(values).grad)
    stress = slope + a * np.array(library.carried(0, x, y)) + b * np.array(library.carried(1, x, y))
    return np.sqrt((stress**2).sum(axis=0)).max()


def timed(work):
    best = float("inf")
    for _ in range(RUNS):
        start = time.perf_counter()
        value = work()
        best = min(best, time.perf_counter() - start)
    return value, best


def ours(binary, loops, effort):
    case = {"section": {"outline": {"loops": loops}}, "poisson_ratio": flexure.NU, "effort": effort, "runs": 20}
    done = subprocess.run([binary], input=json.dumps([case]), check=True, capture_output=True, text=True)
    return json.loads(done.stdout)[0]


def main():
    target = Path(os.environ.get("CARGO_TARGET_DIR", ROOT / "target"))
    binary = sys.argv[1] if len(sys.argv) > 1 else target / "release/examples/elastic"
    gmsh.initialize()
    gmsh.option.setNumber("General.Terminal", 0)
    gmsh.option.setNumber("General.NumThreads", 1)
    loops = flexure.i_section(FILLET)
    mine = ours(binary, loops, "usual")
    truth = largest(curved_mesh(loops, 0.004, 64), skfem.ElementTriP3())
    finest = ours(binary, loops, "thorough")["largest"]["value"]
    apart = abs(truth - finest) / truth
    error = abs(mine["largest"]["value"] - truth) / truth
    print(f"both at their finest differ by {apart:.1e}")
    print(f"this crate:     {mine['seconds'] * 1e3:8.2f} ms, error {error:.1e}, {mine['unknowns']} unknowns of order {mine['order']}")
    best = None
    for element in (skfem.ElementTriP2(), skfem.ElementTriP3()):
        for round_turn in (6, 9, 12, 18, 24, 36, 48):
            def work(round_turn=round_turn, element=element):
                return largest(curved_mesh(loops, 0.016, round_turn), element)
            value, seconds = timed(work)
            off = abs(value - truth) / truth
            if off <= ERROR:
                name = type(element).__name__
                print(f"{name}:   {seconds * 1e3:8.2f} ms, error {off:.1e}, {round_turn} triangles round a turn")
                best = seconds if best is None else min(best, seconds)
                break
    gmsh.finalize()
    if best is None or apart > ERROR or error > ERROR:
        print("the values do not agree")
        sys.exit(1)
    ratio = best / mine["seconds"]
    print(f"the library takes {ratio:.0f} times as long")
    sys.exit(0 if ratio >= 10 else 1)


if __name__ == "__main__":
    main()
