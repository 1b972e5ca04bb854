//! Area, centroid, second moments and what follows from them, integrated round the outlines.

use super::check::{Checked, check};
use super::contact::Contact;
use super::fault::Fault;
use super::flank::{Flank, Moments};
use super::ring::{LocalRing, Stretch};
use super::{Part, Point};
use crate::real;

/// A product moment below this part of the second moments is none: corners written with seven figures leave as much of a symmetric
/// section, and it turns the neutral axis by so small an angle, rad, times the sum of both over the upright one.
const NO_PRODUCT: f64 = 1e-7;

/// The product moment, m⁴, where it is more than what rounding or drawing leaves beside the second moments, and 0 else: whoever asks whether
/// there is one and whoever counts with it go by the same number.
pub(crate) fn product_that_counts(product: f64, level: f64, upright: f64) -> f64 {
    if product.abs() > NO_PRODUCT * (level + upright) { product } else { 0.0 }
}

/// The principal second moments of area about the centroid.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PrincipalMoments {
    /// The largest, m⁴.
    pub largest: f64,
    /// The smallest, m⁴.
    pub smallest: f64,
    /// Angle of the axis about which the second moment is largest, counter-clockwise from the x axis, rad, in
    /// (-π/2, π/2]; 0 where every axis is a principal one.
    pub angle: f64,
}

/// The properties of a whole section. Where its parts differ in material, areas and moments are those of the section
/// transformed to the reference modulus: each part counts its modular ratio times.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Properties {
    /// Transformed area `A`, m².
    pub area: f64,
    /// Area as drawn, whatever the material, m².
    pub plain_area: f64,
    /// Centroid of the transformed area, in the coordinates of the outlines, m. The neutral axis of bending about
    /// the level axis passes through it.
    pub centroid: Point,
    /// `I = ∫ y² dA` about the level axis through the centroid, m⁴.
    pub second_moment: f64,
    /// `∫ x² dA` about the upright axis through the centroid, m⁴.
    pub second_moment_upright: f64,
    /// `∫ x y dA` about the axes through the centroid, without a minus sign, m⁴.
    pub product_moment: f64,
    /// The principal moments and their axis.
    pub principal: PrincipalMoments,
    /// `I / c` with the distance `c` of the highest fibre, m³.
    pub section_modulus_top: f64,
    /// `I / c` with the distance `c` of the lowest fibre, m³.
    pub section_modulus_bottom: f64,
    /// `√(I / A)`, m.
    pub radius_of_gyration: f64,
    /// The same of the second moment about the upright axis, m.
    pub radius_of_gyration_upright: f64,
    /// Height of the highest fibre, m.
    pub top: f64,
    /// Height of the lowest fibre, m.
    pub bottom: f64,
    /// Place of the leftmost fibre, m.
    pub left: f64,
    /// Place of the rightmost fibre, m.
    pub right: f64,
}

impl Properties {
    /// Height of the whole section, m.
    pub fn height(&self) -> f64 {
        self.top - self.bottom
    }

    /// Whether the level axis is no principal axis: under a load in the upright plane the neutral axis is inclined, and
    /// `M y / I` does not hold.
    pub fn bends_askew(&self) -> bool {
        self.product_moment != 0.0
    }

    /// Breadth of the whole section, m.
    pub fn breadth(&self) -> f64 {
        self.right - self.left
    }
}

/// The properties of one part taken alone, of its own area (not transformed), about its own centroid.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PartProperties {
    /// Area, m².
    pub area: f64,
    /// Centroid in the coordinates of the outlines, m.
    pub centroid: Point,
    /// `∫ y² dA` about its own level axis, m⁴.
    pub second_moment: f64,
    /// `∫ x² dA` about its own upright axis, m⁴.
    pub second_moment_upright: f64,
    /// `∫ x y dA` about its own axes, m⁴.
    pub product_moment: f64,
    /// Its modulus of elasticity over the reference modulus.
    pub modular_ratio: f64,
}

/// A cross-section, checked and integrated.
///
/// ```
/// use mechanics::section::{Section, shapes};
/// let plank = Section::new(shapes::rectangle(0.100, 0.200)?.parts)?;
/// assert!((plank.properties().second_moment - 0.1 * 0.2_f64.powi(3) / 12.0).abs() < 1e-18);
/// # Ok::<(), Vec<mechanics::section::Fault>>(())
/// ```
#[derive(Clone, Debug)]
pub struct Section {
    pub(super) parts: Vec<Part>,
    /// Where the local coordinates begin: the middle of the section, so that integrals about it lose no digits when
    /// the outline is drawn far from the origin.
    pub(super) origin: Point,
    /// Points nearer than this are one point, m.
    pub(super) tolerance: f64,
    pub(super) rings: Vec<LocalRing>,
    pub(super) flanks: Vec<Flank>,
    /// The moments beside each flank over its whole height.
    pub(super) beside: Vec<Moments>,
    /// Local heights of corners and of the tops and bottoms of arcs, rising; those nearer than the tolerance are one.
    pub(super) levels: Vec<f64>,
    pub(super) contacts: Vec<Contact>,
    pub(super) properties: Properties,
}

