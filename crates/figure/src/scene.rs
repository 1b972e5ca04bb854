//! What the drawings of the section and of the slice read: outlines, places and values of one lesson.

use crate::body::{Body, bodies};
use crate::outline::{self, Chord, Extent, Region};
use crate::scale::Sheet;
use crate::writer::Writer;
use mechanics::section::{HeightSide, Point, Section};
use mechanics::slice::{Slice, SliceGivens};
use mechanics::stress::StressOverDepth;
use workings::problem::Problem;
use workings::solved::Solved;
use workings::style::Style;

/// The values of the slice and of the cut, SI, in the signs of `mechanics`.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Values {
    /// Station of the left face, m.
    pub station: f64,
    /// Length of the slice, m.
    pub length: f64,
    /// Shear force on the left and on the right face, N.
    pub shear: [f64; 2],
    /// Bending moment on the left and on the right face, N m.
    pub moment: [f64; 2],
    /// Height of the neutral axis, m.
    pub neutral_axis: f64,
    /// Centroid to the right, m.
    pub centroid_across: f64,
    /// Area beyond the cut, m².
    pub area_beyond: f64,
    /// Centroid of the part beyond the cut; `None` where nothing lies beyond.
    pub centroid_beyond: Option<Point>,
    /// Width at the cut, m.
    pub width: f64,
    /// Stress resultant on the part beyond, left and right face, N, tension positive.
    pub resultant: [f64; 2],
    /// Heights of their lines of action, m.
    pub resultant_height: [f64; 2],
    /// Force of the rest of the slice on the part beyond, N, positive along the beam to the right.
    pub force_on_cut: f64,
    /// Shear stress on the cut at the station of the slice, Pa, over the width above.
    pub stress_on_cut: f64,
    /// Bending stress at the cut, Pa, tension positive; none where several materials lie side by side there.
    pub bending_on_cut: Option<f64>,
    /// What acts on the slice from outside, N, positive down.
    pub load: f64,
}

/// Everything that the drawings of one lesson share.
#[derive(Clone, Debug)]
pub(crate) struct Scene<'a> {
    /// What the lesson states.
    pub problem: &'a Problem,
    /// Whether the drawings are told at length as well.
    pub told: bool,
    /// The sheet that they are drawn on.
    pub sheet: Sheet,
    /// Its section.
    pub section: &'a Section,
    /// The values.
    pub values: Values,
    /// The stresses over the depth on the left and on the right face.
    pub stress: [StressOverDepth; 2],
    /// Height of the cut, m.
    pub cut: f64,
    /// Which piece is kept as the part beyond.
    pub beyond_side: HeightSide,
    /// The bodies of the section.
    pub bodies: Vec<Body>,
    /// For each contact of the section, whether it lies within a body.
    pub within: Vec<bool>,
    /// What of each body lies beyond the cut.
    pub beyond: Vec<Region>,
    /// What of each body stays.
    pub rest: Vec<Region>,
    /// The material on the cut.
    pub cut_chords: Vec<Chord>,
    /// The box round the section.
    pub extent: Extent,
    /// The closed cells of thin walls where there are several: each by its number, with its walls by their place among the middle
    /// lines.
    pub cells: Vec<(String, Vec<usize>)>,
    /// How values and symbols are written.
    pub writer: Writer<'a>,
}

/// The bending stress at the cut, where it has one value: there the workings have principal stresses too.
fn bending_on_cut(solved: &Solved) -> Option<f64> {
    let workings = solved.workings();
    workings.get("largest principal stress at the cut")?;
    workings.get("bending stress at the cut").map(|working| working.value.value)
}

/// How finely arcs are drawn: the greatest height of an arc over its chord, of the size of the section. A section
/// is drawn some 300 px high, so this is a tenth of a px.
pub(crate) const FINENESS: f64 = 3e-4;

impl<'a> Scene<'a> {
    /// The scene of a solved lesson: values from the workings, curves and lines of action from the engine. `None`
    /// where the section cannot be drawn or the slice cannot be cut, which solving the lesson has ruled out.
    pub fn of(solved: &'a Solved) -> Option<Self> {
        let (problem, section, style) = (solved.problem(), solved.section(), solved.style());
        let (key, slice) = (solved.key(), solved.slice());
        let value = |id| solved.value(id);
        let shear = [value(slice.shear_left), value(slice.shear_right)];
        let moment = [value(slice.moment_left), value(slice.moment_right)];
        let length = value(slice.length);
        let (cut, beyond) = (value(key.cut_height), problem.cut.beyond);
        let givens = SliceGivens {
            length,
            moment_left: moment[0],
            moment_right: moment[1],
            shear_left: shear[0],
            shear_right: shear[1],
            // What the balance of the slice asks for.
            load: shear[0] - shear[1],
            load_moment: moment[0] - moment[1] + shear[1] * length,
        };
        let open = Slice::new(section, givens, cut, beyond).ok()?;
        let values = Values {
            station: value(slice.left_station),
            length,
            shear,
            moment,
            neutral_axis: value(key.centroid),
            centroid_across: section.properties().centroid.x,
            area_beyond: value(key.area_beyond),
            centroid_beyond: (open.cut.area > 0.0).then_some(open.cut.centroid),
            width: value(key.width),
            resultant: [value(slice.resultant_left), value(slice.resultant_right)],
            resultant_height: [open.left.beyond.height, open.right.beyond.height],
            force_on_cut: value(slice.force_on_cut),
            stress_on_cut: value(key.stress_on_cut),
            bending_on_cut: bending_on_cut(solved),
            load: givens.load,
        };
        let cells = solved.cells().map_or(&[][..], |cells| &cells.cells);
        let cells = cells.iter().filter(|cell| !cell.number.is_empty());
        let cells = cells.map(|cell| (cell.number.clone(), cell.walls.clone())).collect();
        Some(Self { cells, ..Self::new(problem, section, values, style) })
    }

