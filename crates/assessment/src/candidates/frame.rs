//! What is alike in all draws with the same variants: which inputs depend on which of the values that vary.

use super::Candidates;
use super::inputs::{SectionPrint, Snapshot};
use super::structure::Structures;
use crate::chance::Chance;
use lesson::papers::Draw;
use std::collections::{BTreeMap, BTreeSet};
use std::hash::{DefaultHasher, Hash, Hasher};
use std::sync::OnceLock;

/// The most choices of one thing with which the lesson is read to see what depends on it.
const LOOKED_AT: usize = 8;

/// Draws by chance that must come out of the tables as they come out of reading.
const PROBES: usize = 24;

/// The most cells of a table; a larger one would take minutes to fill.
const MOST_CELLS: usize = 100_000;

/// How many draws are looked through for one that is sound.
const FIRST_LOOK: usize = 64;

/// The draws with the same variants.
#[derive(Debug)]
pub(super) struct Frame {
    /// A sound draw, from which others differ.
    base: Draw,
    pub(super) groups: Vec<Group>,
    /// Where an input that varies stands: its group and its place there.
    pub(super) places: BTreeMap<String, (usize, usize)>,
    /// Inputs that are the same in every draw, SI; not a number where only some draws have them.
    pub(super) constants: BTreeMap<String, f64>,
    /// The group that the section depends on.
    pub(super) section: Option<usize>,
    pub(super) print: SectionPrint,
    pub(super) structures: Structures,
}

/// Things that vary and on which some inputs depend together, with what their choices make of these.
#[derive(Debug)]
pub(super) struct Group {
    /// The things, by their places in the draw.
    axes: Vec<usize>,
    counts: Vec<usize>,
    names: Vec<String>,
    cells: Vec<OnceLock<Option<Cell>>>,
}

/// The inputs of a group for one choice of each of its things.
#[derive(Debug)]
pub(super) struct Cell {
    /// SI; not a number where there is no such input.
    pub(super) values: Vec<f64>,
    /// Which inputs there are at all.
    pub(super) present: u64,
    /// What the section is like, where it depends on this group.
    pub(super) print: SectionPrint,
}

impl Frame {
    /// Looks at the draws with the variants of this one. `None` where no sound draw is found, or the inputs depend on too
    /// many things together: then each draw must be read.
    pub(super) fn new(candidates: &Candidates, like: &Draw) -> Option<Self> {
        let mut chance = Chance::new();
        let counts = candidates.space().counts();
        let fixed = |axis: usize| candidates.variants.contains(&axis);
        let mut any = |how: usize| {
            let choices = counts.iter().enumerate().map(|(axis, &count)| match how {
                _ if fixed(axis) => like.choices[axis],
                0 => count / 2,
                1 => count - 1,
                2 => 0,
                _ => chance.below(count),
            });
            Draw { choices: choices.collect() }
        };
        let (base, snapshot) = (0..FIRST_LOOK).find_map(|how| {
            let draw = any(how);
            let snapshot = seen(candidates, &draw)?;
            Some((draw, snapshot))
        })?;
        let others: Vec<(Draw, Snapshot)> = (0..PROBES)
            .filter_map(|_| {
                let draw = any(usize::MAX);
                let snapshot = seen(candidates, &draw)?;
                Some((draw, snapshot))
            })
            .collect();

        let varying: Vec<usize> = (0..counts.len()).filter(|&axis| !fixed(axis)).collect();
        let mut ties = Ties::new(counts.len());
        ties.look(candidates, &varying, &base, &snapshot);
        // From a second place, where what was hidden at the first (a factor of zero) may show.
        if let Some((draw, snapshot)) = others.first() {
            ties.look(candidates, &varying, draw, snapshot);
        }
        let mut names: BTreeSet<String> = snapshot.inputs.keys().cloned().collect();
        names.extend(others.iter().flat_map(|(_, other)| other.inputs.keys().cloned()));
        let mut frame = Self::of(candidates, &base, &snapshot, &ties, &names)?;
        let differs = others.iter().any(|(draw, other)| !frame.agrees(candidates, draw, other));
        if differs {
            // Something depends on things together and did not show it one by one.
            ties.all(&varying, &names);
            frame = Self::of(candidates, &base, &snapshot, &ties, &names)?;
        }
        Some(frame)
    }

