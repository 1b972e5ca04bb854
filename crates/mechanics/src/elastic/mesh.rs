//! Triangles that fill the section: each part is triangulated within its own sides, and the sides are cut until all parts
//! agree on them.

use super::Fault;
use super::outline::{Outline, Side};
use crate::section::Point;
use crate::section::ring::Curve;
use spade::handles::FixedVertexHandle;
use spade::{AngleLimit, ConstrainedDelaunayTriangulation, Point2, RefinementParameters, Triangulation};
use std::collections::BTreeMap;

/// The circumscribed radius of a triangle over its shortest side; 1.2 is a smallest angle of 25 degrees, which refining
/// reaches without running away.
const RADIUS_TO_SIDE: f64 = 1.2;

/// How often the parts may ask each other for further cuts before the last triangulation leaves the sides as they are.
const ROUNDS: usize = 6;

/// Triangles smaller than this, of the square of the section's size, are not bettered: their corners lie where rounding
/// puts them.
const SMALLEST_AREA: f64 = 1e-15;

/// So many corners a triangulation may get in all: they are solved in a few seconds.
const MOST_VERTICES: usize = 20_000;

/// A triangle, its corners counter-clockwise.
#[derive(Clone, Copy, Debug)]
pub(super) struct Triangle {
    pub corners: [usize; 3],
    pub part: usize,
    /// For the side from corner k to corner k + 1: the arc that it is, if it is one, from the first to the second.
    pub arcs: [Option<Curve>; 3],
}

/// The triangles of the whole section, in units of its size from its centroid.
#[derive(Clone, Debug)]
pub(super) struct Mesh {
    pub points: Vec<Point>,
    pub triangles: Vec<Triangle>,
}

type Delaunay = ConstrainedDelaunayTriangulation<Point2<f64>>;

/// Moves the section, which lies within -1 ..= 1, to where no coordinate is so small that it could underflow. The scale
/// is odd so that no length of the section comes to a round number: refining rounds to powers of two.
const SCALE: f64 = 0.4137;
const SHIFT: f64 = 1.5;

fn placed(point: Point) -> Point2<f64> {
    Point2::new(SHIFT + SCALE * point.x, SHIFT + SCALE * point.y)
}

fn back(point: Point2<f64>) -> Point {
    Point::new((point.x - SHIFT) / SCALE, (point.y - SHIFT) / SCALE)
}

/// One part triangulated: the corners that it shares with the net, then its own.
struct Filled {
    delaunay: Delaunay,
    /// Vertex of the net for each of the first vertices of the triangulation.
    shared: Vec<usize>,
    /// Sides of the net round this part, and for each the parameters at which it was cut.
    sides: Vec<(usize, Vec<f64>)>,
}

impl Mesh {
    /// Fills the net; no triangle is larger than `largest_area` of the section's size squared.
    pub(super) fn fill(outline: &mut Outline, parts: usize, largest_area: f64) -> Result<Self, Fault> {
        for round in 0..=ROUNDS {
            let last = round == ROUNDS;
            let filled = (0..parts)
                .map(|part| fill_part(outline, part, largest_area, last))
                .collect::<Result<Vec<_>, _>>()?;
            let mut cuts: BTreeMap<usize, Vec<f64>> = BTreeMap::new();
            for (side, parameters) in filled.iter().flat_map(|part| &part.sides) {
                if !parameters.is_empty() {
                    cuts.entry(*side).or_default().extend(parameters);
                }
            }
            if cuts.is_empty() {
                return gather(outline, &filled);
            }
            for (side, mut parameters) in cuts {
                parameters.sort_by(f64::total_cmp);
                // Two parts that cut their common side in nearly the same place mean the same cut.
                parameters.dedup_by(|a, b| *a - *b < 0.1 / (1.0 + outline.sides.len() as f64));
                outline.cut(side, &parameters);
            }
            if outline.vertices.len() > MOST_VERTICES {
                break;
            }
        }
        Err(Fault::TooFine { sides: outline.sides.len() })
    }
}

fn fill_part(outline: &Outline, part: usize, largest_area: f64, keep_sides: bool) -> Result<Filled, Fault> {
    let around: Vec<usize> = (0..outline.sides.len())
        .filter(|&side| outline.sides[side].left == part || outline.sides[side].right == Some(part))
        .collect();
    let mut number = vec![usize::MAX; outline.vertices.len()];
    let mut shared = Vec::new();
    let mut edges = Vec::with_capacity(around.len());
    for &side in &around {
        let ends = [outline.sides[side].from, outline.sides[side].to];
        edges.push(ends.map(|end| {
            if number[end] == usize::MAX {
                number[end] = shared.len();
                shared.push(end);
            }
            number[end]
        }));
    }
    let points: Vec<Point2<f64>> = shared.iter().map(|&vertex| placed(outline.vertices[vertex])).collect();
    let mut conflict = false;
    let loaded = Delaunay::try_bulk_load_cdt(points, edges.clone(), |_| conflict = true);
    let mut delaunay = loaded.map_err(|_| Fault::NoMesh { part })?;
    if conflict || delaunay.num_vertices() != shared.len() {
        return Err(Fault::NoMesh { part });
    }
    let mut wishes = RefinementParameters::<f64>::new()
        .exclude_outer_faces(true)
        .with_angle_limit(AngleLimit::from_radius_to_shortest_edge_ratio(RADIUS_TO_SIDE))
        .with_max_allowed_area(largest_area * SCALE * SCALE)
        .with_min_required_area(SMALLEST_AREA * SCALE * SCALE)
        .with_max_additional_vertices(MOST_VERTICES.saturating_sub(shared.len()));
    if keep_sides {
        wishes = wishes.keep_constraint_edges();
    }
    if !delaunay.refine(wishes).refinement_complete {
        return Err(Fault::TooFine { sides: MOST_VERTICES });
    }
    let mut sides = Vec::with_capacity(around.len());
    for (&side, &ends) in around.iter().zip(&edges) {
        let cuts = cuts_along(&delaunay, ends, shared.len()).ok_or(Fault::NoMesh { part })?;
        sides.push((side, cuts));
    }
    Ok(Filled { delaunay, shared, sides })
}

