//! Sections, cuts and beams on which the drawings of the slice and of the section are tried: shapes of our own.

use mechanics::beam::{Beam, Load, Support};
use mechanics::section::{Edge, Figure, HeightSide, Loop, Part, Point, shapes};
use workings::problem::{
    CutPlace, Joint, JointKind, LoadLabel, Problem, SlicePlace, SupportKind, SupportLabel,
};
use workings::solved::Solved;
use workings::style::Style;

/// A section with the heights that it is cut at, mm, and the piece that is kept.
pub struct Case {
    pub name: String,
    pub parts: Vec<Part>,
    pub joints: Vec<Joint>,
    pub cuts: Vec<(f64, HeightSide)>,
}

/// A point given in mm.
fn mm(x: f64, y: f64) -> Point {
    Point::new(x * 1e-3, y * 1e-3)
}

fn polygon(corners: &[(f64, f64)]) -> Loop {
    Loop::polygon(&corners.iter().map(|&(x, y)| mm(x, y)).collect::<Vec<_>>())
}

fn part(outline: Loop, holes: Vec<Loop>) -> Part {
    Part { outline, holes, modular_ratio: 1.0, figure: Figure::Outline }
}

/// A plank by its lower left corner and its size, mm.
fn plank(x: f64, y: f64, breadth: f64, height: f64) -> Part {
    Part::rectangle(mm(x, y), breadth * 1e-3, height * 1e-3)
}

fn joint(name: &str, kind: JointKind, beyond: &[usize]) -> Joint {
    let rows = if kind == JointKind::Fasteners { 2 } else { 1 };
    Joint { name: name.into(), kind, beyond: beyond.to_vec(), rows, spacing: Some(0.05), ..Joint::default() }
}

