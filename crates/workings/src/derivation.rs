//! The general derivation, from the balance of the slice to `tau = V Q / (I t)`, each step in symbols and with
//! this beam's numbers, and what it leaves over.
//!
//! # Source
//! The balance of the cut piece; in every textbook of mechanics of materials since D. J. Jourawski, 1856.

mod slice_load;

use crate::build::narrow_contact;
use crate::dimension::Dimension;
use crate::expression::Expression;
use crate::mistake::Saying;
use crate::notation::DepthAxis;
use crate::quantity::Quantity;
use crate::role::{Role, Symbol};
use crate::solved::Solved;
use crate::working::{HeightSide, Id};
use mechanics::balance::Residual;
use mechanics::slice::{Slice, SliceBalance, SliceGivens};
use slice_load::SliceLoad;

/// One step of the derivation.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// What the step is called: `Balance of moments of the slice`.
    pub title: &'static str,
    /// What is done, and why.
    pub sentence: Saying,
    /// The step in symbols, an equation a line; it holds for any section.
    pub symbols: Vec<Expression>,
    /// The step with the numbers of this beam and its finite slice, an equation a line.
    pub numbers: Vec<Expression>,
    /// What the step leaves over, with the bound that it must meet.
    pub residual: Option<Closure>,
}

/// What a step leaves over.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Closure {
    /// What is left, SI.
    pub residual: Quantity,
    /// The size that it may have, SI: 1e-9 of the largest term, or for the limit what a finite slice may differ.
    pub bound: Quantity,
    /// The role whose unit shows both.
    pub role: Role,
    /// Where what is left comes from.
    pub from: Remainder,
}

/// Where what a step leaves over comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Remainder {
    /// The same number is found in two ways, which differ in the last figures of a machine's numbers.
    Rounding,
    /// The slice has a length over which V changes, so that a mean stands for a value: less is left with a shorter slice.
    FiniteSlice,
    /// A load at a point stands on the slice, where V jumps: with a slice that is short enough it stands beside it.
    LoadAtPoint,
}

impl Closure {
    fn of(terms: &[f64], dimension: Dimension, role: Role) -> Self {
        let residual = Residual::of(terms);
        Self::within(residual.value, Residual::BOUND * residual.scale, dimension, role)
    }

    fn within(residual: f64, bound: f64, dimension: Dimension, role: Role) -> Self {
        Self {
            residual: Quantity::new(residual, dimension),
            bound: Quantity::new(bound, dimension),
            role,
            from: Remainder::Rounding,
        }
    }

    /// What rounding leaves, as a share of the largest term; none where it is something else that is left.
    pub fn share_of_rounding(&self) -> Option<f64> {
        let scale = self.bound.value / Residual::BOUND;
        let some = self.from == Remainder::Rounding && scale > 0.0;
        some.then(|| self.residual.value.abs() / scale)
    }

    /// Whether what is left is within the bound.
    pub fn closes(&self) -> bool {
        self.residual.value.abs() <= self.bound.value
    }
}

fn symbol(role: Role) -> Expression {
    Expression::Symbol(Symbol::plain(role))
}

fn over_part(integrand: Expression) -> Expression {
    Expression::Integral {
        over: Some(Box::new(symbol(Role::AreaBeyond))),
        integrand: Box::new(integrand),
        by: Box::new(symbol(Role::Area)),
    }
}

/// What all steps share.
struct Steps<'a> {
    solved: &'a Solved,
    axis_down: bool,
    above: bool,
    load: SliceLoad,
    slice: Option<Slice>,
}

/// The derivation with the numbers of this lesson.
pub fn derivation(solved: &Solved) -> Vec<Step> {
    let steps = Steps::new(solved);
    vec![
        steps.moments(),
        steps.stress_on_faces(),
        steps.resultant(),
        steps.difference(),
        steps.balance_of_piece(),
        steps.stress_times_area(),
        steps.divided(),
        steps.limit(),
        steps.formula(),
    ]
}

