//! Beams on which the drawings are tried: crowded ones made by hand, and random ones from a seed.

use figure::scribe::Scribe;
use figure::view::BeamView;
use mechanics::beam::{Beam, Hold, Load, Solution, Support};
use mechanics::section::Part;
use workings::problem::{CutPlace, LoadLabel, Problem, SlicePlace, SupportKind, SupportLabel};
use workings::style::Style;
use workings::working::HeightSide;

/// A solved beam on which drawings are made.
pub struct Case {
    /// Its name.
    pub name: String,
    /// What it states.
    pub problem: Problem,
    /// Its solution.
    pub solution: Solution,
    /// How it is written.
    pub style: Style,
}

impl Case {
    /// The view that the drawings take.
    pub fn view(&self) -> BeamView<'_> {
        BeamView::new(&self.problem, &self.solution, Scribe::new(&self.style))
    }
}

fn kind(support: &Support, number: usize) -> SupportKind {
    match (support.transverse, support.rotation) {
        (Hold::Rigid { .. }, Hold::Rigid { .. }) => SupportKind::Fixed,
        (Hold::Rigid { .. }, _) if number == 0 => SupportKind::Pin,
        (Hold::Rigid { .. }, _) => SupportKind::Roller,
        (Hold::Free, Hold::Rigid { .. }) => SupportKind::Guided,
        _ => SupportKind::Spring,
    }
}

/// The problem of a beam, with names made for its supports and loads.
pub fn problem(beam: Beam, slice: f64) -> Problem {
    let supports = beam.supports.iter().enumerate().map(|(number, support)| SupportLabel {
        name: char::from(b'A' + u8::try_from(number % 26).expect("below 26")).to_string(),
        kind: kind(support, number),
    });
    let loads =
        (0..beam.loads.len()).map(|number| LoadLabel { name: format!("{}", number + 1), self_weight: false });
    Problem {
        title: "A beam".to_owned(),
        elastic_modulus: 210.0e9,
        shear: Default::default(),
        density: None,
        supports: supports.collect(),
        loads: loads.collect(),
        parts: Vec::<Part>::new(),
        part_names: Vec::new(),
        part_materials: Vec::new(),
        section_name: "rectangle".to_owned(),
        joints: Vec::new(),
        allowable: Default::default(),
        further_cuts: Vec::new(),
        slice: SlicePlace { at: slice, length: 0.05 },
        cut: CutPlace { height: 0.0, side: HeightSide::Above, beyond: HeightSide::Above, joint: None },
        beam,
    }
}

/// A case; `None` where the beam cannot be solved.
pub fn case(name: &str, problem: Problem) -> Option<Case> {
    let solution = problem.beam.solve().ok()?;
    Some(Case { name: name.to_owned(), problem, solution, style: Style::default() })
}

fn beam(length: f64, supports: Vec<Support>, loads: Vec<Load>) -> Beam {
    Beam { length, flexural_rigidity: 8.0e6, supports, hinges: Vec::new(), loads }
}

fn force(station: f64, down: f64) -> Load {
    Load::Force { station, down }
}

fn couple(station: f64, ccw: f64) -> Load {
    Load::Couple { station, ccw }
}

fn spread(from: f64, to: f64, down_from: f64, down_to: f64) -> Load {
    Load::Spread { from, to, down_from, down_to }
}

