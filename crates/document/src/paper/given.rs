//! What the lesson gives, and how answers are to be written.

use super::needed::Needed;
use super::value_words::name;
use super::worked::asked;
use crate::described;
use crate::notes::{hinges_in_words, line};
use crate::tree::{Alignment, Block, Figure, Inline, Table};
use assessment::set::{Ask, Part, SetPaper};
use figure::drawing::Drawing;
use figure::paper::Letters;
use figure::scale::Sheet;
use lesson::question::Sketch;
use mechanics::section::HeightSide;
use workings::dimension::Dimension;
use workings::expression::Expression;
use workings::quantity::Quantity;
use workings::reservation::{Topic, reservations};
use workings::role::{Role, Symbol};
use workings::rounding::Figures;
use workings::solved::Solved;
use workings::style::DecimalMark;
use workings::working::{Chapter, Formula, Id, Working};

/// How to answer, and what is given under its heading.
pub(super) fn given(set: &SetPaper, letters: Letters) -> Vec<Block> {
    let mut blocks =
        vec![Block::Paragraph(manner(set)), Block::Heading { level: 1, text: line!["What is given"] }];
    blocks.extend(in_letters(set, letters));
    blocks
}

/// The drawings of what is given, and the rest of it in words; nothing of what is asked for.
pub fn what_is_given(set: &SetPaper) -> Vec<Block> {
    in_letters(set, Letters::Usual)
}

fn in_letters(set: &SetPaper, letters: Letters) -> Vec<Block> {
    let solved = &set.solved;
    let needed = Needed::by(set);
    let beam = figure::paper::beam(solved, needed.slice, letters);
    // Where its labels need more room than there is, large print makes them smaller than the rest.
    let words = letters == Letters::Large && beam.width > Sheet::LARGE_PRINT.width;
    let in_words = if words { described(&beam.long) } else { Vec::new() };
    let mut blocks = vec![captioned(beam, "The beam and its loads.")];
    blocks.extend(in_words);
    let hinges = hinges_in_words(solved.problem());
    if !hinges.is_empty() {
        blocks.push(Block::Paragraph(hinges));
    }
    let with_cut = needed.cut && set.lesson.cut_from_axis.is_none();
    if let Some(section) = figure::paper::section(solved, with_cut, letters) {
        blocks.push(captioned(section, "The section."));
    }
    let slice_and_cut = slice_and_cut(set, needed);
    if !slice_and_cut.is_empty() {
        blocks.push(Block::Paragraph(slice_and_cut));
    }
    blocks.extend(other_values(set));
    blocks.extend(steps(set));
    blocks.extend(equivalent_stress(set));
    blocks.extend(caution(solved));
    let signs = signs(set);
    if !signs.is_empty() {
        blocks.push(Block::Paragraph(signs));
    }
    if speaks_of_inner_forces(set) {
        blocks.push(captioned(figure::paper::signs(solved, letters), "The signs of this course."));
    }
    blocks
}

fn captioned(drawing: Drawing, caption: &str) -> Block {
    Block::Figure(Box::new(Figure { drawing, number: None, caption: line![caption] }))
}

/// How answers are written.
fn manner(set: &SetPaper) -> Vec<Inline> {
    let style = set.solved.style();
    let figures = match style.figures {
        Figures::Significant(1) => "one figure".to_owned(),
        Figures::Significant(count) => format!("{count} figures"),
        Figures::ThreeOrFour => "three figures, four where the first is 1".to_owned(),
        Figures::Decimals(1) => "one decimal".to_owned(),
        Figures::Decimals(count) => format!("{count} decimals"),
    };
    let mark = match style.decimal_mark {
        DecimalMark::Point => "point",
        DecimalMark::Comma => "comma",
    };
    line![format!(
        "Write each answer into its box, in the unit that stands beside it: {figures}, with a decimal {mark}. Carry one figure more \
         on the way. Work in the free room above the box."
    )]
}