impl<'a> Steps<'a> {
    fn new(solved: &'a Solved) -> Self {
        let ids = solved.slice();
        let givens = SliceGivens {
            length: solved.value(ids.length),
            moment_left: solved.value(ids.moment_left),
            moment_right: solved.value(ids.moment_right),
            shear_left: solved.value(ids.shear_left),
            shear_right: solved.value(ids.shear_right),
            load: 0.0,
            load_moment: 0.0,
        };
        let cut = &solved.problem().cut;
        Self {
            solved,
            axis_down: solved.style().notation.habits.depth_axis == DepthAxis::Down,
            above: cut.beyond == HeightSide::Above,
            load: SliceLoad::of(solved),
            slice: Slice::new(solved.section(), givens, cut.height, cut.beyond).ok(),
        }
    }

    fn value(&self, id: Id) -> f64 {
        self.solved.value(id)
    }

    fn says(&self, text: &str) -> Saying {
        Saying::of(text, self.solved.style())
    }

    fn number(&self, id: Id) -> Expression {
        self.solved.workings().result(id)
    }

    /// `-M Q / I` above the neutral axis, `M Q / I` below it, Q being a size.
    fn toward_compression(&self, size: Expression) -> Expression {
        if self.above { -size } else { size }
    }

    /// Whether the part beyond lies where the depth coordinate counts up from the neutral axis, so that the integral of it is Q and not
    /// `-Q`.
    fn counts_up(&self) -> bool {
        self.above != self.axis_down
    }

    fn moment_ratio(&self) -> Expression {
        symbol(Role::BendingMoment) / symbol(Role::SecondMoment)
    }

    fn d(role: Role) -> Expression {
        symbol(role).differential()
    }

    fn dx() -> Expression {
        Self::d(Role::Station)
    }

    fn moments(&self) -> Step {
        let ids = self.solved.slice();
        let (m, dm) = (symbol(Role::BendingMoment), Self::d(Role::BendingMoment));
        let balance = Expression::Equal(vec![
            (m.clone() + dm.clone()) - m - symbol(Role::ShearForce) * Self::dx()
                + symbol(Role::SpreadLoad) * Self::dx() * (Self::dx() / 2.0.into()),
            0.0.into(),
        ]);
        let change = self.number(ids.moment_change);
        let mut right = self.number(ids.shear_left) * self.number(ids.length);
        let load = self.load.moment_about_right;
        if load != 0.0 {
            let load = Quantity::new(load, Dimension::MOMENT);
            right = right - Expression::Quantity(load, Role::BendingMoment);
        }
        let mut sentence = "Take the slice between {x} and {x} + d{x} out of the beam. Moments about its right face: the \
                            shear force on the left face turns it with the arm d{x}, and the difference of the two \
                            bending moments holds it. The load on the slice stands about d{x}/2 from the face, so its \
                            moment is of second order and vanishes beside the others as d{x} shrinks."
            .to_owned();
        if load != 0.0 {
            sentence.push_str(" With a finite slice it still counts: it is the last term of the numbers.");
        }
        let terms = [
            self.value(ids.moment_right),
            -self.value(ids.moment_left),
            -self.value(ids.shear_left) * self.value(ids.length),
            load,
        ];
        Step {
            title: "Balance of moments of the slice",
            sentence: self.says(&sentence),
            symbols: vec![balance],
            numbers: vec![Expression::Equal(vec![
                self.number(ids.moment_right) - self.number(ids.moment_left),
                change,
                right,
            ])],
            residual: Some(Closure::of(&terms, Dimension::MOMENT, Role::BendingMoment)),
        }
    }

    fn stress_on_faces(&self) -> Step {
        let ids = self.solved.slice();
        let y = symbol(Role::Depth);
        let on_face = |moment: Expression| {
            let size = moment * y.clone() / symbol(Role::SecondMoment);
            if self.axis_down { size } else { -size }
        };
        let (m, sigma) = (symbol(Role::BendingMoment), symbol(Role::BendingStress));
        let faces = Expression::Equal(vec![
            sigma.clone() + Self::d(Role::BendingStress),
            on_face(m.clone() + Self::d(Role::BendingMoment)),
        ]);
        let left = Expression::Equal(vec![sigma, on_face(m)]);
        // At the outer fibre of the part beyond, where the stress of the part is largest.
        let properties = self.solved.section().properties();
        let height = if self.above { properties.top } else { properties.bottom };
        let up = height - self.value(self.solved.key().centroid);
        let i = self.value(self.solved.key().second_moment);
        let depth = Quantity::new(if self.axis_down { -up } else { up }, Dimension::LENGTH);
        let line = |moment: Id| {
            let product = self.number(moment) * Expression::Quantity(depth, Role::Depth)
                / self.number(self.solved.key().second_moment);
            let stress = Quantity::new(-self.value(moment) * up / i, Dimension::STRESS);
            Expression::Equal(vec![
                if self.axis_down { product } else { -product },
                Expression::Quantity(stress, Role::BendingStress),
            ])
        };
        let profile = self.solved.stress().under(self.value(ids.moment_left), 0.0);
        let difference = profile.bending_stress(height) + self.value(ids.moment_left) * up / i;
        let scale = self.value(ids.moment_left).abs() * properties.height() / i;
        Step {
            title: "Bending stress on both faces",
            sentence: self.says("Bending gives both faces a stress that grows in a straight line from the neutral axis, by the \
                       same formula; only the moment may differ. The numbers are those at the outer fibre of the part \
                       beyond the cut, on the left face and on the right."),
            symbols: vec![left, faces],
            numbers: vec![line(ids.moment_left), line(ids.moment_right)],
            residual: Some(Closure::within(
                difference,
                Residual::BOUND * scale,
                Dimension::STRESS,
                Role::BendingStress,
            )),
        }
    }