/// All sections.
pub fn cases() -> Vec<Case> {
    use HeightSide::{Above, Below};
    let case = |name: &str, parts: Vec<Part>, cuts: &[(f64, HeightSide)]| Case {
        name: name.into(),
        parts,
        joints: Vec::new(),
        cuts: cuts.to_vec(),
    };
    let shape =
        |s: Result<shapes::Shape, Vec<mechanics::section::Fault>>| s.map(|s| s.parts).unwrap_or_default();
    let mut cases = vec![
        // At the neutral axis, at the junction seen from both sides, near the edges, at them.
        case(
            "tee",
            shape(shapes::tee(0.08, 0.04, 0.02, 0.12, true)),
            &[
                (80.0, Above),
                (80.0, Below),
                (30.0, Below),
                (119.0, Above),
                (1.0, Below),
                (120.0, Above),
                (0.0, Below),
            ],
        ),
        case(
            "i-unequal",
            shape(shapes::i_section(0.2, (0.12, 0.02), (0.06, 0.015), 0.01)),
            &[(180.0, Above), (100.0, Above), (15.0, Below)],
        ),
        case(
            "channel",
            shape(shapes::channel(0.2, 0.08, 0.008, 0.012)),
            &[(188.0, Above), (150.0, Above), (40.0, Below)],
        ),
        case("angle", shape(shapes::angle(0.1, 0.075, 0.01, 0.01)), &[(40.0, Above), (10.0, Below)]),
        case(
            "box",
            shape(shapes::box_girder(0.2, 0.3, 0.025, 0.05, 0.05)),
            &[(250.0, Above), (150.0, Above), (50.0, Below)],
        ),
        case("tube", shape(shapes::round_tube(0.1, 0.012)), &[(50.0, Above), (80.0, Above), (20.0, Below)]),
        case("circle", shape(shapes::circle(0.1)), &[(60.0, Above), (50.0, Below)]),
        case("half-circle", shape(shapes::half_circle(0.1, true)), &[(20.0, Above), (10.0, Below)]),
        case(
            "triangle",
            shape(shapes::triangle(0.12, 0.15, 0.06, true)),
            &[(50.0, Above), (100.0, Above), (20.0, Below)],
        ),
        case(
            "two-holes",
            vec![part(
                polygon(&[(0.0, 0.0), (120.0, 0.0), (140.0, 90.0), (70.0, 160.0), (0.0, 110.0)]),
                vec![
                    Loop::circle(mm(40.0, 50.0), 0.018),
                    polygon(&[(75.0, 40.0), (110.0, 40.0), (105.0, 80.0), (85.0, 85.0)]),
                ],
            )],
            &[(60.0, Above), (60.0, Below), (120.0, Above), (20.0, Below)],
        ),
        case(
            "rolled",
            shape(shapes::rolled_i(0.2, 0.1, 0.0056, 0.0085, 0.012)),
            &[(191.5, Above), (100.0, Above), (15.0, Below)],
        ),
        case("wide", vec![plank(0.0, 0.0, 400.0, 60.0)], &[(40.0, Above), (30.0, Below)]),
        case("tall", vec![plank(0.0, 0.0, 20.0, 300.0)], &[(290.0, Above), (150.0, Below)]),
        case(
            "round-corner",
            vec![part(
                Loop {
                    start: mm(0.0, 0.0),
                    path: vec![
                        Edge::Line { to: mm(100.0, 0.0) },
                        Edge::Line { to: mm(100.0, 60.0) },
                        Edge::Arc { to: mm(60.0, 100.0), centre: mm(60.0, 60.0), counter_clockwise: true },
                        Edge::Line { to: mm(0.0, 100.0) },
                    ],
                },
                Vec::new(),
            )],
            &[(70.0, Above), (60.0, Below)],
        ),
    ];
    cases.push(Case {
        name: "planks-glued".into(),
        parts: (0..3).map(|k| plank(0.0, 50.0 * f64::from(k), 150.0, 50.0)).collect(),
        joints: vec![
            joint("glue line 1", JointKind::Glue, &[2]),
            joint("glue line 2", JointKind::Glue, &[0]),
        ],
        cuts: vec![(100.0, Above), (75.0, Above), (50.0, Below)],
    });
    cases.push(Case {
        name: "box-of-planks".into(),
        parts: vec![
            plank(-100.0, 0.0, 200.0, 50.0),
            plank(-100.0, 50.0, 25.0, 200.0),
            plank(75.0, 50.0, 25.0, 200.0),
            plank(-100.0, 250.0, 200.0, 50.0),
        ],
        joints: vec![
            joint("glue line 1", JointKind::Glue, &[3]),
            joint("nails 1", JointKind::Fasteners, &[0]),
        ],
        cuts: vec![(250.0, Above), (50.0, Below), (120.0, Below)],
    });
    cases.push(case(
        "zed",
        vec![plank(0.0, 0.0, 6.0, 120.0), plank(6.0, 114.0, 60.0, 6.0), plank(-60.0, 0.0, 60.0, 6.0)],
        &[(114.0, Above), (60.0, Above)],
    ));
    // An I whose flanges stand off the web to different sides, so that four flows of different size meet at its joints.
    cases.push(case(
        "shifted-flanges",
        vec![plank(-40.0, 0.0, 120.0, 12.0), plank(-4.0, 12.0, 8.0, 176.0), plank(-30.0, 188.0, 90.0, 12.0)],
        &[(188.0, Above), (90.0, Above)],
    ));
    cases.push(case("thin-tube", shape(shapes::round_tube(0.12, 0.005)), &[(60.0, Above), (110.0, Above)]));
    cases.push(case(
        "two-cells",
        vec![
            plank(0.0, 0.0, 300.0, 6.0),
            plank(0.0, 114.0, 300.0, 6.0),
            plank(0.0, 6.0, 4.0, 108.0),
            plank(140.0, 6.0, 8.0, 108.0),
            plank(290.0, 6.0, 10.0, 108.0),
        ],
        &[(114.0, Above), (60.0, Above)],
    ));
    let mut steel = plank(0.0, 0.0, 120.0, 12.0);
    steel.modular_ratio = 20.0;
    cases.push(Case {
        name: "timber-on-steel".into(),
        parts: vec![steel, plank(0.0, 12.0, 120.0, 200.0)],
        joints: vec![joint("screws", JointKind::Fasteners, &[0])],
        cuts: vec![(12.0, Below), (100.0, Above)],
    });
    let of = |part: Part, ratio: f64| part.with_modular_ratio(ratio);
    cases.push(Case {
        name: "flitch".into(),
        parts: vec![
            plank(0.0, 0.0, 120.0, 250.0),
            of(plank(-5.0, 0.0, 5.0, 150.0), 20.0),
            of(plank(120.0, 0.0, 5.0, 150.0), 20.0),
        ],
        joints: vec![joint("bolts", JointKind::Fasteners, &[1, 2])],
        cuts: vec![(150.0, Above), (100.0, Above)],
    });
    cases.push(Case {
        name: "steel-within-timber".into(),
        parts: vec![
            plank(0.0, 0.0, 60.0, 240.0),
            of(plank(60.0, 20.0, 10.0, 200.0), 19.0),
            plank(70.0, 0.0, 60.0, 240.0),
        ],
        joints: Vec::new(),
        cuts: vec![(120.0, Above), (220.0, Above)],
    });
    cases.push(Case {
        name: "sandwich-of-three".into(),
        parts: vec![
            of(plank(0.0, 0.0, 500.0, 2.0), 9.0),
            of(plank(0.0, 2.0, 500.0, 80.0), 0.01),
            plank(0.0, 82.0, 500.0, 10.0),
        ],
        joints: vec![joint("glue line 1", JointKind::Glue, &[2])],
        cuts: vec![(82.0, Above), (32.0, Above)],
    });
    let mut sloping = shape(shapes::trapezoid(0.06, 0.12, 0.10, 0.0));
    sloping[0].modular_ratio = 0.5;
    sloping.push(of(plank(0.0, 100.0, 120.0, 10.0), 15.0));
    // Several materials that bend askew: an angle on the right of the foot, a flat on the left, one that lies below the neutral axis with all
    // its corners, and three materials.
    cases.push(case(
        "joist-and-angle",
        vec![
            plank(0.0, 0.0, 60.0, 200.0),
            of(plank(60.0, 6.0, 6.0, 74.0), 19.0),
            of(plank(60.0, 0.0, 50.0, 6.0), 19.0),
        ],
        &[(120.0, Above), (40.0, Below)],
    ));
    cases.push(case(
        "joist-and-flat",
        vec![plank(0.0, 0.0, 60.0, 200.0), of(plank(-8.0, 0.0, 8.0, 100.0), 19.0)],
        &[(150.0, Above), (100.0, Above)],
    ));
    cases.push(case(
        "joist-and-strip",
        vec![plank(0.0, 0.0, 60.0, 200.0), of(plank(60.0, 0.0, 8.0, 30.0), 3.0)],
        &[(120.0, Above)],
    ));
    cases.push(case(
        "joist-of-three",
        vec![
            plank(0.0, 0.0, 60.0, 200.0),
            of(plank(60.0, 0.0, 8.0, 100.0), 19.0),
            of(plank(-30.0, 150.0, 30.0, 50.0), 6.5),
        ],
        &[(175.0, Above), (50.0, Below)],
    ));
    cases.push(Case {
        name: "plate-on-a-keel".into(),
        parts: sloping,
        joints: Vec::new(),
        cuts: vec![(60.0, Above)],
    });
    cases
}

