//! The joints between the parts: shear flow, force on a fastener, the largest spacing.

use super::builder::{Builder, Entry, zero};
use super::cut::CutWorkings;
use super::diagrams::DiagramWorkings;
use super::fasteners::Held;
use super::names::with_article;
use super::section::SectionWorkings;
use super::skew::SkewWorkings;
use super::zones::{AllZones, ZoneWorkings};
use crate::dimension::Dimension;
use crate::evaluate::EvaluationError;
use crate::expression::Expression;
use crate::problem::{Joint, JointKind};
use crate::role::Role;
use crate::working::{Chapter, Id, Place};
use mechanics::section::Section;

const CHAPTER: Chapter = Chapter::Joints;

/// The workings of one joint.
#[derive(Clone, Debug)]
pub(crate) struct JointWorkings {
    pub(crate) name: String,
    pub(crate) area: Id,
    pub(crate) centroid: Id,
    pub(crate) arm: Id,
    pub(crate) first_moment: Id,
    /// What of both moments counts for the flow.
    pub(crate) counting: Counting,
    /// The pieces that it holds, by their place among the section's.
    pub(crate) pieces: Vec<usize>,
    /// At the slice, and where V is largest.
    pub(crate) along: Vec<JointFlow>,
    /// From key station to key station, where that is wanted.
    pub(crate) zones: Vec<ZoneWorkings>,
    /// Between the zones: where V is zero.
    pub(crate) idle: Vec<[Id; 2]>,
}

/// The moments by which the flow in a joint follows from V: Q and I, and askew what the product moment leaves of both.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Counting {
    pub(crate) first_moment: Id,
    pub(crate) second_moment: Id,
}

/// What a joint passes on at one station.
#[derive(Clone, Copy, Debug)]
pub(crate) struct JointFlow {
    pub(crate) flow: Id,
    pub(crate) fasteners: Option<FastenerWorkings>,
    /// The stress on a glue line, or the force on each length of a line of weld, with what it may be.
    pub(crate) stress: Option<(Id, Option<Id>)>,
}

/// The workings of the fasteners of a joint, or of the runs of an intermittent weld.
#[derive(Clone, Copy, Debug)]
pub(crate) struct FastenerWorkings {
    pub(crate) rows: Id,
    /// What one fastener may carry.
    pub(crate) capacity: Option<Id>,
    /// What one fastener carries at the spacing that is given.
    pub(crate) force: Option<Id>,
    /// The largest spacing, and what one fastener may carry.
    pub(crate) largest_spacing: Option<(Id, Id)>,
    /// What a spacing is rounded down to a multiple of.
    pub(crate) step: Option<Id>,
    /// The smallest spacing that there can be, m: the length of one run of a weld.
    pub(crate) least_spacing: f64,
}

