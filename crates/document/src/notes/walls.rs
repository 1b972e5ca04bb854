//! Thin walls: the shear flow along them, the force that each takes, and the shear centre.

use super::author::{Author, listed, share};
use super::line;
use crate::tree::{Alignment, Block, Inline, Table};
use lesson::{Scene, When};
use mechanics::balance::Residual;
use mechanics::section::Point;
use mechanics::thin_wall::{FlowBalance, ShearFlow, ThinWalls, Wall};
use workings::dimension::Dimension;
use workings::expression::Expression;
use workings::quantity::Quantity;
use workings::role::Role;
use workings::solved::{CellWorkings, OneCell, WallFlow};
use workings::working::{Chapter, Id};

/// Forces, moments and distances below this part of their scale are zero: what is left of sums is 1e-13 of it.
const NOTHING: f64 = 1e-9;

fn quantity(value: f64, scale: f64, dimension: Dimension, role: Role) -> Inline {
    let value = if value.abs() <= NOTHING * scale { 0.0 } else { value };
    Inline::Quantity(Quantity::new(value, dimension), role)
}

/// What the table and the words of one lesson read.
struct Walls<'a> {
    walls: &'a ThinWalls,
    flow: ShearFlow<'a>,
    /// The shear force, N.
    force: f64,
    /// About where moments are taken, m.
    about: Point,
    /// What that place is called.
    place: String,
    /// The size of the section, m.
    size: f64,
}

