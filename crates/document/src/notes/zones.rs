//! Fasteners along the beam: spacing and number from zone to zone.

use super::author::{Author, listed};
use super::line;
use crate::tree::{Alignment, Block, CalloutKind, Inline};
use workings::dimension::Dimension;
use workings::expression::Expression;
use workings::problem::JointKind;
use workings::quantity::Quantity;
use workings::role::{Role, Symbol};
use workings::solved::{Solved, ZoneWorkings};
use workings::working::Id;

/// Where no number is.
const NONE: &str = "\u{2013}";

/// What those are called that stand in the zones of some joints, as a title and in a sentence.
pub(crate) fn titled<'a>(
    solved: &Solved,
    joints: impl Iterator<Item = &'a str> + Clone,
) -> (&'static str, &'static str) {
    let of_kind =
        |name: &str| solved.problem().joints.iter().find(|joint| joint.name == name).map(|joint| joint.kind);
    let is_weld = |name: &str| of_kind(name) == Some(JointKind::Weld);
    match (joints.clone().any(is_weld), joints.clone().all(is_weld)) {
        (false, _) => ("Fasteners along the beam", "fasteners"),
        (_, true) => ("Runs of weld along the beam", "runs of weld"),
        _ => ("Fasteners and runs of weld along the beam", "fasteners and runs of weld"),
    }
}

