//! The beam, its reactions, its diagrams.

use super::author::{Author, listed, share, symbol_of, value_of};
use super::joint_names::definite;
use super::line;
use crate::tree::{Alignment, Inline};
use lesson::{Scene, When};
use mechanics::beam::{Curve, Extreme, Law, Load};
use workings::dimension::Dimension;
use workings::elastic::ElasticTruth;
use workings::expression::Expression;
use workings::problem::{JointKind, Problem, SupportKind};
use workings::quantity::Quantity;
use workings::role::{Role, Symbol};

impl Author<'_> {
    pub(crate) fn beam(&mut self) {
        self.chapter("The beam");
        self.own_words(Scene::Beam, When::Before);
        let problem = self.solved.problem();
        let length = Inline::Given(Quantity::new(problem.beam.length, Dimension::LENGTH), Role::Length);
        let mut words = line!["The beam is ", length, " long. "];
        words.extend(self.supports());
        words.push(
            format!(" Its section, {}, is the same throughout. ", article(&problem.section_name)).into(),
        );
        self.say(words);
        let number = self.next_figure();
        self.figure(
            "beam-given",
            line!["The beam with its supports and its loads. The slice that we shall look at is marked."],
        );
        let joint = problem.cut.joint.as_deref().filter(|name| !name.is_empty());
        let place = match joint {
            // A row of screws is no line that a saw could follow.
            Some(name) if self.holds_by_fasteners(name) => format!("along the joint of {}", definite(name)),
            Some(name) => format!("along {}", definite(name)),
            None => "along the level of the cut".to_owned(),
        };
        self.say(line![
            format!(
                "One question runs through these notes. Suppose that the beam of figure {number} were sawn {place} \
                 from end to end: "
            ),
            Inline::Emphasis(line!["what force would have to act between what lies above the cut and what lies below it, to make both work as one again?"]),
        ]);
        self.own_words(Scene::Beam, When::After);
    }

    fn holds_by_fasteners(&self, joint: &str) -> bool {
        let joints = &self.solved.problem().joints;
        joints.iter().any(|one| one.name == joint && one.kind == JointKind::Fasteners)
    }

    /// `It stands on a pin A at 0 m and a roller B at 4 m.`
    fn supports(&self) -> Vec<Inline> {
        let problem = self.solved.problem();
        let held: Vec<Vec<Inline>> = problem
            .supports
            .iter()
            .zip(&problem.beam.supports)
            .map(|(label, support)| {
                let kind = match label.kind {
                    SupportKind::Pin => "the pin",
                    SupportKind::Roller => "the roller",
                    SupportKind::Fixed => "the fixed support",
                    SupportKind::Guided => "the guided support",
                    SupportKind::Spring => "the spring",
                };
                let at = Quantity::new(support.station, Dimension::LENGTH);
                line![format!("{kind} {} at ", label.name), Inline::Given(at, Role::Station)]
            })
            .collect();
        let mut words = line!["It is held by "];
        words.extend(listed(held));
        words.push(".".into());
        let hinges = hinges_in_words(problem);
        if !hinges.is_empty() {
            words.push(" ".into());
            words.extend(hinges);
        }
        words
    }

    pub(crate) fn reactions(&mut self) {
        self.chapter("The reactions");
        self.own_words(Scene::Reactions, When::Before);
        let number = self.next_figure();
        self.say(line![format!(
            "Take the supports away and put in their place what they do to the beam: forces, and where they keep it \
             from turning, couples. The beam is then a free body (figure {number}), and all that acts on it must \
             balance."
        )]);
        self.figure(
            "free-body",
            line!["The beam as a free body. Reactions are drawn as they act; a negative one acts downwards."],
        );
        let rows: Vec<Vec<Vec<Inline>>> = self
            .workings()
            .iter()
            .map(|(_, working)| working)
            .filter(|working| {
                matches!(working.symbol.role, Role::Reaction | Role::ReactionCouple)
                    && (working.name.starts_with("reaction at") || working.name.starts_with("couple at"))
            })
            .map(|working| {
                vec![line![working.name.as_str()], vec![symbol_of(working)], vec![value_of(working)]]
            })
            .collect();
        self.table(
            line![
                "What the supports do to the beam; forces are positive upwards, couples counter-clockwise."
            ],
            vec![line!["Reaction"], line!["Symbol"], line!["Value"]],
            vec![Alignment::Left, Alignment::Left, Alignment::Right],
            rows,
        );
        self.beam_balances();
        self.own_words(Scene::Reactions, When::After);
    }

    /// What the balances of the whole beam leave over.
    fn beam_balances(&mut self) {
        let balances = self.solved.beam().balances(&self.solved.problem().beam);
        let rows: Vec<Vec<Vec<Inline>>> = balances
            .iter()
            .filter(|balance| balance.scale > 0.0)
            .filter_map(|balance| {
                let law = match balance.law {
                    Law::SumOfForces => "forces, up and down",
                    Law::SumOfMoments => "moments about the left end",
                    Law::ShearAtRightEnd => "shear force beyond the right end",
                    Law::BendingMomentAtRightEnd => "bending moment beyond the right end",
                    Law::Hinges => "bending moment at the hinges",
                    Law::SupportMovements => "movements of the supports",
                    Law::SpringForces => "forces of the springs",
                    _ => return None,
                };
                Some(vec![line![law], line![share(balance.relative())]])
            })
            .collect();
        self.table(
            line![
                "The balances of the whole beam: what each leaves over, as a share of its largest term. Each must stay \
                 below 10⁻⁹."
            ],
            vec![line!["Balance"], line!["Left over"]],
            vec![Alignment::Left, Alignment::Right],
            rows,
        );
    }

    /// V, M and the deflected shape; the elastic solution of the section tells what shear adds to that.
    pub(crate) fn diagrams(&mut self, truth: Option<&ElasticTruth>) {
        self.chapter("Shear force and bending moment");
        self.own_words(Scene::Diagrams, When::Before);
        let symbol = |role: Role| Inline::Math(Expression::Symbol(Symbol::plain(role)));
        let (shear, moment) = (symbol(Role::ShearForce), symbol(Role::BendingMoment));
        // With the slice at the left end nothing is left of it, and there is no drawing of that piece.
        let number = self.next_figure();
        let (piece, signs) = match self.drawing("left-piece") {
            Some(_) => (format!(" (figure {number})"), number + 1),
            None => (String::new(), number),
        };
        self.say(line![
            "Cut the beam at a station ",
            symbol(Role::Along),
            ". What the right piece did to the left one must now act on the cut face: a shear force ",
            shear.clone(),
            " and a bending moment ",
            moment.clone(),
            format!("{piece}. Which way counts as positive is shown in figure {signs}.")
        ]);
        self.figure("left-piece", line!["The piece to the left of the slice as a free body."]);
        self.figure("signs", line!["The signs of the shear force and of the bending moment in this course."]);
        let slope = |of: Expression| {
            let d = |inner: Expression| Expression::Differential(Box::new(inner));
            Expression::Quotient(Box::new(d(of)), Box::new(d(Expression::Symbol(Symbol::plain(Role::Along)))))
        };
        let plain = |role: Role| Expression::Symbol(Symbol::plain(role));
        let number = self.next_figure();
        self.figure("element", line!["A short element of the beam, with all that acts on it."]);
        self.say(line![format!(
            "The balance of a short element (figure {number}) gives the slopes of both curves:"
        )]);
        self.equation(&Expression::Equal(vec![
            slope(plain(Role::ShearForce)),
            Expression::Negative(Box::new(plain(Role::SpreadLoad))),
        ]));
        let number = self
            .equation(&Expression::Equal(vec![slope(plain(Role::BendingMoment)), plain(Role::ShearForce)]));
        self.say(line![
            "The second, ",
            Inline::EquationNumber(number),
            ", is the one to keep in mind: where there is a shear force, the bending moment changes along the beam. All \
             that follows comes from this change."
        ]);
        let number = self.next_figure();
        self.say(line![format!("Figure {number} has both curves below the beam.")]);
        let couples = self.solved.problem().beam.loads.iter().any(|load| matches!(load, Load::Couple { .. }));
        let or_at_a_couple = if couples { ", or where a couple makes it jump" } else { "" };
        self.figure(
            "diagrams",
            line![
                "Load, shear force ",
                shear,
                " and bending moment ",
                moment,
                format!(
                    " on one axis. At a point force the shear force jumps. The bending moment is largest or smallest where the shear force \
                     passes zero{or_at_a_couple}."
                )
            ],
        );
        self.extremes();
        self.at_the_slice();
        if self.drawing("deflected").is_some() {
            let number = self.next_figure();
            self.say(line![format!("How the beam bends under these moments is shown in figure {number}.")]);
        }
        let held = if self.bends_askew() { ", held so that it cannot move sideways" } else { "" };
        self.figure(
            "deflected",
            line![format!(
                "The shape that the beam takes by bending alone{held}, much enlarged upwards and downwards."
            )],
        );
        if let Some(truth) = truth {
            self.say(self.sag_in_words(truth));
        }
        if let Some(words) = self.free_sideways() {
            self.say(words);
        }
        self.own_words(Scene::Diagrams, When::After);
    }

    fn extremes(&mut self) {
        let mut rows = Vec::new();
        for (curve, role, dimension, high, low) in [
            (Curve::Shear, Role::ShearForce, Dimension::FORCE, "highest shear force", "lowest shear force"),
            (
                Curve::BendingMoment,
                Role::BendingMoment,
                Dimension::MOMENT,
                "largest sagging moment",
                "largest hogging moment",
            ),
        ] {
            let extremes = self.solved.beam().extremes(curve);
            for (words, extreme) in [(high, &extremes.highest), (low, &extremes.lowest)] {
                if let Some(extreme) = extreme {
                    let value = Inline::Quantity(Quantity::new(extreme.value, dimension), role);
                    rows.push(vec![line![words], vec![value], places(extreme)]);
                }
            }
        }
        self.table(
            line!["Extreme values, found from the exact curves."],
            vec![line!["Value"], line!["Size"], line!["Where"]],
            vec![Alignment::Left, Alignment::Right, Alignment::Left],
            rows,
        );
    }

    fn at_the_slice(&mut self) {
        let (slice, key) = (self.solved.slice(), self.solved.key());
        self.say(line![
            "At the slice, ",
            self.symbol_and_value(slice.left_station),
            ", they are ",
            self.symbol_and_value(key.shear),
            " and ",
            self.symbol_and_value(key.moment),
            "."
        ]);
    }
}

