//! The elastic truth behind `V Q / (I t)`: Saint-Venant's flexure of the actual section, by finite elements.
//!
//! The formula gives the mean over the width of a cut. How the shear stress is spread over that width, which way it points in a
//! flange, and how much larger than the mean it is at its largest, follows from the theory of elasticity alone.
//!
//! # The problem
//!
//! Coordinates x, y from the centroid, z along the beam to the left, so that the face that looks along z is the one on
//! which the left piece acts; materials of one Poisson's ratio `nu`, moduli of elasticity `n E` and shear moduli `g G`,
//! with the ratios `n` and `g` of each part; where all are alike in all directions `g = n`. A shear force (Vx, Vy) makes the bending stress grow along the beam as
//!
//! ```text
//! d sigma / dz = n (a x + b y)         a ∫ n x² dA + b ∫ n x y dA = Vx
//!                                      a ∫ n x y dA + b ∫ n y² dA = Vy
//! ```
//!
//! so that equilibrium and the free surface ask of the shear stress `tau = (tau_x, tau_y)`
//!
//! ```text
//! div tau = -n (a x + b y)             tau · normal = 0 on every outline, hole or not
//! ```
//!
//! A bent beam also contracts sideways where it is pulled; as the bending varies along it, so does the contraction, and
//! its sections slide by `h`. With the warping `w` of the section (times G, with the shear modulus G of reference)
//!
//! ```text
//! tau = g (grad w - c h)               c = nu G / E, with G = E / (2 (1 + nu)) c = nu / (2 (1 + nu))
//! h   = (a (x² - y²)/2 + b x y,  a x y + b (y² - x²)/2)
//! ```
//!
//! which is all that compatibility asks: the section warps freely, and does not twist on the mean, so that the resultant passes
//! through the shear centre. A twist adds `g theta (-y, x)` to `tau`: torsion is the same problem. As one equation, for every
//! test function v,
//!
//! ```text
//! ∫ g grad w · grad v dA = ∫ n (a x + b y) v dA + c ∫ g h · grad v dA
//! ```
//!
//! The warping is used, not a stress function, because it needs no condition for each hole and passes from one material to the
//! next by itself.
//!
//! # How it is solved
//!
//! Triangles follow the outlines and the lines between parts, smaller towards re-entrant corners; on each the warping is a
//! polynomial, and triangles beside an arc are curved. The same mesh is solved with polynomials of rising order until two
//! orders agree: their difference is the error that is returned.
//!
//! # What does not hold
//!
//! Materials of different Poisson's ratios press on one another across the section, which is left out: one ratio stands for all.
//!
//! Saint-Venant's solution leaves out how the load is brought in and how the end is held: it holds at a distance of about one
//! depth from both. At a sharp re-entrant corner it has no largest value: see [`SharpCorner`].
//!
//! # Source
//! S. Timoshenko and J. Goodier, Theory of Elasticity, chapter on bending of bars; W. Pilkey, Analysis and Design of Elastic
//! Beams, for the finite elements and the shear centre. From memory; the derivation stands above.

mod across;
mod constants;
mod element;
#[cfg(test)]
mod ellipse;
mod fault;
mod field;
mod flexure;
mod fronts;
mod largest;
mod mesh;
mod outline;
mod stiffness;

pub use across::{Across, AtPlace};
pub use fault::Fault;
pub use field::{ElasticField, Facets, ShearVector};
pub use largest::LargestElastic;

use crate::section::{Point, Section};
use element::Shares;
use flexure::{Moduli, PROBLEMS, Solved};
use mesh::Mesh;
use outline::Outline;

/// Round a sharp corner this part of the room there is left out of account: of the distance to the nearest other
/// corner or side, which in a flanged section is the thickness of the web or the flange.
const LEFT_OUT: f64 = 0.25;

/// Layers of shrinking triangles at corners, counted over all corners: where there are hundreds, each is small by itself.
const MOST_GRADED: usize = 120;

/// The sizes whose fourth powers, and those of what is a billionth of them, stay within the range of the numbers, m.
const SIZES: core::ops::RangeInclusive<f64> = 1e-60..=1e60;

/// Places nearer than this part of the section's size are one: the largest stress is looked for in steps of a ten-thousandth of
/// a triangle.
const SAME_PLACE: f64 = 1e-5;

/// The force may be missed by this part of itself, and no more. Rounding leaves some 1e-12.
const CLOSES: f64 = 1e-6;