impl Author<'_> {
    /// The zones of every joint that has any; nothing where none has.
    pub(crate) fn zones(&mut self) {
        let joints: Vec<(String, Vec<ZoneWorkings>)> =
            self.solved.zones().map(|(name, zones)| (name.to_owned(), zones.to_vec())).collect();
        if joints.is_empty() {
            return;
        }
        let (title, ones) = titled(self.solved, joints.iter().map(|(name, _)| name.as_str()));
        self.part(title);
        let symbol = |role, index: &str| Expression::Symbol(Symbol::indexed(role, index));
        let shear = Inline::Math(symbol(Role::ShearForce, ""));
        self.say(line![
            "Where the shear force ",
            shear.clone(),
            format!(
                " is small the joint has little to pass on, and the {ones} may stand farther apart. So the beam is parted where \
                 something acts on it and where "
            ),
            shear.clone(),
            format!(
                " is zero, and each zone is fastened for the largest shear force in it. How many {ones} a zone needs follows \
                 without any spacing from the part that the joint holds: its two ends are pulled differently, because the bending \
                 moment differs, and the {ones} of the zone make up for all of the difference."
            )
        ]);
        let number = Expression::Product(vec![symbol(Role::Count, ""), symbol(Role::FastenerCapacity, "")]);
        let flow = Expression::Integral {
            over: None,
            integrand: Box::new(symbol(Role::ShearFlow, "")),
            by: Box::new(symbol(Role::Along, "")),
        }
        .size();
        let change = symbol(Role::BendingMoment, "2") - symbol(Role::BendingMoment, "1");
        // A number has no sign, whichever way the joint is pulled.
        let askew = if self.bends_askew() { "askew" } else { "" };
        let pulled = symbol(Role::FirstMoment, askew) / symbol(Role::SecondMoment, askew) * change.size();
        let equation = self.equation(&Expression::Equal(vec![number, flow, pulled]));
        self.say(line![format!(
            "Equation ({equation}) gives the least number of a zone; a spacing set by the largest shear force gives as many or \
             more, and just as many where it is the same all along the zone. Under a spread load a stretch is parted in steps of one \
             length where that saves any, so that the spacing grows as the shear force falls off. A spacing is rounded down to what a \
             tape shows, a number up to a whole one; what is put in are whole rows."
        )]);
        for (place, (name, zones)) in joints.iter().enumerate() {
            let figure = if place == 0 { "fasteners".to_owned() } else { format!("fasteners-{}", place + 1) };
            if self.drawing(&figure).is_some() {
                let number = self.next_figure();
                self.say(line![format!("Figure {number} shows where they stand.")]);
            }
            let (of_joint, _) = self.what_stands_in(name);
            self.figure(
                &figure,
                line![format!(
                    "The shear force, and on the same axis the joint ({name}) from the side, with one row of its {of_joint} at \
                     their places."
                )],
            );
            self.table_of_zones(name, zones);
        }
        let only_welds = joints.iter().all(|(name, _)| self.what_stands_in(name).0 == "runs");
        self.callout(
            CalloutKind::Caution,
            "An exercise",
            vec![Block::Paragraph(line![match only_welds {
                true =>
                    "Real welds have least and largest thicknesses, least lengths of a run and largest gaps between two; what a length \
                     of weld may carry is the code's to say, and its use the work of a licensed engineer.",
                false =>
                    "Real fasteners have least and largest spacings, distances from ends and edges, and slip; what one of them may \
                     carry is the code's to say, and its use the work of a licensed engineer.",
            }])],
        );
    }

    /// Several of what stands in the rows of a joint, and one of them.
    fn what_stands_in(&self, name: &str) -> (&'static str, &'static str) {
        let own = self.solved.problem().joints.iter().find(|joint| joint.name == name);
        match own.map(|joint| joint.kind) {
            Some(JointKind::Weld) => ("runs", "run"),
            _ => ("fasteners", "fastener"),
        }
    }

    /// A spacing as a tape shows it: all its figures.
    fn marked_out(&self, id: Id) -> Inline {
        Inline::Given(self.working(id).value, Role::Spacing)
    }

    fn table_of_zones(&mut self, name: &str, zones: &[ZoneWorkings]) {
        let value = |id| vec![self.value(id)];
        let (ones, one) = self.what_stands_in(name);
        let several = zones.len() > 1;
        let mut rows: Vec<(f64, Vec<Vec<Inline>>)> = Vec::new();
        for (place, zone) in zones.iter().enumerate() {
            let mut from_to = line![self.value(zone.from), " to ", self.value(zone.to)];
            if several {
                from_to.insert(0, format!("{}\u{2002}", place + 1).into());
            }
            let used = match zone.spacing_to_use {
                Some(_) if zone.is_one_a_row => line!["one in each row"],
                Some(used) => vec![self.marked_out(used)],
                None => line![NONE],
            };
            let row = vec![
                from_to,
                vec![Inline::Quantity(self.working(zone.flow).value, Role::ShearFlow)],
                value(zone.largest_spacing),
                used,
                value(zone.whole_number),
                value(zone.standing),
            ];
            rows.push((self.solved.value(zone.from), row));
        }
        let idle = self.solved.stretches_without_shear(name);
        for [from, to] in idle {
            let none = Quantity::new(0.0, Dimension::FORCE_PER_LENGTH);
            let row = vec![
                line![self.value(*from), " to ", self.value(*to)],
                vec![Inline::Quantity(none, Role::ShearFlow)],
                line![NONE],
                line![NONE],
                line!["0"],
                line!["0"],
            ];
            rows.push((self.solved.value(*from), row));
        }
        rows.sort_by(|(one, _), (other, _)| one.total_cmp(other));
        let rows = rows.into_iter().map(|(_, row)| row).collect();
        let header = ["Zone", "Shear flow", "Largest spacing", "To use", "Needed at least", "Put in"];
        let mut alignment = vec![Alignment::Right; header.len()];
        alignment[0] = Alignment::Left;
        let idle: Vec<Vec<Inline>> = idle
            .iter()
            .map(|[from, to]| line!["from ", self.value(*from), " to ", self.value(*to)])
            .collect();
        self.table(
            line![format!("From zone to zone: {name}. The numbers count all rows together.")],
            header.iter().map(|head| line![*head]).collect(),
            alignment,
            rows,
        );
        if !idle.is_empty() {
            let mut words = line!["The shear force is zero "];
            words.extend(listed(idle));
            words.push(
                format!(
                    ": the joint passes nothing on there, and no {one} is counted. A real joint has {ones} there all the same, as far \
                     apart as the code lets them."
                )
                .into(),
            );
            self.say(words);
        }
    }

    /// Says of every joint that has a step, but at its largest spacing none is left of it, that the spacing is taken as it is.
    pub(crate) fn spacings_not_rounded(&mut self) {
        for joint in &self.solved.problem().joints.clone() {
            let id = |name: String| self.workings().id(&name);
            let Some(step) = id(format!("step of {}", joint.name)) else { continue };
            let single = id(format!("largest spacing at {}, where V is largest", joint.name));
            let zones = self.solved.zones().find(|(name, _)| *name == joint.name);
            let largest = single
                .into_iter()
                .chain(zones.into_iter().flat_map(|(_, zones)| zones).map(|zone| zone.largest_spacing));
            let too_short = |id: &Id| {
                let (spacing, step) = (self.solved.value(*id), self.solved.value(step));
                spacing * (1.0 + 1e-9) < step && spacing >= joint.run.unwrap_or(0.0)
            };
            let Some(shortest) = largest
                .filter(too_short)
                .min_by(|&a, &b| self.solved.value(a).total_cmp(&self.solved.value(b)))
            else {
                continue;
            };
            let words = line![
                format!("The spacing of {} is to be rounded down to a multiple of ", joint.name),
                self.value(step),
                ", but the largest spacing is ",
                self.value(shortest),
                ", less than one such step: where that is so it is not rounded, and there is no spacing to use. A smaller step gives one."
            ];
            self.callout(CalloutKind::Caution, "The step is too large", vec![Block::Paragraph(words)]);
        }
    }

    /// The joints of the worked solution. Of the zones of a joint the first is worked out step by step, and so is the first step
    /// at which a zone ends; the others come about in the same way and stand in tables.
    pub(crate) fn solution_of_joints(&mut self, ids: &[Id]) {
        let joints: Vec<(String, Vec<ZoneWorkings>)> =
            self.solved.zones().map(|(name, zones)| (name.to_owned(), zones.to_vec())).collect();
        let mut rest = ids;
        for (name, zones) in &joints {
            let others = in_tables(zones);
            let Some(last) = rest.iter().rposition(|id| others.contains(id)) else { continue };
            let (here, after) = rest.split_at(last + 1);
            let worked: Vec<Id> = here.iter().filter(|id| !others.contains(id)).copied().collect();
            self.solution_of(&worked);
            self.other_zones(name, zones);
            rest = after;
        }
        self.solution_of(rest);
    }

    /// The numbers of all zones of a joint, at their ends and within.
    fn other_zones(&mut self, name: &str, zones: &[ZoneWorkings]) {
        self.say(line![format!("The other zones of {name} in the same way:")]);
        let or_none = |id: Option<Id>, dimension, role| match id {
            Some(id) => self.value(id),
            None => Inline::Quantity(Quantity::new(0.0, dimension), role),
        };
        let zone_number = |place: usize| line![(place + 1).to_string()];
        let symbol = |role, index: &str| Inline::Math(Expression::Symbol(Symbol::indexed(role, index)));
        let numbered = zones.iter().enumerate();
        let rows = numbered.clone().map(|(place, zone)| {
            let [first, last] = zone.shears.map(|id| or_none(id, Dimension::FORCE, Role::ShearForce));
            let [left, right] = zone.moments.map(|id| self.value(id));
            vec![
                zone_number(place),
                vec![self.value(zone.from)],
                vec![self.value(zone.to)],
                vec![first],
                vec![last],
                vec![left],
                vec![right],
            ]
        });
        let rows = rows.collect();
        let header = vec![
            line!["Zone"],
            line!["from"],
            line!["to"],
            line!["at its start ", symbol(Role::ShearForce, "1")],
            line!["at its end ", symbol(Role::ShearForce, "2")],
            line!["at its start ", symbol(Role::BendingMoment, "1")],
            line!["at its end ", symbol(Role::BendingMoment, "2")],
        ];
        let alignment = vec![Alignment::Right; header.len()];
        self.table(
            line![format!(
                "The zones of {name}: where each begins (1) and ends (2), and V and M just inside."
            )],
            header,
            alignment,
            rows,
        );
        let rows = numbered.map(|(place, zone)| {
            vec![
                zone_number(place),
                vec![self.value(zone.shear)],
                vec![Inline::Quantity(self.working(zone.flow).value, Role::ShearFlow)],
                vec![self.value(zone.largest_spacing)],
                match zone.spacing_to_use {
                    Some(length) if zone.is_one_a_row => vec![self.value(length)],
                    Some(used) => vec![self.marked_out(used)],
                    None => line![NONE],
                },
                vec![self.value(zone.number)],
                vec![self.value(zone.whole_number)],
                vec![self.value(zone.in_a_row)],
                vec![self.value(zone.standing)],
            ]
        });
        let rows = rows.collect();
        let header = vec![
            line!["Zone"],
            line!["largest ", symbol(Role::ShearForce, "")],
            line!["flow ", symbol(Role::ShearFlow, "")],
            line!["at most ", symbol(Role::Spacing, "allow")],
            line!["to use ", symbol(Role::Spacing, "use")],
            line!["at least ", symbol(Role::Count, "")],
            line!["rounded up"],
            line!["in a row"],
            line!["put in"],
        ];
        let alignment = vec![Alignment::Right; header.len()];
        self.table(
            line![format!("The zones of {name}: shear flow, spacing and number.")],
            header,
            alignment,
            rows,
        );
    }
}

/// The workings of a joint's zones that are told in tables: all but those of the first zone and of the first step.
fn in_tables(zones: &[ZoneWorkings]) -> Vec<Id> {
    let Some((first, others)) = zones.split_first() else { return Vec::new() };
    let mut worked = first.own();
    worked.extend(zones.iter().find_map(|zone| zone.step).iter().flat_map(|step| step.own()));
    others.iter().flat_map(|zone| zone.own()).filter(|id| !worked.contains(id)).collect()
}
