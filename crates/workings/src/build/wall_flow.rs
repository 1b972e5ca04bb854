//! The shear flow along thin walls, the force that each takes, and the largest stress.

use super::builder::{Builder, Entry};
use super::names::with_article;
use super::walls::{CHAPTER, CellWorkings, NOTHING, Strip, Strips, WallFlow};
use crate::evaluate::EvaluationError;
use crate::expression::Expression;
use crate::role::Role;
use crate::working::Id;
use mechanics::thin_wall::ThinWalls;

impl Builder<'_> {
    /// What is added to the flow over a stretch of a wall, whose area times its distance is given.
    fn gathered(&self, begin: Option<Id>, term: Expression) -> Expression {
        // Where the distance counts upward, what lies above the axis takes from a flow that runs inwards.
        match (begin, self.axis_down) {
            (Some(begin), false) => Expression::from(begin) - term,
            (Some(begin), true) => Expression::from(begin) + term,
            (None, false) => -term,
            (None, true) => term,
        }
    }

    /// How far the distance that counts has grown over a quarter of the wall's length along the way; none where it does not change.
    fn quarter(&self, strips: &Strips, strip: &Strip) -> Option<Expression> {
        let quarter = Expression::from(strip.length) / 4.0.into();
        let rises = strip.ahead != self.axis_down;
        match (strip.level, &strips.slant) {
            (false, _) => Some(if rises { quarter } else { -quarter }),
            (true, None) => None,
            (true, Some(slant)) => {
                let change = slant.clone() * quarter;
                Some(if strip.ahead { -change } else { change })
            }
        }
    }

    /// The flows, wall by wall from the free edges inwards, in the order of the walls; and how the closed cells were closed.
    pub(super) fn flows(
        &mut self,
        strips: &Strips,
        shear: Id,
    ) -> Result<(Vec<WallFlow>, Option<CellWorkings>), EvaluationError> {
        let mut done: Vec<Option<WallFlow>> = vec![None; strips.all.len()];
        for &k in strips.order.iter().filter(|&&k| strips.cells_of(k).is_empty()) {
            let strip = &strips.all[k];
            let arriving = arriving(strips, strip.from, |other| done[other].as_ref().map(|flow| flow.end));
            let begin = self.begin(strips, strip, (&arriving, ""))?;
            let middle = self.half_way(strips, strip, (begin, shear, ""))?;
            let end = self.at_the_end(strips, strip, (begin, shear, ""))?;
            done[k] = Some(self.wall_flow(strip, (begin, middle, end))?);
        }
        let cells = self.close(strips, shear, &mut done)?;
        let flows: Vec<WallFlow> = done.into_iter().flatten().collect();
        self.sum_of_forces(strips, &flows)?;
        Ok((flows, cells))
    }

    /// A wall with the force that its flow adds up to.
    pub(super) fn wall_flow(
        &mut self,
        strip: &Strip,
        (begin, middle, end): (Option<Id>, Option<Id>, Id),
    ) -> Result<WallFlow, EvaluationError> {
        let force = self.force(strip, (begin, middle, end))?;
        let (number, way) = (strip.number.clone(), strip.sense());
        Ok(WallFlow { number, way, length: strip.length, against: strip.against, begin, middle, end, force })
    }

    /// The flow half-way along a wall by balance; none where it grows in a straight line. `state` is what the section is while
    /// this holds, for the name.
    pub(super) fn half_way(
        &mut self,
        strips: &Strips,
        strip: &Strip,
        (begin, shear, state): (Option<Id>, Id, &str),
    ) -> Result<Option<Id>, EvaluationError> {
        let Some(quarter) = self.quarter(strips, strip) else { return Ok(None) };
        let says = "Half-way: only the half of the wall up to there has been gathered, with the distance of its own middle.";
        let entry = flow_entry(strip, ", mid", "half-way", state).says(strip.says(says));
        let half = strip.thickness.clone() * strip.length.into() / 2.0.into();
        let distance = Expression::from(strip.distance) - quarter;
        let gathered = self.gathered(begin, rate(strips, shear, half, distance));
        self.formula(entry, gathered).map(Some)
    }

    /// The flow at the end of a wall by balance.
    pub(super) fn at_the_end(
        &mut self,
        strips: &Strips,
        strip: &Strip,
        (begin, shear, state): (Option<Id>, Id, &str),
    ) -> Result<Id, EvaluationError> {
        let says = match (begin, state.is_empty()) {
            (None, true) => {
                "From the free edge inwards: there the flow is zero, and every piece of wall adds its area times its distance \
                 from the axis. Positive on the way from the free edge inwards."
            }
            (None, false) if strip.of_several_cells => {
                "From the cut on, which is a free edge now: there the flow is zero, and every piece of wall adds its area times its \
                 distance from the axis."
            }
            (None, false) => {
                "From the cut on, which is a free edge now: there the flow is zero, and every piece of wall adds its area times its \
                 distance from the axis. Positive counter-clockwise."
            }
            (Some(_), _) => "On along the wall: what came in, and what the wall itself adds.",
        };
        let entry =
            flow_entry(strip, "", &format!("at {}", strips.names[strip.to]), state).says(strip.says(says));
        let area = strip.thickness.clone() * strip.length.into();
        let gathered = self.gathered(begin, rate(strips, shear, area, strip.distance.into()));
        self.formula(entry, gathered)
    }

    /// The flow where a wall begins: what the walls that end there bring.
    pub(super) fn begin(
        &mut self,
        strips: &Strips,
        strip: &Strip,
        (arriving, state): (&[Id], &str),
    ) -> Result<Option<Id>, EvaluationError> {
        match arriving {
            [] => Ok(None),
            [only] => Ok(Some(*only)),
            more => {
                let entry = flow_entry(strip, ", in", &format!("at {}", strips.names[strip.from]), state)
                    .says(strip.says("What flows into a joint flows out of it, like water in pipes."));
                let sum = more.iter().map(|&id| id.into()).collect();
                self.formula(entry, Expression::Sum(sum)).map(Some)
            }
        }
    }

    fn force(
        &mut self,
        strip: &Strip,
        (begin, middle, end): (Option<Id>, Option<Id>, Id),
    ) -> Result<Id, EvaluationError> {
        let says = match middle {
            None => "The flow grows in a straight line here: its mean times the length.",
            Some(_) => {
                "The flow follows a parabola here, and of a parabola Simpson's rule is exact: both ends and four times the middle."
            }
        };
        let entry =
            Entry::new(CHAPTER, Role::WallForce, &strip.number, format!("shear force in {}", strip.name))
                .says(format!("{says} Positive {}.", strip.sense()));
        self.formula(entry, along(strip, (begin, middle, Some(end))))
    }

    fn sum_of_forces(&mut self, strips: &Strips, flows: &[WallFlow]) -> Result<(), EvaluationError> {
        let upright = strips.all.iter().zip(flows).filter(|(strip, _)| !strip.level);
        let signed = |(strip, flow): (&Strip, &WallFlow)| {
            if strip.ahead { Expression::from(flow.force) } else { -Expression::from(flow.force) }
        };
        let entry = Entry::new(CHAPTER, Role::WallForce, "up", "upward sum of the forces in the walls")
            .says("The check: the upright walls together carry the whole shear force.");
        self.formula(entry, Expression::sum(upright.map(signed).collect()))?;
        Ok(())
    }

    /// The shear stress where it is largest.
    pub(super) fn largest_in_walls(
        &mut self,
        walls: &ThinWalls,
        strips: &Strips,
        (flows, shear): (&[WallFlow], Id),
    ) -> Result<(Option<Id>, Id), EvaluationError> {
        let found = walls.shear_flow(0.0, self.value(shear)).largest();
        let k = found.map_or(0, |found| found.wall);
        let (strip, flow) = (&strips.all[k], &flows[k]);
        let part = found.map_or(1.0, |found| if strip.against { 1.0 - found.part } else { found.part });
        let within = part > NOTHING && part < 1.0 - NOTHING;
        let quarter = self.quarter(strips, strip).filter(|_| within);
        let mut within_a_wall = None;
        let most = match quarter {
            None if part <= 0.5 && flow.begin.is_some() => flow.begin.unwrap_or(flow.end),
            None => flow.end,
            Some(quarter) => {
                let half = Expression::from(strip.length) / 2.0.into();
                let begin = Expression::from(strip.distance)
                    + match (strip.level, strip.ahead != self.axis_down) {
                        (false, true) => -half,
                        (false, false) => half,
                        (true, _) => -(Expression::Number(2.0) * quarter.clone()),
                    };
                // From where the distance begins to where it is zero, at the rate at which it changes along the wall.
                let reach = match (strip.level, strip.ahead != self.axis_down) {
                    (false, true) => -begin.clone(),
                    (false, false) => begin.clone(),
                    (true, _) => {
                        -(begin.clone() * strip.length.into() / (Expression::Number(4.0) * quarter.clone()))
                    }
                };
                let entry = Entry::new(
                    CHAPTER,
                    Role::WallLength,
                    "0",
                    format!("way along {} to the largest shear flow", strip.name),
                )
                .says("The flow is largest where what is gathered changes its sign: on the neutral axis.");
                let reach = self.formula(entry, reach)?;
                let area = strip.thickness.clone() * reach.into();
                // At the mean of both distances, of which the last is zero.
                let twice = Expression::Number(2.0) * strips.second_moment.into();
                let term = Expression::from(shear) * area * begin / twice;
                // A thinner wall may have the larger stress, and another the larger flow.
                let flows = walls.shear_flow(0.0, self.value(shear));
                let most = |wall: usize| flows.largest_in(wall).map_or(0.0, |of| of.flow.abs());
                let of_all = (0..strips.all.len()).all(|wall| most(wall) <= most(k) * (1.0 + NOTHING));
                let entry = match of_all {
                    true => Entry::new(
                        CHAPTER,
                        Role::ShearFlow,
                        "max",
                        "largest shear flow in the walls".to_owned(),
                    ),
                    false => flow_entry(strip, ", max", "where it is largest", ""),
                };
                let entry = entry.says(strip.says(&format!(
                    "In {}, where the neutral axis crosses it: what is gathered grows no more.",
                    with_article(&strip.name)
                )));
                let gathered = self.gathered(flow.begin, term);
                let most = self.formula(entry, gathered)?;
                within_a_wall = Some(most);
                most
            }
        };
        let entry = Entry::new(CHAPTER, Role::ShearStress, "wall", "largest shear stress in the walls")
            .says("The flow over the thickness of the wall, where that is most.");
        let stress = self.formula(entry, Expression::from(most).size() / strip.thickness.clone())?;
        Ok((within_a_wall, stress))
    }
}

