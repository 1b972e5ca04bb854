//! The joints between the parts: shear flow, force on a fastener, the largest spacing.

use super::builder::{Builder, Entry};
use super::section::SectionWorkings;
use crate::dimension::Dimension;
use crate::engine::Call;
use crate::evaluate::EvaluationError;
use crate::expression::Expression;
use crate::problem::{Joint, JointKind};
use crate::role::Role;
use crate::working::{Chapter, Id, Place};
use mechanics::section::Section;

const CHAPTER: Chapter = Chapter::Joints;

/// The workings of one joint.
#[derive(Clone, Debug)]
pub(crate) struct JointWorkings {
    pub(crate) name: String,
    pub(crate) area: Id,
    pub(crate) centroid: Id,
    pub(crate) arm: Id,
    pub(crate) first_moment: Id,
    /// The pieces that it holds, by their place among the section's.
    pub(crate) pieces: Vec<usize>,
    /// At the slice, and where V is largest.
    pub(crate) along: Vec<JointFlow>,
}

/// What a joint passes on at one station.
#[derive(Clone, Copy, Debug)]
pub(crate) struct JointFlow {
    pub(crate) flow: Id,
    pub(crate) fasteners: Option<FastenerWorkings>,
    /// The stress on a glue line.
    pub(crate) stress: Option<Id>,
}

/// The workings of the fasteners of a joint.
#[derive(Clone, Copy, Debug)]
pub(crate) struct FastenerWorkings {
    pub(crate) rows: Id,
    /// What one fastener may carry.
    pub(crate) capacity: Option<Id>,
    /// What one fastener carries at the spacing that is given.
    pub(crate) force: Option<Id>,
    /// The largest spacing, and what one fastener may carry.
    pub(crate) largest_spacing: Option<(Id, Id)>,
}

