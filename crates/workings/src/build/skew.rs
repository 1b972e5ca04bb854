//! Bending askew: both second moments and the product moment, the principal axes, and the inclined neutral axis.

use super::across::AcrossWorkings;
use super::builder::{Builder, Entry};
use super::cut::CutWorkings;
use super::diagrams::DiagramWorkings;
use super::names::with_article;
use super::section::{Placed, SectionWorkings, Size};
use super::shear::of_no_material;
use crate::dimension::Dimension;
use crate::engine::Call;
use crate::evaluate::EvaluationError;
use crate::expression::Expression;
use crate::role::Role;
use crate::working::{Chapter, Id};
use mechanics::section::{Figure, HeightSide, Section};
use std::f64::consts::PI;

const CHAPTER: Chapter = Chapter::Skew;

/// The workings of a section whose level axis is no principal axis.
#[derive(Clone, Debug)]
pub(crate) struct SkewWorkings {
    pub(crate) across: AcrossWorkings,
    pub(crate) upright: Id,
    pub(crate) product: Id,
    pub(crate) inclination: Id,
    /// The second moment of each piece about its own upright axis; none where it is the only one.
    pub(crate) own_upright: Vec<Option<Id>>,
    /// What the product moment leaves of I.
    pub(crate) counts: Id,
    /// The bending stress at each corner, and the largest of them along the beam; of several materials in each that has the corner.
    pub(crate) corners: Vec<CornerWorkings>,
    /// The shear stress on the cut.
    pub(crate) shear: Option<Id>,
}

/// The bending stress at one corner by the full formula, with what it reads.
#[derive(Clone, Copy, Debug)]
pub(crate) struct CornerWorkings {
    pub(crate) stress: Id,
    pub(crate) moment: Id,
    /// The modular ratio of its material; none in that of reference.
    pub(crate) ratio: Option<Id>,
    pub(crate) depth: Id,
    pub(crate) across: Id,
}

/// What the builder has made before.
pub(crate) struct Before<'a> {
    pub(crate) section: &'a SectionWorkings,
    pub(crate) engine: &'a Section,
    pub(crate) moment: Id,
    pub(crate) shear_force: Id,
    pub(crate) cut: &'a CutWorkings,
    /// The bending stress by the simple formula at the top and at the bottom.
    pub(crate) simple: [Id; 2],
    pub(crate) diagrams: &'a DiagramWorkings,
}

/// The moments that the formulas read.
#[derive(Clone, Copy)]
pub(crate) struct Moments {
    pub(crate) level: Id,
    pub(crate) upright: Id,
    pub(crate) product: Id,
}

impl Moments {
    /// `I_y y - I_yz z`, over `I I_y - I_yz²`: the stress over minus the moment, y and z along the course's axes.
    pub(crate) fn askew(self, depth: Expression, across: Expression) -> Expression {
        Expression::from(self.upright) * depth - Expression::from(self.product) * across
    }

    pub(crate) fn both(self) -> Expression {
        Expression::from(self.level) * self.upright.into() - Expression::from(self.product).power(2)
    }
}

