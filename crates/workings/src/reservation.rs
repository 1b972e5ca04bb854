//! What the formula leaves out, and the cautions that go with a lesson, as data.

use crate::dimension::Dimension;
use crate::material::side_by_side;
use crate::problem::{Allowable, JointKind};
use crate::quantity::Quantity;
use crate::role::Role;
use crate::solved::Solved;
use mechanics::beam::{Curve, Load};
use mechanics::section::{Edge, Figure, HeightSide};

/// What a reservation is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Topic {
    /// The stress is averaged over the width of the cut.
    AverageOverWidth,
    /// The value for a level cut through a flange.
    Flange,
    /// Near point forces and supports.
    NearForces,
    /// Edges that are neither level nor upright.
    SlopingEdges,
    /// The mean over the finite slice and the formula.
    FiniteSlice,
    /// The largest stress is not at the neutral axis.
    NotAtTheAxis,
    /// The level axis is no principal axis.
    NotPrincipal,
    /// Parts of different material.
    Materials,
    /// No middle lines of walls.
    NoWalls,
    /// Short beams.
    ShortBeam,
    /// A beam that bends too far for the theory.
    LargeSlope,
    /// Straight, elastic, prismatic.
    Assumptions,
    /// Outputs with what a fastener or a material may bear.
    RealStructures,
}

/// One reservation.
#[derive(Clone, Debug, PartialEq)]
pub struct Reservation {
    /// What it is about.
    pub topic: Topic,
    /// One or two short sentences.
    pub sentence: String,
    /// Whether this lesson meets it; the others hold for every course.
    pub here: bool,
}

/// A section whose material is this many times as wide as it is deep has a stress that varies much over the width.
/// By the elastic solution of the rectangle the largest is then about 13 % above the mean over the width (Timoshenko
/// and Goodier, Theory of Elasticity, table for bending of rectangular bars; from memory).
const WIDE: f64 = 1.0;

/// A beam no longer than this many depths carries much of its load otherwise than bending theory says;
/// common practice, no source.
const SHORT: f64 = 5.0;

/// From this slope on, rad, the curvature is no longer the second derivative of the deflection: it is off by 3 θ² / 2, 1.5 % here, and
/// the loads no longer act where they stood. Common practice, no source.
const STEEP: f64 = 0.1;

/// What the formula leaves out, for this lesson: what it meets first.
pub fn reservations(solved: &Solved) -> Vec<Reservation> {
    let mut all = vec![
        average(solved),
        flange(solved),
        near_forces(solved),
        sloping(solved),
        finite_slice(solved),
        not_at_axis(solved),
        not_principal(solved),
        materials(solved),
        short(solved),
        Reservation {
            topic: Topic::Assumptions,
            sentence: format!(
                "The beam is straight and prismatic, its material elastic, and plane sections stay plane; the loads act in an \
                 upright plane of symmetry or, where there is none, through the shear centre, so that the beam does not \
                 twist.{}",
                solved.shear_centre_in_words()
            ),
            here: true,
        },
    ];
    all.extend(large_slope(solved));
    all.extend(solved.why_no_walls().map(|sentence| Reservation {
        topic: Topic::NoWalls,
        sentence,
        here: true,
    }));
    let problem = solved.problem();
    let fasteners = problem.joints.iter().any(|joint| joint.kind == JointKind::Fasteners);
    if fasteners
        || problem.allowable != Allowable::default()
        || problem.part_materials.iter().any(|of| of.allowable != Allowable::default())
    {
        all.push(Reservation {
            topic: Topic::RealStructures,
            sentence:
                "These are exercises. A real beam and its joints are designed to the local code by a licensed engineer."
                    .into(),
            here: true,
        });
    }
    all.sort_by_key(|reservation| !reservation.here);
    all
}

fn average(solved: &Solved) -> Reservation {
    let section = solved.section();
    let widest = section
        .levels()
        .flat_map(|y| [section.width(y, HeightSide::Below), section.width(y, HeightSide::Above)])
        .fold(0.0, f64::max);
    let wide = widest >= WIDE * section.properties().height();
    let mut sentence =
        "The formula gives the mean over the width t of the cut; the true stress varies over t and is \
                        larger somewhere on it."
            .to_owned();
    if wide {
        sentence.push_str(
            " This section is as wide as it is deep or wider somewhere, and there the mean says little: the largest \
             stress can exceed it by a tenth and more.",
        );
    }
    // No section is spared: the formula is a mean on every cut.
    Reservation { topic: Topic::AverageOverWidth, sentence, here: true }
}

fn flange(solved: &Solved) -> Reservation {
    let properties = solved.section().properties();
    let jumps: Vec<_> = solved
        .section()
        .width_jumps()
        .into_iter()
        .filter(|jump| jump.below > 0.0 && jump.above > 0.0)
        .collect();
    let cut = solved.problem().cut.height;
    let at_cut = jumps.iter().any(|jump| (jump.height - cut).abs() <= 1e-9 * properties.height());
    let mut sentence = "Where a flange meets a web the width jumps, and so does the stress of the formula. In the \
                        flange it is a mean over a wide cut whose inner face is free, where the stress is really zero: \
                        there the upright shear stress of the formula is only nominal, and the shear runs sideways."
        .to_owned();
    if at_cut {
        sentence.push_str(" The cut of this lesson lies at such a jump: say on which side.");
    }
    Reservation { topic: Topic::Flange, sentence, here: !jumps.is_empty() }
}