    fn of(
        candidates: &Candidates,
        base: &Draw,
        snapshot: &Snapshot,
        ties: &Ties,
        names: &BTreeSet<String>,
    ) -> Option<Self> {
        let mut groups: Vec<Group> = Vec::new();
        let mut places = BTreeMap::new();
        let counts = candidates.space().counts();
        let mut group_of_root: BTreeMap<usize, usize> = BTreeMap::new();
        for axis in ties.touched.iter().copied() {
            let at = *group_of_root.entry(ties.root(axis)).or_insert_with(|| {
                groups.push(Group {
                    axes: Vec::new(),
                    counts: Vec::new(),
                    names: Vec::new(),
                    cells: Vec::new(),
                });
                groups.len() - 1
            });
            groups[at].axes.push(axis);
            groups[at].counts.push(counts[axis]);
        }
        for (name, &axis) in &ties.inputs {
            let at = *group_of_root.get(&ties.root(axis))?;
            places.insert(name.clone(), (at, groups[at].names.len()));
            groups[at].names.push(name.clone());
        }
        for group in &mut groups {
            let cells = group.counts.iter().try_fold(1_usize, |all, &count| all.checked_mul(count))?;
            if cells > MOST_CELLS {
                return None;
            }
            group.cells = (0..cells).map(|_| OnceLock::new()).collect();
        }
        Some(Self {
            base: base.clone(),
            section: ties.section.and_then(|axis| group_of_root.get(&ties.root(axis)).copied()),
            constants: names
                .iter()
                .filter(|name| !places.contains_key(*name))
                .map(|name| (name.clone(), snapshot.inputs.get(name).copied().unwrap_or(f64::NAN)))
                .collect(),
            groups,
            places,
            print: snapshot.section,
            structures: Structures::default(),
        })
    }

    /// How many cells its tables have.
    pub(super) fn cells_in_all(&self) -> usize {
        self.groups.iter().map(|group| group.cells.len()).sum()
    }

    /// Whether a draw comes out of the tables as it came out of reading.
    fn agrees(&self, candidates: &Candidates, draw: &Draw, read: &Snapshot) -> bool {
        let Some(cells) = self.cells(candidates, draw) else { return true };
        let print = self.section.map_or(self.print, |at| cells[at].print);
        let varying = self.places.iter().all(|(name, &(group, place))| {
            let value = cells[group].values[place];
            read.inputs.get(name).map_or(value.is_nan(), |read| alike(value, *read))
        });
        let constant = read.inputs.iter().all(|(name, read)| {
            let known = self.constants.get(name);
            self.places.contains_key(name)
                || known.is_some_and(|value| value.is_nan() || alike(*value, *read))
        });
        varying && constant && print.formulas == read.section.formulas
    }

    /// The cells of a draw, by group; `None` where one of them is no sound lesson.
    pub(super) fn cells<'a>(&'a self, candidates: &Candidates, draw: &Draw) -> Option<Vec<&'a Cell>> {
        self.groups.iter().map(|group| group.cell(candidates, &self.base, draw)).collect()
    }
}