    /// The scene of these values.
    pub fn new(problem: &'a Problem, section: &'a Section, values: Values, style: &'a Style) -> Self {
        let p = section.properties();
        let left = StressOverDepth::new(section, values.moment[0], values.shear[0]);
        let right = left.under(values.moment[1], values.shear[1]);
        let extent = Extent { left: p.left, right: p.right, bottom: p.bottom, top: p.top };
        let sagitta = FINENESS * extent.height().max(extent.breadth());
        let (bodies, within) = bodies(section, &problem.joints, sagitta);
        let regions: Vec<Region> = bodies.iter().map(|b| b.region.clone()).collect();
        let (cut, beyond_side) = (problem.cut.height, problem.cut.beyond);
        let beyond = outline::beyond(&regions, cut, beyond_side, extent);
        let rest = outline::beyond(&regions, cut, outline::opposite(beyond_side), extent);
        let mut scene = Self {
            problem,
            told: true,
            sheet: Sheet::USUAL,
            section,
            values,
            stress: [left, right],
            cut,
            beyond_side,
            bodies,
            within,
            beyond,
            rest,
            cut_chords: Vec::new(),
            extent,
            cells: Vec::new(),
            writer: Writer::new(style),
        };
        scene.cut_chords = scene.material_on_cut();
        scene
    }

    /// The material that the width at the cut counts: seen from the side that the lesson means, or, at a joint of
    /// parts that stand off each other, where they touch.
    fn material_on_cut(&self) -> Vec<Chord> {
        let sum = |chords: &[Chord]| chords.iter().map(|c| c.length()).sum::<f64>();
        let touching: Vec<Chord> = self
            .section
            .contact_ranges(self.cut)
            .into_iter()
            .map(|(left, right)| Chord { left, right })
            .collect();
        let seen = self.chords(self.cut, self.problem.cut.side);
        let off = |chords: &[Chord]| (sum(chords) - self.values.width).abs();
        if !touching.is_empty() && off(&touching) < off(&seen) { touching } else { seen }
    }

    /// The level stretches of material at a height, seen from one side, parts that touch made one.
    pub fn chords(&self, height: f64, side: HeightSide) -> Vec<Chord> {
        self.merged(height, side, |_, _| true)
    }

    /// The same, parts of several materials kept apart.
    pub fn chords_of_materials(&self, height: f64, side: HeightSide) -> Vec<Chord> {
        let ratio = |part: usize| self.section.parts().get(part).map_or(1.0, |part| part.modular_ratio);
        self.merged(height, side, |one, other| ratio(one) == ratio(other))
    }

    fn merged(&self, height: f64, side: HeightSide, alike: impl Fn(usize, usize) -> bool) -> Vec<Chord> {
        let touching = 1e-7 * self.extent.breadth();
        let mut merged: Vec<Chord> = Vec::new();
        let mut before = None;
        for chord in self.section.chords(height, side) {
            let like = before.is_some_and(|before| alike(before, chord.part));
            before = Some(chord.part);
            match merged.last_mut() {
                Some(last) if like && chord.from <= last.right + touching => {
                    last.right = last.right.max(chord.to);
                }
                _ => merged.push(Chord { left: chord.from, right: chord.to }),
            }
        }
        merged
    }

    /// A size across the sheet, px, given for the usual one.
    pub fn across(&self, usual: f64) -> f64 {
        self.sheet.across(usual)
    }

    /// The bodies' regions.
    pub fn regions(&self) -> Vec<Region> {
        self.bodies.iter().map(|b| b.region.clone()).collect()
    }

    /// Whether the part beyond lies above the cut.
    pub fn is_above(&self) -> bool {
        self.beyond_side == HeightSide::Above
    }

    /// The greatest size of the bending stress on either face, Pa.
    pub fn greatest_bending_stress(&self) -> f64 {
        let mut greatest = 0.0_f64;
        for body in &self.bodies {
            let part = body.parts.first().copied().unwrap_or(0);
            if let Some(e) = outline::extent(std::slice::from_ref(&body.region)) {
                for (stress, height) in self.stress.iter().flat_map(|s| [(s, e.bottom), (s, e.top)]) {
                    greatest = greatest.max(stress.bending_stress_in(part, height).abs());
                }
            }
        }
        greatest
    }

    /// The greater of the shear forces on the two faces, N.
    pub fn greater_shear(&self) -> f64 {
        self.values.shear[0].abs().max(self.values.shear[1].abs())
    }

    /// The greater of the bending moments on the two faces, N m.
    pub fn greater_moment(&self) -> f64 {
        self.values.moment[0].abs().max(self.values.moment[1].abs())
    }

    /// The greatest of the forces along the beam on the part beyond the cut, N: all three are written in its unit.
    pub fn greatest_force(&self) -> f64 {
        let v = &self.values;
        v.resultant.iter().fold(v.force_on_cut.abs(), |greatest, force| greatest.max(force.abs()))
    }
}