/// How fine a section is solved.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Effort {
    /// Order of the polynomials to begin with; at least 2.
    pub lowest_order: usize,
    /// Order at which to end, whatever the error; at most 8.
    pub highest_order: usize,
    /// End where two orders agree to this part of the largest stress where it is largest, and to twice as much
    /// everywhere else: under a force up and under one to the right. The last order errs by less than half of it.
    pub wanted_error: f64,
    /// No triangle is larger than one part in so many of the section's area.
    pub least_triangles: f64,
    /// The order does not rise to where there would be more unknowns than this; it is 3 at least.
    pub most_unknowns: usize,
    /// Towards each sharp corner the triangles shrink so many times, each time to a third; fewer times where there are more
    /// than a few dozen such corners.
    pub layers: usize,
    /// Whether they shrink towards the other corners too, where the stress has no limit of its slope.
    pub all_corners: bool,
}

impl Effort {
    /// For a value that is read: the largest stress to two parts in a thousand, in milliseconds.
    pub const fn usual() -> Self {
        Effort {
            lowest_order: 4,
            highest_order: 6,
            wanted_error: 4e-3,
            least_triangles: 16.0,
            most_unknowns: 40_000,
            layers: 3,
            all_corners: false,
        }
    }

    /// For a value to be compared with another: seven digits where the outline has no sharp corners.
    pub const fn thorough() -> Self {
        Effort {
            lowest_order: 7,
            highest_order: 8,
            wanted_error: 0.0,
            least_triangles: 60.0,
            most_unknowns: 200_000,
            layers: 4,
            all_corners: true,
        }
    }
}

/// A shear force on the section, N, as two components.
///
/// Signs are those of the shear force of a beam: the stresses and forces are what the left piece does to the right one,
/// so that a positive `V` pushes up.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ShearForce {
    /// To the right, N.
    pub right: f64,
    /// Up, N.
    pub up: f64,
}

/// A corner at which the theory of elasticity gives no finite stress: a re-entrant one, or one where materials meet.
///
/// Real corners are rounded, or yield. Nothing said about the largest stress counts what lies nearer to it than
/// `left_out`; the stress there is larger than any that is returned.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SharpCorner {
    /// Where it is, in the coordinates of the outlines, m.
    pub at: Point,
    /// What lies nearer to it than this is left out of account, m: a quarter of the distance to the nearest other corner or
    /// side, which in a flanged section is the thickness of the web or the flange.
    pub left_out: f64,
}

/// What the elastic solution needs to know of the materials beside the modular ratios of the parts.
#[derive(Clone, Debug, PartialEq)]
pub struct Elasticity {
    /// Poisson's ratio of them all, sideways contraction over stretch: more than -1, at most 1/2.
    pub poisson_ratio: f64,
    /// Shear modulus over modulus of elasticity of the material of reference: `1 / (2 (1 + nu))` where it is alike in all
    /// directions, a sixteenth in timber along its grain.
    pub shear_share: f64,
    /// Shear modulus of each part over that of the material of reference; greater than zero.
    pub shear_ratios: Vec<f64>,
}

impl Elasticity {
    /// Materials that are alike in all directions and of one Poisson's ratio: their shear moduli are as their moduli of elasticity.
    pub fn alike_in_all_directions(section: &Section, poisson_ratio: f64) -> Self {
        Self {
            poisson_ratio,
            shear_share: 0.5 / (1.0 + poisson_ratio),
            shear_ratios: section.parts().iter().map(|part| part.modular_ratio).collect(),
        }
    }

    /// What is wrong with it for a section, if anything is.
    fn fault(&self, section: &Section) -> Option<Fault> {
        let ratio = self.poisson_ratio;
        if !(ratio > -1.0 && ratio <= 0.5) {
            return Some(Fault::PoissonRatio { ratio });
        }
        let of_each = self.shear_ratios.len() == section.parts().len();
        let is_modulus = |ratio: &f64| *ratio > 0.0 && ratio.is_finite();
        let sound = of_each && self.shear_ratios.iter().chain([&self.shear_share]).all(is_modulus);
        (!sound).then_some(Fault::ShearModulus)
    }
}

/// The elastic solution of one section: shear along any direction, and torsion.
///
/// ```
/// use mechanics::elastic::{Effort, ElasticShear};
/// use mechanics::section::{Point, Section, shapes};
/// let plank = Section::new(shapes::rectangle(0.120, 0.060)?.parts)?;
/// let elastic = ElasticShear::new(&plank, 0.25, Effort::usual()).map_err(|_| Vec::new())?;
/// let field = elastic.under_level_bending(20.0e3);
/// let at_side = field.at(Point::new(0.120, 0.030)).map_or(0.0, |stress| stress.up);
/// // A plank on its flat carries a third more at its sides than V Q / (I t) says (Timoshenko & Goodier: 1.396).
/// assert!((at_side / (1.5 * 20.0e3 / (0.120 * 0.060)) - 1.396).abs() < 0.004);
/// # Ok::<(), Vec<mechanics::section::Fault>>(())
/// ```
#[derive(Clone, Debug)]
pub struct ElasticShear {
    section: Section,
    solved: Solved,
    /// The same with polynomials of one order less.
    coarser: Solved,
    elasticity: Elasticity,
    error: f64,
    /// Unit of length of the solution, m.
    size: f64,
    /// Its origin in the coordinates of the outlines.
    origin: Point,
    sharp: Vec<SharpCorner>,
}