impl Section {
    /// Checks the parts and integrates round their outlines.
    ///
    /// # Errors
    /// All that is wrong with the parts, each fault with its place; see [`Fault`].
    pub fn new(parts: Vec<Part>) -> Result<Section, Vec<Fault>> {
        let Checked { origin, tolerance, rings, mut contacts } = check(&parts)?;
        let (flanks, levels) = flanks_of(&rings, tolerance);
        for contact in &mut contacts {
            *contact = contact.moved(origin);
        }
        let beside: Vec<Moments> =
            flanks.iter().map(|flank| flank.moments(flank.lower.y, flank.upper.y)).collect();
        let properties = integrate(&parts, &rings, &flanks, &beside, origin);
        Ok(Section { parts, origin, tolerance, rings, flanks, beside, levels, contacts, properties })
    }

    /// The parts as given.
    pub fn parts(&self) -> &[Part] {
        &self.parts
    }

    /// Area, centroid, second moments and so on.
    pub fn properties(&self) -> &Properties {
        &self.properties
    }

    /// The lines along which parts touch.
    pub fn contacts(&self) -> &[Contact] {
        &self.contacts
    }

    /// Height of the neutral axis of bending about the level axis, in the coordinates of the outlines, m.
    pub fn neutral_axis(&self) -> f64 {
        self.properties.centroid.y
    }

    /// The properties of one part taken alone; none if there is no such part.
    pub fn part_properties(&self, part: usize) -> Option<PartProperties> {
        let modular_ratio = self.parts.get(part)?.modular_ratio;
        let mut sum = Moments::default();
        for (flank, moments) in self.flanks.iter().zip(&self.beside).filter(|(flank, _)| flank.part == part) {
            sum.add(moments, flank.sign);
        }
        let centroid = Point::new(sum.x / sum.area, sum.y / sum.area);
        Some(PartProperties {
            area: sum.area,
            centroid: settled(centroid.plus(self.origin), &self.properties),
            second_moment: sum.yy - sum.y * centroid.y,
            second_moment_upright: sum.xx - sum.x * centroid.x,
            product_moment: sum.xy - sum.x * centroid.y,
            modular_ratio,
        })
    }

    pub(crate) fn origin(&self) -> Point {
        self.origin
    }

    pub(crate) fn tolerance(&self) -> f64 {
        self.tolerance
    }

    /// Height of the neutral axis in local coordinates.
    pub(super) fn local_axis(&self) -> f64 {
        self.properties.centroid.y - self.origin.y
    }

    /// The loops in local coordinates, with the material on their left.
    pub(crate) fn rings(&self) -> &[LocalRing] {
        &self.rings
    }

    pub(crate) fn ratio(&self, part: usize) -> f64 {
        self.parts[part].modular_ratio
    }
}

/// The flanks of all loops, their ends moved onto the common levels.
fn flanks_of(rings: &[LocalRing], tolerance: f64) -> (Vec<Flank>, Vec<f64>) {
    let mut pieces: Vec<Stretch> = Vec::with_capacity(rings.iter().map(|ring| ring.stretches.len()).sum());
    // For each ring: its part, and where its pieces end in the list.
    let mut ends: Vec<(usize, usize)> = Vec::with_capacity(rings.len());
    for ring in rings {
        for stretch in &ring.stretches {
            stretch.for_each_monotone(|piece| pieces.push(piece));
        }
        ends.push((ring.part, pieces.len()));
    }
    // Each piece begins where another one ends, so the beginnings alone give all heights.
    let mut order: Vec<(f64, usize)> = pieces.iter().map(|piece| piece.from.y).zip(0..pieces.len()).collect();
    order.sort_unstable_by(|a, b| a.0.total_cmp(&b.0));
    let mut levels: Vec<f64> = Vec::with_capacity(order.len());
    let mut level_of = vec![0.0; pieces.len()];
    for (y, index) in order {
        let level = match levels.last() {
            Some(&last) if y - last <= tolerance => last,
            _ => {
                levels.push(y);
                y
            }
        };
        level_of[index] = level;
    }
    let mut flanks = Vec::with_capacity(pieces.len());
    let mut begin = 0;
    for (part, end) in ends {
        for index in begin..end {
            let next = if index + 1 < end { index + 1 } else { begin };
            flanks.extend(Flank::of(part, &pieces[index], level_of[index], level_of[next]));
        }
        begin = end;
    }
    (flanks, levels)
}