/// The parameters, rising, at which a side of the net was cut: its pieces are followed from end to end. None if they
/// do not lead there.
fn cuts_along(delaunay: &Delaunay, [from, to]: [usize; 2], shared: usize) -> Option<Vec<f64>> {
    let at = |vertex: FixedVertexHandle| delaunay.vertex(vertex).position();
    let (start, end) = (at(FixedVertexHandle::from_index(from)), at(FixedVertexHandle::from_index(to)));
    let (along_x, along_y) = (end.x - start.x, end.y - start.y);
    let length_squared = along_x * along_x + along_y * along_y;
    let mut cuts = Vec::new();
    let mut here = FixedVertexHandle::from_index(from);
    let mut done = 0.0;
    while here.index() != to {
        // Of the sides that leave this corner, the one that is, or runs along, the side.
        let mut best: Option<(f64, f64, FixedVertexHandle)> = None;
        for edge in delaunay.vertex(here).out_edges().filter(|edge| edge.is_constraint_edge()) {
            let next = edge.to();
            let position = next.position();
            let (x, y) = (position.x - start.x, position.y - start.y);
            let parameter = (x * along_x + y * along_y) / length_squared;
            if next.index() == to {
                return Some(cuts);
            }
            // A cut is a new corner of the triangulation, strictly farther along.
            if next.index() < shared || parameter <= done || parameter >= 1.0 {
                continue;
            }
            let off = (x * along_y - y * along_x).abs() / (length_squared * (parameter - done));
            if best.is_none_or(|(least, _, _)| off < least) {
                best = Some((off, parameter, next.fix()));
            }
        }
        let (_, parameter, next) = best?;
        cuts.push(parameter);
        (done, here) = (parameter, next);
    }
    Some(cuts)
}

/// Puts the parts together: corners on the net are common, all others belong to one part.
fn gather(outline: &Outline, filled: &[Filled]) -> Result<Mesh, Fault> {
    let mut mesh = Mesh { points: outline.vertices.clone(), triangles: Vec::new() };
    for (part, one) in filled.iter().enumerate() {
        let mut numbers = one.shared.clone();
        for vertex in one.delaunay.vertices().skip(one.shared.len()) {
            numbers.push(mesh.points.len());
            mesh.points.push(back(vertex.position()));
        }
        let mut side_of: BTreeMap<(usize, usize), &Side> = BTreeMap::new();
        for (index, _) in &one.sides {
            let side = &outline.sides[*index];
            side_of.insert((side.from.min(side.to), side.from.max(side.to)), side);
        }
        for face in inside(&one.delaunay, part, &numbers, &side_of) {
            let corners = one.delaunay.face(face).vertices().map(|vertex| numbers[vertex.fix().index()]);
            let arcs = [0, 1, 2].map(|k| {
                let (from, to) = (corners[k], corners[(k + 1) % 3]);
                let side = side_of.get(&(from.min(to), from.max(to)))?;
                let stretch = if side.from == from { side.stretch } else { side.stretch.reversed() };
                side.is_arc().then_some(stretch.curve)
            });
            mesh.triangles.push(Triangle { corners, part, arcs });
        }
        if !mesh.triangles.iter().any(|triangle| triangle.part == part) {
            return Err(Fault::NoMesh { part });
        }
    }
    Ok(mesh)
}

/// The triangles of a part: those beside its sides, on the side where it lies, and all that can be reached from them without
/// crossing a side; in the order of the triangulation.
fn inside(
    delaunay: &Delaunay,
    part: usize,
    numbers: &[usize],
    side_of: &BTreeMap<(usize, usize), &Side>,
) -> Vec<spade::handles::FixedFaceHandle<spade::handles::InnerTag>> {
    let mut marked = vec![false; delaunay.num_all_faces()];
    let mut waiting = Vec::new();
    for edge in delaunay.directed_edges().filter(|edge| edge.is_constraint_edge()) {
        let (from, to) = (numbers[edge.from().index()], numbers[edge.to().index()]);
        let Some(side) = side_of.get(&(from.min(to), from.max(to))) else { continue };
        let part_on_left = if side.from == from { Some(side.left) } else { side.right };
        if part_on_left == Some(part) {
            waiting.extend(edge.face().as_inner().map(|face| face.fix()));
        }
    }
    while let Some(face) = waiting.pop() {
        if core::mem::replace(&mut marked[face.index()], true) {
            continue;
        }
        for edge in delaunay.face(face).adjacent_edges().iter().filter(|edge| !edge.is_constraint_edge()) {
            waiting.extend(edge.rev().face().as_inner().map(|face| face.fix()));
        }
    }
    delaunay.fixed_inner_faces().filter(|face| marked[face.index()]).collect()
}
