//! Area, centroid and second moment of the section, piece by piece.

use super::builder::{Builder, Entry};
use super::materials::MaterialWorkings;
use super::names::with_article;
use super::pieces::Piece;
use crate::dimension::Dimension;
use crate::engine::Call;
use crate::evaluate::EvaluationError;
use crate::expression::Expression;
use crate::role::Role;
use crate::working::{Chapter, Id};
use mechanics::section::{Figure, Section};
use std::f64::consts::PI;

const CHAPTER: Chapter = Chapter::Section;

/// One piece with its givens.
#[derive(Clone, Debug)]
pub(crate) struct Placed {
    pub(crate) piece: Piece,
    /// Its number in the table of pieces, from 1.
    pub(crate) number: String,
    /// Its modular ratio; none where it is of the material of reference.
    pub(crate) ratio: Option<Id>,
    /// What that is, or one.
    pub(crate) modular_ratio: f64,
    /// Its breadth in the transformed section, where it is a rectangle of another material.
    pub(crate) transformed: Option<Id>,
    pub(crate) size: Size,
    /// Height of its lowest fibre; `None` where it stands on the base line.
    pub(crate) base: Option<Expression>,
}

/// The workings of one piece.
#[derive(Clone, Debug)]
pub(crate) struct PieceWorkings {
    pub(crate) placed: Placed,
    pub(crate) area: Id,
    pub(crate) centroid: Id,
    /// What the theorem of parallel axes takes of it; none where it is the only piece.
    pub(crate) shifted: Option<Shifted>,
}

/// What the theorem of parallel axes takes of a piece.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Shifted {
    /// Its second moment about its own centroid.
    pub(crate) own: Id,
    /// The distance of its centroid from the neutral axis.
    pub(crate) distance: Id,
}

/// The given dimensions of a piece.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Size {
    Rectangle { breadth: Id, height: Id },
    Round { diameter: Id },
    Triangle { base: Id, height: Id },
    Outline,
}

/// The workings of the whole section.
#[derive(Clone, Debug)]
pub(crate) struct SectionWorkings {
    pub(crate) pieces: Vec<PieceWorkings>,
    /// What it is made of; none where it is of one material.
    pub(crate) materials: Vec<MaterialWorkings>,
    pub(crate) area: Id,
    pub(crate) centroid: Id,
    pub(crate) second_moment: Id,
    pub(crate) top: Id,
    pub(crate) bottom: Id,
    pub(crate) top_distance: Id,
    pub(crate) bottom_distance: Id,
}

impl Placed {
    /// Height of its lowest fibre plus something.
    fn above_base(&self, offset: Expression) -> Expression {
        match &self.base {
            Some(base) => base.clone() + offset,
            None => offset,
        }
    }

    /// Height of its highest fibre; `None` where no dimension gives it.
    pub(crate) fn top(&self) -> Option<Expression> {
        self.size.upright(self.piece.figure).map(|height| self.above_base(height))
    }

    /// Whether it counts just as it is: neither a hole nor of another material.
    pub(crate) fn is_plain(&self) -> bool {
        self.ratio.is_none() && !self.piece.hole
    }

    /// A product with its modular ratio in front, and a minus for a hole.
    pub(crate) fn counted(&self, plain: Expression) -> Expression {
        let weighted = match self.ratio {
            Some(ratio) => Expression::from(ratio) * plain,
            None => plain,
        };
        if self.piece.hole { -weighted } else { weighted }
    }

    /// Breadth times what belongs to a height, counted; the breadth is that of the transformed section.
    pub(crate) fn strip(&self, breadth: Id, height: Expression) -> Expression {
        match self.transformed {
            Some(wide) if self.piece.hole => -(Expression::from(wide) * height),
            Some(wide) => Expression::from(wide) * height,
            None => self.counted(Expression::from(breadth) * height),
        }
    }
}

impl Size {
    /// The upright extent.
    fn upright(self, figure: Figure) -> Option<Expression> {
        match (self, figure) {
            (Self::Rectangle { height, .. } | Self::Triangle { height, .. }, _) => Some(height.into()),
            (Self::Round { diameter }, Figure::HalfCircle { .. }) => {
                Some(Expression::from(diameter) / 2.0.into())
            }
            (Self::Round { diameter }, _) => Some(diameter.into()),
            (Self::Outline, _) => None,
        }
    }
}

