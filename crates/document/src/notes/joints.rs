//! What the joints must carry.

use super::author::Author;
use super::joint_names::{definite, is_plural};
use super::line;
use crate::tree::{Block, CalloutKind, Inline};
use lesson::{Scene, When};
use workings::expression::Expression;
use workings::problem::{Joint, JointKind};
use workings::role::{Role, Symbol};
use workings::working::{Chapter, Id};

impl Author<'_> {
    pub(crate) fn joints(&mut self) {
        if self.solved.problem().joints.is_empty() {
            return;
        }
        let plain = |role: Role| Expression::Symbol(Symbol::plain(role));
        self.chapter("What the joints must carry");
        self.own_words(Scene::Joints, When::Before);
        self.say(line![
            "A joint between two parts is a cut that somebody made. What passes it along the beam, per unit length, \
             is the shear flow ",
            Inline::Math(plain(Role::ShearFlow)),
            ": the shear stress times the width over which it acts. Glue carries it as a stress, a weld as a force on each length; \
             nails, screws, bolts and the runs of an interrupted weld carry it in lumps, each the flow over its own spacing."
        ]);
        self.flow_through_the_joints();
        let results = |role: Role| {
            // What a run of a weld may carry is found from its length.
            let capacity = Role::FastenerCapacity;
            role == capacity
                || matches!(role, Role::ShearFlow | Role::ShearStress | Role::FastenerForce | Role::Spacing)
        };
        // What holds in one zone alone stands in a table of its own.
        let zones = self.solved.zones().flat_map(|(_, zones)| zones);
        let of_zones: Vec<Id> = zones
            .flat_map(|zone| [Some(zone.flow), Some(zone.largest_spacing), zone.spacing_to_use])
            .flatten()
            .collect();
        // What a fastener may carry, and how far apart they stand, is given; it belongs beside what they must do.
        let given = self.workings().chapter(Chapter::Given).filter(|(_, working)| {
            let is_run = working.symbol.role == Role::Length && working.name.starts_with("run of ");
            is_run
                || matches!(working.symbol.role, Role::FastenerCapacity | Role::Spacing | Role::WeldStrength)
        });
        let found = self
            .workings()
            .chapter(Chapter::Joints)
            .filter(|(id, working)| results(working.symbol.role) && !of_zones.contains(id));
        let ids: Vec<Id> = given.chain(found).map(|(id, _)| id).collect();
        self.table_of_workings(
            line!["What each joint carries; how it comes about stands in the worked solution."],
            &ids,
        );
        self.one_face_of_a_fastener();
        self.overloaded_fasteners();
        self.joints_without_flow();
        self.spacings_not_rounded();
        self.zones();
        self.own_words(Scene::Joints, When::After);
    }

    /// The flow in symbols, and for each joint what part it holds, on which faces, and the flow in numbers.
    fn flow_through_the_joints(&mut self) {
        let plain = |role: Role| Expression::Symbol(Symbol::plain(role));
        let askew = self.bends_askew();
        let of = |role: Role| Expression::Symbol(Symbol::indexed(role, if askew { "askew" } else { "" }));
        let formula = plain(Role::ShearForce) * of(Role::FirstMoment) / of(Role::SecondMoment);
        self.equation(&Expression::Equal(vec![plain(Role::ShearFlow), formula]));
        self.say(line![
            Inline::Math(plain(Role::FirstMoment)),
            " is that of the part that the joint holds: what would slide if the joint were gone. Where it touches the rest on several faces, all \
             of them together pass the flow on; how much each of them takes the balance alone does not say, but where part and faces \
             are symmetric it is the same on each, and fasteners that are alike share it by their rows."
        ]);
        if askew {
            self.say(line![
                "The section bends askew, so the bending stress that the part must be held against is that of the full formula, and of ",
                Inline::Math(plain(Role::FirstMoment)),
                " and ",
                Inline::Math(plain(Role::SecondMoment)),
                format!(
                    " what counts askew is put in, as in the chapter “{}”: the flow in a beam that is free to go \
                     sideways.",
                    Chapter::Skew.title()
                )
            ]);
        }
        let joints = self.solved.problem().joints.clone();
        let mut drawn = 0;
        for joint in &joints {
            let name = &joint.name;
            let hold = if is_plural(name) { "hold" } else { "holds" };
            let same = self.solved.problem().cut.joint.as_ref() == Some(name);
            let figure =
                if drawn == 0 { "joint-part".to_owned() } else { format!("joint-part-{}", drawn + 1) };
            if !same && self.drawing(&figure).is_some() {
                drawn += 1;
                let number = self.next_figure();
                self.say(line![format!("Figure {number} shows what {} {hold}.", definite(name))]);
                self.figure(
                    &figure,
                    line![format!("The part that {} {hold}, and its faces of contact.", definite(name))],
                );
            }
            if same {
                self.say(line![format!(
                    "What {} {hold} is the part beyond the cut, hatched in the drawing of the section.",
                    definite(name)
                )]);
            }
            let faces = self.solved.section().joint_cut(&joint.beyond).map_or(0, |held| held.contacts.len());
            if faces > 1 {
                let whose = if is_plural(name) { "their" } else { "its" };
                self.say(line![format!(
                    "Here {} {hold} {whose} part on {faces} faces: the flow is that through all of them together.",
                    definite(name)
                )]);
            }
            let askew = ["first moment about the upright axis at", "first moment that counts askew at"];
            let names = askew.map(|what| format!("{what} {name}"));
            for name in names.into_iter().chain([format!("shear flow at {name}, where V is largest")]) {
                if let Some(id) = self.workings().id(&name) {
                    let equation = self.workings().equation(id);
                    self.equation(&equation);
                }
            }
        }
    }

    /// At which face the force on a fastener is counted, where a joint has several.
    fn one_face_of_a_fastener(&mut self) {
        let faces = |joint: &Joint| {
            let cut = self.solved.section().joint_cut(&joint.beyond);
            cut.map_or(0, |held| held.contacts.len())
        };
        let several = |joint: &Joint| joint.kind == JointKind::Fasteners && faces(joint) > 1;
        if self.solved.problem().joints.iter().any(several) {
            self.say(line![
                "The force on one fastener, and the force that it may carry, are those at one face, in one shear plane. A bolt that goes \
                 through two faces is sheared in both: there it counts as two, one in each of two rows."
            ]);
        }
    }

    /// Says of every joint across whose faces no shear flows that this does not make it needless.
    fn joints_without_flow(&mut self) {
        let solved = self.solved;
        for joint in solved.problem().joints.iter().filter(|joint| solved.passes_no_shear_flow(joint)) {
            self.callout(
                CalloutKind::Caution,
                "No shear flows here, and the joint is needed all the same",
                vec![Block::Paragraph(line![format!(
                    "What {} {} has its centroid on the neutral axis of the whole, so that its first moment is zero: taken together no \
                     shear flows across its faces in this model. What the joint must carry is another thing: the share of the load that \
                     each piece takes comes to it through this joint, where the load is brought in on another piece. That is not sized \
                     here; no spacing follows from a shear flow of zero.",
                    definite(&joint.name),
                    if is_plural(&joint.name) { "hold" } else { "holds" }
                )])],
            );
        }
    }

    /// Says of every joint whose fasteners or runs must carry more than they may, by how much.
    fn overloaded_fasteners(&mut self) {
        let solved = self.solved;
        for joint in &solved.problem().joints {
            let value = |name: String| self.workings().get(&name).map(|working| working.value);
            let (one, capacity, they) = match joint.kind {
                JointKind::Weld => ("run", "capacity of one run of", "the runs"),
                _ => ("fastener", "fastener capacity of", "they"),
            };
            let Some(capacity) = value(format!("{capacity} {}", joint.name)) else { continue };
            let most = value(format!("force on one {one} of {}, where V is largest", joint.name));
            let Some(most) = most.filter(|most| most.value > capacity.value) else { continue };
            self.callout(
                CalloutKind::Caution,
                &format!("Too much for a {one}"),
                vec![Block::Paragraph(line![
                    format!(
                        "Where the shear force is largest, one {one} of {} would have to carry ",
                        definite(&joint.name)
                    ),
                    Inline::Quantity(most, Role::FastenerForce),
                    ", but it may carry ",
                    Inline::Given(capacity, Role::FastenerCapacity),
                    format!(" only: {they} must stand closer, or there must be more rows of them.")
                ])],
            );
        }
    }
}