    fn resultant(&self) -> Step {
        let ids = self.solved.slice();
        let key = self.solved.key();
        let first = over_part(symbol(Role::Depth));
        let ratio = self.moment_ratio() * first;
        let symbols = Expression::Equal(vec![
            symbol(Role::StressResultant),
            over_part(symbol(Role::BendingStress)),
            if self.axis_down { ratio } else { -ratio },
            self.toward_compression(
                symbol(Role::BendingMoment) * symbol(Role::FirstMoment) / symbol(Role::SecondMoment),
            ),
        ]);
        let size =
            self.number(ids.moment_left) * self.number(key.first_moment) / self.number(key.second_moment);
        let arm = key.centroid_beyond.map_or(0.0, |arm| self.value(arm));
        let mean = self.value(ids.moment_left) * arm / self.value(key.second_moment);
        let mean = if self.above { -mean } else { mean };
        let terms = [self.value(ids.resultant_left), -mean * self.value(key.area_beyond)];
        let side = if self.above { "above" } else { "below" };
        Step {
            title: "Resultant on the part beyond the cut",
            sentence: self.says(&format!(
                "Keep only the part of the slice {side} the cut, and add up the bending stress over its face {{A'}}. {{M}} and \
                 {{I}} are the same for all of it and stand before the integral; what remains is the first moment of {{A'}} \
                 about the neutral axis{}. The numbers are those of the left face.",
                match self.counts_up() {
                    true => ", {Q}",
                    false =>
                        ". It is negative on this side of the axis: {Q} is its size, and the integral is minus {Q}",
                }
            )),
            symbols: vec![symbols],
            numbers: vec![Expression::Equal(vec![
                self.toward_compression(size),
                self.number(ids.resultant_left),
            ])],
            residual: Some(Closure::of(&terms, Dimension::FORCE, Role::StressResultant)),
        }
    }

    fn difference(&self) -> Step {
        let ids = self.solved.slice();
        let key = self.solved.key();
        let size = |moment: Expression, q: Expression, i: Expression| moment * q / i;
        let symbols = Expression::Equal(vec![
            Self::d(Role::StressResultant),
            self.toward_compression(size(
                Self::d(Role::BendingMoment),
                symbol(Role::FirstMoment),
                symbol(Role::SecondMoment),
            )),
        ]);
        let stays = self.solved.moment_stays();
        let by_moments = size(
            self.number(ids.moment_change),
            self.number(key.first_moment),
            self.number(key.second_moment),
        );
        let (left, right) = (self.value(ids.resultant_left), self.value(ids.resultant_right));
        // Where the moments are equal the resultants are, but for rounding.
        let difference = if stays { 0.0 } else { right - left };
        let numbers = Expression::Equal(vec![
            self.number(ids.resultant_right) - self.number(ids.resultant_left),
            if stays { by_moments } else { self.toward_compression(by_moments) },
            Expression::Quantity(Quantity::new(difference, Dimension::FORCE), Role::StressResultant),
        ]);
        let by_change =
            self.value(ids.moment_change) * self.value(key.first_moment) / self.value(key.second_moment);
        let by_change = if self.above { -by_change } else { by_change };
        let terms = [self.value(ids.resultant_right), -self.value(ids.resultant_left), -by_change];
        Step {
            title: "Difference between the faces",
            sentence: self.says(match stays {
                false => {
                    "The two resultants on {A'} point against each other and do not balance: they differ as the \
                       moments do."
                }
                true => "The two resultants on {A'} point against each other. Here they are equal, as the moments are, and balance.",
            }),
            symbols: vec![symbols],
            numbers: vec![numbers],
            residual: Some(Closure::of(&terms, Dimension::FORCE, Role::StressResultant)),
        }
    }

