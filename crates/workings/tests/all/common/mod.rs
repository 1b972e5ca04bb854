//! Lessons built by hand for the tests of the workings.

pub mod random;

use mechanics::beam::{Beam, Hold, Load, Support};
use mechanics::section::{Edge, Figure, HeightSide, Loop, Part, Point, Section};
use workings::problem::{
    CutPlace, Joint, JointKind, LoadLabel, Problem, SlicePlace, SupportKind, SupportLabel,
};
use workings::solved::Solved;
use workings::style::Style;

/// A level rectangle with its lower left corner at (x, y), m.
pub fn rectangle(x: f64, y: f64, breadth: f64, height: f64) -> Part {
    let to = |x: f64, y: f64| Edge::Line { to: Point { x, y } };
    Part {
        outline: Loop {
            start: Point { x, y },
            path: vec![to(x + breadth, y), to(x + breadth, y + height), to(x, y + height)],
        },
        holes: Vec::new(),
        modular_ratio: 1.0,
        figure: Figure::Rectangle { breadth, height },
    }
}

/// A T: web below, flange above, symmetrical; m.
pub fn tee(flange: (f64, f64), web: (f64, f64)) -> Vec<(&'static str, Part)> {
    let left = (flange.0 - web.0) / 2.0;
    vec![("flange", rectangle(0.0, web.1, flange.0, flange.1)), ("web", rectangle(left, 0.0, web.0, web.1))]
}

/// A lesson in the making.
pub struct Maker {
    pub problem: Problem,
}

impl Maker {
    pub fn new(length: f64, parts: Vec<(&str, Part)>) -> Self {
        let (part_names, parts): (Vec<String>, Vec<Part>) =
            parts.into_iter().map(|(name, part)| (name.to_owned(), part)).unzip();
        let section = Section::new(parts.clone()).expect("the section is sound");
        let second_moment = section.properties().second_moment;
        let elastic_modulus = 200e9;
        let problem = Problem {
            title: "A lesson for the tests".into(),
            beam: Beam {
                length,
                flexural_rigidity: elastic_modulus * second_moment,
                supports: Vec::new(),
                hinges: Vec::new(),
                loads: Vec::new(),
            },
            elastic_modulus,
            shear: Default::default(),
            density: None,
            supports: Vec::new(),
            loads: Vec::new(),
            parts,
            part_names,
            part_materials: Vec::new(),
            section_name: "section".into(),
            joints: Vec::new(),
            allowable: Default::default(),
            further_cuts: Vec::new(),
            slice: SlicePlace { at: 0.25 * length, length: 0.01 * length },
            cut: CutPlace {
                height: section.neutral_axis(),
                side: HeightSide::Below,
                beyond: HeightSide::Above,
                joint: None,
            },
        };
        Self { problem }
    }

    pub fn support(mut self, name: &str, kind: SupportKind, support: Support) -> Self {
        self.problem.supports.push(SupportLabel { name: name.into(), kind });
        self.problem.beam.supports.push(support);
        self
    }

    pub fn pin(self, name: &str, station: f64) -> Self {
        self.support(name, SupportKind::Pin, Support::pin(station))
    }

    pub fn fixed(self, name: &str, station: f64) -> Self {
        self.support(name, SupportKind::Fixed, Support::fixed(station))
    }

    pub fn settled(self, name: &str, station: f64, down: f64) -> Self {
        let support = Support { station, transverse: Hold::Rigid { moved: -down }, rotation: Hold::Free };
        self.support(name, SupportKind::Roller, support)
    }

    pub fn hinge(mut self, station: f64) -> Self {
        self.problem.beam.hinges.push(station);
        self
    }

    pub fn load(mut self, name: &str, load: Load) -> Self {
        self.problem.loads.push(LoadLabel { name: name.into(), self_weight: false });
        self.problem.beam.loads.push(load);
        self
    }

    pub fn force(self, name: &str, station: f64, down: f64) -> Self {
        self.load(name, Load::Force { station, down })
    }

    pub fn couple(self, name: &str, station: f64, ccw: f64) -> Self {
        self.load(name, Load::Couple { station, ccw })
    }