fn integrate(
    parts: &[Part],
    rings: &[LocalRing],
    flanks: &[Flank],
    beside: &[Moments],
    origin: Point,
) -> Properties {
    let mut sum = Moments::default();
    let mut plain_area = 0.0;
    for (flank, moments) in flanks.iter().zip(beside) {
        sum.add(moments, flank.sign * parts[flank.part].modular_ratio);
        plain_area += flank.sign * moments.area;
    }
    let centroid = Point::new(sum.x / sum.area, sum.y / sum.area);
    let second_moment = sum.yy - sum.y * centroid.y;
    let second_moment_upright = sum.xx - sum.x * centroid.x;
    let product_moment =
        product_that_counts(sum.xy - sum.x * centroid.y, second_moment, second_moment_upright);
    let mut bounds = super::ring::Bounds::NONE;
    for ring in rings {
        bounds.hold_all(&ring.bounds);
    }
    let mut properties = Properties {
        area: sum.area,
        plain_area,
        centroid: centroid.plus(origin),
        second_moment,
        second_moment_upright,
        product_moment,
        principal: principal(second_moment, second_moment_upright, product_moment),
        section_modulus_top: second_moment / (bounds.top - centroid.y),
        section_modulus_bottom: second_moment / (centroid.y - bounds.bottom),
        radius_of_gyration: (second_moment / sum.area).sqrt(),
        radius_of_gyration_upright: (second_moment_upright / sum.area).sqrt(),
        top: bounds.top + origin.y,
        bottom: bounds.bottom + origin.y,
        left: bounds.left + origin.x,
        right: bounds.right + origin.x,
    };
    properties.centroid = settled(properties.centroid, &properties);
    properties
}

/// A coordinate that is no more than this part of the section's size is what rounding leaves of zero.
const NOTHING: f64 = 1e-12;

/// A point of a section of this size, without what rounding leaves of a zero.
fn settled(point: Point, properties: &Properties) -> Point {
    let own = |value: f64, size: f64| if value.abs() <= NOTHING * size { 0.0 } else { value };
    Point::new(own(point.x, properties.breadth()), own(point.y, properties.height()))
}

/// The first moment of a part of a section about its neutral axis, m³, and the part's centroid, from its area and its moment and
/// centroid about another level line at `axis`, m: a part whose centroid lies on the neutral axis but for rounding has none.
pub(crate) fn about_axis(sum: &Moments, axis: f64, height: f64) -> (Point, f64) {
    let centroid = Point::new(sum.x / sum.area, sum.y / sum.area);
    let first_moment = sum.y - axis * sum.area;
    match first_moment.abs() <= NOTHING * sum.area.abs() * height {
        true => (Point::new(centroid.x, axis), 0.0),
        false => (centroid, first_moment),
    }
}

impl Properties {
    /// A distance or a coordinate of this section, m, as it is told: zero where it is nothing beside the section. Corners of slopes
    /// and slits are written with six or seven figures, and what comes out of them is no finer.
    pub fn told(&self, distance: f64) -> f64 {
        let size = self.breadth().max(self.height());
        if distance.abs() <= NO_DISTANCE * size { 0.0 } else { distance }
    }
}

impl Section {
    /// How far a centroid lies to the right of that of the section, m: zero where the two stand above each other but for rounding.
    pub(crate) fn to_the_right(&self, centroid: Point) -> f64 {
        let distance = centroid.x - self.properties.centroid.x;
        if distance.abs() <= NOTHING * self.properties.breadth() { 0.0 } else { distance }
    }
}

/// See [`Properties::told`].
const NO_DISTANCE: f64 = 1e-7;

/// Mohr's circle of the second moments.
fn principal(level: f64, upright: f64, product: f64) -> PrincipalMoments {
    let (middle, half) = (0.5 * (level + upright), 0.5 * (level - upright));
    let radius = real::hypot(half, product);
    // A circle or a square has no principal axis of its own; rounding must not name one.
    let round = radius <= 1e-12 * middle;
    // I(angle) = middle + half cos 2a - product sin 2a is largest where (cos 2a, sin 2a) is along (half, -product).
    let angle = if round { 0.0 } else { 0.5 * real::atan2(-product, half) };
    let straightened =
        if angle <= -core::f64::consts::FRAC_PI_2 { angle + core::f64::consts::PI } else { angle };
    let (largest, smallest) = if round { (middle, middle) } else { (middle + radius, middle - radius) };
    PrincipalMoments { largest, smallest, angle: straightened }
}
