//! Closed cells of thin walls: each cut open once, and closed again by the flows that undo the twist.

use super::builder::{Builder, Entry};
use super::wall_flow::{along, arriving, flow_entry};
use super::walls::{CHAPTER, CellWall, CellWorkings, OneCell, Strip, Strips, WallFlow};
use crate::evaluate::EvaluationError;
use crate::expression::Expression;
use crate::role::Role;
use crate::working::Id;

/// The flow of a wall while the cells are cut open; none is zero, or half-way on a straight line.
#[derive(Clone, Copy, Default)]
struct Opened {
    begin: Option<Id>,
    middle: Option<Id>,
    end: Option<Id>,
}

/// What the section is meanwhile.
const OPEN: &str = "open";

impl Builder<'_> {
    /// The flows of the walls of closed cells; none where the section is open.
    ///
    /// # Source
    /// One redundant flow for each cell, from no twist under a force through the shear centre, `∮ q ds / t = 0` round each cell:
    /// T. H. G. Megson, *Aircraft Structures for Engineering Students*, shear of closed sections and of multicell wing sections (from
    /// memory; each line follows from what is named).
    pub(super) fn close(
        &mut self,
        strips: &Strips,
        shear: Id,
        done: &mut [Option<WallFlow>],
    ) -> Result<Option<CellWorkings>, EvaluationError> {
        let walls = strips.of_cells();
        if walls.is_empty() {
            return Ok(None);
        }
        let (opened, open) = self.cut_open(strips, shear, (&walls, done))?;
        let mut of_cells = Vec::new();
        for (&k, of) in walls.iter().zip(&opened) {
            let strip = &strips.all[k];
            let name = format!("sum of the shear flow along {}, cut open", strip.name);
            let entry = Entry::new(CHAPTER, Role::WallForce, &format!("{}, open", strip.number), name)
                .says(sense_of(strips, k));
            let sum = self.formula(entry, along(strip, (of.begin, of.middle, of.end)))?;
            of_cells.push(CellWall {
                wall: k,
                length: strip.length,
                thickness: strip.thickness.clone(),
                sum,
                cells: strips.cells_of(k),
                flows: Vec::new(),
            });
        }
        let (closings, shared) = self.closing_flows(strips.cells.len(), &of_cells)?;
        let round = |k: usize| -> Vec<(f64, Id)> {
            strips.cells_of(k).into_iter().map(|(cell, sense)| (sense, closings[cell].0)).collect()
        };
        for (place, (&k, of)) in walls.iter().zip(&opened).enumerate() {
            let strip = &strips.all[k];
            let before = self.before(strips, (k, &walls)).filter(|&j| round(j) == round(k));
            let begin = match before.and_then(|j| done[j].as_ref()) {
                Some(before) => before.end,
                None => self.both(strips, (k, ", in", strips.from(k)), (of.begin, &round(k)))?,
            };
            let middle = match of.middle {
                Some(middle) => {
                    Some(self.both(strips, (k, ", mid", "half-way".to_owned()), (Some(middle), &round(k)))?)
                }
                None => None,
            };
            let end = self.both(strips, (k, "", strips.to(k)), (of.end, &round(k)))?;
            of_cells[place].flows = [Some(begin), middle, Some(end)].into_iter().flatten().collect();
            done[k] = Some(self.wall_flow(strip, (Some(begin), middle, end))?);
        }
        let cells = strips.cells.iter().zip(closings).enumerate();
        let cells = cells.filter_map(|(cell, (ring, (closing, condition)))| {
            let cut = &strips.all[ring.walls.first()?.0];
            Some(OneCell {
                number: number(cell, strips.cells.len()),
                walls: ring.walls.iter().map(|(k, _)| *k).collect(),
                cut_wall: cut.name.clone(),
                cut_at: strips.names[cut.from].clone(),
                closing,
                condition,
            })
        });
        Ok(Some(CellWorkings {
            cells: cells.collect(),
            open,
            sums: of_cells.iter().map(|of| of.sum).collect(),
            shared,
            walls: of_cells,
        }))
    }

    /// The wall of a cell from which all flows into another that begins there; none where others bring something too, or the
    /// other is cut open there.
    fn before(&self, strips: &Strips, (wall, of_cells): (usize, &[usize])) -> Option<usize> {
        let mut arriving = (0..strips.all.len()).filter(|&j| strips.all[j].to == strips.all[wall].from);
        let only = arriving.next().filter(|j| of_cells.contains(j) && !strips.is_cut(wall))?;
        arriving.next().is_none().then_some(only)
    }

    /// The flow of the cells cut open and the flows round the cells together; the closing flow itself where it is alone.
    fn both(
        &mut self,
        strips: &Strips,
        (wall, index, place): (usize, &str, String),
        (open, round): (Option<Id>, &[(f64, Id)]),
    ) -> Result<Id, EvaluationError> {
        if let (None, [(1.0, closing)]) = (open, round) {
            return Ok(*closing);
        }
        let says = match (index, round) {
            ("", [_]) if strips.cells.len() == 1 => {
                "Both together: the flow of the open tube and the one round the cell, counter-clockwise positive.".to_owned()
            }
            (_, [_]) => "Both together.".to_owned(),
            _ => {
                let of = |(cell, sense): (usize, f64)| {
                    let way = if sense > 0.0 { "along its way" } else { "against its way" };
                    format!("{way} the flow round cell {}", number(cell, strips.cells.len()))
                };
                let all: Vec<String> = strips.cells_of(wall).into_iter().map(of).collect();
                format!("All together: this wall lies between two cells; {}.", all.join(", "))
            }
        };
        let strip = &strips.all[wall];
        let entry = flow_entry(strip, index, &place, "").says(strip.says(&says));
        let signed = round.iter().map(|&(sense, closing)| signed(sense, closing.into()));
        let terms: Vec<Expression> = open.map(Expression::from).into_iter().chain(signed).collect();
        self.formula(entry, Expression::sum(terms))
    }

    /// The flows of the cells, each cut open where its first wall begins, and all that was found for them. Back at the first cut the
    /// flow is zero again, where only one wall leads there.
    fn cut_open(
        &mut self,
        strips: &Strips,
        shear: Id,
        (walls, done): (&[usize], &[Option<WallFlow>]),
    ) -> Result<(Vec<Opened>, Vec<Id>), EvaluationError> {
        let mut opened: Vec<Option<Opened>> = vec![None; strips.all.len()];
        let mut found = Vec::new();
        let at_the_root = strips.all.iter().filter(|strip| Some(strip.to) == strips.root).count();
        for &k in walls {
            let strip: &Strip = &strips.all[k];
            let mut of = Opened::default();
            if !strips.is_cut(k) {
                let brings = arriving(strips, strip.from, |other| match opened[other] {
                    Some(opened) => opened.end,
                    None => done[other].as_ref().map(|flow| flow.end),
                });
                of.begin = self.begin(strips, strip, (&brings, OPEN))?;
            }
            of.middle = self.half_way(strips, strip, (of.begin, shear, OPEN))?;
            if Some(strip.to) != strips.root || at_the_root > 1 {
                of.end = Some(self.at_the_end(strips, strip, (of.begin, shear, OPEN))?);
            }
            found.extend([of.begin, of.middle, of.end].into_iter().flatten());
            opened[k] = Some(of);
        }
        found.sort_unstable();
        found.dedup();
        Ok((walls.iter().map(|&k| opened[k].unwrap_or_default()).collect(), found))
    }
}

