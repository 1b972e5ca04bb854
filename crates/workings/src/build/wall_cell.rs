//! A closed cell of thin walls: cut open, and closed again by the flow that undoes the twist.

use super::builder::{Builder, Entry};
use super::wall_flow::{along, arriving, flow_entry};
use super::walls::{CHAPTER, CellWorkings, Strip, Strips, WallFlow};
use crate::evaluate::EvaluationError;
use crate::expression::Expression;
use crate::role::Role;
use crate::working::Id;

/// The flow of a wall while the cell is cut open; none is zero, or half-way on a straight line.
#[derive(Clone, Copy, Default)]
struct Opened {
    begin: Option<Id>,
    middle: Option<Id>,
    end: Option<Id>,
}

/// What the section is meanwhile.
const OPEN: &str = "open";

impl Builder<'_> {
    /// The flows of a closed cell's walls; none where the section is open. All walls of the cell run counter-clockwise.
    ///
    /// # Source
    /// One redundant flow for one cell, from no twist under a force through the shear centre, `∮ q ds / t = 0`: T. H. G. Megson,
    /// *Aircraft Structures for Engineering Students*, shear of closed sections (from memory; each line follows from what is named).
    pub(super) fn close(
        &mut self,
        strips: &Strips,
        shear: Id,
        done: &mut [Option<WallFlow>],
    ) -> Result<Option<CellWorkings>, EvaluationError> {
        let Some(&first) = strips.cell.first() else { return Ok(None) };
        let cut = strips.all[first].from;
        let branches = arriving(strips, cut, |k| done[k].as_ref().map(|flow| flow.end));
        let (opened, open) = self.cut_open(strips, shear, (done, branches.is_empty()))?;
        let mut sums = Vec::new();
        for (&k, of) in strips.cell.iter().zip(&opened) {
            let strip = &strips.all[k];
            let name = format!("sum of the shear flow along {}, cut open", strip.name);
            let entry = Entry::new(CHAPTER, Role::WallForce, &format!("{}, open", strip.number), name)
                .says("The flow summed along the wall, counter-clockwise positive.");
            sums.push(self.formula(entry, along(strip, (of.begin, of.middle, of.end)))?);
        }
        let of_cell = || strips.cell.iter().map(|&k| &strips.all[k]);
        let twist =
            sums.iter().zip(of_cell()).map(|(&sum, strip)| Expression::from(sum) / strip.thickness.clone());
        let round = of_cell().map(|strip| Expression::from(strip.length) / strip.thickness.clone());
        let entry = Entry::new(CHAPTER, Role::ShearFlow, "0", "closing flow round the cell").says(
            "Cut open, the tube would twist: each wall by its sum of the flow over its thickness. One and the same flow round the whole \
             cell turns it back, and so large it must be. Thin walls count most.",
        );
        let closing =
            self.formula(entry, -(Expression::sum(twist.collect()) / Expression::sum(round.collect())))?;
        let mut before = closing;
        for (position, (&k, of)) in strips.cell.iter().zip(&opened).enumerate() {
            let strip = &strips.all[k];
            let begin = match position {
                0 => closing,
                _ => {
                    let mut brings = arriving(strips, strip.from, |other| {
                        let of_branch = !strips.cell.contains(&other);
                        done[other].as_ref().filter(|_| of_branch).map(|flow| flow.end)
                    });
                    brings.insert(0, before);
                    self.begin(strips, strip, (&brings, ""))?.unwrap_or(before)
                }
            };
            let middle = match of.middle {
                Some(middle) => {
                    let entry = flow_entry(strip, ", mid", "half-way", "").says("Both together.");
                    Some(self.formula(entry, Expression::from(middle) + closing.into())?)
                }
                None => None,
            };
            let end = match of.end {
                Some(end) => {
                    let place = format!("at {}", strips.names[strip.to]);
                    let entry = flow_entry(strip, "", &place, "")
                        .says("Both together: the flow of the open tube and the one round the cell, counter-clockwise positive.");
                    self.formula(entry, Expression::from(end) + closing.into())?
                }
                None => closing,
            };
            done[k] = Some(self.wall_flow(strip, (Some(begin), middle, end))?);
            before = end;
        }
        Ok(Some(CellWorkings {
            cut_at: strips.names[cut].clone(),
            open,
            sums,
            closing,
            walls: strips.cell.clone(),
            lengths: of_cell().map(|strip| strip.length).collect(),
        }))
    }

    /// The flows of the cell cut open at the beginning of its first wall, and all that was found for them. Back at the cut the
    /// flow is zero again, where no wall besides those of the cell brings anything.
    fn cut_open(
        &mut self,
        strips: &Strips,
        shear: Id,
        (done, ends_at_zero): (&[Option<WallFlow>], bool),
    ) -> Result<(Vec<Opened>, Vec<Id>), EvaluationError> {
        let mut opened: Vec<Opened> = Vec::new();
        let mut found = Vec::new();
        for (position, &k) in strips.cell.iter().enumerate() {
            let strip: &Strip = &strips.all[k];
            let mut of = Opened::default();
            if let Some(before) = opened.last() {
                let branches =
                    arriving(strips, strip.from, |other| done[other].as_ref().map(|flow| flow.end));
                let brings: Vec<Id> = before.end.into_iter().chain(branches).collect();
                of.begin = self.begin(strips, strip, (&brings, OPEN))?;
            }
            of.middle = self.half_way(strips, strip, (of.begin, shear, OPEN))?;
            if position + 1 < strips.cell.len() || !ends_at_zero {
                of.end = Some(self.at_the_end(strips, strip, (of.begin, shear, OPEN))?);
            }
            found.extend([of.begin, of.middle, of.end].into_iter().flatten());
            opened.push(of);
        }
        found.sort_unstable();
        found.dedup();
        Ok((opened, found))
    }
}