    fn balance_of_piece(&self) -> Step {
        let ids = self.solved.slice();
        let n = symbol(Role::StressResultant);
        let dn = Self::d(Role::StressResultant);
        let df = Self::d(Role::ForceOnCut);
        let size = Self::d(Role::BendingMoment) * symbol(Role::FirstMoment) / symbol(Role::SecondMoment);
        let symbols = vec![
            Expression::Equal(vec![(n.clone() + dn.clone()) - n + df.clone(), 0.0.into()]),
            Expression::Equal(vec![df, -dn, if self.above { size } else { -size }]),
        ];
        let numbers = Expression::Equal(vec![
            self.number(ids.resultant_left) - self.number(ids.resultant_right),
            self.number(ids.force_on_cut),
        ]);
        // The rest of the slice, integrated apart, must be in balance under the opposite force.
        let residual = self.slice.as_ref().and_then(|slice| {
            let rest = slice.balances().into_iter().find(|(which, _)| *which == SliceBalance::Rest);
            rest.map(|(_, rest)| {
                Closure::within(
                    rest.value,
                    Residual::BOUND * rest.scale,
                    Dimension::FORCE,
                    Role::StressResultant,
                )
            })
        });
        Step {
            title: "Balance of the piece beyond the cut",
            sentence: self.says("The outer surface of the piece is free. Only the cut can supply what is missing: a force along \
                       the beam, which the rest of the slice exerts on the piece. What is left over is that of the \
                       other piece, added up apart from this one, under the opposite force."),
            symbols,
            numbers: vec![numbers],
            residual,
        }
    }

    fn stress_times_area(&self) -> Step {
        let ids = self.solved.slice();
        let key = self.solved.key();
        let area = symbol(Role::WidthAtCut) * Self::dx();
        let df = Self::d(Role::ForceOnCut);
        let symbols = Expression::Equal(vec![
            symbol(Role::ShearStress) * area,
            if self.above { df } else { -df },
            Self::d(Role::BendingMoment) * symbol(Role::FirstMoment) / symbol(Role::SecondMoment),
        ]);
        let numbers = Expression::Equal(vec![
            self.number(ids.mean_stress) * self.number(key.width) * self.number(ids.length),
            self.number(ids.moment_change) * self.number(key.first_moment) / self.number(key.second_moment),
        ]);
        let force = self.value(ids.force_on_cut);
        let force = if self.above { force } else { -force };
        let terms = [self.value(ids.mean_stress) * self.value(key.width) * self.value(ids.length), -force];
        Step {
            title: "Stress times area of the cut",
            sentence: self.says(&format!(
                "The cut is {{t}} wide and d{{x}} long. Its mean shear stress times this area is the force{}; equal shear stress acts \
                 on the upright faces at this height.",
                match self.above {
                    true => "",
                    false =>
                        ", by its size: a positive shear stress pulls the piece above a cut to the right and the piece below \
                              it to the left, and forces to the right are positive",
                }
            )),
            symbols: vec![symbols],
            numbers: vec![numbers],
            residual: Some(Closure::of(&terms, Dimension::FORCE, Role::ForceOnCut)),
        }
    }

