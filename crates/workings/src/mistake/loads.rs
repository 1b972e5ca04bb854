//! What the loads come to: resultants, their places, the stretches that a cut leaves.

use super::lesson::{Leaf, Lesson};
use crate::build::{LoadKind, PlaceAs, StretchWorkings};
use crate::expression::Expression;
use crate::working::Id;

impl<'a> Lesson<'a> {
    /// The stretches of the spread loads that enter the balance of the whole beam or of a piece between hinges.
    pub(super) fn whole_stretches(&self) -> impl Iterator<Item = &'a StretchWorkings> {
        self.chapters().stretches.iter().filter(|stretch| stretch.place_as == PlaceAs::Station)
    }

    /// The stretches that the slice's station leaves of the spread loads that it cuts through.
    pub(super) fn cut_stretches(&self) -> impl Iterator<Item = &'a StretchWorkings> {
        let reads = self.solved.workings().reads(self.solved.key().shear);
        self.chapters().stretches.iter().filter(move |stretch| {
            stretch.place_as == PlaceAs::ArmAboutRightEnd
                && stretch.resultants.iter().any(|resultant| reads.contains(&resultant.down))
        })
    }

    /// The resultants of all of one spread load.
    pub(super) fn whole_load(&self, load: usize) -> Vec<Id> {
        let of_load = self.whole_stretches().filter(|stretch| stretch.load == load);
        of_load.flat_map(|stretch| &stretch.resultants).map(|resultant| resultant.down).collect()
    }

    /// What a load presses down; none for a couple.
    pub(super) fn force_of(&self, load: usize) -> Option<Expression> {
        match self.chapters().beam.loads.get(load)?.kind {
            LoadKind::Force { down, .. } => Some(down.into()),
            LoadKind::Couple { .. } => None,
            LoadKind::Spread { .. } => {
                let resultants = self.whole_load(load);
                let sum = || Expression::sum(resultants.iter().copied().map(Expression::from).collect());
                (!resultants.is_empty()).then(sum)
            }
        }
    }

    /// What all loads press down together; none where nothing does.
    pub(super) fn all_loads(&self) -> Option<Expression> {
        let loads: Vec<Expression> =
            (0..self.chapters().beam.loads.len()).filter_map(|load| self.force_of(load)).collect();
        (!loads.is_empty()).then(|| Expression::sum(loads))
    }

    /// The applied couples, each with its station.
    pub(super) fn couples(&self) -> Vec<(Id, Id)> {
        let couple = |load: &crate::build::LoadGiven| match load.kind {
            LoadKind::Couple { station, ccw } => Some((ccw, station)),
            LoadKind::Force { .. } | LoadKind::Spread { .. } => None,
        };
        self.chapters().beam.loads.iter().filter_map(couple).collect()
    }

    /// The stations of the supports that hold the beam up, from left to right.
    pub(super) fn held_up(&self) -> Vec<Id> {
        let supports = self.chapters().beam.supports.iter();
        let mut stations: Vec<Id> =
            supports.filter(|support| support.transverse.holds()).map(|support| support.station).collect();
        stations.sort_by(|&a, &b| self.value(a).total_cmp(&self.value(b)));
        stations
    }

    /// Whether a stretch of a spread load lies wholly beyond an outermost support of a beam that rests on two or more.
    pub(super) fn is_on_an_overhang(&self, stretch: &StretchWorkings) -> bool {
        let held = self.held_up();
        let [first, .., last] = held.as_slice() else { return false };
        let (first, last) = (self.value(*first), self.value(*last));
        let (from, to) = (self.value(stretch.from), self.value(stretch.to));
        to < first || self.same_station(to, first) || from > last || self.same_station(from, last)
    }

    /// V at the slice with the resultants of one stretch put for others.
    pub(super) fn shear_with(&self, stretch: &StretchWorkings, by: &Expression) -> Option<Expression> {
        let downs: Vec<Id> = stretch.resultants.iter().map(|resultant| resultant.down).collect();
        self.changed(self.solved.key().shear, &|read| match downs.iter().position(|&down| down == read) {
            None => Leaf::Stays,
            Some(0) => Leaf::Becomes(by.clone()),
            Some(_) => Leaf::Goes,
        })
    }
}
