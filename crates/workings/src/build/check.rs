//! Every working against the engine, which found the same numbers in another way.

use super::{Built, narrow_contact};
use crate::problem::Problem;
use crate::role::Role;
use crate::solved::SolveFault;
use crate::working::{HeightSide, Id, Working};
use mechanics::balance::Residual;
use mechanics::beam::{Curve, Load, Side, Solution};
use mechanics::real;
use mechanics::section::Section;
use mechanics::slice::{Slice, SliceGivens};
use mechanics::stress::{PlaneStress, StressOverDepth};

/// What is compared on which scale.
pub(super) struct Check<'a> {
    pub(super) built: &'a Built,
    /// The largest force on the beam, N.
    pub(super) force_scale: f64,
    faults: Vec<SolveFault>,
}

/// Compares; gives what differs by more than 1e-9 of its scale.
pub(crate) fn check(
    problem: &Problem,
    solution: &Solution,
    section: &Section,
    built: &Built,
) -> Vec<SolveFault> {
    let scale = force_scale(problem, solution);
    let mut check = Check { built, force_scale: scale, faults: Vec::new() };
    check.beam(problem, solution, scale);
    check.movements();
    check.section(section);
    check.stresses(problem, section, scale);
    check.point(solution, section);
    check.skew(problem, solution, section);
    check.walls(problem, section);
    check.slice(problem, section);
    check.balances(problem, solution);
    check.faults
}

/// The largest force on the beam, N: what V is added up from.
fn force_scale(problem: &Problem, solution: &Solution) -> f64 {
    let reactions = solution
        .reactions()
        .iter()
        .map(|reaction| reaction.force.abs().max(reaction.couple.abs() / problem.beam.length));
    let loads = problem.beam.loads.iter().map(|load| match *load {
        Load::Force { down, .. } => down.abs(),
        Load::Couple { ccw, .. } => ccw.abs() / problem.beam.length,
        Load::Spread { from, to, down_from, down_to } => (to - from) * down_from.abs().max(down_to.abs()),
    });
    reactions.chain(loads).fold(0.0, f64::max)
}