impl Builder<'_> {
    /// The chapter; none where the level axis is a principal one.
    pub(crate) fn skew(&mut self, before: &Before<'_>) -> Result<Option<SkewWorkings>, EvaluationError> {
        let (section, engine) = (before.section, before.engine);
        if !engine.properties().bends_askew() {
            return Ok(None);
        }
        let across = self.across(CHAPTER, section, engine)?;
        let (upright, product, own_upright) = self.other_moments(section, &across)?;
        let moments = Moments { level: section.second_moment, upright, product };
        self.principal_axes(moments)?;
        let inclination = self.inclination(moments)?;
        let counts = self.counts_askew(moments)?;
        let corners = self.skew_stresses(before, &across, moments)?;
        let shear = self.skew_shear(before, &across, (moments, counts))?;
        Ok(Some(SkewWorkings { across, upright, product, inclination, own_upright, counts, corners, shear }))
    }

    /// A value that counts upward, along the course's depth axis.
    pub(crate) fn along_depth(&self, up: Expression) -> Expression {
        if self.axis_down { -up } else { up }
    }

    /// The second moment about the upright axis, and the product moment.
    fn other_moments(
        &mut self,
        section: &SectionWorkings,
        across: &AcrossWorkings,
    ) -> Result<(Id, Id, Vec<Option<Id>>), EvaluationError> {
        let only = section.pieces.len() == 1;
        let (mut squares, mut products, mut own_upright) = (Vec::new(), Vec::new(), Vec::new());
        for (piece, place) in section.pieces.iter().zip(&across.pieces) {
            let placed = &piece.placed;
            let (name, number) = (&placed.piece.name, &placed.number);
            let own = self.own_upright(placed)?;
            let own_product = self.own_product(placed)?;
            let Some(shifted) = piece.shifted.filter(|_| !only) else {
                squares.push(own);
                products.extend(own_product);
                own_upright.push(None);
                continue;
            };
            let entry = Entry::new(
                CHAPTER,
                Role::SecondMomentUpright,
                number,
                format!("own second moment of {name} about its upright axis"),
            )
            .says(format!(
                "The second moment of {} about the upright axis through its own centroid{}",
                with_article(name),
                match placed.ratio {
                    Some(_) =>
                        ", counted as often as its modular ratio says: of its true breadth, for across the section the strain goes with \
                         the true distance.",
                    None => ".",
                }
            ));
            let own = self.formula(entry, own)?;
            own_upright.push(Some(own));
            let entry =
                Entry::new(CHAPTER, Role::Across, number, format!("distance of {name} to the right")).says(
                    format!(
                        "How far the centroid of {} lies to the right of the centroid of the section; negative to the \
                         left of it.",
                        with_article(name)
                    ),
                );
            let distance = self.formula(entry, Expression::from(place.centroid) - across.centroid.into())?;
            let area = || Expression::from(piece.area);
            squares.push(Expression::Sum(vec![own.into(), area() * Expression::from(distance).power(2)]));
            let shifted = area() * shifted.distance.into() * distance.into();
            products.push(match own_product {
                Some(own) => Expression::Sum(vec![own, shifted]),
                None => shifted,
            });
        }
        let entry = Entry::new(
            CHAPTER,
            Role::SecondMomentUpright,
            "",
            "second moment of area about the upright axis",
        )
        .says("Each piece adds its own second moment and its area times its level distance squared.");
        let upright = self.formula(entry, Expression::sum_over(squares))?;
        let entry = Entry::new(CHAPTER, Role::ProductMoment, "", "product moment of area").says(
            "Where this is not zero, the level axis is no principal axis: bending up and down then pulls and presses on the \
             right and on the left as well. A piece with an axis of symmetry of its own adds its area times both distances, \
             each with its sign.",
        );
        let product = self.formula(entry, Expression::sum_over(products))?;
        Ok((upright, product, own_upright))
    }

    fn own_upright(&mut self, piece: &Placed) -> Result<Expression, EvaluationError> {
        let plain = match (piece.size, piece.piece.figure) {
            (Size::Rectangle { breadth, height }, _) => {
                Expression::from(height) * Expression::from(breadth).power(3) / 12.0.into()
            }
            (Size::Triangle { base, height }, _) if piece.is_upright() => {
                Expression::from(height) * Expression::from(base).power(3) / 48.0.into()
            }
            (Size::Round { diameter }, Figure::HalfCircle { .. }) => {
                Expression::from(PI) * Expression::from(diameter).power(4) / 128.0.into()
            }
            (Size::Round { diameter }, _) => {
                Expression::from(PI) * Expression::from(diameter).power(4) / 64.0.into()
            }
            (Size::Outline | Size::Triangle { .. }, _) => {
                let own = piece.piece.alone.0.properties().second_moment_upright;
                let name = format!("plain second moment of {} about its upright axis", piece.piece.name);
                let entry =
                    Entry::new(CHAPTER, Role::SecondMomentUpright, &format!("{}, plain", piece.number), name);
                self.outline_moment(entry, own)?
            }
        };
        Ok(piece.counted(plain))
    }

    /// The product moment about its own axes; none of a figure with an axis of symmetry.
    fn own_product(&mut self, piece: &Placed) -> Result<Option<Expression>, EvaluationError> {
        if piece.is_upright() {
            return Ok(None);
        }
        let up = piece.piece.alone.0.properties().product_moment;
        let own = if self.axis_down { -up } else { up };
        let name = format!("plain product moment of {}", piece.piece.name);
        let entry = Entry::new(CHAPTER, Role::ProductMoment, &format!("{}, plain", piece.number), name);
        Ok(Some(piece.counted(self.outline_moment(entry, own)?)))
    }

    fn outline_moment(&mut self, entry: Entry, value: f64) -> Result<Expression, EvaluationError> {
        let how = "Integrated exactly round the outline, arcs included.";
        let found =
            self.engine(entry.says(how), how, (Vec::new(), Call::Fixed), value, Dimension::LENGTH_4)?;
        Ok(found.into())
    }

    /// The principal moments and the direction of their axes.
    fn principal_axes(&mut self, moments: Moments) -> Result<(), EvaluationError> {
        let sum = Expression::from(moments.level) + moments.upright.into();
        let half_difference = (Expression::from(moments.level) - moments.upright.into()) / 2.0.into();
        let squares = half_difference.power(2) + Expression::from(moments.product).power(2);
        let mean = Entry::new(CHAPTER, Role::PrincipalSecondMoment, "avg", "mean second moment").says(
            "Turn the axes, and the moments change as stresses do: Mohr's circle again. Its centre lies at the mean of both second \
             moments, whatever the axes.",
        );
        let mean = self.formula(mean, sum / 2.0.into())?;
        let radius =
            Entry::new(CHAPTER, Role::CircleRadius, "I", "radius of Mohr's circle of the second moments")
                .says("The radius of that circle.");
        let radius = self.formula(radius, squares.root())?;
        let entry = |index: &str, name: &str, says: &str| {
            Entry::new(CHAPTER, Role::PrincipalSecondMoment, index, name).says(says)
        };
        let largest =
            entry("max", "largest principal second moment", "About one axis the second moment is largest.");
        let largest = self.formula(largest, Expression::from(mean) + radius.into())?;
        let smallest = entry(
            "min",
            "smallest principal second moment",
            "About the axis at right angles it is smallest: that is the way in which the beam gives most.",
        );
        self.formula(smallest, Expression::from(mean) - radius.into())?;
        let entry = Entry::new(CHAPTER, Role::PrincipalAxisAngle, "", "angle of the principal axis").says(
            "The axis about which the second moment is largest, counter-clockwise from the level axis as drawn. About it \
             and about the one at right angles the product moment is zero, and only about these does M y / I hold.",
        );
        // Half the arctangent of 2 I_yz over the difference of both would be off by a right angle where I is the smaller one.
        // Each of these has a positive divisor; the larger moment is not taken from the largest, from which it may hardly differ.
        let (level, upright) = (Expression::from(moments.level), Expression::from(moments.upright));
        let product = self.along_depth(-Expression::from(moments.product));
        let angle = if self.value(moments.level) >= self.value(moments.upright) {
            Expression::arctangent(product, Expression::from(largest) - upright)
        } else if (self.value(moments.product) > 0.0) == self.axis_down {
            Expression::arctangent(Expression::from(largest) - level, product)
        } else {
            -Expression::arctangent(Expression::from(largest) - level, -product)
        };
        self.formula(entry, angle)?;
        Ok(())
    }

    fn inclination(&mut self, moments: Moments) -> Result<Id, EvaluationError> {
        let entry = Entry::new(CHAPTER, Role::NeutralAxisAngle, "", "inclination of the neutral axis").says(
            "The stress is zero where both terms cancel: along a line through the centroid that is not level, although the \
             load is upright. Counter-clockwise from the level axis as drawn.",
        );
        let product = self.along_depth(moments.product.into());
        self.formula(entry, Expression::arctangent(product, moments.upright.into()))
    }

    /// The second moment that is left of I where the beam is free to go sideways, and how much more it sinks for that.
    fn counts_askew(&mut self, moments: Moments) -> Result<Id, EvaluationError> {
        let entry = Entry::new(CHAPTER, Role::SecondMoment, "askew", "second moment that counts askew").says(
            "What the product moment leaves of I in a beam that is free to go sideways: this much resists an upright load.",
        );
        let lost = Expression::from(moments.product).power(2) / moments.upright.into();
        let counts = self.formula(entry, Expression::from(moments.level) - lost)?;
        let entry = Entry::new(CHAPTER, Role::Ratio, "v", "times that it sinks more").says(
            "Free to go sideways, the beam moves at right angles to its neutral axis and sinks more than E I says: so many times.",
        );
        self.formula(entry, Expression::from(moments.level) / counts.into())?;
        let entry = Entry::new(CHAPTER, Role::Ratio, "u", "way to the right for each unit that it sinks").says(
            "Nothing turns the beam about the upright axis, so the bending sideways must undo what the product moment does there: \
             E (I_y u'' + I_yz v'') = 0. Free to go sideways, it moves so far to the right for each unit that it sinks, to the left where \
             this is negative: at right angles to the neutral axis.",
        );
        let product = self.along_depth(moments.product.into());
        self.formula(entry, product / moments.upright.into())?;
        Ok(counts)
    }

    /// The shear stress on the cut; none where nothing lies beyond it, or the cut has no width.
    fn skew_shear(
        &mut self,
        before: &Before<'_>,
        across: &AcrossWorkings,
        (moments, counts): (Moments, Id),
    ) -> Result<Option<Id>, EvaluationError> {
        let cut = before.cut;
        let problem = &self.problem.cut;
        let (height, beyond) = (problem.height, problem.beyond);
        if cut.centroid.is_none() || self.value(cut.width) <= 0.0 {
            return Ok(None);
        }
        let mut terms = Vec::new();
        for part in &cut.pieces {
            let Some(place) = across.pieces.get(part.piece) else { continue };
            let placed = &before.section.pieces[part.piece].placed;
            let centroid = if part.whole || placed.is_upright() {
                place.centroid.into()
            } else {
                self.outline_beyond(placed, before, across)?
            };
            terms.push(part.area.clone() * (centroid - across.centroid.into()));
        }
        let which = if beyond == HeightSide::Above { "above" } else { "below" };
        let entry = Entry::new(
            CHAPTER,
            Role::FirstMomentUpright,
            "",
            "first moment about the upright axis at the cut",
        )
        .height(height, None)
        .says(format!(
            "The part beyond, {which} the cut, about the upright axis through the centroid: its areas times their distances \
             to the right."
        ));
        let first_moment_upright = self.formula(entry, Expression::sum(terms))?;
        // Q counts towards the part beyond, the product moment along the depth axis.
        let along = (beyond == HeightSide::Above) != self.axis_down;
        let first = Expression::from(cut.first_moment);
        let second = Expression::from(moments.product) * first_moment_upright.into() / moments.upright.into();
        let entry = Entry::new(CHAPTER, Role::FirstMoment, "askew", "first moment that counts askew at the cut")
            .height(height, None)
            .says(
                "The part beyond must be held against the growth of the skew bending stress: the first moment about the upright \
                 axis counts as well, and the more so the more the neutral axis leans.",
            );
        let first_moment = self.formula(entry, if along { first - second } else { first + second })?;
        let flow = Expression::from(before.shear_force) * first_moment.into();
        let place = self.workings.working(before.shear_force).place;
        let mut entry =
            Entry::new(CHAPTER, Role::ShearStress, "askew", "skew shear stress on the cut").says(format!(
                "The formula looks as always, V Q / (I t), but with what counts of both moments askew.{}",
                of_no_material(before.engine, height, problem.side)
            ));
        if let Some(station) = place.station {
            entry = entry.at(station, place.side);
        }
        let below = Expression::from(counts) * cut.width.into();
        self.formula(entry.height(height, Some(problem.side)), flow / below).map(Some)
    }

    /// The centroid to the right of what of an outline lies beyond the cut.
    fn outline_beyond(
        &mut self,
        placed: &Placed,
        before: &Before<'_>,
        across: &AcrossWorkings,
    ) -> Result<Expression, EvaluationError> {
        let height = self.problem.cut.height;
        let alone = &placed.piece.alone.0;
        let reached = height.clamp(alone.properties().bottom, alone.properties().top);
        let found = alone.level_cut(reached, self.problem.cut.beyond);
        let value = found.map_or(before.engine.properties().centroid.x, |cut| cut.centroid.x) - across.base;
        let name = format!("place of the centroid of {} beyond the cut to the right", placed.piece.name);
        let entry = Entry::new(CHAPTER, Role::CentroidAcross, &format!("{}, beyond", placed.number), name);
        let how = "Integrated exactly over the part of the outline beyond the cut.";
        let id = self.engine(entry.says(how), how, (Vec::new(), Call::Fixed), value, Dimension::LENGTH)?;
        Ok(id.into())
    }
}