impl Builder<'_> {
    /// The workings of every joint: at the slice, where V is largest, and from key station to key station where that is wanted.
    pub(crate) fn joints(
        &mut self,
        section: &SectionWorkings,
        engine: &Section,
        (shear, cut): (Id, &CutWorkings),
        diagrams: &DiagramWorkings,
        skew: Option<&SkewWorkings>,
    ) -> Result<Vec<JointWorkings>, EvaluationError> {
        let mut done = Vec::with_capacity(self.problem.joints.len());
        for (place, joint) in self.problem.joints.iter().enumerate() {
            let number = format!("j{}", place + 1);
            let along = (shear, diagrams.largest_shear);
            let Some(mut found) = self.joint((section, cut, skew), engine, joint, &number, along)? else {
                continue;
            };
            if joint.zones {
                let AllZones { zones, idle } = self.zones(diagrams, &found, &number)?;
                (found.zones, found.idle) = (zones, idle);
            }
            done.push(found);
        }
        Ok(done)
    }

    fn joint(
        &mut self,
        (section, cut, skew): (&SectionWorkings, &CutWorkings, Option<&SkewWorkings>),
        engine: &Section,
        joint: &Joint,
        number: &str,
        (shear, largest_shear): (Id, Id),
    ) -> Result<Option<JointWorkings>, EvaluationError> {
        let name = &joint.name;
        let beyond: Vec<_> =
            section.pieces.iter().filter(|piece| joint.beyond.contains(&piece.placed.piece.part)).collect();
        if beyond.is_empty() || beyond.len() == section.pieces.len() {
            // A joint that holds nothing, or all there is, holds no part to the rest.
            return Ok(None);
        }
        let pieces: Vec<usize> = (0..section.pieces.len())
            .filter(|&place| joint.beyond.contains(&section.pieces[place].placed.piece.part))
            .collect();
        let same = self.same_part(cut, &pieces);
        let entry =
            Entry::new(CHAPTER, Role::AreaBeyond, number, format!("area held by {name}")).says(format!(
                "What would slide if {} were gone: that is the part beyond for this joint{}.",
                with_article(name),
                if same.is_some() { ", here the same as for the cut" } else { "" }
            ));
        let area = Expression::sum_over(beyond.iter().map(|piece| piece.area.into()).collect());
        let area = self.formula(entry, same.map_or(area, |_| cut.area.into()))?;
        let product =
            |piece: &&super::section::PieceWorkings| Expression::from(piece.area) * piece.centroid.into();
        let moments = Expression::sum_over(beyond.iter().map(product).collect());
        let entry = Entry::new(
            CHAPTER,
            Role::CentroidHeight,
            &format!("{number}, beyond"),
            format!("centroid height of the part held by {name}"),
        )
        .says("Its centroid above the base line.");
        let centroid = match (same, beyond.as_slice()) {
            (Some((centroid, _)), _) => centroid.into(),
            (None, [only]) => only.centroid.into(),
            (None, _) => moments / area.into(),
        };
        let centroid = self.formula(entry, centroid)?;
        let entry = Entry::new(
            CHAPTER,
            Role::CentroidBeyond,
            number,
            format!("centroid distance of the part held by {name}"),
        )
        .says("The distance of that centroid from the neutral axis of the whole section.");
        let above = self.value(centroid) >= self.value(section.centroid);
        let distance = match (same, above) {
            (Some((_, arm)), _) => arm.into(),
            (None, true) => Expression::from(centroid) - section.centroid.into(),
            (None, false) => Expression::from(section.centroid) - centroid.into(),
        };
        // What lies on the neutral axis but for rounding lies on it.
        let off = self.workings.evaluate(&distance)?.value;
        let distance = match off != 0.0 && no_shear_flows(off, engine) {
            true => zero(Dimension::LENGTH, Role::CentroidBeyond),
            false => distance,
        };
        let distance = self.formula(entry, distance)?;
        let entry = Entry::new(CHAPTER, Role::FirstMoment, number, format!("first moment at {name}"))
            .says("The first moment of what the joint holds, about the neutral axis of the whole section.");
        // Who has another Q of that part goes on with it here.
        let first_moment = match same {
            Some(_) => cut.first_moment.into(),
            None => Expression::from(area) * distance.into(),
        };
        let first_moment = self.formula(entry, first_moment)?;
        let counting = match skew {
            Some(skew) => {
                self.counting_askew(skew, (name, number), (&pieces, section), (first_moment, above))?
            }
            None => Counting { first_moment, second_moment: section.second_moment },
        };
        let is_idle = self.value(counting.first_moment) == 0.0;
        let mut done = JointWorkings {
            name: name.clone(),
            area,
            centroid,
            arm: distance,
            first_moment,
            counting,
            pieces,
            along: Vec::new(),
            zones: Vec::new(),
            idle: Vec::new(),
        };
        let along = [(shear, "", ""), (largest_shear, ", where V is largest", ", V max")];
        for (shear, words, mark) in along {
            let place = self.workings.working(shear).place;
            let mark = format!("{number}{mark}");
            let entry = Entry::new(CHAPTER, Role::ShearFlow, &mark, format!("shear flow at {name}{words}"))
                .says(match is_idle {
                    true => {
                        "What the joint holds has its centroid on the neutral axis, so no shear flows across its faces. That does not \
                         make the joint idle: it must bring each piece its share of the load, which is not sized here."
                    }
                    false => "The longitudinal force that the joint passes on per unit length of the beam.",
                });
            let flow = Expression::from(shear) * counting.first_moment.into() / counting.second_moment.into();
            let flow = self.formula(at(entry, place), flow)?;
            let mut here = JointFlow { flow, fasteners: None, stress: None };
            let held = Held { joint, number, flow, words, mark: &mark, place };
            match joint.kind {
                JointKind::Fasteners => here.fasteners = Some(self.fasteners(&held)?),
                JointKind::Glue => here.stress = self.bond(engine, &held)?,
                JointKind::Weld if joint.run.is_some() && joint.strength.is_some() => {
                    here.fasteners = Some(self.fasteners(&held)?);
                }
                JointKind::Weld => here.stress = self.weld(&held)?,
            }
            done.along.push(here);
        }
        Ok(Some(done))
    }
}

