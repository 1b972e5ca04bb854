//! Properties of the graph on random lessons.

use crate::common::Maker;
use crate::common::random::lesson;
use mechanics::beam::Load;
use mechanics::section::{Edge, Figure, Point};
use proptest::prelude::*;
use std::collections::BTreeMap;
use workings::derivation::derivation;
use workings::evaluate::{Evaluator, Replacement};
use workings::expression::Expression;
use workings::reservation::reservations;
use workings::solved::Solved;
use workings::style::Style;
use workings::working::{Formula, Id};

fn solved(maker: Maker) -> Result<Solved, TestCaseError> {
    Solved::new(maker.problem, Style::default()).map_err(|faults| {
        let told: Vec<String> = faults.iter().map(ToString::to_string).collect();
        TestCaseError::fail(told.join("\n"))
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 150, failure_persistence: None, ..ProptestConfig::default() })]

    /// Solving compares every working with the engine; here nothing may differ.
    #[test]
    fn workings_and_engine_agree(maker in lesson()) {
        let solved = solved(maker)?;
        for (id, working) in solved.workings().in_order() {
            prop_assert!(working.value.value.is_finite(), "{}", working.name);
            prop_assert!(!working.sentence.is_empty(), "{} says nothing", working.name);
            for read in solved.workings().reads(id) {
                prop_assert!(read < id, "{} reads a later working", working.name);
            }
        }
    }

    /// From a balance of millimetres to a bridge, from a feather to a ship: no scale is preferred.
    #[test]
    fn workings_and_engine_agree_at_any_scale(
        maker in lesson(),
        (long, deep, heavy, stiff) in (-3_i32..3, -3_i32..3, -6_i32..6, -4_i32..4),
    ) {
        let power = |n: i32| 10.0_f64.powi(n);
        let (long, deep, heavy, stiff) = (power(long) * 0.7, power(deep) * 1.3, power(heavy), power(stiff));
        let mut problem = maker.problem;
        let beam = &mut problem.beam;
        beam.length *= long;
        beam.flexural_rigidity *= stiff;
        beam.hinges.iter_mut().for_each(|hinge| *hinge *= long);
        beam.supports.iter_mut().for_each(|support| support.station *= long);
        for load in &mut beam.loads {
            match load {
                Load::Force { station, down: size } | Load::Couple { station, ccw: size } => {
                    *station *= long;
                    *size *= heavy;
                }
                Load::Spread { from, to, down_from, down_to } => {
                    [from, to].into_iter().for_each(|end| *end *= long);
                    [down_from, down_to].into_iter().for_each(|size| *size *= heavy);
                }
            }
        }
        problem.slice.at *= long;
        problem.slice.length *= long;
        let scaled = |point: Point| Point::new(point.x * deep, point.y * deep);
        for part in &mut problem.parts {
            for ring in std::iter::once(&mut part.outline).chain(&mut part.holes) {
                ring.start = scaled(ring.start);
                for edge in &mut ring.path {
                    match edge {
                        Edge::Line { to } => *to = scaled(*to),
                        Edge::Arc { to, centre, .. } => (*to, *centre) = (scaled(*to), scaled(*centre)),
                    }
                }
            }
            part.figure = match part.figure {
                Figure::Rectangle { breadth, height } => {
                    Figure::Rectangle { breadth: breadth * deep, height: height * deep }
                }
                // The graph knows rectangles and circles by their outlines too.
                _ => Figure::Outline,
            };
        }
        problem.cut.height *= deep;
        let beam_is_sound = problem.beam.faults().is_empty();
        if let Err(faults) = Solved::new(problem, Style::default()) {
            let ours: Vec<String> =
                faults.iter().filter(|fault| fault.is_ours()).map(ToString::to_string).collect();
            prop_assert!(ours.is_empty(), "{}", ours.join("\n"));
            prop_assert!(!beam_is_sound, "{faults:?}");
        }
    }

    #[test]
    fn no_two_workings_share_a_symbol(maker in lesson()) {
        let solved = solved(maker)?;
        let mut seen = BTreeMap::new();
        for (_, working) in solved.workings().in_order() {
            if let Some(other) = seen.insert(working.symbol.clone(), working.name.clone()) {
                prop_assert!(false, "{other} and {} are both {:?}", working.name, working.symbol);
            }
        }
    }

    #[test]
    fn a_working_replaced_by_its_own_value_or_formula_changes_nothing(maker in lesson()) {
        let solved = solved(maker)?;
        let workings = solved.workings();
        let mut evaluator = Evaluator::new(workings);
        for (id, working) in workings.in_order() {
            let by_value = workings.prepare(&[(id, Replacement::Value(working.value.value))]).expect("a value");
            prop_assert_eq!(evaluator.run(&by_value), workings.values(), "{}", working.name);
            if let Formula::Expression(expression) = &working.formula {
                let same = Replacement::Expression(expression.clone());
                let by_formula = workings.prepare(&[(id, same)]).expect("its own formula");
                prop_assert_eq!(evaluator.run(&by_formula), workings.values(), "{}", working.name);
            }
        }
    }

    /// Where only some workings are wanted, theirs are the values that come of evaluating all.
    #[test]
    fn what_is_wanted_alone_is_what_it_is_among_all(
        maker in lesson(),
        wanted in any::<prop::sample::Index>(),
        mistaken in any::<prop::sample::Index>(),
        factor in 0.5_f64..2.0,
    ) {
        let solved = solved(maker)?;
        let workings = solved.workings();
        let id = |index: &prop::sample::Index| Id(index.index(workings.len()) as u32);
        let (wanted, mistaken) = (id(&wanted), id(&mistaken));
        let given = workings.in_order().filter(|(_, working)| working.formula == Formula::Given);
        let mut changes: Vec<(Id, Replacement)> =
            given.map(|(id, working)| (id, Replacement::Value(factor * working.value.value))).collect();
        // A formula that reads a working which may stand after the one that it replaces.
        let other = workings.in_order().map(|(id, _)| id).filter(|&id| {
            workings.working(id).value.dimension == workings.working(mistaken).value.dimension
        });
        if let Some(other) = other.last() {
            changes.push((mistaken, Replacement::Expression(Expression::from(other) * 2.0.into())));
        }
        let prepared = workings.prepare(&changes).expect("of one dimension");
        let mut evaluator = Evaluator::new(workings);
        let all = evaluator.run(&prepared)[wanted.0 as usize];
        let alone = evaluator.run(&prepared.only(workings, [wanted]))[wanted.0 as usize];
        prop_assert!(all == alone || all.is_nan() && alone.is_nan(), "{} {} {}", workings.working(wanted).name, all, alone);
    }

    /// The graph with other loads and dimensions put in gives what solving the other lesson gives.
    #[test]
    fn other_givens_put_in_are_another_lesson(maker in lesson(), factor in 0.5_f64..2.0) {
        let mut other = maker.problem.clone();
        let solved = solved(maker)?;
        let workings = solved.workings();
        let mut replacements = Vec::new();
        for (place, load) in other.beam.loads.iter_mut().enumerate() {
            // Each load by another factor.
            let factor = factor * (1.0 + 0.1 * place as f64);
            match load {
                Load::Force { down, .. } => *down *= factor,
                Load::Couple { ccw, .. } => *ccw *= factor,
                Load::Spread { down_from, down_to, .. } => {
                    *down_from *= factor;
                    *down_to *= factor;
                }
            }
            let number = (place + 1).to_string();
            for (id, working) in workings.in_order() {
                let loads = ["force ", "couple ", "the force", "the couple", "intensity of "];
                let is_load = matches!(working.formula, Formula::Given)
                    && loads.iter().any(|load| working.name.starts_with(load))
                    && (working.name.split(' ').any(|word| word == number) || !working.name.contains(char::is_numeric));
                let alone = !working.name.contains(char::is_numeric);
                let kind = |load: &Load| match load {
                    Load::Force { .. } => "force",
                    Load::Couple { .. } => "couple",
                    Load::Spread { .. } => "spread",
                };
                let of_kind = working.name.contains(kind(&solved.problem().beam.loads[place]));
                if is_load && (!alone || of_kind) {
                    replacements.push((id, Replacement::Value(working.value.value * factor)));
                }
            }
        }
        let values = workings.evaluate_with(&replacements).expect("values can be put in");
        let other = Solved::new(other, Style::default()).expect("as sound as the first");
        let key = solved.key();
        let largest = |of: &Solved, id: Id| of.value(id).abs();
        let force_scale = other.beam().reactions().iter().fold(largest(&other, other.key().shear), |most, r| {
            most.max(r.force.abs()).max(r.couple.abs())
        });
        let mut asked = vec![
            (key.shear, other.key().shear, force_scale),
            (key.moment, other.key().moment, 10.0 * force_scale),
        ];
        for name in ["A", "B", "C", "D", "E"] {
            for what in ["reaction at ", "couple at "] {
                let name = format!("{what}{name}");
                if let (Some(a), Some(b)) = (workings.id(&name), other.workings().id(&name)) {
                    asked.push((a, b, 10.0 * force_scale));
                }
            }
        }
        for (mine, its, scale) in asked {
            let (found, expected) = (values[mine.0 as usize], other.value(its));
            let name = &workings.working(mine).name;
            prop_assert!((found - expected).abs() <= 1e-8 * scale + 1e-9, "{name}: {found} for {expected}");
        }
    }

    #[test]
    fn the_derivation_closes(maker in lesson()) {
        let solved = solved(maker)?;
        for step in derivation(&solved) {
            if let Some(closure) = step.residual {
                prop_assert!(closure.closes(), "{}: {closure:?}", step.title);
            }
            for line in step.symbols.iter().chain(&step.numbers) {
                line.each_working(&mut |_| panic!("{} is not resolved", step.title));
            }
        }
        prop_assert!(reservations(&solved).iter().all(|reservation| !reservation.sentence.is_empty()));
    }

    /// Formula, substitution and result are resolved, and the substitution is the formula with numbers.
    #[test]
    fn formulas_are_resolved_for_printing(maker in lesson()) {
        let solved = solved(maker)?;
        for (id, working) in solved.workings().in_order() {
            let Expression::Equal(links) = solved.workings().equation(id) else { panic!("a chain") };
            prop_assert!(links.len() >= 2, "{} has no value", working.name);
            for link in links {
                link.each_working(&mut |_| panic!("{} is not resolved", working.name));
            }
        }
    }
}
