//! Fasteners along the beam: spacing and number from key station to key station.

use super::author::Author;
use super::line;
use crate::tree::{Alignment, Block, CalloutKind, Inline};
use workings::dimension::Dimension;
use workings::expression::Expression;
use workings::quantity::Quantity;
use workings::role::{Role, Symbol};
use workings::solved::ZoneWorkings;

impl Author<'_> {
    /// The zones of every joint that has any; nothing where none has.
    pub(crate) fn zones(&mut self) {
        let joints: Vec<(String, Vec<ZoneWorkings>)> =
            self.solved.zones().map(|(name, zones)| (name.to_owned(), zones.to_vec())).collect();
        if joints.is_empty() {
            return;
        }
        self.part("Fasteners along the beam");
        let symbol = |role, index: &str| Expression::Symbol(Symbol::indexed(role, index));
        let shear = Inline::Math(symbol(Role::ShearForce, ""));
        self.say(line![
            "Where the shear force ",
            shear.clone(),
            " is small the joint has little to pass on, and the fasteners may stand farther apart. So the beam is parted where \
             something acts on it and where ",
            shear.clone(),
            " is zero, and each zone is fastened for the largest shear force in it. How many fasteners a zone needs follows \
             without any spacing from the part that the joint holds: its two ends are pulled differently, because the bending \
             moment differs, and the fasteners of the zone make up for all of the difference."
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
        let pulled = symbol(Role::FirstMoment, "") / symbol(Role::SecondMoment, "") * change.size();
        let equation = self.equation(&Expression::Equal(vec![number, flow, pulled]));
        self.say(line![format!(
            "Equation ({equation}) gives the least number of a zone; a spacing set by the largest shear force gives as many or \
             more, and just as many where it is the same all along the zone. Under an even load a stretch is parted in steps of one length, \
             so that the spacing grows as the shear force falls off. A spacing is rounded down to what a tape shows, a number up to a \
             whole one; what is put in are whole rows."
        )]);
        for (place, (name, zones)) in joints.iter().enumerate() {
            let figure = if place == 0 { "fasteners".to_owned() } else { format!("fasteners-{}", place + 1) };
            if self.drawing(&figure).is_some() {
                let number = self.next_figure();
                self.say(line![format!("Figure {number} shows where they stand.")]);
            }
            self.figure(
                &figure,
                line![format!(
                    "The shear force, and on the same axis the joint ({name}) from the side, with one row of its fasteners at \
                     their places."
                )],
            );
            self.table_of_zones(name, zones);
        }
        self.callout(
            CalloutKind::Caution,
            "An exercise",
            vec![Block::Paragraph(line![
                "Real fasteners have least and largest spacings, distances from ends and edges, and slip; what one of them may \
                 carry is the code's to say, and its use the work of a licensed engineer."
            ])],
        );
    }

    fn table_of_zones(&mut self, name: &str, zones: &[ZoneWorkings]) {
        let value = |id| vec![self.value(id)];
        let length = self.solved.problem().beam.length;
        let near = 1e-9 * length;
        let station = |at: f64| Inline::Given(Quantity::new(at, Dimension::LENGTH), Role::Station);
        let of_zone = |zone: &ZoneWorkings| {
            let flow = self.working(zone.flow);
            let used = zone.spacing_to_use.map_or_else(|| vec!["–".into()], value);
            vec![
                line![self.value(zone.from), " to ", self.value(zone.to)],
                vec![Inline::Quantity(flow.value, Role::ShearFlow)],
                value(zone.largest_spacing),
                used,
                value(zone.whole_number),
                value(zone.standing),
            ]
        };
        // A stretch without shear force is no zone, and yet a reader looks for it.
        let none = |from: Inline, to: Inline| {
            let mut row = vec![line![from, " to ", to]];
            row.extend(["0", "–", "–", "0", "0"].map(|cell| line![cell]));
            row
        };
        let mut rows = Vec::new();
        let mut reached = 0.0;
        for zone in zones {
            let from = self.solved.value(zone.from);
            if from > reached + near {
                rows.push(none(station(reached), self.value(zone.from)));
            }
            rows.push(of_zone(zone));
            reached = self.solved.value(zone.to);
        }
        if length > reached + near {
            rows.push(none(station(reached), station(length)));
        }
        let idle = rows.len() > zones.len();
        let without = if idle { " Where no shear force acts, the theory asks for none." } else { "" };
        let header = ["Zone", "Shear flow", "Largest spacing", "To use", "Needed at least", "Put in"];
        let mut alignment = vec![Alignment::Right; header.len()];
        alignment[0] = Alignment::Left;
        self.table(
            line![format!("From zone to zone: {name}. The numbers count all rows together.{without}")],
            header.iter().map(|head| line![*head]).collect(),
            alignment,
            rows,
        );
    }
}