impl Group {
    /// The cell of a draw, which is filled when it is first asked for.
    pub(super) fn cell(&self, candidates: &Candidates, base: &Draw, draw: &Draw) -> Option<&Cell> {
        let place = self.axes.iter().zip(&self.counts);
        let place = place.fold(0, |place, (&axis, &count)| place * count + draw.choices[axis]);
        let cell = self.cells.get(place)?.get_or_init(|| {
            let mut own = base.clone();
            for &axis in &self.axes {
                own.choices[axis] = draw.choices[axis];
            }
            let read = seen(candidates, &own)?;
            let values: Vec<f64> =
                self.names.iter().map(|name| read.inputs.get(name).copied().unwrap_or(f64::NAN)).collect();
            Some(Cell { present: present(&values), values, print: read.section })
        });
        cell.as_ref()
    }

    /// Which of its inputs a graph has, as [`Cell::present`] says it.
    pub(super) fn present(&self, has: impl Fn(&str) -> bool) -> u64 {
        let values: Vec<f64> = self.names.iter().map(|name| if has(name) { 0.0 } else { f64::NAN }).collect();
        present(&values)
    }
}

fn present(values: &[f64]) -> u64 {
    let mut hasher = DefaultHasher::new();
    values.iter().for_each(|value| value.is_nan().hash(&mut hasher));
    hasher.finish()
}

fn seen(candidates: &Candidates, draw: &Draw) -> Option<Snapshot> {
    candidates.solved(draw).map(|solved| Snapshot::of(&solved))
}

/// Whether two inputs are one to rounding: what follows from one outline at two scales differs in its last bits.
fn alike(one: f64, other: f64) -> bool {
    (one - other).abs() <= 1e-13 * one.abs().max(other.abs())
}

/// Which things hang together, since some input depends on several of them.
struct Ties {
    /// For each thing another one that it is tied to, or itself.
    up: Vec<usize>,
    /// The things on which anything depends.
    touched: BTreeSet<usize>,
    /// For each input that varies a thing that it depends on.
    inputs: BTreeMap<String, usize>,
    /// A thing that the section depends on.
    section: Option<usize>,
}

impl Ties {
    fn new(axes: usize) -> Self {
        Self { up: (0..axes).collect(), touched: BTreeSet::new(), inputs: BTreeMap::new(), section: None }
    }

    fn root(&self, mut axis: usize) -> usize {
        while self.up[axis] != axis {
            axis = self.up[axis];
        }
        axis
    }

    fn tie(&mut self, one: usize, other: usize) {
        let (one, other) = (self.root(one), self.root(other));
        self.up[one] = other;
    }

    /// Reads the lesson with one thing changed from a draw, and notes what else that changes.
    fn look(&mut self, candidates: &Candidates, varying: &[usize], from: &Draw, before: &Snapshot) {
        for &axis in varying {
            let count = candidates.space().counts()[axis];
            let looked_at = count.min(LOOKED_AT);
            for step in 0..looked_at {
                let mut draw = from.clone();
                draw.choices[axis] = step * (count - 1) / (looked_at - 1).max(1);
                if draw == *from {
                    continue;
                }
                if let Some(after) = seen(candidates, &draw) {
                    self.note(axis, before, &after);
                }
            }
        }
    }

    fn note(&mut self, axis: usize, before: &Snapshot, after: &Snapshot) {
        self.touched.insert(axis);
        let names: BTreeSet<&String> = before.inputs.keys().chain(after.inputs.keys()).collect();
        for name in names {
            if before.inputs.get(name) != after.inputs.get(name) {
                let known = *self.inputs.entry(name.clone()).or_insert(axis);
                self.tie(known, axis);
            }
        }
        // All on which the section depends is read together, so that what a section cannot be is found out.
        if before.section != after.section {
            let known = *self.section.get_or_insert(axis);
            self.tie(known, axis);
        }
    }

    /// Ties everything together.
    fn all(&mut self, varying: &[usize], names: &BTreeSet<String>) {
        let Some(&first) = varying.first() else { return };
        for &axis in varying {
            self.touched.insert(axis);
            self.tie(axis, first);
        }
        self.section.get_or_insert(first);
        for name in names {
            self.inputs.entry(name.clone()).or_insert(first);
        }
    }
}