/// What the walls bring that end at a joint, as far as it is found.
pub(super) fn arriving(strips: &Strips, joint: usize, end: impl Fn(usize) -> Option<Id>) -> Vec<Id> {
    (0..strips.all.len()).filter(|&k| strips.all[k].to == joint).filter_map(end).collect()
}

/// What an area at a distance adds to the flow.
fn rate(strips: &Strips, shear: Id, area: Expression, distance: Expression) -> Expression {
    Expression::from(shear) * area * distance / strips.second_moment.into()
}

/// A flow in a wall. `state` is what the section is while this holds: nothing, or `open` where cells are cut open.
pub(super) fn flow_entry(strip: &Strip, index: &str, place: &str, state: &str) -> Entry {
    let (mark, ending) = if state.is_empty() {
        (String::new(), String::new())
    } else {
        (format!(", {state}"), format!(", cut {state}"))
    };
    let name = format!("shear flow in {} {place}{ending}", strip.name);
    Entry::new(CHAPTER, Role::ShearFlow, &format!("{}{index}{mark}", strip.number), name)
}

/// A flow summed along a wall, from its values at both ends and half-way; what is none is zero, or lies on a straight line.
pub(super) fn along(strip: &Strip, (begin, middle, end): (Option<Id>, Option<Id>, Option<Id>)) -> Expression {
    let mut terms: Vec<Expression> = begin.map(Expression::from).into_iter().collect();
    terms.extend(middle.map(|middle| Expression::Number(4.0) * middle.into()));
    terms.extend(end.map(Expression::from));
    let parts = if middle.is_some() { 6.0 } else { 2.0 };
    Expression::from(strip.length) * Expression::sum(terms) / parts.into()
}