/// Beams made by hand: each kind of support and load, and crowds of them.
pub fn by_hand() -> Vec<Case> {
    let mut problems = vec![
        (
            "plain",
            problem(
                beam(
                    4.0,
                    vec![Support::pin(0.0), Support::pin(4.0)],
                    vec![force(1.0, 8.0e3), spread(2.0, 4.0, 2.0e3, 2.0e3)],
                ),
                0.5,
            ),
        ),
        (
            "cantilever",
            problem(
                beam(3.0, vec![Support::fixed(0.0)], vec![force(3.0, 5.0e3), spread(0.0, 3.0, 4.0e3, 0.0)]),
                1.0,
            ),
        ),
        (
            "cantilever-right",
            problem(
                beam(
                    3.0,
                    vec![Support::fixed(3.0)],
                    vec![force(0.0, -5.0e3), couple(1.5, 2.0e3), spread(0.5, 2.5, -1.0e3, 3.0e3)],
                ),
                1.0,
            ),
        ),
        (
            "overhang",
            problem(
                beam(
                    6.0,
                    vec![Support::pin(1.0), Support::pin(5.0)],
                    vec![force(0.0, 12.0e3), spread(1.0, 6.0, 6.0e3, 6.0e3), couple(3.0, -8.0e3)],
                ),
                2.0,
            ),
        ),
    ];
    let mut crowd = problem(
        beam(
            12.0,
            vec![Support::pin(0.0), Support::pin(5.0), Support::pin(12.0)],
            vec![
                spread(0.0, 12.0, 0.4e3, 0.4e3),
                spread(0.0, 5.0, 6.0e3, 6.0e3),
                spread(2.0, 8.0, 0.0, 9.0e3),
                spread(8.0, 11.0, 9.0e3, -4.0e3),
                force(1.0, 14.0e3),
                force(1.25, 10.0e3),
                force(3.0, -6.0e3),
                force(7.0, 22.5e3),
                force(9.5, 3.25e3),
                force(9.5, 8.0e3),
                couple(4.0, 9.0e3),
                couple(6.0, -12.5e3),
                couple(12.0, 5.0e3),
                force(12.0, 7.0e3),
            ],
        ),
        6.5,
    );
    crowd.loads[0].self_weight = true;
    crowd.loads[4].name = "P".to_owned();
    crowd.loads[1].name = "w".to_owned();
    problems.push(("crowd", crowd));
    let mut supports = vec![
        Support { transverse: Hold::Rigid { moved: -0.005 }, ..Support::pin(0.0) },
        Support::spring(3.0, 2.0e6),
        Support { rotation: Hold::Spring { stiffness: 4.0e5 }, ..Support::pin(6.0) },
        Support::fixed(8.0),
        Support::guided(11.0),
        Support::fixed(14.0),
    ];
    let mut kinds = beam(
        14.0,
        supports.clone(),
        vec![force(1.5, 10.0e3), spread(3.0, 8.0, 5.0e3, 5.0e3), couple(12.0, 6.0e3), force(10.0, 8.0e3)],
    );
    kinds.hinges = vec![4.5, 9.0];
    problems.push(("kinds", problem(kinds, 2.0)));
    supports = vec![
        Support::guided(0.0),
        Support {
            transverse: Hold::Spring { stiffness: 3.0e6 },
            rotation: Hold::Spring { stiffness: 2.0e5 },
            station: 3.0,
        },
        Support { transverse: Hold::Rigid { moved: 0.002 }, ..Support::fixed(6.0) },
    ];
    problems.push((
        "springs",
        problem(beam(6.0, supports, vec![force(1.0, 10.0e3), spread(3.0, 6.0, -5.0e3, -2.0e3)]), 2.0),
    ));
    problems.push((
        "continuous",
        problem(
            beam(
                15.0,
                vec![Support::pin(0.0), Support::pin(5.0), Support::pin(10.0), Support::pin(15.0)],
                vec![spread(0.0, 15.0, 8.0e3, 8.0e3), force(7.5, 20.0e3)],
            ),
            2.0,
        ),
    ));
    problems.push(("bare", problem(beam(5.0, vec![Support::pin(0.0), Support::pin(5.0)], Vec::new()), 0.0)));
    problems.into_iter().filter_map(|(name, problem)| case(name, problem)).collect()
}

/// Numbers from a seed: the generator of Knuth's MMIX, its upper bits.
pub struct Numbers(pub u64);

impl Numbers {
    /// A whole number below `bound`.
    pub fn below(&mut self, bound: u32) -> u32 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        u32::try_from((self.0 >> 33) % u64::from(bound)).expect("below a u32")
    }

    /// A multiple of `step` from 0 to `step * steps`.
    pub fn stepped(&mut self, step: f64, steps: u32) -> f64 {
        f64::from(self.below(steps + 1)) * step
    }
}

/// A random beam: one to four supports of any kind, up to fourteen loads of any kind; often several at one station.
pub fn random(seed: u64) -> Option<Case> {
    let mut numbers = Numbers(seed.wrapping_mul(0x9e37_79b9_7f4a_7c15) ^ 0x51);
    let length = [0.8, 3.0, 6.0, 12.0, 40.0][numbers.below(5) as usize];
    let step = length / 48.0;
    let mut supports = Vec::new();
    for _ in 0..=numbers.below(4) {
        let station = numbers.stepped(step * 4.0, 12);
        supports.push(match numbers.below(8) {
            0 | 1 => Support::fixed(station),
            2 => Support::spring(station, 1.5e6),
            3 => Support::guided(station),
            4 => Support { transverse: Hold::Rigid { moved: -0.004 }, ..Support::pin(station) },
            5 => Support { rotation: Hold::Spring { stiffness: 1.0e5 }, ..Support::pin(station) },
            _ => Support::pin(station),
        });
    }
    supports.sort_by(|a, b| a.station.total_cmp(&b.station));
    supports.dedup_by(|a, b| (a.station - b.station).abs() < step);
    let mut loads = Vec::new();
    let size = [1.0, 50.0, 1000.0, 2.0e4][numbers.below(4) as usize];
    for _ in 0..numbers.below(15) {
        let station = numbers.stepped(step, 48);
        let value = (f64::from(numbers.below(41)) - 12.0) * 0.25 * size;
        loads.push(match numbers.below(4) {
            0 | 1 => Load::Force { station, down: value },
            2 => Load::Couple { station, ccw: value },
            _ => {
                let to = station + step + numbers.stepped(step, 40);
                if to > length * (1.0 + 1e-12) {
                    continue;
                }
                let other = if numbers.below(2) == 0 { value } else { numbers.stepped(0.5 * size, 12) };
                Load::Spread { from: station, to, down_from: value, down_to: other }
            }
        });
    }
    let mut beam = beam(length, supports, loads);
    if numbers.below(4) == 0 {
        beam.hinges.push(step * 10.0);
    }
    let slice = numbers.stepped(step, 47);
    case(&format!("random-{seed}"), problem(beam, slice))
}