    pub fn spread(self, name: &str, from: f64, to: f64, down: f64) -> Self {
        self.load(name, Load::Spread { from, to, down_from: down, down_to: down })
    }

    pub fn linear(self, name: &str, (from, to): (f64, f64), (down_from, down_to): (f64, f64)) -> Self {
        self.load(name, Load::Spread { from, to, down_from, down_to })
    }

    pub fn slice(mut self, at: f64, length: f64) -> Self {
        self.problem.slice = SlicePlace { at, length };
        self
    }

    pub fn cut(mut self, height: f64, side: HeightSide, beyond: HeightSide) -> Self {
        self.problem.cut = CutPlace { height, side, beyond, joint: None };
        self
    }

    pub fn nails(
        mut self,
        name: &str,
        beyond: &[usize],
        rows: u32,
        spacing: Option<f64>,
        capacity: Option<f64>,
    ) -> Self {
        self.problem.joints.push(Joint {
            name: name.into(),
            kind: JointKind::Fasteners,
            beyond: beyond.to_vec(),
            rows,
            spacing,
            fastener_capacity: capacity,
            ..Joint::default()
        });
        self
    }

    pub fn solved(self) -> Solved {
        match Solved::new(self.problem, Style::default()) {
            Ok(solved) => solved,
            Err(faults) => panic!("{}", faults.iter().map(|f| format!("{f}\n")).collect::<String>()),
        }
    }
}

/// The reference lesson: span 4 m, 20 kN at 1 m, 20 kN/m from 2 m to 4 m; T of 120 x 30 on 20 x 120 mm.
pub fn reference() -> Maker {
    Maker::new(4.0, tee((0.120, 0.030), (0.020, 0.120)))
        .pin("A", 0.0)
        .pin("B", 4.0)
        .force("P", 1.0, 20e3)
        .spread("w", 2.0, 4.0, 20e3)
        .slice(0.75, 0.050)
        .cut(0.120, HeightSide::Below, HeightSide::Above)
}

/// A box of plates: the web on the left 12 mm, the one on the right 3 mm, flanges 6 mm; middle lines 150 by 240 mm.
pub fn lopsided_box() -> Vec<(&'static str, Part)> {
    vec![
        ("lower strip", rectangle(0.0, 0.0, 0.1575, 0.006)),
        ("back", rectangle(0.0, 0.006, 0.012, 0.234)),
        ("cover", rectangle(0.1545, 0.006, 0.003, 0.234)),
        ("upper strip", rectangle(0.0, 0.24, 0.1575, 0.006)),
    ]
}

/// A box of two cells of middle lines 180 mm and 120 mm by 300 mm, covers 3 mm, webs 5 mm, 5 mm and 12 mm.
pub fn two_cells() -> Vec<(&'static str, Part)> {
    vec![
        ("bottom", rectangle(0.0, 0.0, 0.3085, 0.003)),
        ("left web", rectangle(0.0, 0.003, 0.005, 0.297)),
        ("middle web", rectangle(0.180, 0.003, 0.005, 0.297)),
        ("right web", rectangle(0.2965, 0.003, 0.012, 0.297)),
        ("top", rectangle(0.0, 0.3, 0.3085, 0.003)),
    ]
}

/// The value of a working by name.
pub fn value(solved: &Solved, name: &str) -> f64 {
    match solved.workings().get(name) {
        Some(working) => working.value.value,
        None => {
            let names: Vec<_> = solved.workings().in_order().map(|(_, w)| w.name.as_str()).collect();
            panic!("no working {name:?} among {names:#?}")
        }
    }
}

/// Whether two numbers agree to 1e-12 of the expected one.
pub fn assert_close(what: &str, found: f64, expected: f64) {
    assert_within(what, found, expected, 1e-12 * expected.abs().max(1e-300));
}

pub fn assert_within(what: &str, found: f64, expected: f64, tolerance: f64) {
    assert!(
        (found - expected).abs() <= tolerance,
        "{what}: {found} instead of {expected} (within {tolerance})"
    );
}
