//! What the joints must carry.

use super::author::Author;
use super::line;
use crate::tree::{Block, CalloutKind, Inline};
use lesson::{Scene, When};
use workings::expression::Expression;
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
            ": the shear stress times the width over which it acts. Glue carries it as a stress; nails, screws and bolts \
             carry it in lumps, each the flow over its own spacing."
        ]);
        let results = |role: Role| {
            matches!(role, Role::ShearFlow | Role::ShearStress | Role::FastenerForce | Role::Spacing)
        };
        // What holds in one zone alone stands in a table of its own.
        let zones = self.solved.zones().flat_map(|(_, zones)| zones);
        let of_zones: Vec<Id> = zones
            .flat_map(|zone| [Some(zone.flow), Some(zone.largest_spacing), zone.spacing_to_use])
            .flatten()
            .collect();
        // What a fastener may carry, and how far apart they stand, is given; it belongs beside what they must do.
        let given = self.workings().chapter(Chapter::Given).filter(|(_, working)| {
            matches!(working.symbol.role, Role::FastenerCapacity | Role::Spacing | Role::WeldStrength)
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
        self.overloaded_fasteners();
        self.zones();
        self.own_words(Scene::Joints, When::After);
    }

    /// Says of every joint whose fasteners must carry more than they may, by how much.
    fn overloaded_fasteners(&mut self) {
        let solved = self.solved;
        for joint in &solved.problem().joints {
            let value = |name: String| self.workings().get(&name).map(|working| working.value);
            let Some(capacity) = value(format!("fastener capacity of {}", joint.name)) else { continue };
            let most = value(format!("force on one fastener of {}, where V is largest", joint.name));
            let Some(most) = most.filter(|most| most.value > capacity.value) else { continue };
            self.callout(
                CalloutKind::Caution,
                "Too much for a fastener",
                vec![Block::Paragraph(line![
                    format!(
                        "Where the shear force is largest, one fastener of {} would have to carry ",
                        joint.name
                    ),
                    Inline::Quantity(most, Role::FastenerForce),
                    ", but it may carry ",
                    Inline::Given(capacity, Role::FastenerCapacity),
                    " only: they must stand closer, or there must be more rows of them."
                ])],
            );
        }
    }
}