impl Check<'_> {
    pub(super) fn value(&self, id: Id) -> f64 {
        self.built.workings.values()[id.0 as usize]
    }

    pub(super) fn compare(&mut self, working: &Working, engine: f64, scale: f64) {
        let value = working.value.value;
        // What is not a number does not agree.
        let agrees = (value - engine).abs() <= Residual::BOUND * scale.abs();
        if !agrees {
            self.faults.push(SolveFault::Differs { working: working.name.clone(), value, engine, scale });
        }
    }

    pub(super) fn named(&mut self, name: &str, engine: f64, scale: f64) {
        let built = self.built;
        if let Some(working) = built.workings.get(name) {
            self.compare(working, engine, scale);
        }
    }

    fn beam(&mut self, problem: &Problem, solution: &Solution, scale: f64) {
        let built = self.built;
        let moment_scale = scale * problem.beam.length;
        for (reaction, label) in solution.reactions().iter().zip(&problem.supports) {
            self.named(&format!("reaction at {}", label.name), reaction.force, scale);
            self.named(&format!("couple at {}", label.name), reaction.couple, moment_scale);
        }
        for (_, working) in built.workings.in_order() {
            let Some(station) = working.place.station else { continue };
            let side = working.place.side.unwrap_or(Side::Left);
            match working.symbol.role {
                Role::ShearForce => self.compare(working, solution.shear(station, side), scale),
                Role::BendingMoment => {
                    self.compare(working, solution.bending_moment(station, side), moment_scale);
                }
                Role::Station if working.name.starts_with("station of zero shear force") => {
                    let left = solution.shear(working.value.value, Side::Left);
                    self.residual(&working.name, left, scale);
                }
                Role::Station if working.name.starts_with("point of contraflexure") => {
                    let moment = solution.bending_moment(working.value.value, Side::Left);
                    self.residual(&working.name, moment, moment_scale);
                }
                _ => {}
            }
        }
        let extremes = solution.extremes(Curve::Shear);
        if let Some(working) = built.workings.get("largest shear force") {
            let signed = extremes.largest_size.value.copysign(working.value.value);
            self.compare(working, signed, scale);
        }
        let extremes = solution.extremes(Curve::BendingMoment);
        for (name, extreme) in
            [("largest sagging moment", extremes.highest), ("largest hogging moment", extremes.lowest)]
        {
            let engine = extreme.map_or(0.0, |extreme| extreme.value);
            self.named(name, engine, moment_scale);
        }
    }

    /// The movements of the released beam.
    fn movements(&mut self) {
        let built = self.built;
        for check in &built.movement_checks {
            self.compare(built.workings.working(check.working), check.engine, check.scale);
        }
    }

    pub(super) fn residual(&mut self, what: &str, residual: f64, scale: f64) {
        let bound = Residual::BOUND * scale;
        let closes = residual.abs() <= bound;
        if !closes {
            self.faults.push(SolveFault::DoesNotClose { what: what.to_owned(), residual, bound });
        }
    }

    fn section(&mut self, section: &Section) {
        let properties = section.properties();
        let depth = properties.height();
        let height_scale = depth.max(properties.top.abs()).max(properties.bottom.abs());
        self.named("area", properties.area, properties.area);
        self.named("centroid height", properties.centroid.y, height_scale);
        self.named("second moment", properties.second_moment, properties.second_moment);
        self.named("height of the top fibre", properties.top, height_scale);
        self.named("height of the bottom fibre", properties.bottom, height_scale);
        let modulus = properties.section_modulus_top;
        self.named("section modulus of the top fibre", modulus, modulus);
        let modulus = properties.section_modulus_bottom;
        self.named("section modulus of the bottom fibre", modulus, modulus);
        self.named("radius of gyration", properties.radius_of_gyration, properties.radius_of_gyration);
    }

    fn stresses(&mut self, problem: &Problem, section: &Section, force_scale: f64) {
        let built = self.built;
        let properties = section.properties();
        let key = built.key;
        let cut = &problem.cut;
        let largest_first_moment = section
            .level_cut(section.neutral_axis(), HeightSide::Above)
            .map_or(0.0, |axis| axis.first_moment.abs());
        if let Ok(found) = section.level_cut(cut.height, cut.beyond) {
            let workings = &built.workings;
            self.compare(workings.working(key.area_beyond), found.area, properties.area);
            let first_moment = workings.working(key.first_moment);
            self.compare(first_moment, found.first_moment.abs(), largest_first_moment);
            let width = narrow_contact(section, cut.height).unwrap_or_else(|| found.width(cut.side));
            self.compare(workings.working(key.width), width, properties.breadth());
        }
        self.named("first moment at the neutral axis", largest_first_moment, largest_first_moment);
        let (moment, shear) = (self.value(key.moment), self.value(key.shear));
        let profile = StressOverDepth::new(section, moment, shear);
        let largest = profile.under(0.0, force_scale).largest_shear_stress().value;
        let over_depth = profile.largest_shear_stress().value.copysign(shear);
        self.named("largest shear stress over the depth", over_depth, largest);
        let along = self.value(key.largest_shear);
        let along_beam = profile.under(0.0, along).largest_shear_stress().value;
        self.named("largest shear stress along the beam", along_beam, largest);
        let on_cut = profile.shear_stress(cut.height, cut.side);
        if narrow_contact(section, cut.height).is_none() {
            self.compare(built.workings.working(key.stress_on_cut), on_cut, largest);
        }
        let scale = (moment.abs() + force_scale * problem.beam.length) * properties.height()
            / properties.second_moment;
        let at = |height: f64, side: HeightSide| {
            // Of several materials side by side the stiffest.
            let ratio = |part: usize| problem.parts.get(part).map_or(1.0, |part| part.modular_ratio);
            let parts = section.chords(height, side).into_iter().map(|chord| chord.part);
            let part = parts.max_by(|&one, &other| ratio(one).total_cmp(&ratio(other))).unwrap_or_default();
            profile.bending_stress_in(part, height)
        };
        let highest_ratio = problem.parts.iter().map(|part| part.modular_ratio).fold(1.0, f64::max);
        let places = [
            ("bending stress at the top", properties.top, HeightSide::Below),
            ("bending stress at the bottom", properties.bottom, HeightSide::Above),
        ];
        for (name, height, side) in places {
            self.named(name, at(height, side), scale * highest_ratio);
        }
        for material in &built.chapters.section.materials {
            let part = material.parts.first().copied().unwrap_or_default();
            for &id in &material.stresses {
                let working = built.workings.working(id);
                let height = working.place.height.unwrap_or_default();
                self.compare(working, profile.bending_stress_in(part, height), scale * highest_ratio);
            }
        }
    }

    /// The principal stresses at the cut from the engine, and the largest equivalent stress of all checked places.
    fn point(&mut self, solution: &Solution, section: &Section) {
        let built = self.built;
        let stress = PlaneStress {
            normal: built
                .workings
                .get("bending stress at the cut")
                .map_or(0.0, |working| working.value.value),
            shear: self.value(built.key.stress_on_cut),
        };
        let principal = stress.principal();
        let scale = stress.normal.abs() + stress.shear.abs();
        self.named("largest principal stress at the cut", principal.largest, scale);
        self.named("smallest principal stress at the cut", principal.smallest, scale);
        self.named("largest shear stress in the plane at the cut", principal.largest_shear, scale);
        if let Some(working) = built.workings.get("direction of the largest principal stress at the cut") {
            // The direction itself: it has no sense, and -90° is 90°.
            let off = real::sin(working.value.value - principal.angle);
            self.residual(&working.name, off, 1.0);
        }
        let Some(working) = built.workings.get("largest equivalent stress at the checked places") else {
            return;
        };
        let properties = section.properties();
        let over_depth = StressOverDepth::new(section, 0.0, 0.0);
        let mut most = 0.0_f64;
        let turns =
            [Curve::Shear, Curve::BendingMoment].into_iter().flat_map(|curve| solution.turning_points(curve));
        let stations = solution.stations().chain(turns);
        for (station, side) in stations.flat_map(|x| [(x, Side::Left), (x, Side::Right)]) {
            let here =
                over_depth.under(solution.bending_moment(station, side), solution.shear(station, side));
            for height in
                section.junctions().into_iter().map(|jump| jump.height).chain([section.neutral_axis()])
            {
                let (normal, shear) = (here.bending_stress(height), here.shear_stress_on_contact(height));
                most = most.max(PlaneStress { normal, shear }.equivalent());
            }
        }
        let moment = solution.extremes(Curve::BendingMoment).largest_size.value;
        for height in [properties.bottom, properties.top] {
            most = most.max(over_depth.under(moment, 0.0).bending_stress(height).abs());
        }
        self.compare(working, most, most);
    }

    fn slice(&mut self, problem: &Problem, section: &Section) {
        let built = self.built;
        let slice = &built.slice;
        let givens = SliceGivens {
            length: self.value(slice.length),
            moment_left: self.value(slice.moment_left),
            moment_right: self.value(slice.moment_right),
            shear_left: self.value(slice.shear_left),
            shear_right: self.value(slice.shear_right),
            load: 0.0,
            load_moment: 0.0,
        };
        let Ok(found) = Slice::new(section, givens, problem.cut.height, problem.cut.beyond) else { return };
        let workings = &built.workings;
        let scale = found.left.above_axis.force.abs().max(found.right.above_axis.force.abs());
        self.compare(workings.working(slice.resultant_left), found.left.beyond.force, scale);
        self.compare(workings.working(slice.resultant_right), found.right.beyond.force, scale);
        self.compare(workings.working(slice.force_on_cut), found.force_on_cut, scale);
    }

    fn balances(&mut self, problem: &Problem, solution: &Solution) {
        for balance in solution.balances(&problem.beam) {
            if !balance.closes() {
                let what = format!("the balance {:?} of the beam", balance.law);
                let bound = mechanics::beam::Balance::BOUND * balance.scale;
                self.faults.push(SolveFault::DoesNotClose { what, residual: balance.residual, bound });
            }
        }
    }
}