fn near_forces(solved: &Solved) -> Reservation {
    let problem = solved.problem();
    let depth = solved.section().properties().height();
    let x = problem.slice.at;
    let supports = problem.beam.supports.iter().map(|support| support.station);
    let loads = problem.beam.loads.iter().filter_map(|load| match *load {
        Load::Force { station, .. } | Load::Couple { station, .. } => Some(station),
        Load::Spread { .. } => None,
    });
    let nearest = supports.chain(loads).map(|station| (station - x).abs()).fold(f64::INFINITY, f64::min);
    let mut sentence =
        "Within about one depth of a point force or a support the stresses are disturbed, and the formula \
                        does not tell them."
            .to_owned();
    let depths = nearest / depth;
    let here = nearest.is_finite();
    if nearest < depth {
        sentence.push_str(&format!(" The slice of this lesson stands only {depths:.1} depths from one."));
    } else if here {
        sentence.push_str(&format!(
            " So it is here beside each of them; the slice stands {depths:.1} depths from the nearest, out of its reach."
        ));
    }
    Reservation { topic: Topic::NearForces, sentence, here }
}

fn sloping(solved: &Solved) -> Reservation {
    let sloped = |part: &mechanics::section::Part| {
        if matches!(part.figure, Figure::Rectangle { .. }) && part.holes.is_empty() {
            return false;
        }
        std::iter::once(&part.outline).chain(&part.holes).any(|ring| {
            let mut from = ring.start;
            ring.path.iter().any(|edge| match *edge {
                Edge::Arc { .. } => true,
                Edge::Line { to } => {
                    let slopes = from.x != to.x && from.y != to.y;
                    from = to;
                    slopes
                }
            })
        })
    };
    Reservation {
        topic: Topic::SlopingEdges,
        sentence: "At a sloping or curved edge the shear stress runs along the edge; the formula gives its upright part \
                   alone, so the whole is larger there."
            .into(),
        here: solved.problem().parts.iter().any(sloped),
    }
}

fn finite_slice(solved: &Solved) -> Reservation {
    let differs = solved.slice().approach.first().is_some_and(|first| {
        let scale = solved.value(solved.key().stress_on_cut).abs();
        solved.value(first.difference).abs() > 1e-9 * scale
    });
    let sentence = if differs {
        "The slice has a length, and under the load on it V changes along it: its cut carries the mean, the formula gives \
         the value at the left face. Halving the slice halves the difference, so in the limit they agree."
    } else {
        "Where no load acts on the slice V is the same all along it, and the mean on its cut is the formula's stress at any \
         length. Under a spread load the two agree only in the limit."
    };
    Reservation { topic: Topic::FiniteSlice, sentence: sentence.into(), here: differs }
}

fn not_at_axis(solved: &Solved) -> Reservation {
    let here = !solved.stress().under(0.0, 1.0).largest_shear_stress().at_neutral_axis;
    let sentence = if here {
        "The largest shear stress of this section is not at the neutral axis: it is Q over t that counts, not Q alone."
    } else {
        "The largest shear stress need not be at the neutral axis: it is where Q over t is largest."
    };
    Reservation { topic: Topic::NotAtTheAxis, sentence: sentence.into(), here }
}

fn not_principal(solved: &Solved) -> Reservation {
    let here = solved.section().properties().bends_askew();
    let sentence = "M y / I holds for bending about a principal axis. Where the level axis is not one, the beam must be held \
                    sideways for the formula to hold; left free, it bends askew.";
    Reservation { topic: Topic::NotPrincipal, sentence: sentence.into(), here }
}

fn materials(solved: &Solved) -> Reservation {
    let parts = &solved.problem().parts;
    let here = parts.iter().any(|part| part.modular_ratio != 1.0);
    let mut sentence = "Parts of different material are taken as one by counting areas with their modular ratios; the joint \
                        between them must hold without slip."
        .to_owned();
    if materials_side_by_side(solved) {
        sentence.push_str(
            " Where materials lie side by side, V Q/(I t) is the mean over all of them and the stress of none: the stiffer in shear bears more.",
        );
    }
    Reservation { topic: Topic::Materials, sentence, here }
}

/// Whether materials of several moduli lie side by side at some height.
pub fn materials_side_by_side(solved: &Solved) -> bool {
    let section = solved.section();
    let levels: Vec<f64> = section.levels().collect();
    levels.windows(2).any(|pair| side_by_side(section, 0.5 * (pair[0] + pair[1]), HeightSide::Above))
}

fn large_slope(solved: &Solved) -> Option<Reservation> {
    let slope = solved.beam().extremes(Curve::Slope).largest_size.value.abs();
    (slope > STEEP).then(|| {
        let slope = solved.style().text(Quantity::new(slope, Dimension::NONE), Role::Slope);
        let sentence = format!(
            "Bending theory takes the slope of the bent beam to be small, a few hundredths at the most. Here it comes to {slope}: a \
             beam that bends so far does not obey it, and its true deflections are others. Are the loads and the modulus of \
             elasticity what they were meant to be?"
        );
        Reservation { topic: Topic::LargeSlope, sentence, here: true }
    })
}

fn short(solved: &Solved) -> Reservation {
    let depths = solved.problem().beam.length / solved.section().properties().height();
    let here = depths <= SHORT * (1.0 + 1e-9);
    let sentence = "In a short, deep beam the load goes to the supports more directly than bending theory says, and the \
                    stresses are others.";
    Reservation { topic: Topic::ShortBeam, sentence: sentence.into(), here }
}