/// How the beam is loaded where the slice is taken.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Bending {
    /// Sagging, V positive.
    SagRising,
    /// Sagging, V negative, under a spread load.
    SagFalling,
    /// Hogging, V negative.
    Hog,
    /// M without V.
    Pure,
    /// Neither.
    None,
}

impl Bending {
    pub const ALL: [Bending; 5] =
        [Bending::SagRising, Bending::SagFalling, Bending::Hog, Bending::Pure, Bending::None];
}

/// The lesson of a section, a cut and a way of bending.
pub fn problem(case: &Case, cut: (f64, HeightSide), bending: Bending) -> Problem {
    let (loads, at) = match bending {
        Bending::SagRising => (vec![Load::Force { station: 2.0, down: 4.0e3 }], 1.0),
        Bending::SagFalling => {
            (vec![Load::Spread { from: 0.0, to: 4.0, down_from: 1.0e3, down_to: 3.0e3 }], 3.0)
        }
        Bending::Hog => (vec![Load::Force { station: 6.0, down: 2.0e3 }], 3.0),
        Bending::Pure => {
            (vec![Load::Couple { station: 0.0, ccw: -3.0e3 }, Load::Couple { station: 4.0, ccw: 3.0e3 }], 2.0)
        }
        Bending::None => (Vec::new(), 2.0),
    };
    let labels = (1..=loads.len()).map(|k| LoadLabel { name: k.to_string(), self_weight: false }).collect();
    let other = match cut.1 {
        HeightSide::Above => HeightSide::Below,
        HeightSide::Below => HeightSide::Above,
    };
    let joint = case.joints.iter().find(|joint| match cut.1 {
        HeightSide::Above => joint.beyond.contains(&(case.parts.len() - 1)),
        HeightSide::Below => joint.beyond.contains(&0),
    });
    let at_joint = [100.0, 250.0, 50.0, 12.0].contains(&cut.0);
    Problem {
        title: case.name.clone(),
        beam: Beam {
            length: 6.0,
            flexural_rigidity: 1.0e6,
            supports: vec![Support::pin(0.0), Support::pin(4.0)],
            hinges: Vec::new(),
            loads,
        },
        elastic_modulus: 11.0e9,
        shear: Default::default(),
        density: None,
        supports: vec![
            SupportLabel { name: "A".into(), kind: SupportKind::Pin },
            SupportLabel { name: "B".into(), kind: SupportKind::Roller },
        ],
        loads: labels,
        parts: case.parts.clone(),
        part_names: (1..=case.parts.len()).map(|k| format!("part {k}")).collect(),
        part_materials: Vec::new(),
        section_name: case.name.replace('-', " "),
        joints: case.joints.clone(),
        allowable: Default::default(),
        further_cuts: Vec::new(),
        slice: SlicePlace { at, length: 0.05 },
        cut: CutPlace {
            height: cut.0 * 1e-3,
            side: other,
            beyond: cut.1,
            joint: joint.filter(|_| at_joint).map(|joint| joint.name.clone()),
        },
    }
}

/// The same, solved.
pub fn solved(case: &Case, cut: (f64, HeightSide), bending: Bending) -> Solved {
    match Solved::new(problem(case, cut, bending), Style::default()) {
        Ok(solved) => solved,
        Err(faults) => panic!("{} {cut:?} {bending:?}: {faults:?}", case.name),
    }
}
