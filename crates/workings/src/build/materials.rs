//! Beams of several materials: the modular ratios, and the bending stress in each material.

use super::bending::Fibre;
use super::builder::{Builder, Entry};
use super::diagrams::DiagramWorkings;
use super::names::with_article;
use super::pieces::Piece;
use super::section::{OUTLINE, PieceWorkings, SectionWorkings, Size};
use crate::dimension::Dimension;
use crate::engine::Call;
use crate::evaluate::EvaluationError;
use crate::expression::Expression;
use crate::problem::Allowable;
use crate::role::Role;
use crate::working::{Chapter, Id};
use mechanics::section::Section;

const CHAPTER: Chapter = Chapter::Materials;

/// One of several materials, with its modular ratio.
#[derive(Clone, Debug)]
pub(crate) struct MaterialWorkings {
    pub(crate) name: String,
    pub(crate) letter: String,
    pub(crate) parts: Vec<usize>,
    /// None for the material of reference.
    pub(crate) ratio: Option<Id>,
    /// The bending stress in it at the slice, at each height where something begins or ends.
    pub(crate) stresses: Vec<Id>,
    /// What it may bear.
    pub(crate) allowable: Allowable,
    /// The largest tension and the largest compression in it along the beam, where it is stated what it may bear.
    pub(crate) extremes: [Option<Id>; 2],
}

/// A height at which the section changes, and how it is told.
struct Level {
    height: f64,
    words: String,
    /// As in [`Fibre`].
    factor: Expression,
    index: String,
}