    fn divided(&self) -> Step {
        let ids = self.solved.slice();
        let key = self.solved.key();
        let below = symbol(Role::SecondMoment) * symbol(Role::WidthAtCut);
        let slope = Self::d(Role::BendingMoment) / Self::dx();
        let through = Expression::from(1.0) / below.clone() * slope * over_part(symbol(Role::Depth));
        let symbols = Expression::Equal(vec![
            symbol(Role::ShearStress),
            if self.counts_up() { through } else { -through },
            Self::d(Role::BendingMoment) / Self::dx() * (symbol(Role::FirstMoment) / below),
        ]);
        let numbers = Expression::Equal(vec![
            self.number(ids.moment_change) / self.number(ids.length)
                * (self.number(key.first_moment) / (self.number(key.second_moment) * self.number(key.width))),
            self.number(ids.mean_stress),
        ]);
        let quotient = self.value(ids.moment_change) / self.value(ids.length) * self.value(key.first_moment)
            / (self.value(key.second_moment) * self.value(key.width));
        let quotient = if self.value(key.width) == 0.0 { 0.0 } else { quotient };
        let terms = [quotient, -self.value(ids.mean_stress)];
        Step {
            title: "Divide by the area of the cut",
            sentence: self
                .says("Divide by {t} and d{x}. For the finite slice this is the mean over its length."),
            symbols: vec![symbols],
            numbers: vec![numbers],
            residual: Some(Closure::of(&terms, Dimension::STRESS, Role::ShearStress)),
        }
    }

    fn limit(&self) -> Step {
        let ids = self.solved.slice();
        let slope = Self::d(Role::BendingMoment) / Self::dx();
        let finite =
            Expression::Symbol(Symbol::indexed(Role::BendingMoment, "Δ")) / symbol(Role::SliceLength);
        let symbols = Expression::Equal(vec![
            Expression::LimitToZero { variable: Box::new(symbol(Role::SliceLength)), body: Box::new(finite) },
            slope,
            symbol(Role::ShearForce),
        ]);
        let length = self.value(ids.length);
        let mean = self.value(ids.moment_change) / length;
        let quotient = self.number(ids.moment_change) / self.number(ids.length);
        let mean_shown = Expression::Quantity(Quantity::new(mean, Dimension::FORCE), Role::ShearForce);
        // Where V jumps within the slice its mean is near to no value of V.
        let numbers = if self.load.jumps {
            Expression::Equal(vec![quotient, mean_shown])
        } else {
            Expression::About(vec![quotient, mean_shown, self.number(ids.shear_left)])
        };
        let residual = mean - self.value(ids.shear_left);
        let noise = Residual::BOUND * self.value(ids.shear_left).abs().max(mean.abs());
        let from = match self.load.jumps {
            true => Remainder::LoadAtPoint,
            false if self.load.size > noise => Remainder::FiniteSlice,
            false => Remainder::Rounding,
        };
        let within = Closure::within(residual, self.load.size + noise, Dimension::FORCE, Role::ShearForce);
        Step {
            title: "Let the slice shrink",
            sentence: self.says(&format!(
                "Write {{M}} with the index Δ for the difference of the moments on the two faces of a finite slice. As its length goes \
                 to zero, the difference quotient becomes the derivative of {{M}}, and the balance of moments says that this is {{V}}. \
                 With a finite slice the quotient is the mean of {{V}} over the slice; it differs from {{V}} by no more than the load on \
                 the slice.{}",
                if self.load.jumps {
                    " A load at a point stands on this slice, so the mean is far from the {V} of its left face; a \
                     shorter slice leaves that load behind."
                } else {
                    ""
                }
            )),
            symbols: vec![symbols],
            numbers: vec![numbers],
            residual: Some(Closure { from, ..within }),
        }
    }

    fn formula(&self) -> Step {
        let key = self.solved.key();
        let workings = self.solved.workings();
        let symbols = Expression::Equal(vec![
            symbol(Role::ShearStress),
            symbol(Role::ShearForce) * symbol(Role::FirstMoment)
                / (symbol(Role::SecondMoment) * symbol(Role::WidthAtCut)),
        ]);
        let substitution = workings.substitution(key.stress_on_cut);
        let numbers =
            Expression::Equal(substitution.into_iter().chain([self.number(key.stress_on_cut)]).collect());
        let cut = &self.solved.problem().cut;
        let engine = self.solved.stress().shear_stress(cut.height, cut.side);
        let terms = [self.value(key.stress_on_cut), -engine];
        // At a joint where parts stand off each other the width is that of the contact, which is none of the two.
        let comparable = narrow_contact(self.solved.section(), cut.height).is_none();
        Step {
            title: "The formula",
            sentence: self.says("So the shear stress on the cut, averaged over its width, follows from the shear force, the \
                       first moment of the part beyond, the second moment of the whole section and the width of the \
                       cut."),
            symbols: vec![symbols],
            numbers: vec![numbers],
            residual: comparable.then(|| Closure::of(&terms, Dimension::STRESS, Role::ShearStress)),
        }
    }
}