/// Where the slice is and where it is cut, as far as that is needed.
fn slice_and_cut(set: &SetPaper, needed: Needed) -> Vec<Inline> {
    let (solved, problem) = (&set.solved, set.solved.problem());
    let equal = |role: Role, value: f64| {
        let quantity = Quantity::new(value, Dimension::LENGTH);
        Inline::Math(Expression::Equal(vec![
            Expression::Symbol(Symbol::plain(role)),
            Expression::Given(quantity, role),
        ]))
    };
    if !needed.slice {
        return Vec::new();
    }
    let mut words = line!["The slice is taken at ", equal(Role::Station, problem.slice.at)];
    if !needed.cut {
        words.push(".".into());
        return words;
    }
    words.extend(line!["; it is ", equal(Role::SliceLength, problem.slice.length), " long. "]);
    let length = |value: f64| Inline::Given(Quantity::new(value, Dimension::LENGTH), Role::CutHeight);
    let bottom = solved.section().properties().bottom;
    words.push("It is cut level ".into());
    match set.lesson.cut_from_axis {
        Some(0.0) => words.push("at the neutral axis".into()),
        Some(up) => {
            words.push(length(up.abs()));
            words.push(if up > 0.0 { " above the neutral axis" } else { " below the neutral axis" }.into());
        }
        None => {
            if let Some(joint) = &problem.cut.joint {
                words.push(format!("{}, ", solved.in_a_sentence(&format!("at {joint}"))).into());
            }
            words.push(length(problem.cut.height - bottom));
            words.push(" above the lowest fibre".into());
        }
    }
    let (beyond, side) = (side_words(problem.cut.beyond), side_words(problem.cut.side));
    words.push(format!("; the part beyond the cut is what lies {beyond} it.").into());
    let section = solved.section();
    let width = |side| section.width(problem.cut.height, side);
    let (below, above) = (width(HeightSide::Below), width(HeightSide::Above));
    if (below - above).abs() > 1e-9 * below.max(above) && set.lesson.cut_from_axis.is_none() {
        words.push(format!(" Where the width jumps at the cut, that just {side} it counts.").into());
    }
    words
}

fn side_words(side: HeightSide) -> &'static str {
    match side {
        HeightSide::Below => "below",
        HeightSide::Above => "above",
    }
}

/// Whether a spacing is asked for.
fn asks_for_a_spacing(set: &SetPaper) -> bool {
    asked_roles(set).any(|role| role == Role::Spacing)
}

/// What the name of a step begins with, before that of its joint.
const STEP_OF: &str = "step of ";

/// Where a spacing is asked for, what it may be rounded down to.
fn steps(set: &SetPaper) -> Option<Block> {
    let solved = &set.solved;
    let given = solved.workings().in_order().map(|(_, working)| working);
    let told = |working: &Working| {
        let joint = working.name.strip_prefix(STEP_OF).filter(|_| working.symbol.role == Role::Spacing)?;
        Some(line![
            format!(
                "{} may be rounded down to a multiple of ",
                solved.in_a_sentence(&format!("Spacings of {joint}"))
            ),
            Inline::Given(working.value, working.symbol.role),
            ": closer together, each carries less. "
        ])
    };
    let words: Vec<Inline> = given.filter_map(told).flatten().collect();
    (asks_for_a_spacing(set) && !words.is_empty()).then_some(Block::Paragraph(words))
}

/// All that the questions ask for, and what is needed to draw what is to be drawn.
fn asked_and_drawn(set: &SetPaper) -> Vec<Id> {
    let (workings, key) = (set.solved.workings(), set.solved.key());
    let of = |part: &Part| match &part.ask {
        Ask::Sketch { sketch: Sketch::ShearForce | Sketch::BendingMoment } => {
            vec![key.shear, key.moment, key.largest_shear]
        }
        Ask::Sketch { sketch: Sketch::BendingStress | Sketch::PartBeyond } => {
            let outer = ["bending stress at the top", "bending stress at the bottom"];
            outer.iter().filter_map(|name| workings.id(name)).chain([key.stress_on_cut]).collect()
        }
        Ask::Sketch { sketch: Sketch::ShearStress | Sketch::LargestShearStress } => workings
            .id("largest shear stress over the depth")
            .into_iter()
            .chain([key.stress_on_cut])
            .collect(),
        _ => asked(part).and_then(|name| workings.id(name)).into_iter().collect(),
    };
    set.parts().flat_map(of).collect()
}