/// `A hinge at 6 m joins the two pieces of the beam`: what it passes on and what not; nothing where there is none.
pub(crate) fn hinges_in_words(problem: &Problem) -> Vec<Inline> {
    let hinges = problem.beam.hinges.iter();
    let hinges: Vec<Vec<Inline>> = hinges
        .map(|&station| vec![Inline::Given(Quantity::new(station, Dimension::LENGTH), Role::Station)])
        .collect();
    let (before, after) = match hinges.len() {
        0 => return Vec::new(),
        1 => ("A hinge at ", " joins two pieces of the beam: it passes on a force, but no bending moment."),
        _ => ("Hinges at ", " join the pieces of the beam: each passes on a force, but no bending moment."),
    };
    let mut words = line![before];
    words.extend(listed(hinges));
    words.push(after.into());
    words
}

/// Where an extreme is reached.
fn places(extreme: &Extreme) -> Vec<Inline> {
    let station = |station: f64| Inline::Quantity(Quantity::new(station, Dimension::LENGTH), Role::Station);
    let mut items = Vec::new();
    for reached in &extreme.reached {
        items.push(match reached {
            mechanics::beam::Reached::At(place) => line!["at ", station(place.station)],
            mechanics::beam::Reached::Over { from, to } => {
                line!["from ", station(*from), " to ", station(*to)]
            }
        });
    }
    listed(items)
}

/// The name of a section with its article.
fn article(name: &str) -> String {
    let name = name.trim();
    let first = name.chars().next().unwrap_or('s');
    // A designation such as `IPE 300` is a name, and has none.
    let second_is_capital = name.chars().nth(1).is_some_and(|c| c.is_uppercase());
    if name.is_empty() {
        "as drawn".to_owned()
    } else if second_is_capital || first.is_ascii_digit() || counts(name) {
        name.to_owned()
    } else if matches!(first, 'a' | 'e' | 'i' | 'o' | 'A' | 'E' | 'I' | 'O') {
        format!("an {name}")
    } else {
        format!("a {name}")
    }
}

/// Whether a name begins with how many there are: `three planks`.
fn counts(name: &str) -> bool {
    const COUNTS: [&str; 9] = ["two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"];
    name.split_whitespace().next().is_some_and(|first| COUNTS.contains(&first.to_lowercase().as_str()))
}