impl Builder<'_> {
    /// The section's workings.
    pub(crate) fn section(&mut self, section: &Section) -> Result<SectionWorkings, EvaluationError> {
        let pieces = self.pieces_of_section();
        let materials = self.materials()?;
        let mut sizes = Vec::with_capacity(pieces.len());
        for (place, piece) in pieces.iter().enumerate() {
            sizes.push(self.size_given(piece, &(place + 1).to_string())?);
        }
        let bases = self.bases(&pieces, &sizes)?;
        let mut placed = Vec::with_capacity(pieces.len());
        for (place, ((piece, size), base)) in pieces.into_iter().zip(sizes).zip(bases).enumerate() {
            let number = (place + 1).to_string();
            let ratio = MaterialWorkings::ratio_of(&materials, piece.part);
            let modular_ratio = ratio.map_or(1.0, |ratio| self.value(ratio));
            let transformed = self.transformed_breadth(&piece, &number, ratio, size)?;
            placed.push(Placed { piece, number, ratio, modular_ratio, transformed, size, base });
        }
        let mut done = Vec::with_capacity(placed.len());
        for placed in placed {
            done.push(self.piece(placed)?);
        }
        self.whole_section(done, materials, section)
    }

    fn size_given(&mut self, piece: &Piece, number: &str) -> Result<Size, EvaluationError> {
        let mut length = |role: Role, what: &str, value: f64| {
            let entry = Entry::new(Chapter::Given, role, number, format!("{what} of {}", piece.name))
                .says(format!("The {what} of {}, as given.", with_article(&piece.name)));
            self.given(entry, value, Dimension::LENGTH)
        };
        Ok(match piece.figure {
            Figure::Rectangle { breadth, height } => Size::Rectangle {
                breadth: length(Role::Breadth, "breadth", breadth)?,
                height: length(Role::Height, "height", height)?,
            },
            Figure::Circle { diameter } | Figure::HalfCircle { diameter, .. } => {
                Size::Round { diameter: length(Role::Diameter, "diameter", diameter)? }
            }
            Figure::Triangle { base, height, .. } => Size::Triangle {
                base: length(Role::Breadth, "base", base)?,
                height: length(Role::Height, "height", height)?,
            },
            Figure::Outline => Size::Outline,
        })
    }

    /// Where each piece stands: on the base line, on top of another piece, or at a given height.
    fn bases(
        &mut self,
        pieces: &[Piece],
        sizes: &[Size],
    ) -> Result<Vec<Option<Expression>>, EvaluationError> {
        let depth = pieces.iter().map(|piece| piece.top - piece.bottom).fold(0.0, f64::max);
        let near = 1e-12 * depth;
        let mut order: Vec<usize> = (0..pieces.len()).collect();
        order.sort_by(|&a, &b| pieces[a].bottom.total_cmp(&pieces[b].bottom));
        let mut bases: Vec<Option<Expression>> = vec![None; pieces.len()];
        for (rank, &place) in order.iter().enumerate() {
            let piece = &pieces[place];
            if piece.bottom.abs() <= near || matches!(sizes[place], Size::Outline) {
                continue;
            }
            let below = order[..rank].iter().copied().find(|&other| {
                !pieces[other].hole
                    && (pieces[other].top - piece.bottom).abs() <= near
                    && pieces[other].left < piece.right
                    && piece.left < pieces[other].right
            });
            let stacked = below.and_then(|other| {
                let height = sizes[other].upright(pieces[other].figure)?;
                Some(match &bases[other] {
                    Some(base) => base.clone() + height,
                    None => height,
                })
            });
            bases[place] = Some(match stacked {
                Some(stacked) => stacked,
                None => {
                    let entry = Entry::new(
                        Chapter::Given,
                        Role::Height,
                        &format!("{}, bottom", place + 1),
                        format!("bottom of {}", piece.name),
                    )
                    .height(piece.bottom, None)
                    .says(format!(
                        "The height of the lowest fibre of {} above the base line.",
                        with_article(&piece.name)
                    ));
                    self.given(entry, piece.bottom, Dimension::LENGTH)?.into()
                }
            });
        }
        Ok(bases)
    }

    fn piece(&mut self, done: Placed) -> Result<PieceWorkings, EvaluationError> {
        let (name, size, ratio) = (done.piece.name.clone(), done.size, done.ratio);
        let mut says = format!("The area of {}", with_article(&name));
        says.push_str(match (done.piece.hole, ratio.is_some()) {
            (true, _) => "; a hole counts as a negative area.",
            (false, true) => ", counted as often as its modular ratio says.",
            (false, false) => ".",
        });
        let counted = match (size, done.piece.figure) {
            (Size::Rectangle { breadth, height }, _) => done.strip(breadth, height.into()),
            (Size::Triangle { base, height }, _) => {
                done.counted(Expression::from(base) * height.into() / 2.0.into())
            }
            (Size::Round { diameter }, Figure::HalfCircle { .. }) => {
                done.counted(Expression::from(PI) * Expression::from(diameter).power(2) / 8.0.into())
            }
            (Size::Round { diameter }, _) => {
                done.counted(Expression::from(PI) * Expression::from(diameter).power(2) / 4.0.into())
            }
            (Size::Outline, _) => return self.outline_piece(done, says),
        };
        let entry = Entry::new(CHAPTER, Role::Area, &done.number, format!("area of {name}")).says(says);
        let area = self.formula(entry, counted)?;
        let height = |offset: Expression| done.above_base(offset);
        let centroid = match (size, done.piece.figure) {
            (Size::Rectangle { height: h, .. }, _) => height(Expression::from(h) / 2.0.into()),
            (Size::Triangle { height: h, .. }, Figure::Triangle { apex_above: false, .. }) => {
                height(Expression::from(2.0) * h.into() / 3.0.into())
            }
            (Size::Triangle { height: h, .. }, _) => height(Expression::from(h) / 3.0.into()),
            (Size::Round { diameter }, Figure::HalfCircle { round_above, .. }) => {
                let from_diameter =
                    Expression::from(2.0) * diameter.into() / (Expression::from(3.0) * PI.into());
                if round_above {
                    height(from_diameter)
                } else {
                    height(Expression::from(diameter) / 2.0.into() - from_diameter)
                }
            }
            (Size::Round { diameter }, _) => height(Expression::from(diameter) / 2.0.into()),
            // An outline has gone its own way above.
            (Size::Outline, _) => done.piece.alone.0.properties().centroid.y.into(),
        };
        let entry =
            Entry::new(CHAPTER, Role::CentroidHeight, &done.number, format!("centroid height of {name}"))
                .says(format!("The height of the centroid of {} above the base line.", with_article(&name)));
        let centroid = self.formula(entry, centroid)?;
        Ok(PieceWorkings { placed: done, area, centroid, shifted: None })
    }

    /// A piece that no handbook gives: the engine integrates round its outline.
    fn outline_piece(&mut self, placed: Placed, says: String) -> Result<PieceWorkings, EvaluationError> {
        let (name, number) = (&placed.piece.name, &placed.number);
        let properties = *placed.piece.alone.0.properties();
        let fixed = || (Vec::new(), Call::Fixed);
        let entry = Entry::new(CHAPTER, Role::Area, number, format!("area of {name}")).says(says);
        let area = if placed.is_plain() {
            self.engine(entry, OUTLINE, fixed(), properties.area, Dimension::AREA)?
        } else {
            let plain =
                Entry::new(CHAPTER, Role::Area, &format!("{number}, plain"), format!("plain area of {name}"))
                    .says(OUTLINE);
            let plain = self.engine(plain, OUTLINE, fixed(), properties.area, Dimension::AREA)?;
            self.formula(entry, placed.counted(plain.into()))?
        };
        let entry = Entry::new(CHAPTER, Role::CentroidHeight, number, format!("centroid height of {name}"))
            .says(format!("The height of the centroid of {} above the base line.", with_article(name)));
        let centroid = self.engine(entry, OUTLINE, fixed(), properties.centroid.y, Dimension::LENGTH)?;
        Ok(PieceWorkings { placed, area, centroid, shifted: None })
    }

    fn own_second_moment(&mut self, piece: &Placed) -> Result<Expression, EvaluationError> {
        let plain = match (piece.size, piece.piece.figure) {
            (Size::Rectangle { breadth, height }, _) => {
                return Ok(piece.strip(breadth, Expression::from(height).power(3)) / 12.0.into());
            }
            (Size::Triangle { base, height }, _) => {
                Expression::from(base) * Expression::from(height).power(3) / 36.0.into()
            }
            (Size::Round { diameter }, Figure::HalfCircle { .. }) => {
                let factor = Expression::from(PI) / 128.0.into()
                    - Expression::from(1.0) / (Expression::from(18.0) * PI.into());
                factor * Expression::from(diameter).power(4)
            }
            (Size::Round { diameter }, _) => {
                Expression::from(PI) * Expression::from(diameter).power(4) / 64.0.into()
            }
            (Size::Outline, _) => {
                let own = piece.piece.alone.0.properties().second_moment;
                let index = format!("{}, plain", piece.number);
                let name = format!("plain second moment of {}", piece.piece.name);
                let entry = Entry::new(CHAPTER, Role::SecondMoment, &index, name).says(OUTLINE);
                self.engine(entry, OUTLINE, (Vec::new(), Call::Fixed), own, Dimension::LENGTH_4)?.into()
            }
        };
        Ok(piece.counted(plain))
    }

    fn whole_section(
        &mut self,
        mut pieces: Vec<PieceWorkings>,
        materials: Vec<MaterialWorkings>,
        section: &Section,
    ) -> Result<SectionWorkings, EvaluationError> {
        let areas = pieces.iter().map(|piece| piece.area.into()).collect();
        let transformed = if materials.is_empty() { "" } else { " transformed" };
        let entry = Entry::new(CHAPTER, Role::Area, "", "area")
            .says(format!("The{transformed} area of the section is the sum over its pieces."));
        let area = self.formula(entry, Expression::sum_over(areas))?;
        let entry = Entry::new(CHAPTER, Role::CentroidHeight, "", "centroid height").says(
            "The neutral axis passes through the centroid of the area: each piece counts with its area.",
        );
        let centroid = match pieces.as_slice() {
            [only] => self.formula(entry, only.centroid.into())?,
            _ => {
                let product = |piece: &PieceWorkings| Expression::from(piece.area) * piece.centroid.into();
                let moments = Expression::sum_over(pieces.iter().map(product).collect());
                self.formula(entry, moments / area.into())?
            }
        };
        let second_moment = self.second_moment(&mut pieces, centroid)?;
        let (top, bottom) = self.extremes(&pieces, section)?;
        let properties = section.properties();
        let entry = |index: &str, which: &str, y: f64| {
            Entry::new(CHAPTER, Role::ExtremeDistance, index, format!("distance of the {which} fibre"))
                .height(y, None)
                .says(format!("The distance of the {which} fibre from the neutral axis."))
        };
        let top_distance =
            self.formula(entry("top", "top", properties.top), Expression::from(top) - centroid.into())?;
        let to_bottom = self.difference(centroid, bottom);
        let bottom_distance = self.formula(entry("bottom", "bottom", properties.bottom), to_bottom)?;
        let times = match materials.is_empty() {
            true => "",
            false => ", times the modular ratio of the material that lies there",
        };
        for (index, which, distance) in [("top", "top", top_distance), ("bottom", "bottom", bottom_distance)]
        {
            let entry = Entry::new(
                CHAPTER,
                Role::SectionModulus,
                index,
                format!("section modulus of the {which} fibre"),
            )
            .says(format!(
                "The section modulus of the {which} fibre: divided into M it gives the stress there{times}."
            ));
            self.formula(entry, Expression::from(second_moment) / distance.into())?;
        }
        let entry = Entry::new(CHAPTER, Role::RadiusOfGyration, "", "radius of gyration")
            .says("The distance at which the whole area would have this second moment.");
        self.formula(entry, (Expression::from(second_moment) / area.into()).root())?;
        Ok(SectionWorkings {
            pieces,
            materials,
            area,
            centroid,
            second_moment,
            top,
            bottom,
            top_distance,
            bottom_distance,
        })
    }

    fn second_moment(&mut self, pieces: &mut [PieceWorkings], centroid: Id) -> Result<Id, EvaluationError> {
        let whole = Entry::new(CHAPTER, Role::SecondMoment, "", "second moment");
        if let [only] = &*pieces {
            let own = self.own_second_moment(&only.placed)?;
            let says = format!(
                "The second moment of {} about the level axis through its centroid.",
                with_article(&only.placed.piece.name)
            );
            return self.formula(whole.says(says), own);
        }
        let mut terms = Vec::with_capacity(pieces.len());
        for piece in pieces {
            let name = &piece.placed.piece.name;
            let own = self.own_second_moment(&piece.placed)?;
            let entry = Entry::new(
                CHAPTER,
                Role::SecondMoment,
                &piece.placed.number,
                format!("own second moment of {name}"),
            )
            .says(format!(
                "The second moment of {} about the level axis through its own centroid.",
                with_article(name)
            ));
            let own = self.formula(entry, own)?;
            let entry = Entry::new(
                CHAPTER,
                Role::Depth,
                &piece.placed.number,
                format!("distance of {name} from the neutral axis"),
            );
            let (way, other) = if self.axis_down { ("below", "above") } else { ("above", "below") };
            let says = format!(
                "How far the centroid of {} lies {way} the neutral axis; negative {other} it.",
                with_article(name)
            );
            let distance = match self.axis_down {
                true => Expression::from(centroid) - piece.centroid.into(),
                false => Expression::from(piece.centroid) - centroid.into(),
            };
            let distance = self.formula(entry.says(says), distance)?;
            piece.shifted = Some(Shifted { own, distance });
            terms.push(Expression::Sum(vec![
                own.into(),
                Expression::from(piece.area) * Expression::from(distance).power(2),
            ]));
        }
        let says = "Bending turns about the neutral axis: by the theorem of parallel axes each piece adds its own \
                    second moment and its area times its distance squared.";
        self.formula(whole.says(says), Expression::sum_over(terms))
    }

    /// The heights of the highest and the lowest fibre.
    fn extremes(&mut self, pieces: &[PieceWorkings], section: &Section) -> Result<(Id, Id), EvaluationError> {
        let properties = section.properties();
        let near = 1e-12 * properties.height();
        let solid = || pieces.iter().map(|piece| &piece.placed).filter(|placed| !placed.piece.hole);
        let highest = solid().find(|piece| (piece.piece.top - properties.top).abs() <= near);
        let entry = Entry::new(CHAPTER, Role::Height, "top", "height of the top fibre")
            .height(properties.top, None)
            .says("The height of the highest fibre above the base line.");
        let top = match highest.and_then(Placed::top) {
            Some(top) => self.formula(entry, top)?,
            None => {
                self.engine(entry, OUTLINE, (Vec::new(), Call::Fixed), properties.top, Dimension::LENGTH)?
            }
        };
        let lowest = solid().find(|piece| (piece.piece.bottom - properties.bottom).abs() <= near);
        let entry = Entry::new(CHAPTER, Role::Height, "bottom", "height of the bottom fibre")
            .height(properties.bottom, None)
            .says("The height of the lowest fibre above the base line.");
        let bottom = match lowest.and_then(|piece| piece.base.clone()) {
            Some(base) => self.formula(entry, base)?,
            None if properties.bottom.abs() <= near => {
                self.given(entry.says("The base line runs along the lowest fibre."), 0.0, Dimension::LENGTH)?
            }
            None => {
                self.engine(entry, OUTLINE, (Vec::new(), Call::Fixed), properties.bottom, Dimension::LENGTH)?
            }
        };
        Ok((top, bottom))
    }
}

pub(super) const OUTLINE: &str = "Integrated exactly round the outline, arcs included.";
