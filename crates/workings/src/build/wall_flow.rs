//! The shear flow along thin walls, the force that each takes, the largest stress, and the shear centre.

use super::across::AcrossWorkings;
use super::builder::{Builder, Entry};
use super::walls::{CHAPTER, CentreWorkings, NOTHING, Strip, Strips, WallFlow};
use crate::evaluate::EvaluationError;
use crate::expression::Expression;
use crate::role::Role;
use crate::working::Id;
use mechanics::section::Point;
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

    /// The flows, wall by wall from the free edges inwards; in the order of the walls.
    pub(super) fn flows(
        &mut self,
        walls: &ThinWalls,
        strips: &Strips,
        shear: Id,
    ) -> Result<Vec<WallFlow>, EvaluationError> {
        let mut done: Vec<Option<WallFlow>> = vec![None; strips.all.len()];
        for &k in &strips.order {
            let strip = &strips.all[k];
            let arriving: Vec<Id> = strips
                .all
                .iter()
                .zip(&done)
                .filter(|(other, _)| other.to == strip.from)
                .filter_map(|(_, flow)| flow.as_ref().map(|flow| flow.end))
                .collect();
            let begin = self.begin(strips, strip, &arriving)?;
            let rate = |area: Expression, distance: Expression| {
                Expression::from(shear) * area * distance / strips.second_moment.into()
            };
            let area = strip.thickness.clone() * strip.length.into();
            let entry = |index: &str, place: String, says: &str| {
                let name = format!("shear flow in {} {place}", strip.name);
                Entry::new(CHAPTER, Role::ShearFlow, &format!("{}{index}", strip.number), name).says(says)
            };
            let quarter = self.quarter(strips, strip);
            let middle = match &quarter {
                None => None,
                Some(quarter) => {
                    let says = "Half-way: only the half of the wall up to there has been gathered, with the distance of its own middle.";
                    let entry = entry(", mid", "half-way".to_owned(), says);
                    let distance = Expression::from(strip.distance) - quarter.clone();
                    let half = area.clone() / 2.0.into();
                    let gathered = self.gathered(begin, rate(half, distance));
                    Some(self.formula(entry, gathered)?)
                }
            };
            let says = match begin {
                None => {
                    "From the free edge inwards: there the flow is zero, and every piece of wall adds its area times its distance \
                     from the axis. Positive on the way from the free edge inwards."
                }
                Some(_) => "On along the wall: what came in, and what the wall itself adds.",
            };
            let entry = entry("", format!("at {}", strips.names[strip.to]), says);
            let gathered = self.gathered(begin, rate(area, strip.distance.into()));
            let end = self.formula(entry, gathered)?;
            let force = self.force(strip, (begin, middle, end))?;
            done[k] =
                Some(WallFlow { against: strip.against, length: strip.length, begin, middle, end, force });
        }
        let flows: Vec<WallFlow> = done.into_iter().flatten().collect();
        self.sum_of_forces(walls, strips, &flows)?;
        Ok(flows)
    }

    /// The flow where a wall begins: what the walls that end there bring.
    fn begin(
        &mut self,
        strips: &Strips,
        strip: &Strip,
        arriving: &[Id],
    ) -> Result<Option<Id>, EvaluationError> {
        match arriving {
            [] => Ok(None),
            [only] => Ok(Some(*only)),
            more => {
                let name = format!("shear flow in {} at {}", strip.name, strips.names[strip.from]);
                let entry = Entry::new(CHAPTER, Role::ShearFlow, &format!("{}, in", strip.number), name)
                    .says("What flows into a joint flows out of it, like water in pipes.");
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
        let mut terms: Vec<Expression> = begin.map(Expression::from).into_iter().collect();
        let (says, parts) = match middle {
            None => ("The flow grows in a straight line here: its mean times the length.", 2.0),
            Some(middle) => {
                terms.push(Expression::Number(4.0) * middle.into());
                (
                    "The flow follows a parabola here, and of a parabola Simpson's rule is exact: both ends and four times the middle.",
                    6.0,
                )
            }
        };
        terms.push(end.into());
        let sense = match (strip.level, strip.ahead) {
            (true, true) => "to the right",
            (true, false) => "to the left",
            (false, true) => "up",
            (false, false) => "down",
        };
        let entry =
            Entry::new(CHAPTER, Role::WallForce, &strip.number, format!("shear force in {}", strip.name))
                .says(format!("{says} Positive {sense}."));
        self.formula(entry, Expression::from(strip.length) * Expression::sum(terms) / parts.into())
    }

    fn sum_of_forces(
        &mut self,
        _: &ThinWalls,
        strips: &Strips,
        flows: &[WallFlow],
    ) -> Result<(), EvaluationError> {
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
                let two = || Expression::Number(2.0) * quarter.clone();
                let begin = Expression::from(strip.distance) - two();
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
                let term =
                    Expression::from(shear) * area * (begin / 2.0.into()) / strips.second_moment.into();
                let entry =
                    Entry::new(CHAPTER, Role::ShearFlow, "max", "largest shear flow in the walls").says(format!(
                        "In {}, where the neutral axis crosses it: all that lies on one side has been gathered.",
                        strip.name
                    ));
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

    /// The shear centre by the balance of moments; none where it stands on the web.
    pub(super) fn shear_centre(
        &mut self,
        walls: &ThinWalls,
        strips: &Strips,
        (flows, shear, across): (&[WallFlow], Id, &AcrossWorkings),
    ) -> Result<Option<CentreWorkings>, EvaluationError> {
        let centre = walls.shear_centre();
        let size: f64 = (0..walls.walls().len()).map(|k| walls.length(k)).sum();
        let Some((web, line)) = walls.upright_wall_near(centre.x) else { return Ok(None) };
        if (centre.x - line).abs() <= NOTHING * size {
            return Ok(None);
        }
        let to_the_right = centre.x > line;
        let web_name = walls.walls()[web].name.clone();
        let web_place = strips.joints[walls.walls()[web].from][0].clone();
        let about = Point::new(line, walls.centroid().y);
        let flow = walls.shear_flow(0.0, self.value(shear));
        let scale = self.value(shear).abs() * size;
        let mut moments = Vec::new();
        for (k, (strip, of)) in strips.all.iter().zip(flows).enumerate() {
            if flow.wall_moment(k, about).abs() <= NOTHING * scale {
                continue;
            }
            let arm = if strip.level {
                let up = self.depth_of(walls, strips, k);
                if self.axis_down { -up } else { up }
            } else {
                strips.joints[strip.from][0].clone() - web_place.clone()
            };
            // Counter-clockwise: a force to the right turns so below, an upward one on the right.
            let turns = strip.level != strip.ahead;
            let product = Expression::from(of.force) * arm;
            let entry =
                Entry::new(CHAPTER, Role::Torque, &strip.number, format!("moment of the shear force in {}", strip.name))
                    .says(format!(
                        "About the point of the middle line of {web_name} level with the centroid, counter-clockwise positive."
                    ));
            moments.push(self.formula(entry, if turns { product } else { -product })?);
        }
        let entry = Entry::new(CHAPTER, Role::Torque, "", "moment of the shear flow").says(format!(
            "All forces in the walls together turn about the middle line of {web_name}: its own force has no arm there."
        ));
        let moment = self.formula(entry, Expression::sum(moments.iter().map(|&id| id.into()).collect()))?;
        let side = if to_the_right { "right" } else { "left" };
        let entry = Entry::new(CHAPTER, Role::ShearCentre, "", "distance of the shear centre from the web").says(format!(
            "The shear force must have the same moment as the shear flow: it must act this far to the {side} of the middle line of \
             {web_name}. Through that point, the shear centre, it bends the beam and does not twist it."
        ));
        let quotient = Expression::from(moment) / shear.into();
        let distance = self.formula(entry, quotient.size())?;
        self.closed_formula(walls, strips)?;
        let entry = Entry::new(CHAPTER, Role::Across, "S", "place of the shear centre to the right").says(
            "The shear centre, to the right of the leftmost fibre; negative where it lies outside the section, to the left.",
        );
        let place = if to_the_right {
            web_place.clone() + distance.into()
        } else {
            web_place.clone() - distance.into()
        };
        let place = self.formula(entry, place)?;
        let torque = self.torsion(walls, strips, (shear, place, across.centroid))?;
        Ok(Some(CentreWorkings {
            distance,
            web: web_place,
            to_the_right,
            place,
            centroid: across.centroid,
            torque,
            moments,
            moment,
        }))
    }

    /// The upright distance of a level wall from the axis, along the course's depth axis.
    fn depth_of(&self, walls: &ThinWalls, strips: &Strips, k: usize) -> Expression {
        let name = format!("distance of the middle of {} from the level axis", walls.walls()[k].name);
        self.workings.id(&name).unwrap_or(strips.all[k].distance).into()
    }

    /// The shear centre of a channel of equal flanges by the formula of the handbooks, where the section is one.
    fn closed_formula(&mut self, walls: &ThinWalls, strips: &Strips) -> Result<(), EvaluationError> {
        let flanges: Vec<usize> = (0..strips.all.len()).filter(|&k| strips.all[k].level).collect();
        let [one, other] = flanges.as_slice() else { return Ok(()) };
        let webs: Vec<&Strip> = strips.all.iter().filter(|strip| !strip.level).collect();
        let [web] = webs.as_slice() else { return Ok(()) };
        let near = |a: f64, b: f64| (a - b).abs() <= NOTHING * b.abs();
        let alike = near(walls.length(*one), walls.length(*other))
            && near(walls.walls()[*one].thickness, walls.walls()[*other].thickness)
            && strips.slant.is_none();
        if !alike {
            return Ok(());
        }
        let flange = &strips.all[*one];
        let entry =
            Entry::new(CHAPTER, Role::ShearCentre, "closed", "distance of the shear centre by the closed formula").says(
                "The same for a channel of equal flanges, worked out once for all: the shear force falls out, and so does I.",
            );
        let area = |strip: &Strip| strip.thickness.clone() * strip.length.into();
        let above =
            Expression::Number(3.0) * flange.thickness.clone() * Expression::from(flange.length).power(2);
        let below = Expression::Number(6.0) * area(flange) + area(web);
        self.formula(entry, above / below)?;
        Ok(())
    }

    /// What the same shear force does over the centroid: it twists.
    fn torsion(
        &mut self,
        walls: &ThinWalls,
        strips: &Strips,
        (shear, place, centroid): (Id, Id, Id),
    ) -> Result<Id, EvaluationError> {
        let entry =
            Entry::new(CHAPTER, Role::Torque, "load", "torque if the load stands over the centroid").says(
                "A load over the centroid misses the shear centre. Moved there it leaves a couple behind, and that twists the beam.",
            );
        let arm = Expression::from(centroid) - place.into();
        let torque = self.formula(entry, Expression::from(shear) * arm)?;
        let entry = Entry::new(CHAPTER, Role::TorsionConstant, "", "torsion constant")
            .says("An open section resists twisting by its walls alone, each with a third of its thickness cubed times its length.");
        let terms = strips
            .all
            .iter()
            .map(|strip| strip.thickness.clone().power(3) * Expression::from(strip.length))
            .collect();
        let constant = self.formula(entry, Expression::sum(terms) / 3.0.into())?;
        let thickest = (0..strips.all.len())
            .max_by(|&a, &b| walls.walls()[a].thickness.total_cmp(&walls.walls()[b].thickness));
        if let Some(thickest) = thickest {
            let entry = Entry::new(CHAPTER, Role::ShearStress, "torsion", "shear stress of that torque").says(
                "On the faces of the thickest wall, were all of that torque taken by twisting alone. Compare it with the stress of the \
                 shear flow.",
            );
            let stress = Expression::from(torque).size() * strips.all[thickest].thickness.clone();
            self.formula(entry, stress / constant.into())?;
        }
        Ok(torque)
    }
}