impl Builder<'_> {
    /// The workings of every joint: at the slice, and where V is largest.
    pub(crate) fn joints(
        &mut self,
        section: &SectionWorkings,
        engine: &Section,
        shear: Id,
        largest_shear: Id,
    ) -> Result<Vec<JointWorkings>, EvaluationError> {
        let mut done = Vec::with_capacity(self.problem.joints.len());
        for (place, joint) in self.problem.joints.iter().enumerate() {
            let number = format!("j{}", place + 1);
            done.extend(self.joint(section, engine, joint, &number, (shear, largest_shear))?);
        }
        Ok(done)
    }

    fn joint(
        &mut self,
        section: &SectionWorkings,
        engine: &Section,
        joint: &Joint,
        number: &str,
        (shear, largest_shear): (Id, Id),
    ) -> Result<Option<JointWorkings>, EvaluationError> {
        let name = &joint.name;
        let beyond: Vec<_> =
            section.pieces.iter().filter(|piece| joint.beyond.contains(&piece.placed.piece.part)).collect();
        if beyond.is_empty() || beyond.len() == section.pieces.len() {
            // A joint that holds nothing, or all there is, holds no part to the rest.
            return Ok(None);
        }
        let entry = Entry::new(CHAPTER, Role::AreaBeyond, number, format!("area held by {name}"))
            .says(format!("What would slide if {name} were gone: that is the part beyond for this joint."));
        let area = self
            .formula(entry, Expression::sum_over(beyond.iter().map(|piece| piece.area.into()).collect()))?;
        let product =
            |piece: &&super::section::PieceWorkings| Expression::from(piece.area) * piece.centroid.into();
        let moments = Expression::sum_over(beyond.iter().map(product).collect());
        let entry = Entry::new(
            CHAPTER,
            Role::CentroidHeight,
            &format!("{number}, beyond"),
            format!("centroid height of the part held by {name}"),
        )
        .says("Its centroid above the base line.");
        let centroid = match beyond.as_slice() {
            [only] => self.formula(entry, only.centroid.into())?,
            _ => self.formula(entry, moments / area.into())?,
        };
        let entry = Entry::new(
            CHAPTER,
            Role::CentroidBeyond,
            number,
            format!("centroid distance of the part held by {name}"),
        )
        .says("The distance of that centroid from the neutral axis of the whole section.");
        let above = self.value(centroid) >= self.value(section.centroid);
        let distance = match above {
            true => Expression::from(centroid) - section.centroid.into(),
            false => Expression::from(section.centroid) - centroid.into(),
        };
        let distance = self.formula(entry, distance)?;
        let entry = Entry::new(CHAPTER, Role::FirstMoment, number, format!("first moment at {name}"))
            .says("The first moment of what the joint holds, about the neutral axis of the whole section.");
        let first_moment = self.formula(entry, Expression::from(area) * distance.into())?;
        let mut done = JointWorkings {
            name: name.clone(),
            area,
            centroid,
            arm: distance,
            first_moment,
            pieces: (0..section.pieces.len())
                .filter(|&place| joint.beyond.contains(&section.pieces[place].placed.piece.part))
                .collect(),
            along: Vec::new(),
        };
        let along = [(shear, "", ""), (largest_shear, ", where V is largest", ", V max")];
        for (shear, words, mark) in along {
            let place = self.workings.working(shear).place;
            let mark = format!("{number}{mark}");
            let entry = Entry::new(CHAPTER, Role::ShearFlow, &mark, format!("shear flow at {name}{words}"))
                .says("The longitudinal force that the joint passes on for each length of the beam.");
            let flow = Expression::from(shear) * first_moment.into() / section.second_moment.into();
            let flow = self.formula(at(entry, place), flow)?;
            let mut here = JointFlow { flow, fasteners: None, stress: None };
            match joint.kind {
                JointKind::Fasteners => {
                    here.fasteners = Some(self.fasteners(joint, number, flow, (words, &mark), place)?);
                }
                JointKind::Glue | JointKind::Weld => {
                    here.stress = self.bond(engine, joint, number, flow, (words, &mark), place)?;
                }
            }
            done.along.push(here);
        }
        Ok(Some(done))
    }

    fn fasteners(
        &mut self,
        joint: &Joint,
        number: &str,
        flow: Id,
        (words, mark): (&str, &str),
        place: Place,
    ) -> Result<FastenerWorkings, EvaluationError> {
        let name = &joint.name;
        let mut given = |role: Role, what: &str, value: f64, dimension: Dimension, says: &str| {
            let full = format!("{what} of {name}");
            if let Some(id) = self.workings.id(&full) {
                return Ok(id);
            }
            let entry = Entry::new(Chapter::Given, role, number, full).says(says);
            self.given(entry, value, dimension)
        };
        let rows = given(
            Role::Rows,
            "rows",
            f64::from(joint.rows.max(1)),
            Dimension::NONE,
            "So many rows of fasteners cross the cut side by side and share the shear flow.",
        )?;
        let spacing = joint
            .spacing
            .map(|spacing| {
                let says = "The distance between the fasteners of one row, along the beam.";
                given(Role::Spacing, "spacing", spacing, Dimension::LENGTH, says)
            })
            .transpose()?;
        let capacity = joint
            .fastener_capacity
            .map(|capacity| {
                let says = "What one fastener may carry, as given.";
                given(Role::FastenerCapacity, "fastener capacity", capacity, Dimension::FORCE, says)
            })
            .transpose()?;
        let mut force = None;
        if let Some(spacing) = spacing {
            let entry = Entry::new(
                CHAPTER,
                Role::FastenerForce,
                mark,
                format!("force on one fastener of {name}{words}"),
            )
            .says("Each fastener takes the shear flow of one spacing; the rows share it.");
            let each = Expression::from(flow) * spacing.into() / rows.into();
            force = Some(self.formula(at(entry, place), each)?);
        }
        let mut largest_spacing = None;
        if let Some(capacity) = capacity
            && self.value(flow) != 0.0
        {
            let index = format!("{mark}, allow");
            let entry = Entry::new(
                CHAPTER,
                Role::Spacing,
                &index,
                format!("largest spacing at {name}{words}"),
            )
            .says(
                "The spacing at which each fastener carries just what it may. An exercise: a real joint is \
                     designed to the local code by a licensed engineer.",
            );
            let spacing = Expression::from(rows) * capacity.into() / Expression::from(flow).size();
            largest_spacing = Some((self.formula(at(entry, place), spacing)?, capacity));
        }
        Ok(FastenerWorkings { rows, capacity, force, largest_spacing })
    }

    /// The mean stress on a glue line or a weld that runs all along the contact.
    fn bond(
        &mut self,
        engine: &Section,
        joint: &Joint,
        number: &str,
        flow: Id,
        (words, mark): (&str, &str),
        place: Place,
    ) -> Result<Option<Id>, EvaluationError> {
        let name = &joint.name;
        let Ok(cut) = engine.joint_cut(&joint.beyond) else { return Ok(None) };
        if joint.kind != JointKind::Glue || cut.width <= 0.0 {
            return Ok(None);
        }
        let full = format!("width of {name}");
        let width = match self.workings.id(&full) {
            Some(id) => id,
            None => {
                let how = "The length of the lines along which the parts touch.";
                let entry = Entry::new(CHAPTER, Role::WidthAtCut, number, full).says(how);
                self.engine(entry, how, (Vec::new(), Call::Fixed), cut.width, Dimension::LENGTH)?
            }
        };
        let entry = Entry::new(CHAPTER, Role::ShearStress, mark, format!("shear stress on {name}{words}"))
            .says("The shear flow, spread over the width of the glue line.");
        self.formula(at(entry, place), Expression::from(flow) / width.into()).map(Some)
    }
}

fn at(entry: Entry, place: Place) -> Entry {
    match place.station {
        Some(station) => entry.at(station, place.side),
        None => entry,
    }
}