impl Author<'_> {
    pub(crate) fn walls(&mut self) {
        let Ok(walls) = self.solved.problem().thin_walls() else { return };
        let force = self.solved.value(self.solved.slice().shear_left);
        // Without a shear force there is no drawing either, and nothing to say.
        if self.drawing("wall-flow").is_none() {
            return;
        }
        let flow = walls.shear_flow(0.0, force);
        let near = walls.upright_wall_near(walls.shear_centre().x);
        let x = near.map_or(walls.centroid().x, |(_, x)| x);
        let name = near.and_then(|(wall, _)| walls.walls().get(wall)).map(|wall| wall.name.as_str());
        let place = name.map_or("the centroid".to_owned(), |name| {
            format!("the point of the middle line of the {name} level with the centroid")
        });
        let size = (0..walls.walls().len()).map(|wall| walls.length(wall)).sum();
        let about = Point::new(x, walls.centroid().y);
        let of = Walls { walls: &walls, flow, force, about, place, size };
        self.chapter(Chapter::Walls.title());
        self.own_words(Scene::Walls, When::Before);
        self.how_it_flows(&of);
        self.steps_of_flow();
        self.table_of_walls(&of);
        self.where_it_acts(&of, name.is_some());
        self.twist();
        self.own_words(Scene::Walls, When::After);
    }

    fn how_it_flows(&mut self, of: &Walls) {
        let number = self.next_figure();
        self.say(line![format!(
            "The walls of this section are thin, so the shear stress runs along them. Cut a wall square to its middle line: \
             what the piece from a free edge to the cut needs for its balance is the shear flow there, the stress times the \
             thickness (figure {number}). Where walls meet, as much flows in as flows out, like water in pipes."
        )]);
        if !of.walls.cells().is_empty() {
            let twists =
                if of.walls.cells().len() == 1 { "the cell does not twist" } else { "no cell twists" };
            self.say(line![format!(
                "A closed cell has no free edge to begin from. One flow round each cell stays unknown, and it is found from \
                 this: under a force through the shear centre {twists}."
            )]);
        }
        if of.walls.bends_askew() {
            self.say(line![
                "No axis of symmetry stands upright or level here. A beam that is free to bend sideways does so, and the flow \
                 follows from both bendings together; for the stress over the depth the section was taken to bend up and \
                 down alone."
            ]);
        }
        let caption =
            line!["The shear flow in the walls, its size drawn off each wall, and the shear centre."];
        self.figure("wall-flow", caption);
    }

    /// The flow wall by wall in formulas; nothing where they are left to the engine.
    fn steps_of_flow(&mut self) {
        let ids = |role: Role| -> Vec<Id> {
            let of_role =
                self.workings().chapter(Chapter::Walls).filter(|(_, working)| working.symbol.role == role);
            of_role.map(|(id, _)| id).filter(|id| !self.solved.torsion().contains(id)).collect()
        };
        let (flows, forces) = (ids(Role::ShearFlow), ids(Role::WallForce));
        if flows.is_empty() {
            self.by_the_engine();
            return;
        }
        self.numbers_of_walls();
        if let Some(moment) = self.workings().id("second moment by middle lines") {
            let equation = self.workings().equation(moment);
            self.say(line![self.style.notation.in_its_words("The middle lines have the second moment")]);
            self.equation(&equation);
        }
        match self.solved.cells() {
            None => {
                self.say(line!["From the free edges inwards, wall by wall:"]);
                self.equations(&flows);
            }
            Some(cells) => self.closed_cells(cells, &flows),
        }
        let forces: Vec<Id> = match self.solved.cells() {
            None => forces,
            Some(cells) => forces.into_iter().filter(|id| !cells.sums.contains(id)).collect(),
        };
        let grows = if self.bends_askew() {
            "Bending is askew, so the stress changes along the level walls too, and along every wall whose distance from the \
             inclined axis changes the flow follows a parabola:"
        } else {
            "Along a level wall it grows in a straight line, along an upright one as a parabola:"
        };
        self.say(line![format!("Summed along a wall the flow is a force. {grows}")]);
        self.equations(&forces);
        if let Some(largest) = self.workings().id("largest shear stress in the walls") {
            let equation = self.workings().equation(largest);
            self.say(line!["The stress is largest where the flow over the thickness is:"]);
            self.equation(&equation);
        }
    }

    /// What the engine finds where walls slope, are round, or hang between cells: no hand would go along them.
    fn by_the_engine(&mut self) {
        let Ok(walls) = self.solved.problem().thin_walls() else { return };
        let flow = walls.shear_flow(0.0, self.solved.value(self.solved.slice().shear_left));
        let Some(most) = flow.largest() else { return };
        let of = |value: f64, dimension: Dimension, role: Role| {
            Inline::Quantity(Quantity::new(value, dimension), role)
        };
        let name = walls.walls().get(most.wall).map_or("wall", |wall| wall.name.as_str());
        self.say(line![
            "Along a straight wall that slopes the flow still follows a parabola, along a round one sines and cosines. The sums are \
             the same, but long: here they are worked out exactly along the middle lines, and only what comes out is told. The stress is \
             largest in the ",
            name.to_owned(),
            ", at a height of ",
            of(self.solved.section().properties().told(most.at.y), Dimension::LENGTH, Role::CutHeight),
            ": a flow of ",
            of(most.flow.abs(), Dimension::FORCE_PER_LENGTH, Role::ShearFlow),
            " over the thickness is ",
            Inline::Strong(vec![of(most.stress, Dimension::STRESS, Role::ShearStress)]),
            ". What each wall takes can be held against the shear force:"
        ]);
    }

    /// The height of the shear centre, and what the walls resist twisting with.
    fn height_and_torsion(&mut self, of: &Walls) {
        let properties = self.solved.section().properties();
        let length = |value: f64| {
            Inline::Quantity(Quantity::new(properties.told(value), Dimension::LENGTH), Role::CutHeight)
        };
        let constant = of.walls.torsion_constant();
        let mut words = line![
            "The shear centre is as high as ",
            length(of.walls.shear_centre().y),
            ": a level force would have to act there."
        ];
        if self.workings().id("torsion constant").is_none() {
            words.extend(line![
                " The torsion constant of these walls is ",
                Inline::Quantity(Quantity::new(constant, Dimension::LENGTH_4), Role::TorsionConstant),
                if of.walls.cells().is_empty() {
                    ": a third of the thickness cubed times the length, summed over the walls."
                } else {
                    ": by the flow round the cells (Bredt), and a third of the thickness cubed times the length of walls outside them."
                }
            ]);
        }
        self.say(words);
    }

    /// Which wall has which number in the formulas, and which way its flow counts.
    fn numbers_of_walls(&mut self) {
        let Ok(walls) = self.solved.problem().thin_walls() else { return };
        let length = |value: f64| Inline::Quantity(Quantity::new(value, Dimension::LENGTH), Role::Thickness);
        let row = |(wall, of): (&Wall, &WallFlow)| {
            vec![
                line![wall.name.clone()],
                line![of.number.clone()],
                line![self.value(of.length)],
                line![length(wall.thickness)],
                line![of.way],
            ]
        };
        let rows = walls.walls().iter().zip(self.solved.walls()).map(row).collect();
        let caption = line![
            "The walls by their numbers in the formulas, and the way along which each is gone: so its flow is positive."
        ];
        let header = ["Wall", "Number", "Length", "Thickness", "Way"].map(|head| line![head]).to_vec();
        let alignment =
            vec![Alignment::Left, Alignment::Right, Alignment::Right, Alignment::Right, Alignment::Left];
        self.table(caption, header, alignment, rows);
    }

    /// Closed cells cut open, and closed again.
    fn closed_cells(&mut self, cells: &CellWorkings, flows: &[Id]) {
        let closings: Vec<Id> = cells.cells.iter().map(|cell| cell.closing).collect();
        let first = cells.open.first().or(closings.first()).copied();
        let branches: Vec<Id> = flows.iter().copied().filter(|id| Some(*id) < first).collect();
        let alone = cells.cells.len() == 1;
        if !branches.is_empty() {
            let outside = if alone { "the cell" } else { "the cells" };
            self.say(line![format!("The walls outside {outside} first, from their free edges inwards:")]);
            self.equations(&branches);
        }
        match cells.cells.as_slice() {
            [only] => self.say(line![format!(
                "Now cut the cell open at {}, in thought. There is a free edge again, and from there all goes counter-clockwise as in any open section:",
                at_its_wall(&only.cut_at)
            )]),
            all => {
                let of = |cell: &OneCell| {
                    line![format!("cell {} at {} ({})", cell.number, at_its_wall(&cell.cut_at), cell.cut_wall)]
                };
                let mut words = line!["Now cut every cell open once, in thought: "];
                words.extend(listed(all.iter().map(of).collect()));
                words.push(". What is left has free edges and no closed way, and from the cuts all goes as in any open section:".into());
                self.say(words);
            }
        }
        self.equations(&cells.open);
        let twists = if alone {
            "the tube would twist, and both edges of the cut"
        } else {
            "the cells would twist, and both edges of each cut"
        };
        self.say(line![format!(
            "So cut, {twists} would slide along each other. What each wall adds to that is the sum of the flow over the thickness along it:"
        )]);
        self.equations(&cells.sums);
        if alone {
            self.say(line!["One flow round the whole cell, the same in every wall, turns it back:"]);
            self.equations(&closings);
            self.say(line!["Both together are the flow of the closed cell:"]);
        } else {
            self.conditions(cells);
            self.say(line!["As many equations as flows; solved together they give:"]);
            self.equations(&closings);
            self.say(line![
                "All together are the flow of the closed cells; in a wall between two cells both closing flows run, one with its way and \
                 one against it:"
            ]);
        }
        let closed: Vec<Id> = flows.iter().copied().filter(|id| Some(id) > closings.last()).collect();
        self.equations(&closed);
    }

    /// What says that none of several cells twists.
    fn conditions(&mut self, cells: &CellWorkings) {
        let conditions: Vec<_> = cells.cells.iter().filter_map(|cell| cell.condition).collect();
        let open: Vec<Id> = conditions.iter().map(|of| of.open).collect();
        self.say(line![
            "Round each cell these add up, with a minus where the way of a wall runs clockwise round it:"
        ]);
        self.equations(&open);
        self.say(line![
            "One flow round each cell is to turn it back. But the wall between two cells belongs to both: the flow round the one passes it, \
             and twists the other as well. A flow of one gives these sums, that in the wall between negative, for there the one cell's \
             flow runs against the other's:"
        ]);
        let round = conditions.iter().map(|of| of.round).chain(cells.shared.iter().map(|(.., id)| *id));
        self.equations(&round.collect::<Vec<_>>());
        self.say(line!["No cell twists: that is one condition for each."]);
        for (cell, of) in conditions.iter().enumerate() {
            let flexibility = |other: usize| {
                if other == cell {
                    return Some(of.round);
                }
                let pair = (cell.min(other), cell.max(other));
                cells.shared.iter().find(|(one, other, _)| (*one, *other) == pair).map(|(.., id)| *id)
            };
            let term = |(other, beside): (usize, &OneCell)| {
                Some(Expression::from(flexibility(other)?) * beside.closing.into())
            };
            let terms = cells.cells.iter().enumerate().filter_map(term).chain([of.open.into()]).collect();
            let sum = self.workings().in_symbols(&Expression::Sum(terms));
            self.equation(&Expression::Equal(vec![sum, Expression::Number(0.0)]));
        }
    }

    /// The shear centre in formulas, and what a load beside it does; nothing where it stands on the web.
    fn twist(&mut self) {
        let Some(distance) = self.workings().id("distance of the shear centre from the web") else { return };
        let equation = self.workings().equation(distance);
        self.equation(&equation);
        if let Some(closed) = self.workings().id("distance of the shear centre by the closed formula") {
            let equation = self.workings().equation(closed);
            self.say(line!["For a channel of equal flanges all of this falls together into one formula:"]);
            self.equation(&equation);
        }
        let of = |name: &str| self.workings().id(name);
        let (Some(torque), Some(stress)) =
            (of("torque if the load stands over the centroid"), of("shear stress of that torque"))
        else {
            return;
        };
        let (taken, ending) = match self.solved.cells().map_or(0, |cells| cells.cells.len()) {
            0 => (
                "Taken by the thin walls alone that is ",
                " of the shear flow. Where the ends are held against warping the flanges help, and it is less; how much is beyond this \
                 lesson.",
            ),
            1 => (
                "The flow that takes it up runs round the cell and makes ",
                " of the shear flow. Slit along one edge, the same walls would hardly resist twisting, each strip by itself with its thickness cubed: compare \
                 the two torsion constants.",
            ),
            _ => (
                "A flow round each cell takes it up, so that all cells twist alike, and makes ",
                " of the shear flow. With every cell slit along an edge, the same walls would hardly resist twisting, each strip by itself with its thickness \
                 cubed: compare the two torsion constants.",
            ),
        };
        self.say(line![
            "Put the load over the centroid, as one would without thinking, and at the slice the beam is twisted by ",
            Inline::Strong(vec![self.value(torque)]),
            format!(". {taken}a shear stress of "),
            Inline::Strong(vec![self.value(stress)]),
            ", on top of the ",
            self.workings()
                .id("largest shear stress in the walls")
                .map_or("stress".into(), |id| self.value(id)),
            ending
        ]);
        self.equations(self.solved.torsion());
    }

    fn table_of_walls(&mut self, of: &Walls) {
        // Each column has the unit of its largest value.
        let column = |values: &[f64], scale: f64, dimension: Dimension, role: Role| -> Vec<Inline> {
            let settle = |value: &f64| if value.abs() <= NOTHING * scale { 0.0 } else { *value };
            let settled: Vec<f64> = values.iter().map(settle).collect();
            let largest = settled.iter().map(|value| value.abs()).fold(0.0, f64::max);
            let text =
                |value| self.style.show_beside(Quantity::new(value, dimension), role, largest).text().into();
            settled.into_iter().map(text).collect()
        };
        let all = of.flow.resultant();
        let count = of.walls.walls().len();
        let taken: Vec<Point> = (0..count).map(|k| of.flow.wall_resultant(k)).chain([all]).collect();
        let turning: Vec<f64> = (0..count)
            .map(|k| of.flow.wall_moment(k, of.about))
            .chain([of.flow.moment_about(of.about)])
            .collect();
        let [right, up]: [Vec<f64>; 2] =
            [|p: &Point| p.x, |p: &Point| p.y].map(|part| taken.iter().map(part).collect());
        let force = |values: &[f64]| column(values, of.force.abs(), Dimension::FORCE, Role::ShearForce);
        let moments = column(&turning, of.force.abs() * of.size, Dimension::MOMENT, Role::BendingMoment);
        let names = of.walls.walls().iter().map(|wall| wall.name.clone()).chain(["all walls".to_owned()]);
        let columns = force(&right).into_iter().zip(force(&up)).zip(moments);
        let rows = names.zip(&up).zip(columns).map(|((name, up), ((right, upward), moment))| {
            let share = quantity(up / of.force, 1.0, Dimension::NONE, Role::Ratio);
            vec![line![name], line![right], line![upward], line![share], line![moment]]
        });
        let rows = rows.collect();
        let caption = line![format!(
            "What each wall takes of the shear force; moments are about {}, counter-clockwise positive.",
            of.place
        )];
        let header =
            vec![line!["Wall"], line!["To the right"], line!["Upward"], line!["Share"], line!["Moment"]];
        let mut alignment = vec![Alignment::Left];
        alignment.extend([Alignment::Right; 4]);
        self.table(caption, header, alignment, rows);
        if let Some(Block::Table(Table { total, .. })) = self.blocks.last_mut() {
            *total = true;
        }
        let balance = of.flow.balance();
        // What is exactly nothing is not told as a share.
        let to = |relative: f64, of: &str| match relative == 0.0 {
            true => String::new(),
            false => format!(", to {} of {of}", share(relative)),
        };
        let FlowBalance { up, moment, cells, .. } = &balance;
        self.say(line![format!(
            "The upward parts add up to the shear force{}, and the level parts to nothing. The moment of all of it \
             is that of the shear force through the shear centre{}.",
            to(up.relative(), "it"),
            to(moment.relative(), "its largest term")
        )]);
        let most = cells.iter().map(Residual::relative).reduce(f64::max);
        if let Some(most) = most {
            let round = if cells.len() == 1 { "the cell" } else { "each cell" };
            let open = to(most, "its largest term");
            self.say(line![format!(
                "Round {round} the flow over the thickness sums up to nothing{open}: no twist."
            )]);
        }
    }

    fn where_it_acts(&mut self, of: &Walls, at_wall: bool) {
        let offset = of.walls.shear_centre().x - of.about.x;
        let from = if at_wall { "that middle line" } else { "the centroid" };
        if offset.abs() <= NOTHING * of.size {
            // Walls that all pass through the point have no moment each; others have moments that cancel.
            let each = (0..of.walls.walls().len()).map(|wall| of.flow.wall_moment(wall, of.about).abs());
            let all_are_none = each.fold(0.0, f64::max) <= NOTHING * of.force.abs() * of.size;
            let moments = if all_are_none { "No wall has a moment" } else { "These moments cancel" };
            self.say(line![format!(
                "{moments}: the shear centre stands on {}. A force along that line bends the beam and does not \
                 twist it.",
                if at_wall { "that middle line" } else { "the upright line through the centroid" }
            )]);
        } else {
            let side = if offset > 0.0 { "right" } else { "left" };
            self.say(line![
                "The moment of all walls over the shear force is the distance of the shear centre, ",
                quantity(offset.abs(), of.size, Dimension::LENGTH, Role::CutDistance),
                format!(
                    " to the {side} of {from}. A load along another line twists the beam as well, by its force times its \
                     distance from there."
                )
            ]);
        }
        self.height_and_torsion(of);
        let whole = self.solved.section().properties().second_moment;
        let moment =
            |value: f64| Inline::Quantity(Quantity::new(value, Dimension::LENGTH_4), Role::SecondMoment);
        let called = self.style.notation.in_its_words("second moment");
        self.say(line![
            format!(
                "All of this is by middle lines: fillets and what walls share at corners are not met exactly, and a flange that tapers \
                 counts with its mean thickness. The {called} by middle lines is "
            ),
            moment(of.walls.second_moment()),
            "; that of the outline is ",
            moment(whole),
            "."
        ]);
    }
}

/// `the lower end of back` as it is said in a sentence.
fn at_its_wall(joint: &str) -> String {
    joint.replace(" end of ", " end of the ")
}
