//! The part beyond a level cut: its area, its centroid, its first moment, and the width of the cut.

use super::builder::{Builder, Entry, zero};
use super::names::with_article;
use super::resultants::joined;
use super::section::{SectionWorkings, Size};
use crate::dimension::Dimension;
use crate::engine::{BeyondWanted, Call};
use crate::evaluate::EvaluationError;
use crate::expression::Expression;
use crate::role::Role;
use crate::working::{Chapter, HeightSide, Id};
use mechanics::section::Section;

const CHAPTER: Chapter = Chapter::Shear;

/// Where and how the section is cut, and what that is called.
pub(crate) struct Cut<'a> {
    pub(crate) height: Id,
    /// The side of the height on which the width is asked for.
    pub(crate) side: HeightSide,
    /// The piece that counts as the part beyond.
    pub(crate) beyond: HeightSide,
    /// `the cut`, `the neutral axis`.
    pub(crate) words: &'a str,
    /// Index of its symbols.
    pub(crate) index: &'a str,
}

/// The workings of a cut.
#[derive(Clone, Debug)]
pub(crate) struct CutWorkings {
    pub(crate) area: Id,
    /// Height of the part's centroid; none where nothing lies beyond.
    pub(crate) centroid: Option<Id>,
    /// Distance of the part's centroid from the neutral axis; none where nothing lies beyond.
    pub(crate) arm: Option<Id>,
    pub(crate) first_moment: Id,
    pub(crate) width: Id,
    /// What the part is made of.
    pub(crate) pieces: Vec<Beyond>,
}

/// What of a piece lies beyond.
#[derive(Clone, Debug)]
pub(crate) struct Beyond {
    /// The piece, by its place among the section's.
    pub(crate) piece: usize,
    pub(crate) area: Expression,
    pub(crate) centroid: Expression,
    /// How far a rectangle that is cut through reaches beyond.
    pub(crate) depth: Option<Id>,
    /// Whether all of the piece lies beyond.
    pub(crate) whole: bool,
}

