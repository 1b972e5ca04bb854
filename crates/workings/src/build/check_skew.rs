//! The workings of skew bending against the engine.

use super::check::Check;
use super::skew_corners::{MaterialCorners, SkewCorners};
use crate::problem::Problem;
use mechanics::beam::{Curve, Solution};
use mechanics::real;
use mechanics::section::Section;
use mechanics::stress::SkewBending;

impl Check<'_> {
    /// Moments, axes, corners and the flow on the cut.
    pub(super) fn skew(&mut self, problem: &Problem, solution: &Solution, section: &Section) {
        let built = self.built;
        let Some(skew) = &built.chapters.skew else { return };
        let of = section.properties();
        let all = of.second_moment + of.second_moment_upright;
        let working = |id| built.workings.working(id);
        self.compare(working(skew.upright), of.second_moment_upright, all);
        let up = if built.axis_down { -of.product_moment } else { of.product_moment };
        self.compare(working(skew.product), up, all);
        self.named("largest principal second moment", of.principal.largest, all);
        self.named("smallest principal second moment", of.principal.smallest, all);
        if let Some(axis) = built.workings.get("angle of the principal axis") {
            let off = real::sin(axis.value.value - of.principal.angle);
            self.residual(&axis.name, off, all / (of.principal.largest - of.principal.smallest));
        }
        let moment = self.value(built.key.moment);
        let bending = SkewBending::under(section, moment);
        let inclination = working(skew.inclination);
        let unit = SkewBending::under(section, 1.0);
        self.residual(&inclination.name, real::sin(inclination.value.value - unit.neutral_axis_angle()), 1.0);
        let way = unit.neutral_axis_angle();
        self.named("way to the right for each unit that it sinks", real::sin(way) / real::cos(way), 1.0);
        let extreme = solution.extremes(Curve::BendingMoment).largest_size.value.max(moment.abs());
        let largest = SkewBending::under(section, extreme).extremes(section);
        let scale = largest.map_or(0.0, |[(_, most), (_, least)]| most.max(-least));
        let extremes = solution.extremes(Curve::BendingMoment);
        let largest = [extremes.highest, extremes.lowest].map(|extreme| Some(extreme?.value));
        let corners = SkewCorners::of(section, &problem.materials());
        for of in corners.iter().flat_map(|of| &of.materials) {
            let MaterialCorners { within, parts, modular_ratio, .. } = of;
            let scale = scale * modular_ratio;
            for corner in corners.iter().flat_map(|all| of.corners.iter().map(|&place| &all.corners[place])) {
                let name = format!("skew bending stress{within} at {}", corner.letter);
                self.named(&name, modular_ratio * bending.stress(corner.at), scale);
            }
            if let Some([(_, most), (_, least)]) = bending.extremes_in(section, parts) {
                self.named(&format!("largest skew tension{within} at the slice"), most, scale);
                self.named(&format!("largest skew compression{within} at the slice"), least, scale);
            }
            let under = |moment| SkewBending::under(section, moment).extremes_in(section, parts);
            let along: Vec<[f64; 2]> = largest
                .into_iter()
                .flatten()
                .filter_map(under)
                .map(|both| both.map(|(_, stress)| stress))
                .collect();
            let most = along.iter().map(|[most, _]| *most).fold(0.0, f64::max);
            let least = along.iter().map(|[_, least]| *least).fold(0.0, f64::min);
            self.named(&format!("largest skew tension{within} along the beam"), most, scale);
            self.named(&format!("largest skew compression{within} along the beam"), least, scale);
        }
        if let (Some(shear), Ok(flow)) = (
            skew.shear,
            SkewBending::flow_on_cut(section, [self.value(built.key.shear), 0.0], problem.cut.height),
        ) {
            let width = self.value(built.key.width);
            let force = self.force_scale;
            let scale = force * of.area / (of.height() * width * width).max(f64::MIN_POSITIVE);
            self.compare(working(shear), flow / width, scale.max(flow.abs() / width));
        }
        let shear = self.value(built.key.shear);
        for joint in &problem.joints {
            let Ok(cut) = section.joint_cut(&joint.beyond) else { continue };
            let flow = SkewBending::flow_in_joint(section, [shear, 0.0], &cut).abs() * shear.signum();
            let scale =
                self.force_scale * of.area / (of.height() * of.height()).min(of.breadth() * of.breadth());
            self.named(&format!("shear flow at {}", joint.name), flow, scale.max(flow.abs()));
        }
    }
}