impl Builder<'_> {
    /// The moduli and their ratios; none where the beam is of one material.
    pub(crate) fn materials(&mut self) -> Result<Vec<MaterialWorkings>, EvaluationError> {
        let materials = self.problem.materials();
        let mut reference = None;
        if materials.iter().any(|material| material.elastic_modulus.is_some()) {
            let words = materials.iter().find(|material| material.is_reference());
            let words = words.map_or_else(String::new, |material| format!(", {}", material.name));
            let entry = Entry::new(Chapter::Given, Role::ElasticModulus, "", "elastic modulus").says(format!(
                "The modulus of elasticity of the material of reference{words}: to it the others are transformed."
            ));
            reference = Some(self.given(entry, self.problem.elastic_modulus, Dimension::STRESS)?);
        }
        let mut done = Vec::with_capacity(materials.len());
        for material in materials {
            let name = &material.name;
            let ratio = if material.is_reference() {
                None
            } else {
                let entry = |chapter, says: &str| {
                    let full = format!("modular ratio of {name}");
                    Entry::new(chapter, Role::ModularRatio, &material.letter, full).says(says)
                };
                let says = "At one height all materials are strained alike, so each is stressed as its modulus is: so many \
                            times its breadth counts in the transformed section.";
                Some(match (reference, material.elastic_modulus) {
                    (Some(reference), Some(own)) => {
                        let full = format!("elastic modulus of {name}");
                        let given = Entry::new(Chapter::Given, Role::ElasticModulus, &material.letter, full)
                            .says(format!("The modulus of elasticity of {name}."));
                        let own = self.given(given, own, Dimension::STRESS)?;
                        let quotient = Expression::from(own) / reference.into();
                        self.formula(entry(Chapter::Section, says), quotient)?
                    }
                    _ => self.given(entry(Chapter::Given, says), material.modular_ratio, Dimension::NONE)?,
                })
            };
            let allowable = self.problem.allowable_of(&material);
            done.push(MaterialWorkings {
                allowable,
                extremes: [None; 2],
                name: material.name,
                letter: material.letter,
                parts: material.parts,
                ratio,
                stresses: Vec::new(),
            });
        }
        Ok(done)
    }

    /// The breadth that a rectangle of another material has in the transformed section.
    pub(super) fn transformed_breadth(
        &mut self,
        piece: &Piece,
        number: &str,
        ratio: Option<Id>,
        size: Size,
    ) -> Result<Option<Id>, EvaluationError> {
        let (Some(ratio), Size::Rectangle { breadth, .. }) = (ratio, size) else { return Ok(None) };
        let index = format!("{number}, tr");
        let entry =
            Entry::new(Chapter::Section, Role::Breadth, &index, format!("transformed breadth of {}", piece.name)).says(
                format!(
                    "As broad as this {} would have to be to carry as much in the material of reference; the heights stay, for \
                     the strain goes with the height.",
                    piece.name
                ),
            );
        self.formula(entry, Expression::from(ratio) * breadth.into()).map(Some)
    }

    /// The bending stress in each material at every height where something begins or ends, at the slice; the share of the
    /// bending moment that each takes. Gives back all fibres, for the largest stresses along the beam.
    pub(crate) fn in_materials(
        &mut self,
        section: &mut SectionWorkings,
        engine: &Section,
        moment: Id,
        diagrams: &DiagramWorkings,
    ) -> Result<Vec<Fibre>, EvaluationError> {
        if section.materials.is_empty() {
            return Ok(Vec::new());
        }
        let levels = self.levels(section, engine)?;
        let near = 1e-9 * engine.properties().height();
        let place = self.workings.working(moment).place;
        let mut all = Vec::new();
        for index in 0..section.materials.len() {
            let material = section.materials[index].clone();
            let mut fibres = Vec::new();
            let mut stresses = Vec::new();
            for level in &levels {
                let reaches = |piece: &PieceWorkings| {
                    let piece = &piece.placed.piece;
                    let holds = material.parts.contains(&piece.part) && !piece.hole;
                    holds && piece.bottom <= level.height + near && piece.top >= level.height - near
                };
                if !section.pieces.iter().any(reaches) {
                    continue;
                }
                let fibre = Fibre {
                    index: format!("{}, {}", material.letter, level.index),
                    words: level.words.clone(),
                    height: level.height,
                    factor: level.factor.clone(),
                    ratio: material.ratio,
                };
                let name = format!("bending stress in {} {}", material.name, level.words);
                let says = match material.ratio {
                    Some(_) => format!(
                        "What the formula gives is the stress in the material of reference at that height; {} is strained \
                         alike and bears so many times as much. Tension is positive.",
                        material.name
                    ),
                    None => "In the material of reference the formula gives the stress itself. Tension is positive."
                        .to_owned(),
                };
                let entry = Entry::new(CHAPTER, Role::BendingStress, &fibre.index, name).says(says);
                stresses.push(self.stress(entry, &fibre, moment, section, place)?);
                fibres.push(fibre);
            }
            section.materials[index].stresses = stresses;
            self.largest_in(&material, &fibres, section, diagrams)?;
            if material.allowable != Allowable::default() {
                section.materials[index].extremes =
                    self.extremes_in(&material, &fibres, section, diagrams)?;
            }
            self.share(&material, section)?;
            all.extend(fibres);
        }
        Ok(all)
    }

    /// The largest stress in one material along the beam, by its size.
    fn largest_in(
        &mut self,
        material: &MaterialWorkings,
        fibres: &[Fibre],
        section: &SectionWorkings,
        diagrams: &DiagramWorkings,
    ) -> Result<(), EvaluationError> {
        let Some((fibre, moment)) = self.most_stressed(fibres, diagrams, f64::abs) else { return Ok(()) };
        let place = self.workings.working(moment).place;
        let index = format!("{}, max", material.letter);
        let name = format!("largest bending stress in {} along the beam", material.name);
        let says = format!(
            "Of the largest sagging and the largest hogging moment and of all heights of {} this pair gives the stress of the \
             largest size ({}).",
            material.name, fibre.words
        );
        let entry = Entry::new(CHAPTER, Role::BendingStress, &index, name).says(says);
        self.stress(entry, fibre, moment, section, place)?;
        Ok(())
    }

    /// The largest tension and the largest compression in one material along the beam.
    fn extremes_in(
        &mut self,
        material: &MaterialWorkings,
        fibres: &[Fibre],
        section: &SectionWorkings,
        diagrams: &DiagramWorkings,
    ) -> Result<[Option<Id>; 2], EvaluationError> {
        let mut found = [None; 2];
        for (place_in_all, (way, index, words)) in
            [(1.0, "t", "tension"), (-1.0, "c", "compression")].into_iter().enumerate()
        {
            let Some((fibre, moment)) = self.most_stressed(fibres, diagrams, |stress| way * stress) else {
                continue;
            };
            let place = self.workings.working(moment).place;
            let name = format!("largest {words} in {} along the beam", material.name);
            let says = format!(
                "Of the largest sagging and the largest hogging moment and of all heights of {} this pair gives the largest {words} \
                 ({}).",
                material.name, fibre.words
            );
            let index = format!("{}, {index}, max", material.letter);
            let entry = Entry::new(CHAPTER, Role::BendingStress, &index, name).says(says);
            found[place_in_all] = Some(self.stress(entry, fibre, moment, section, place)?);
        }
        Ok(found)
    }

    /// What part of the bending moment the stresses in one material make.
    fn share(
        &mut self,
        material: &MaterialWorkings,
        section: &SectionWorkings,
    ) -> Result<(), EvaluationError> {
        let of_it = section.pieces.iter().filter(|piece| material.parts.contains(&piece.placed.piece.part));
        let terms: Option<Vec<Expression>> = of_it
            .map(|piece| {
                let shifted = piece.shifted?;
                let steiner = Expression::from(piece.area) * Expression::from(shifted.distance).power(2);
                Some(Expression::Sum(vec![shifted.own.into(), steiner]))
            })
            .collect();
        let Some(terms) = terms else { return Ok(()) };
        let name = format!("share of the bending moment in {}", material.name);
        let entry = Entry::new(CHAPTER, Role::Ratio, &material.letter, name).says(format!(
            "What {} adds to the second moment of the transformed section, it takes of the bending moment.",
            material.name
        ));
        self.formula(entry, Expression::sum(terms) / section.second_moment.into())?;
        Ok(())
    }

    /// The heights at which a part begins or ends, from the lowest up.
    fn levels(&mut self, section: &SectionWorkings, engine: &Section) -> Result<Vec<Level>, EvaluationError> {
        let properties = *engine.properties();
        let near = 1e-9 * properties.height();
        let mut heights: Vec<f64> = section
            .pieces
            .iter()
            .map(|piece| &piece.placed.piece)
            .filter(|piece| !piece.hole)
            .flat_map(|piece| [piece.bottom, piece.top])
            .collect();
        heights.sort_by(f64::total_cmp);
        heights.dedup_by(|a, b| (*a - *b).abs() <= near);
        let mut levels = Vec::with_capacity(heights.len());
        for height in heights {
            let (words, factor, index) = if height >= properties.top - near {
                ("at the top".to_owned(), -Expression::from(section.top_distance), "top".to_owned())
            } else if height <= properties.bottom + near {
                ("at the bottom".to_owned(), section.bottom_distance.into(), "bottom".to_owned())
            } else {
                let index = format!("e{}", levels.len());
                let (words, factor) = self.inner_level(section, (height, near), &index)?;
                (format!("at {words}"), factor, index)
            };
            levels.push(Level { height, words, factor, index });
        }
        Ok(levels)
    }

    /// A height within the section: `the top of core`, and its distance from the neutral axis.
    fn inner_level(
        &mut self,
        section: &SectionWorkings,
        (height, near): (f64, f64),
        index: &str,
    ) -> Result<(String, Expression), EvaluationError> {
        let solid = || section.pieces.iter().map(|piece| &piece.placed).filter(|placed| !placed.piece.hole);
        let (below, above) = (
            solid().find(|placed| (placed.piece.top - height).abs() <= near),
            solid().find(|placed| (placed.piece.bottom - height).abs() <= near),
        );
        let words = match (below, above) {
            (Some(placed), _) => format!("the top of {}", with_article(&placed.piece.name)),
            (None, Some(placed)) => format!("the bottom of {}", with_article(&placed.piece.name)),
            (None, None) => "this height".to_owned(),
        };
        let entry = Entry::new(CHAPTER, Role::Height, index, format!("height of {words}"))
            .height(height, None)
            .says(format!("The height of {words} above the base line."));
        let formula = below.and_then(|placed| placed.top()).or_else(|| above.and_then(|p| p.base.clone()));
        let level = match formula {
            Some(formula) => self.formula(entry, formula)?,
            None => self.engine(entry, OUTLINE, (Vec::new(), Call::Fixed), height, Dimension::LENGTH)?,
        };
        let (way, other) = if self.axis_down { ("below", "above") } else { ("above", "below") };
        let entry =
            Entry::new(CHAPTER, Role::Depth, index, format!("distance of {words} from the neutral axis"))
                .height(height, None)
                .says(format!("How far {words} lies {way} the neutral axis; negative {other} it."));
        let up = Expression::from(level) - section.centroid.into();
        let factor = match self.axis_down {
            true => self.formula(entry, Expression::from(section.centroid) - level.into())?.into(),
            false => -Expression::from(self.formula(entry, up)?),
        };
        Ok((words, factor))
    }
}

impl MaterialWorkings {
    /// The modular ratio of a part among these materials; none for the material of reference.
    pub(crate) fn ratio_of(all: &[Self], part: usize) -> Option<Id> {
        all.iter().find(|material| material.parts.contains(&part)).and_then(|material| material.ratio)
    }
}