impl Builder<'_> {
    /// The first moment and the width at a cut.
    pub(crate) fn cut(
        &mut self,
        section: &SectionWorkings,
        engine: &Section,
        cut: &Cut<'_>,
    ) -> Result<CutWorkings, EvaluationError> {
        let mut parts = Vec::new();
        for place in 0..section.pieces.len() {
            parts.extend(self.beyond(section, place, cut, engine)?);
        }
        let height = self.value(cut.height);
        let at = |entry: Entry| entry.height(height, None);
        let Cut { words, index, .. } = *cut;
        let which = beyond_words(cut.beyond);
        let entry = at(Entry::new(CHAPTER, Role::AreaBeyond, index, format!("area beyond {words}")))
            .says(format!("The part beyond {words} is all that lies {which} it."));
        if parts.is_empty() {
            let area = self.formula(entry, zero(Dimension::AREA, Role::AreaBeyond))?;
            let entry = at(Entry::new(CHAPTER, Role::FirstMoment, index, format!("first moment at {words}")))
                .says("Nothing lies beyond the outer fibre, so there is no first moment.");
            let first_moment = self.formula(entry, zero(Dimension::LENGTH_3, Role::FirstMoment))?;
            let width = self.width(section, engine, cut)?;
            return Ok(CutWorkings { area, centroid: None, arm: None, first_moment, width, pieces: parts });
        }
        let (areas, moments): (Vec<Expression>, Vec<Expression>) =
            parts.iter().map(|part| (part.area.clone(), part.area.clone() * part.centroid.clone())).unzip();
        let area = self.formula(entry, Expression::sum(areas))?;
        let entry = at(Entry::new(
            CHAPTER,
            Role::CentroidHeight,
            &joined("beyond", index),
            format!("centroid height of the part beyond {words}"),
        ))
        .says("The centroid of the part beyond, above the base line: each piece counts with its area.");
        let centroid = match parts.as_slice() {
            [only] => self.formula(entry, only.centroid.clone())?,
            _ => self.formula(entry, Expression::sum(moments) / area.into())?,
        };
        let entry = at(Entry::new(
            CHAPTER,
            Role::CentroidBeyond,
            index,
            format!("centroid distance of the part beyond {words}"),
        ))
        .says("The distance of that centroid from the neutral axis of the whole section.");
        let arm = match cut.beyond {
            HeightSide::Above => Expression::from(centroid) - section.centroid.into(),
            HeightSide::Below => Expression::from(section.centroid) - centroid.into(),
        };
        let arm = self.formula(entry, arm)?;
        let entry = at(Entry::new(CHAPTER, Role::FirstMoment, index, format!("first moment at {words}")))
            .says(
                "The first moment of the part beyond about the neutral axis: its area times the distance of its \
                 centroid.",
            );
        let first_moment = self.formula(entry, Expression::from(area) * arm.into())?;
        let width = self.width(section, engine, cut)?;
        Ok(CutWorkings { area, centroid: Some(centroid), arm: Some(arm), first_moment, width, pieces: parts })
    }

    /// What of one piece lies beyond the cut.
    fn beyond(
        &mut self,
        section: &SectionWorkings,
        place: usize,
        cut: &Cut<'_>,
        engine: &Section,
    ) -> Result<Option<Beyond>, EvaluationError> {
        let piece = &section.pieces[place];
        let near = 1e-9 * engine.properties().height();
        let height = self.value(cut.height);
        let shape = &piece.placed.piece;
        let (inside, outside) = match cut.beyond {
            HeightSide::Above => (shape.bottom >= height - near, shape.top <= height + near),
            HeightSide::Below => (shape.top <= height + near, shape.bottom >= height - near),
        };
        if outside {
            return Ok(None);
        }
        if inside {
            return Ok(Some(Beyond {
                piece: place,
                area: piece.area.into(),
                centroid: piece.centroid.into(),
                depth: None,
                whole: true,
            }));
        }
        let name = &shape.name;
        let Cut { words, .. } = *cut;
        let mark = joined(&piece.placed.number, cut.index);
        let entry = |role: Role, what: &str, says: String| {
            let mark = if role == Role::AreaBeyond { mark.clone() } else { joined(&mark, "beyond") };
            Entry::new(CHAPTER, role, &mark, format!("{what} of {name} beyond {words}"))
                .height(height, None)
                .says(says)
        };
        let area_says = format!("The area of {} that lies beyond {words}.", with_article(name));
        let centroid_says = format!(
            "The height of the centroid of that piece of {} above the base line.",
            with_article(name)
        );
        let (Size::Rectangle { breadth, .. }, Some(top)) = (piece.placed.size, piece.placed.top()) else {
            let how = "Integrated exactly over the part of the outline beyond the cut.";
            let mut asked = |wanted, entry, dimension| {
                let call = Call::Beyond { piece: shape.alone.clone(), beyond: cut.beyond, wanted };
                let value = call.evaluate(&[cut.height], self.workings.values());
                self.engine(entry, how, (vec![cut.height], call), value, dimension)
            };
            let plain = piece.placed.is_plain();
            let (role, what) = if plain { (Role::AreaBeyond, "area") } else { (Role::Area, "plain area") };
            let area = asked(BeyondWanted::Area, entry(role, what, area_says.clone()), Dimension::AREA)?;
            let centroid = entry(Role::CentroidHeight, "centroid height", centroid_says);
            let centroid = asked(BeyondWanted::CentroidHeight, centroid, Dimension::LENGTH)?.into();
            let area = match plain {
                true => area,
                false => {
                    let counted = piece.placed.counted(area.into());
                    self.formula(entry(Role::AreaBeyond, "area", area_says), counted)?
                }
            };
            return Ok(Some(Beyond { piece: place, area: area.into(), centroid, depth: None, whole: false }));
        };
        let depth = match (cut.beyond, &piece.placed.base) {
            (HeightSide::Above, _) => top - cut.height.into(),
            (HeightSide::Below, Some(base)) => Expression::from(cut.height) - base.clone(),
            (HeightSide::Below, None) => cut.height.into(),
        };
        let says = format!("{} reaches this far beyond {words}.", capital(&with_article(name)));
        let depth = self.formula(entry(Role::Height, "depth", says), depth)?;
        let counted = piece.placed.strip(breadth, depth.into());
        let area = self.formula(entry(Role::AreaBeyond, "area", area_says), counted)?;
        let half = Expression::from(depth) / 2.0.into();
        let centroid = match cut.beyond {
            HeightSide::Above => Expression::from(cut.height) + half,
            HeightSide::Below => Expression::from(cut.height) - half,
        };
        let centroid =
            self.formula(entry(Role::CentroidHeight, "centroid height", centroid_says), centroid)?;
        Ok(Some(Beyond {
            piece: place,
            area: area.into(),
            centroid: centroid.into(),
            depth: Some(depth),
            whole: false,
        }))
    }

    /// The width of the cut on the asked side: all that it runs through.
    pub(crate) fn width(
        &mut self,
        section: &SectionWorkings,
        engine: &Section,
        cut: &Cut<'_>,
    ) -> Result<Id, EvaluationError> {
        let height = self.value(cut.height);
        let near = 1e-9 * engine.properties().height();
        let Cut { words, index, .. } = *cut;
        let entry = Entry::new(CHAPTER, Role::WidthAtCut, index, format!("width at {words}"))
            .height(height, Some(cut.side));
        let (below, above) =
            (engine.width(height, HeightSide::Below), engine.width(height, HeightSide::Above));
        if let Some(contact) = narrow_contact(engine, height) {
            let how = "The parts stand off each other here: only where they touch can shear pass.";
            let call = (Vec::new(), Call::Fixed);
            return self.engine(entry.says(how), how, call, contact, Dimension::LENGTH);
        }
        let mut terms = Vec::new();
        for piece in &section.pieces {
            let shape = &piece.placed.piece;
            if !shape.reaches(height, cut.side, near) {
                continue;
            }
            let breadth = match piece.placed.size {
                Size::Rectangle { breadth, .. } => Expression::from(breadth),
                _ => {
                    let call = Call::Width { piece: shape.alone.clone(), side: cut.side };
                    let reads = vec![cut.height];
                    let value = call.evaluate(&reads, self.workings.values());
                    let how = "The chord of the outline at the height of the cut.";
                    let mark = joined(&piece.placed.number, index);
                    let entry = Entry::new(
                        CHAPTER,
                        Role::WidthAtCut,
                        &mark,
                        format!("width of {} at {words}", shape.name),
                    )
                    .height(height, Some(cut.side))
                    .says(how);
                    self.engine(entry, how, (reads, call), value, Dimension::LENGTH)?.into()
                }
            };
            terms.push(if shape.hole { -breadth } else { breadth });
        }
        let says = match (below - above).abs() > near {
            true => format!(
                "The width of the cut, across the section. It jumps here; this is the width just {} the cut.",
                side_words(cut.side)
            ),
            false => {
                "The width of the cut, across the section: all the material that it runs through.".into()
            }
        };
        let expression =
            if terms.is_empty() { zero(Dimension::LENGTH, Role::WidthAtCut) } else { Expression::sum(terms) };
        self.formula(entry.says(says), expression)
    }
}

/// The width of the contact at a height where parts stand off each other: less than both widths there.
pub(crate) fn narrow_contact(section: &Section, height: f64) -> Option<f64> {
    let near = 1e-9 * section.properties().height();
    let narrower = section.width(height, HeightSide::Below).min(section.width(height, HeightSide::Above));
    let contact = section.contact_width(height);
    (contact > near && contact < narrower - near).then_some(contact)
}

pub(crate) fn beyond_words(beyond: HeightSide) -> &'static str {
    side_words(beyond)
}

pub(crate) fn side_words(side: HeightSide) -> &'static str {
    match side {
        HeightSide::Above => "above",
        HeightSide::Below => "below",
    }
}

/// With its first letter as a capital.
pub(crate) fn capital(words: &str) -> String {
    let mut letters = words.chars();
    match letters.next() {
        Some(first) => first.to_uppercase().chain(letters).collect(),
        None => String::new(),
    }
}