impl Strips {
    fn from(&self, wall: usize) -> String {
        format!("at {}", self.names[self.all[wall].from])
    }

    fn to(&self, wall: usize) -> String {
        format!("at {}", self.names[self.all[wall].to])
    }
}

/// What a cell is called in symbols and names: a Roman number, as textbooks of aircraft structures have it, for walls are numbered
/// too; nothing where there is only one.
pub(super) fn number(cell: usize, of: usize) -> String {
    if of == 1 {
        return String::new();
    }
    let mut left = cell + 1;
    let mut number = String::new();
    for (value, letters) in
        [(100, "C"), (90, "XC"), (50, "L"), (40, "XL"), (10, "X"), (9, "IX"), (5, "V"), (4, "IV"), (1, "I")]
    {
        while left >= value {
            number.push_str(letters);
            left -= value;
        }
    }
    number
}

/// With the sign of a sense.
pub(super) fn signed(sense: f64, of: Expression) -> Expression {
    if sense > 0.0 { of } else { -of }
}

/// What is said of the flow summed along a wall of cells.
fn sense_of(strips: &Strips, wall: usize) -> String {
    let says = "The flow summed along the wall";
    let of = |&(cell, sense): &(usize, f64)| {
        let way = if sense > 0.0 { "counter-clockwise" } else { "clockwise" };
        format!("{way} round cell {}", number(cell, strips.cells.len()))
    };
    match strips.cells.len() {
        1 => format!("{says}, counter-clockwise positive."),
        _ => {
            let all: Vec<String> = strips.cells_of(wall).iter().map(of).collect();
            format!("{says}. Positive {}, which is {}.", strips.all[wall].sense(), all.join(" and "))
        }
    }
}

#[cfg(test)]
mod tests {
    #[test]
    fn cells_have_roman_numbers() {
        let numbers: Vec<String> = [0, 3, 8, 48].into_iter().map(|cell| super::number(cell, 50)).collect();
        assert_eq!(numbers, ["I", "IV", "IX", "XLIX"]);
        assert_eq!(super::number(0, 1), "");
    }
}
