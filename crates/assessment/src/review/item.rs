//! The figures of one item.

use super::flag::{self, Flag};
use super::groups::Groups;
use super::matrix::{Entry, Matrix};
use super::reliability::alpha;
use super::sums::{Interval, constant, fisher, mean, pearson, wilson};
use serde::Serialize;

/// A class of fewer students shows counts and no figures that need many: correlations, groups, reliability. Source: the unit's notes
/// on assessment, section 6.
pub const SMALL_CLASS: usize = 20;

/// The figures of one item.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ItemFigures {
    /// The label of the item.
    pub label: String,
    /// What a right answer earns.
    pub out_of: f64,
    /// How many students' answers are marked, blanks included.
    pub students: usize,
    /// How many earned all marks.
    pub full: usize,
    /// How many earned nothing, blanks included.
    pub nothing: usize,
    /// How many answered nothing.
    pub blank: usize,
    /// How many answers nobody has marked yet.
    pub not_marked: usize,
    /// The facility p: the mean mark over what a right answer earns.
    pub facility: Option<f64>,
    /// Wilson's 95 % interval for it.
    pub facility_interval: Option<Interval>,
    /// How the item parts the best of the class from the last; none below [`SMALL_CLASS`].
    pub discrimination: Option<Discrimination>,
    /// The point-biserial correlation with the total; only where every mark is all or nothing, and none below [`SMALL_CLASS`].
    pub point_biserial: Option<f64>,
    /// Pearson's correlation with the total, to which the item itself adds; none below [`SMALL_CLASS`].
    pub with_total: Option<Correlation>,
    /// Pearson's correlation with the rest of the total: the one to go by. None below [`SMALL_CLASS`].
    pub with_rest: Option<Correlation>,
    /// Cronbach's alpha of the other items; none below [`SMALL_CLASS`].
    pub alpha_without: Option<f64>,
    /// What is amiss with it.
    pub flags: Vec<Flag>,
}

/// The facility among the best less that among the last.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Discrimination {
    /// D, from -1 to 1.
    pub d: f64,
    /// How many are the best.
    pub top: usize,
    /// How many are the last.
    pub bottom: usize,
}

/// A correlation with Fisher's 95 % interval.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Correlation {
    /// Pearson's r.
    pub r: f64,
    /// The interval.
    pub interval: Option<Interval>,
}

impl Correlation {
    fn of(one: &[f64], other: &[f64]) -> Option<Self> {
        let r = pearson(one, other)?;
        Some(Self { r, interval: fisher(r, one.len()) })
    }
}

/// The figures of all items, in their order.
pub(super) fn figures(matrix: &Matrix) -> Vec<ItemFigures> {
    let rows = matrix.complete();
    let totals: Vec<f64> = rows.iter().map(|row| row.iter().sum()).collect();
    let large = rows.len() >= SMALL_CLASS;
    let groups = if large { Groups::of(&totals) } else { None };
    let whole = if large { alpha(&rows, None) } else { None };
    let of = |index: usize| {
        let mut figures = counted(matrix, index);
        if large {
            let marks: Vec<f64> = rows.iter().map(|row| row[index]).collect();
            let rest: Vec<f64> = totals.iter().zip(&marks).map(|(total, mark)| total - mark).collect();
            figures.discrimination =
                groups.as_ref().and_then(|groups| discrimination(groups, &marks, figures.out_of));
            figures.point_biserial = point_biserial(&marks, &totals, figures.out_of);
            figures.with_total = Correlation::of(&marks, &totals);
            figures.with_rest = Correlation::of(&marks, &rest);
            figures.alpha_without = alpha(&rows, Some(index));
        }
        figures.flags = flag::flags(&figures, whole);
        figures
    };
    (0..matrix.items().len()).map(of).collect()
}

/// What needs no class of some size.
fn counted(matrix: &Matrix, index: usize) -> ItemFigures {
    let item = &matrix.items()[index];
    let marks: Vec<f64> = matrix.entries(index).filter_map(Entry::marks).collect();
    let count = |entry: Entry| matrix.entries(index).filter(|other| *other == entry).count();
    let facility = mean(&marks).map(|mean| (mean / item.out_of).min(1.0));
    ItemFigures {
        label: item.label.clone(),
        out_of: item.out_of,
        students: marks.len(),
        full: marks.iter().filter(|&&marks| is_full(marks, item.out_of)).count(),
        nothing: marks.iter().filter(|&&marks| marks == 0.0).count(),
        blank: count(Entry::Blank),
        not_marked: count(Entry::NotMarked),
        facility,
        facility_interval: facility.and_then(|p| wilson(p, marks.len())),
        discrimination: None,
        point_biserial: None,
        with_total: None,
        with_rest: None,
        alpha_without: None,
        flags: Vec::new(),
    }
}

/// Whether all marks are earned; they may have been added up.
pub(super) fn is_full(marks: f64, out_of: f64) -> bool {
    marks >= out_of * (1.0 - 1e-9)
}

fn discrimination(groups: &Groups, marks: &[f64], out_of: f64) -> Option<Discrimination> {
    let p = |group: &[usize]| {
        mean(&group.iter().map(|&student| marks[student]).collect::<Vec<_>>()).map(|mean| mean / out_of)
    };
    let d = p(&groups.top)? - p(&groups.bottom)?;
    Some(Discrimination { d, top: groups.top.len(), bottom: groups.bottom.len() })
}

/// (mean X of those right - mean X of those wrong) / s_X · sqrt(p (1 - p)), s_X over N. Source: the unit's notes on assessment,
/// section 6.
fn point_biserial(marks: &[f64], totals: &[f64], out_of: f64) -> Option<f64> {
    if constant(totals) || !marks.iter().all(|&marks| marks == 0.0 || is_full(marks, out_of)) {
        return None;
    }
    let totals_of = |right: bool| -> Vec<f64> {
        let those = marks.iter().zip(totals).filter(|(marks, _)| is_full(**marks, out_of) == right);
        those.map(|(_, total)| *total).collect()
    };
    let (right, wrong) = (totals_of(true), totals_of(false));
    let p = right.len() as f64 / marks.len() as f64;
    let deviation = super::sums::variance(totals)?.sqrt();
    Some((mean(&right)? - mean(&wrong)?) / deviation * (p * (1.0 - p)).sqrt())
}