impl ElasticShear {
    /// Solves a section whose materials have one Poisson's ratio and are alike in all directions.
    ///
    /// # Errors
    /// See [`ElasticShear::of`].
    pub fn new(section: &Section, poisson_ratio: f64, effort: Effort) -> Result<Self, Fault> {
        Self::of(section, Elasticity::alike_in_all_directions(section, poisson_ratio), effort)
    }

    /// Solves a section of materials with shear moduli of their own.
    ///
    /// # Errors
    /// [`Fault`] tells what stood in the way: a Poisson's ratio or a shear modulus that no material has, walls or gaps too thin to be filled
    /// with triangles, parts that hang together by nothing that could be told from nothing.
    pub fn of(section: &Section, elasticity: Elasticity, effort: Effort) -> Result<Self, Fault> {
        if let Some(fault) = elasticity.fault(section) {
            return Err(fault);
        }
        let properties = section.properties();
        let size = properties.breadth().max(properties.height());
        if !SIZES.contains(&size) {
            return Err(Fault::Size { size });
        }
        let mut outline = Outline::of(section, size)?;
        let origin = properties.centroid;
        let sharp: Vec<SharpCorner> = outline
            .sharp
            .iter()
            .map(|corner| {
                let at = outline.vertices[corner.vertex];
                let at = Point::new(origin.x + size * at.x, origin.y + size * at.y);
                SharpCorner { at, left_out: LEFT_OUT * size * corner.room }
            })
            .collect();
        let (corners, convex) = (outline.sharp.clone(), outline.convex.clone());
        let layers = |corners: usize| effort.layers.min(MOST_GRADED / corners.max(1));
        outline.grade(&corners, layers(corners.len()), 1.0 / 3.0);
        if effort.all_corners {
            outline.grade(&convex, layers(convex.len()), 1.0 / 3.0);
        }
        let area = properties.plain_area / (size * size);
        let mesh = Mesh::fill(&mut outline, section.parts().len(), area / effort.least_triangles.max(1.0))?;
        let ratios: Vec<f64> = section.parts().iter().map(|part| part.modular_ratio).collect();
        let contraction = elasticity.poisson_ratio * elasticity.shear_share;
        let moduli = Moduli { ratios: &ratios, shear_ratios: &elasticity.shear_ratios, contraction };
        let solve = |order: usize| Solved::new(&mesh, moduli, order);
        let affordable = |order: usize| mesh.triangles.len() * order * order / 2 <= effort.most_unknowns;
        let mut order = effort.lowest_order.clamp(2, 7);
        while order > 2 && !affordable(order + 1) {
            order -= 1;
        }
        let mut elastic = ElasticShear {
            section: section.clone(),
            coarser: solve(order)?,
            solved: solve(order + 1)?,
            elasticity: elasticity.clone(),
            error: 0.0,
            size,
            origin,
            sharp,
        };
        order += 1;
        elastic.error = elastic.difference_of_orders();
        while !elastic.is_settled(effort.wanted_error)
            && order < effort.highest_order.min(8)
            && affordable(order + 1)
        {
            order += 1;
            elastic.coarser = core::mem::replace(&mut elastic.solved, solve(order)?);
            elastic.error = elastic.difference_of_orders();
        }
        let residual = elastic.residual();
        if residual <= CLOSES { Ok(elastic) } else { Err(Fault::DoesNotClose { residual }) }
    }

    /// The section that it is the solution of.
    pub fn section(&self) -> &Section {
        &self.section
    }

    /// What is known of the materials, as given.
    pub fn elasticity(&self) -> &Elasticity {
        &self.elasticity
    }

    /// By how much the stresses of the last two orders differ anywhere, outside what is left out round sharp corners, over
    /// the largest stress: the larger of shear to the right and shear up. The last order is nearer to the truth than this.
    pub fn error(&self) -> f64 {
        self.error
    }

    /// Order of the polynomials, and how many triangles and unknowns there are.
    pub fn mesh_size(&self) -> (usize, usize, usize) {
        (self.solved.basis.order, self.solved.shapes.len(), self.solved.warping[0].len())
    }

    /// The corners at which the stress has no limit.
    pub fn sharp_corners(&self) -> &[SharpCorner] {
        &self.sharp
    }