impl Builder<'_> {
    /// What counts of the moments of the part that a joint holds where the section bends askew.
    ///
    /// # Source
    /// The balance of that part with the full bending stress: `q = V (I_y Q_x - I_xy Q_y) / (I_x I_y - I_xy²)`, both sides
    /// divided by `I_y`; any textbook, unsymmetric bending, of a level cut. The derivation does not ask how the part is cut free.
    fn counting_askew(
        &mut self,
        skew: &SkewWorkings,
        (name, number): (&str, &str),
        (pieces, section): (&[usize], &SectionWorkings),
        (first_moment, above): (Id, bool),
    ) -> Result<Counting, EvaluationError> {
        let across = &skew.across;
        let term = |&place: &usize| {
            let distance = Expression::from(across.pieces[place].centroid) - across.centroid.into();
            Expression::from(section.pieces[place].area) * distance
        };
        let entry = Entry::new(
            CHAPTER,
            Role::FirstMomentUpright,
            number,
            format!("first moment about the upright axis at {name}"),
        )
        .says(
            "The part that the joint holds, about the upright axis through the centroid: its areas times their distances to the right.",
        );
        let upright = self.formula(entry, Expression::sum(pieces.iter().map(term).collect()))?;
        let first = Expression::from(first_moment);
        let second = Expression::from(skew.product) * upright.into() / skew.upright.into();
        // Q is a size: above the axis it counts up. The product moment counts along the depth axis.
        let counts = if above != self.axis_down { first - second } else { first + second };
        // A joint's flow has the sign of V, whichever of the two moments is the larger.
        let counts = if self.workings.evaluate(&counts)?.value < 0.0 { counts.size() } else { counts };
        let entry = Entry::new(
            CHAPTER,
            Role::FirstMoment,
            &format!("{number}, askew"),
            format!("first moment that counts askew at {name}"),
        )
        .says(
            "The joint must hold its part against the growth of the skew bending stress: the first moment about the upright axis \
             counts as well.",
        );
        let first_moment = self.formula(entry, counts)?;
        Ok(Counting { first_moment, second_moment: skew.counts })
    }

    /// The centroid and the arm of the part beyond the cut, where a joint that holds these pieces holds the same part.
    fn same_part(&self, cut: &CutWorkings, pieces: &[usize]) -> Option<(Id, Id)> {
        let same = cut.pieces.iter().all(|beyond| beyond.whole)
            && cut.pieces.iter().map(|beyond| beyond.piece).eq(pieces.iter().copied());
        // The arm of a part across the axis may be negative; a joint's is a distance.
        cut.centroid.zip(cut.arm).filter(|(_, arm)| same && self.value(*arm) > 0.0)
    }
}

/// Whether no shear flows to what a joint holds, whose centroid lies so far from the neutral axis, m: it lies on it but for rounding.
fn no_shear_flows(distance: f64, engine: &Section) -> bool {
    distance.abs() <= 1e-9 * engine.properties().height()
}

pub(super) fn at(entry: Entry, place: Place) -> Entry {
    match place.station {
        Some(station) => entry.at(station, place.side),
        None => entry,
    }
}
