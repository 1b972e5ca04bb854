//! The bending stress at the slice's station, and the largest along the beam.

use super::builder::{Builder, Entry};
use super::diagrams::DiagramWorkings;
use super::section::{Placed, SectionWorkings};
use crate::evaluate::EvaluationError;
use crate::expression::Expression;
use crate::role::Role;
use crate::working::{Chapter, HeightSide, Id, Place};
use mechanics::section::Section;

const CHAPTER: Chapter = Chapter::Bending;

/// The bending stress at the outer fibres and at the cut, and the largest along the beam, where there are any.
#[derive(Clone, Copy, Debug)]
pub(crate) struct BendingWorkings {
    pub(crate) top: Id,
    pub(crate) bottom: Id,
    pub(crate) at_cut: Id,
    pub(crate) tension: Option<Id>,
    pub(crate) compression: Option<Id>,
}

/// Where the stress is asked for.
pub(super) struct Fibre {
    pub(super) index: String,
    pub(super) words: String,
    pub(super) height: f64,
    /// Stress over `M / I`: minus the distance above the axis, or the distance below it.
    pub(super) factor: Expression,
    pub(super) ratio: Option<Id>,
}

/// Stresses that differ by less than this part are alike.
const ALIKE: f64 = 1e-9;

impl Builder<'_> {
    /// The distance of the cut from the neutral axis, along the course's depth axis.
    pub(crate) fn cut_distance(
        &mut self,
        section: &SectionWorkings,
        height: Id,
    ) -> Result<Id, EvaluationError> {
        let above = Expression::from(height) - section.centroid.into();
        let (distance, way) = if self.axis_down {
            (Expression::from(section.centroid) - height.into(), "down")
        } else {
            (above, "up")
        };
        let entry = Entry::new(CHAPTER, Role::CutDistance, "", "distance of the cut from the neutral axis")
            .height(self.value(height), None)
            .says(format!("Where the cut lies, measured {way} from the neutral axis."));
        self.formula(entry, distance)
    }

    /// The bending stresses.
    pub(crate) fn bending(
        &mut self,
        section: &SectionWorkings,
        engine: &Section,
        moment: Id,
        (cut_distance, in_materials): (Id, &[Fibre]),
        diagrams: &DiagramWorkings,
    ) -> Result<BendingWorkings, EvaluationError> {
        let properties = engine.properties();
        let cut = &self.problem.cut;
        let cut_factor = match self.axis_down {
            true => cut_distance.into(),
            false => -Expression::from(cut_distance),
        };
        let fibre = |index: &str, words: &str, height, side, factor| Fibre {
            index: index.to_owned(),
            words: words.to_owned(),
            height,
            factor,
            ratio: counting(section, height, side, properties.height()).and_then(|placed| placed.ratio),
        };
        let top = fibre(
            "top",
            "at the top",
            properties.top,
            HeightSide::Below,
            -Expression::from(section.top_distance),
        );
        let bottom = fibre(
            "bottom",
            "at the bottom",
            properties.bottom,
            HeightSide::Above,
            section.bottom_distance.into(),
        );
        let at_cut = fibre("cut", "at the cut", cut.height, cut.side, cut_factor);
        let place = self.workings.working(moment).place;
        let mut here = [moment; 3];
        for (fibre, found) in [&top, &bottom, &at_cut].into_iter().zip(&mut here) {
            let says = "Bending stress grows in a straight line from the neutral axis; with M sagging what lies \
                        below it is stretched. Tension is positive.";
            let entry = Entry::new(
                CHAPTER,
                Role::BendingStress,
                &fibre.index,
                format!("bending stress {}", fibre.words),
            );
            *found = self.stress(entry.says(says), fibre, moment, section, place)?;
        }
        let [at_top, at_bottom, at_cut] = here;
        // In a beam of several materials a stiff one within may bear more than the outer fibres.
        let outer = [top, bottom];
        let fibres = if in_materials.is_empty() { outer.as_slice() } else { in_materials };
        let tension = self.most_stressed(fibres, diagrams, |stress| stress);
        let compression = self.most_stressed(fibres, diagrams, |stress| -stress);
        let mut largest = [None; 2];
        for (place_in_all, (found, index, words)) in
            [(tension, "max", "largest tension"), (compression, "min", "largest compression")]
                .into_iter()
                .enumerate()
        {
            let Some((fibre, moment)) = found else { continue };
            let place = self.workings.working(moment).place;
            let says = format!(
                "The {words} along the beam: of the largest sagging and the largest hogging moment, and of {}, this pair \
                 gives most ({}).",
                if in_materials.is_empty() { "both outer fibres" } else { "all heights of all materials" },
                fibre.words
            );
            let entry =
                Entry::new(CHAPTER, Role::BendingStress, index, format!("{words} along the beam")).says(says);
            largest[place_in_all] = Some(self.stress(entry, fibre, moment, section, place)?);
        }
        let [tension, compression] = largest;
        Ok(BendingWorkings { top: at_top, bottom: at_bottom, at_cut, tension, compression })
    }

    /// The stress at a fibre under a moment, times I.
    /// Of the largest sagging and the largest hogging moment and of these fibres the pair that gives most of what is measured of the
    /// stress, Pa; of several that are alike the first, for what rounding leaves of a difference must not decide which is told. None
    /// where none gives more than nothing.
    pub(super) fn most_stressed<'f>(
        &self,
        fibres: &'f [Fibre],
        diagrams: &DiagramWorkings,
        measure: impl Fn(f64) -> f64,
    ) -> Option<(&'f Fibre, Id)> {
        let moments = [diagrams.sagging, diagrams.hogging].into_iter().flatten();
        let pairs: Vec<(&Fibre, Id)> =
            moments.flat_map(|moment| fibres.iter().map(move |fibre| (fibre, moment))).collect();
        let measured = |&(fibre, moment): &(&Fibre, Id)| measure(self.fibre_stress(fibre, moment));
        let most = pairs.iter().map(measured).fold(0.0, f64::max);
        pairs.iter().find(|pair| most > 0.0 && measured(pair) >= most * (1.0 - ALIKE)).copied()
    }

    fn fibre_stress(&self, fibre: &Fibre, moment: Id) -> f64 {
        let factor = self.workings.evaluate(&fibre.factor).map_or(f64::NAN, |factor| factor.value);
        let ratio = fibre.ratio.map_or(1.0, |ratio| self.value(ratio));
        ratio * self.value(moment) * factor
    }

    pub(super) fn stress(
        &mut self,
        entry: Entry,
        fibre: &Fibre,
        moment: Id,
        section: &SectionWorkings,
        place: Place,
    ) -> Result<Id, EvaluationError> {
        let mut entry = entry.height(fibre.height, None);
        if let Some(station) = place.station {
            entry = entry.at(station, place.side);
        }
        // A minus of the factor is written before the fraction: -M c / I.
        let (negative, factor) = match fibre.factor.clone() {
            Expression::Negative(of) => (true, *of),
            other => (false, other),
        };
        let product = match fibre.ratio {
            Some(ratio) => Expression::from(ratio) * moment.into() * factor,
            None => Expression::from(moment) * factor,
        };
        let stress = product / section.second_moment.into();
        self.formula(entry, if negative { -stress } else { stress })
    }
}

/// The piece whose material counts at a height; of several materials side by side, of the stiffest,
/// which bears most.
fn counting(section: &SectionWorkings, height: f64, side: HeightSide, depth: f64) -> Option<&Placed> {
    let near = 1e-9 * depth;
    let pieces = || section.pieces.iter().map(|piece| &piece.placed).filter(|placed| !placed.piece.hole);
    let stiffest = |one: &&Placed, other: &&Placed| one.modular_ratio.total_cmp(&other.modular_ratio);
    pieces()
        .filter(|placed| placed.piece.reaches(height, side, near))
        .max_by(stiffest)
        .or_else(|| pieces().next())
}