    /// The stresses under a shear force through the shear centre.
    pub fn under(&self, force: ShearForce) -> ElasticField<'_> {
        let times = self.times(force.right, force.up);
        ElasticField::new(self, times.map(|many| many / (self.size * self.size)))
    }

    /// The stresses under an upward shear force `V`, N, of a beam that bends about the level axis alone, as `V Q / (I t)`
    /// takes it. Where the level axis is no principal one, this needs a force sideways too, `V ∫xy dA / I`: something holds
    /// the beam.
    pub fn under_level_bending(&self, shear_force: f64) -> ElasticField<'_> {
        let [_, product, level] = self.solved.integrals.moments;
        self.under(ShearForce { right: shear_force * product / level, up: shear_force })
    }

    /// The stresses under a torque, N m, counter-clockwise, of a bar that is free to warp.
    pub fn under_torque(&self, torque: f64) -> ElasticField<'_> {
        let twist = torque / (self.solved.integrals.torque[2] * self.size.powi(3));
        ElasticField::new(self, [0.0, 0.0, twist])
    }

    /// How many times each problem makes up a force.
    fn times(&self, right: f64, up: f64) -> [f64; PROBLEMS] {
        let [upright, product, level] = self.solved.integrals.moments;
        let both = upright * level - product * product;
        [(right * level - up * product) / both, (up * upright - right * product) / both, 0.0]
    }

    /// What the stresses of the two unit forces miss their force by; the larger.
    fn residual(&self) -> f64 {
        let force = &self.solved.integrals.force;
        let missed = [(1.0, 0.0), (0.0, 1.0)].map(|(right, up)| {
            let times = self.times(right, up);
            let sum = |axis: usize| times[0] * force[0][axis] + times[1] * force[1][axis];
            (sum(0) - right).abs().max((sum(1) - up).abs())
        });
        // Not a number is no closing balance.
        if missed.iter().any(|part| part.is_nan()) { f64::INFINITY } else { missed[0].max(missed[1]) }
    }

    fn is_settled(&self, wanted: f64) -> bool {
        let forces = [(1.0, 0.0), (0.0, 1.0)].map(|(right, up)| ShearForce { right, up });
        let settled = |force| self.under(force).largest().is_none_or(|one| one.error <= wanted * one.value);
        self.error <= 2.0 * wanted && forces.into_iter().all(settled)
    }

    fn difference_of_orders(&self) -> f64 {
        let third = 1.0 / 3.0;
        let spots: [Shares; 4] = [[third; 3], [0.8, 0.1, 0.1], [0.1, 0.8, 0.1], [0.1, 0.1, 0.8]];
        let (ours, theirs) = (self.solved.basis.at_each(&spots), self.coarser.basis.at_each(&spots));
        let mut worst: f64 = 0.0;
        for force in [(1.0, 0.0), (0.0, 1.0)] {
            let times = self.times(force.0, force.1);
            let (mut largest, mut difference): (f64, f64) = (0.0, 0.0);
            for triangle in 0..self.solved.shapes.len() {
                for (k, &shares) in spots.iter().enumerate() {
                    let fine = self.solved.stress_with(triangle, shares, times, &ours[k]);
                    let at = self.solved.shapes[triangle].point(shares, &ours[k]);
                    if self.is_left_out(self.outer(at)) {
                        continue;
                    }
                    let coarse = self.coarser.stress_with(triangle, shares, times, &theirs[k]);
                    largest = largest.max(length(fine));
                    difference = difference.max(length([fine[0] - coarse[0], fine[1] - coarse[1]]));
                }
            }
            worst = worst.max(if largest > 0.0 { difference / largest } else { 0.0 });
        }
        worst
    }

    /// From the coordinates of the solution into those of the outlines.
    fn outer(&self, at: Point) -> Point {
        let centre = self.solved.centre;
        Point::new(
            self.origin.x + self.size * (at.x + centre.x),
            self.origin.y + self.size * (at.y + centre.y),
        )
    }

    /// A place that was searched for, put on an axis through the centroid, or on an outermost fibre, that it misses by less than the
    /// search tells.
    fn on_axis(&self, at: Point) -> Point {
        let near = |value: f64, line: &f64| (value - line).abs() <= SAME_PLACE * self.size;
        let own =
            |value: f64, lines: [f64; 3]| lines.into_iter().find(|line| near(value, line)).unwrap_or(value);
        let of = self.section.properties();
        let x = own(at.x, [self.origin.x, of.left, of.left + of.breadth()]);
        Point::new(x, own(at.y, [self.origin.y, of.bottom, of.top]))
    }

    fn inner(&self, at: Point) -> Point {
        let centre = self.solved.centre;
        Point::new(
            (at.x - self.origin.x) / self.size - centre.x,
            (at.y - self.origin.y) / self.size - centre.y,
        )
    }

    /// Whether a point lies too near to a sharp corner to count.
    fn is_left_out(&self, at: Point) -> bool {
        self.sharp.iter().any(|corner| corner.at.distance(at) < corner.left_out)
    }
}

fn length(stress: [f64; 2]) -> f64 {
    (stress[0] * stress[0] + stress[1] * stress[1]).sqrt()
}