/// Given values that no drawing shows, as far as something asked for needs them. What a spacing is rounded down to is told in words.
fn other_values(set: &SetPaper) -> Option<Block> {
    let solved = &set.solved;
    let workings = solved.workings();
    let asked = asked_and_drawn(set);
    let is_needed = |working: &Working| {
        let reached = workings.id(&working.name).map(|id| workings.downstream(&[id])).unwrap_or_default();
        asked.iter().any(|id| reached.get(id.0 as usize).copied().unwrap_or(false))
    };
    let left_out = |working: &Working| {
        !is_needed(working) || (working.symbol.role == Role::Spacing && working.name.starts_with(STEP_OF))
    };
    // The run of a weld is a length that no drawing shows: what it carries follows from it.
    let is_run = |working: &Working| {
        let reached = workings.id(&working.name).map(|id| workings.downstream(&[id])).unwrap_or_default();
        let carried = |(id, working): (Id, &Working)| {
            working.symbol.role == Role::FastenerCapacity && reached.get(id.0 as usize) == Some(&true)
        };
        working.symbol.role == Role::Length && workings.in_order().any(carried)
    };
    let drawn = |working: &Working| {
        matches!(
            working.symbol.role,
            Role::Length
                | Role::Station
                | Role::SliceLength
                | Role::PointForce
                | Role::Couple
                | Role::SpreadLoad
                | Role::Settlement
                | Role::SupportStiffness
                | Role::Breadth
                | Role::Height
                | Role::Thickness
                | Role::Diameter
                | Role::CentroidHeight
                | Role::CutHeight
        )
    };
    let given = solved.workings().in_order().map(|(_, working)| working);
    let rows: Vec<Vec<Vec<Inline>>> = given
        .filter(|working| {
            working.formula == Formula::Given && (!drawn(working) || is_run(working)) && !left_out(working)
        })
        .map(|working| {
            vec![
                line![name(&working.name, solved)],
                vec![Inline::Math(Expression::Symbol(working.symbol.clone()))],
                vec![Inline::Given(working.value, working.symbol.role)],
            ]
        })
        .collect();
    (!rows.is_empty()).then(|| {
        Block::Table(Table {
            caption: line!["Given besides."],
            number: None,
            alignment: vec![Alignment::Left, Alignment::Left, Alignment::Right],
            header: vec![line!["Quantity"], line!["Symbol"], line!["Value"]],
            rows,
            row_heads: true,
            total: false,
        })
    })
}

/// That the equivalent stress counts, where what is asked for follows from it: it is no limit that is printed.
fn equivalent_stress(set: &SetPaper) -> Option<Block> {
    let workings = set.solved.workings();
    let counts = |asked: &Working| {
        let upstream = workings.id(&asked.name).map(|id| workings.upstream(id)).unwrap_or_default();
        let of_it = |(id, working): (Id, &Working)| {
            working.symbol.role == Role::EquivalentStress && upstream.get(id.0 as usize) == Some(&true)
        };
        asked.chapter == Chapter::Allowables && workings.in_order().any(of_it)
    };
    let words = line![
        "The equivalent stress counts too: in a ductile metal, where bending and shear act together, it may nowhere be more than the \
         allowable bending stress."
    ];
    asked_workings(set).any(counts).then_some(Block::Paragraph(words))
}

/// The usual caution, where what may be borne is given.
fn caution(solved: &Solved) -> Option<Block> {
    let reservation = reservations(solved).into_iter().find(|one| one.topic == Topic::RealStructures)?;
    Some(Block::Paragraph(line![reservation.sentence]))
}

/// The workings of all values that are asked for.
fn asked_workings(set: &SetPaper) -> impl Iterator<Item = &Working> {
    let asked = set.parts().filter_map(|part| match &part.ask {
        Ask::Value(value) => Some(&value.working),
        Ask::Choice(choice) => Some(&choice.value.working),
        Ask::Place(_) | Ask::Sketch { .. } => None,
    });
    asked.filter_map(|name| set.solved.workings().get(name))
}

/// Their roles.
fn asked_roles(set: &SetPaper) -> impl Iterator<Item = Role> {
    asked_workings(set).map(|working| working.symbol.role)
}

