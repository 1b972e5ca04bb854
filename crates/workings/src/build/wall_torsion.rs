//! What a torque does to thin walls, open or closed.

use super::builder::{Builder, Entry};
use super::wall_cells::{number, signed};
use super::wall_closing::Flexibilities;
use super::walls::{CHAPTER, CellWorkings, NOTHING, Strip, Strips};
use crate::dimension::Dimension;
use crate::evaluate::EvaluationError;
use crate::expression::Expression;
use crate::role::Role;
use crate::working::Id;
use mechanics::thin_wall::ThinWalls;

impl Builder<'_> {
    /// What the shear force does over the centroid: it twists. The torque, and what it does, in order.
    pub(super) fn torsion(
        &mut self,
        walls: &ThinWalls,
        strips: &Strips,
        (shear, place, centroid): (Id, Id, Id),
        cells: Option<&CellWorkings>,
    ) -> Result<Vec<Id>, EvaluationError> {
        let entry =
            Entry::new(CHAPTER, Role::Torque, "load", "torque if the load stands over the centroid").says(
                "A load over the centroid misses the shear centre. Moved there it leaves a couple behind, and that twists the beam.",
            );
        let arm = Expression::from(centroid) - place.into();
        let torque = self.formula(entry, Expression::from(shear) * arm)?;
        let mut found = vec![torque];
        found.extend(match cells {
            None => self.twist_of_open(walls, strips, torque)?,
            Some(cells) => self.twist_of_closed(walls, strips, (cells, torque))?,
        });
        Ok(found)
    }

    fn twist_of_open(
        &mut self,
        walls: &ThinWalls,
        strips: &Strips,
        torque: Id,
    ) -> Result<Vec<Id>, EvaluationError> {
        let entry = Entry::new(CHAPTER, Role::TorsionConstant, "", "torsion constant")
            .says("An open section resists twisting by its walls alone, each with a third of its thickness cubed times its length.");
        let constant = self.formula(entry, alone(strips.all.iter()))?;
        let mut found = vec![constant];
        let thickest = (0..strips.all.len())
            .max_by(|&a, &b| walls.walls()[a].thickness.total_cmp(&walls.walls()[b].thickness));
        if let Some(thickest) = thickest {
            let entry = Entry::new(CHAPTER, Role::ShearStress, "torsion", "shear stress of that torque").says(
                "On the faces of the thickest wall, were all of that torque taken by twisting alone. Compare it with the stress of the \
                 shear flow.",
            );
            let stress = Expression::from(torque).size() * strips.all[thickest].thickness.clone();
            found.push(self.formula(entry, stress / constant.into())?);
        }
        Ok(found)
    }

    fn twist_of_closed(
        &mut self,
        walls: &ThinWalls,
        strips: &Strips,
        (cells, torque): (&CellWorkings, Id),
    ) -> Result<Vec<Id>, EvaluationError> {
        let mut areas = Vec::new();
        for cell in 0..strips.cells.len() {
            areas.push(self.enclosed(strips, cell)?);
        }
        let mut found = areas.clone();
        let entry = match areas.len() {
            1 => {
                Entry::new(CHAPTER, Role::TorsionConstant, "slit", "torsion constant, were the cell slit open").says(
                    "Slit along one edge, the walls resist by themselves, each with a third of its thickness cubed times its length.",
                )
            }
            _ => {
                Entry::new(CHAPTER, Role::TorsionConstant, "slit", "torsion constant, were every cell slit open").says(
                    "Every cell slit along an edge, the walls resist by themselves, each with a third of its thickness cubed times its \
                     length.",
                )
            }
        };
        found.push(self.formula(entry, alone(strips.all.iter()))?);
        let mut outside = (0..strips.all.len())
            .filter(|&k| strips.cells_of(k).is_empty())
            .map(|k| &strips.all[k])
            .peekable();
        let all_in_cells = outside.peek().is_none();
        let rest = if all_in_cells { None } else { Some(alone(outside)) };
        match areas.as_slice() {
            [only] => found.extend(self.twist_of_one(walls, cells, (*only, torque, rest))?),
            all => found.extend(self.twist_of_several(walls, cells, (all, torque, rest))?),
        }
        Ok(found)
    }

    /// The area inside the middle lines of a cell.
    fn enclosed(&mut self, strips: &Strips, cell: usize) -> Result<Id, EvaluationError> {
        let ring = &strips.cells[cell].walls;
        let number = number(cell, strips.cells.len());
        let (index, name) = match number.as_str() {
            "" => ("m".to_owned(), "area inside the middle lines of the cell".to_owned()),
            number => (format!("m,{number}"), format!("area inside the middle lines of cell {number}")),
        };
        let entry = Entry::new(CHAPTER, Role::Area, &index, name)
            .says("Not the area of the walls: what their middle lines enclose.");
        let enclosed = match ring.as_slice() {
            [level, upright, _, _] => {
                Expression::from(strips.all[level.0].length) * strips.all[upright.0].length.into()
            }
            _ => {
                let term = |&(k, sense): &(usize, f64)| {
                    let strip = &strips.all[k];
                    let beside = strips.joints[strip.from][0].clone() * strip.length.into();
                    signed(if strip.ahead { sense } else { -sense }, beside)
                };
                Expression::sum(ring.iter().filter(|(k, _)| !strips.all[*k].level).map(term).collect())
            }
        };
        self.formula(entry, enclosed)
    }

    /// # Source
    /// R. Bredt (1896): `T = 2 A q`, `J = 4 A² / ∮ ds / t`.
    fn twist_of_one(
        &mut self,
        walls: &ThinWalls,
        cells: &CellWorkings,
        (enclosed, torque, rest): (Id, Id, Option<Expression>),
    ) -> Result<Vec<Id>, EvaluationError> {
        let round = cells.walls.iter().map(|of| Expression::from(of.length) / of.thickness.clone()).collect();
        let closed = Expression::Number(4.0) * Expression::from(enclosed).power(2) / Expression::sum(round);
        let entry = Entry::new(CHAPTER, Role::TorsionConstant, "", "torsion constant")
            .says("Closed, the shear flow can run round the cell, and its lever arm is the cell itself, not the thickness of a wall.");
        let all_in_the_cell = rest.is_none();
        let mut found = vec![self.formula(entry, with(closed, rest))?];
        let thickness = |of: &crate::build::CellWall| walls.walls()[of.wall].thickness;
        let thinnest = cells.walls.iter().min_by(|a, b| thickness(a).total_cmp(&thickness(b)));
        if let (Some(thinnest), true) = (thinnest, all_in_the_cell) {
            let entry = Entry::new(CHAPTER, Role::ShearStress, "torsion", "shear stress of that torque").says(
                "The torque runs round as one flow, the torque over twice the enclosed area; in the thinnest wall its stress is largest.",
            );
            let flow = Expression::from(torque).size() / (Expression::Number(2.0) * enclosed.into());
            found.push(self.formula(entry, flow / thinnest.thickness.clone())?);
        }
        Ok(found)
    }

    /// # Source
    /// R. Bredt (1896), for several cells: all twist alike, `∮ q ds / t = 2 A G θ′` round each, and `T = Σ 2 A q`. In any textbook of
    /// torsion, such as Timoshenko and Goodier, *Theory of Elasticity*, on thin tubes (from memory).
    fn twist_of_several(
        &mut self,
        walls: &ThinWalls,
        cells: &CellWorkings,
        (areas, torque, rest): (&[Id], Id, Option<Expression>),
    ) -> Result<Vec<Id>, EvaluationError> {
        let round: Vec<Id> = cells.cells.iter().filter_map(|of| of.condition).map(|of| of.round).collect();
        let flexibilities = Flexibilities { round: &round, shared: &cells.shared };
        let mut flows = Vec::new();
        for (cell, of) in cells.cells.iter().enumerate() {
            let name = format!(
                "flow of a torque round cell {}, for each unit of shear modulus times twist",
                of.number
            );
            let entry = Entry::new(CHAPTER, Role::ShearFlow, &format!("T,{}", of.number), name).says(
                "Under a torque all cells twist alike: the sum of the flow over the thickness round a cell is twice its area, times \
                 the shear modulus, times the twist of each length. Here for one of these products; an area remains. Positive \
                 counter-clockwise.",
            );
            flows.push(self.flow_round(entry, flexibilities.flow(cell, (2.0, areas)), Dimension::AREA)?);
        }
        let products = areas.iter().zip(&flows).map(|(&area, &flow)| Expression::from(area) * flow.into());
        let closed = Expression::Number(2.0) * Expression::sum(products.collect());
        let entry = Entry::new(CHAPTER, Role::TorsionConstant, "", "torsion constant")
            .says("Each cell takes of the torque twice its area times the flow round it.");
        let all_in_cells = rest.is_none();
        let constant = self.formula(entry, with(closed, rest))?;
        let mut found = flows.clone();
        found.push(constant);
        let most = |of: &crate::build::CellWall| {
            let flow: f64 = of.cells.iter().map(|&(cell, sense)| sense * self.value(flows[cell])).sum();
            flow.abs() / walls.walls()[of.wall].thickness
        };
        let largest =
            cells.walls.iter().fold(None, |largest: Option<&crate::build::CellWall>, of| match largest {
                Some(before) if most(of) <= most(before) * (1.0 + NOTHING) => Some(before),
                _ => Some(of),
            });
        if let (Some(wall), true) = (largest, all_in_cells) {
            let name = &walls.walls()[wall.wall].name;
            let entry = Entry::new(CHAPTER, Role::ShearStress, "torsion", "shear stress of that torque").says(format!(
                "Of that torque, in {}, where the flow over the thickness is largest; in a wall between two cells their flows run against \
                 each other.",
                super::names::with_article(name)
            ));
            let terms = wall.cells.iter().map(|&(cell, sense)| signed(sense, flows[cell].into())).collect();
            let stress = Expression::from(torque) * Expression::sum(terms);
            found.push(
                self.formula(entry, stress.size() / (Expression::from(constant) * wall.thickness.clone()))?,
            );
        }
        Ok(found)
    }
}

/// With what the walls outside the cells add.
fn with(closed: Expression, rest: Option<Expression>) -> Expression {
    match rest {
        Some(rest) => closed + rest,
        None => closed,
    }
}

/// The torsion constant of walls that resist by themselves, `Σ t³ L / 3`.
///
/// # Source
/// Saint-Venant's narrow rectangle, summed over the walls.
fn alone<'a>(strips: impl Iterator<Item = &'a Strip>) -> Expression {
    let term = |strip: &Strip| strip.thickness.clone().power(3) * Expression::from(strip.length);
    Expression::sum(strips.map(term).collect()) / 3.0.into()
}