/// Which way asked values count as positive, where the figure of the signs does not tell.
fn signs(set: &SetPaper) -> Vec<Inline> {
    let asks = |wanted: &[Role]| asked_roles(set).any(|role| wanted.contains(&role));
    let mut words = Vec::new();
    if asks(&[Role::Reaction]) {
        words.push("Reactions count as positive upwards. ".into());
    }
    if asks(&[Role::ReactionCouple]) {
        words.push("Couples at supports count as positive counter-clockwise. ".into());
    }
    if asks(&[Role::BendingStress, Role::StressResultant]) {
        words.push("Tension is positive. ".into());
    }
    if asks(&[Role::BendingMoment]) {
        words.push("A moment is written with its sign: one that hogs is negative. ".into());
    }
    let workings = set.solved.workings();
    let by_size = |asked: &Working| workings.id(&asked.name).is_some_and(|id| set.solved.is_told_by_size(id));
    let along_the_cut = [Role::ShearStress, Role::ShearFlow, Role::ForceOnCut, Role::MeanShearStress];
    if asked_workings(set).any(|asked| {
        asked.chapter != Chapter::Walls && along_the_cut.contains(&asked.symbol.role) && !by_size(asked)
    }) {
        words.extend(line![
            "Shear stress, shear flow and the force on the cut have the sign of ",
            Inline::Math(Expression::Symbol(Symbol::plain(Role::ShearForce))),
            ". "
        ]);
    }
    words.extend(signs_in_walls(set));
    words
}

/// Which way flows, forces and torques count as positive in thin walls, and on which face, where one is asked for.
fn signs_in_walls(set: &SetPaper) -> Vec<Inline> {
    let asked: Vec<&Working> =
        asked_workings(set).filter(|asked| asked.chapter == Chapter::Walls && has_a_sense(asked)).collect();
    if asked.is_empty() {
        return Vec::new();
    }
    let mut words = line![
        "Flows and forces in the walls, and torques, are those on the left face of the slice, which a positive ",
        Inline::Math(Expression::Symbol(Symbol::plain(Role::ShearForce))),
        " pushes up; up, right and counter-clockwise are those of the section as it is drawn. "
    ];
    let asks = |role: Role| asked.iter().any(|working| working.symbol.role == role);
    let cells = set.solved.cells().map_or(0, |cells| cells.cells.len());
    let of_the_cell = |working: &&Working| working.name.contains("cut open");
    let untold = |working: &&Working| {
        working.symbol.role == Role::ShearFlow && !working.sentence.contains("Positive ")
    };
    if cells > 1 {
        if asked.iter().copied().any(|working| untold(&working)) {
            words.push(
                "Shear flow in the walls of no cell counts as positive on the way from the free edge inwards. ".into(),
            );
        }
    } else if asks(Role::ShearFlow) || asked.iter().copied().any(|working| of_the_cell(&working)) {
        words.push(
            match cells {
                0 => "Shear flow in the walls counts as positive on the way from the free edge inwards. ",
                _ => {
                    "Shear flow in the walls of the cell counts as positive counter-clockwise, in other walls on the way from the \
                     free edge inwards. "
                }
            }
            .into(),
        );
    }
    // Each by itself where no one way is that of all.
    let by_itself = |of: &&&Working| of.symbol.role == Role::WallForce || cells > 1;
    for of in asked.iter().filter(by_itself) {
        if let Some((_, sense)) = of.sentence.split_once("Positive ") {
            let (of, sense) = (name(&of.name, &set.solved), sense.trim_end_matches('.'));
            words.push(format!("The {of} counts as positive {sense}. ").into());
        }
    }
    if asks(Role::Torque) {
        words.push("Torques count as positive counter-clockwise. ".into());
    }
    words
}

/// Whether a value in a wall runs one way or the other.
fn has_a_sense(working: &Working) -> bool {
    matches!(working.symbol.role, Role::ShearFlow | Role::WallForce | Role::CellTwist | Role::Torque)
}

/// Whether a sign of V or M is asked for, or follows from it.
fn speaks_of_inner_forces(set: &SetPaper) -> bool {
    let follows = |role: Role| {
        matches!(
            role,
            Role::ShearForce
                | Role::BendingMoment
                | Role::BendingStress
                | Role::ShearStress
                | Role::ShearFlow
                | Role::ForceOnCut
        )
    };
    let draws = set.parts().any(|part| {
        matches!(
            part.ask,
            Ask::Sketch { sketch: Sketch::ShearForce | Sketch::BendingMoment | Sketch::BendingStress }
        )
    });
    draws || asked_roles(set).any(follows)
}
