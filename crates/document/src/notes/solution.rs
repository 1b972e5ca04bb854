//! The worked solution: the graph printed in its order.

use super::author::{Author, value_of};
use super::line;
use crate::tree::{Alignment, Inline};
use lesson::{Scene, When};
use workings::expression::Expression;
use workings::role::Role;
use workings::working::{Chapter, Formula, Id, Working};

/// What each chapter of the solution is called.
fn title(chapter: Chapter) -> &'static str {
    match chapter {
        Chapter::Given => "Given",
        Chapter::Reactions => "Reactions",
        Chapter::Diagrams => "Shear force and bending moment",
        Chapter::Section => "Section",
        Chapter::Bending => "Bending stress",
        Chapter::Shear => "Shear stress on the cut",
        Chapter::Slice => "The finite slice",
        Chapter::Joints => "Joints",
    }
}

impl Author<'_> {
    pub(crate) fn solution(&mut self) {
        self.chapter("The worked solution");
        self.own_words(Scene::Solution, When::Before);
        self.say(line![
            "Every value from the given ones to the last, in the order in which each needs only those before it. Values \
             are shown rounded and carried in full."
        ]);
        for chapter in Chapter::ALL {
            // How the slice tends to the formula stands as a table in its own place.
            let told = |name: &str| name.contains("slice halved");
            let workings = self.workings().chapter(chapter).filter(|(_, working)| !told(&working.name));
            let ids: Vec<Id> = workings.map(|(id, _)| id).collect();
            // The joints have a chapter of their own.
            if ids.is_empty() || chapter == Chapter::Joints {
                continue;
            }
            self.part(title(chapter));
            if chapter == Chapter::Given {
                self.table_of_workings(line!["What the lesson gives."], &ids);
            } else {
                self.solution_of(&ids);
            }
        }
        self.own_words(Scene::Solution, When::After);
    }

    /// Workings in their order: sentence, formula, numbers, result; those of like pieces as a table.
    pub(crate) fn solution_of(&mut self, ids: &[Id]) {
        let mut rest = ids;
        while let Some((&first, others)) = rest.split_first() {
            let run = rest.iter().take_while(|&&id| self.is_of_a_piece(id)).count();
            let (table, after) = rest.split_at(run);
            if run > 1 && self.table_of_pieces(table) {
                rest = after;
                continue;
            }
            self.step(first);
            rest = others;
        }
    }

    /// One working: what is done and why, then the line that does it.
    fn step(&mut self, id: Id) {
        let working = self.workings().working(id);
        let mut words = line![working.sentence.as_str()];
        if let Formula::Engine { how, .. } = &working.formula
            && !how.is_empty()
            && *how != working.sentence
        {
            words.push(format!(" {how}").into());
        }
        self.say(words);
        let equation = self.workings().equation(id);
        self.equation(&equation);
    }

    fn is_of_a_piece(&self, id: Id) -> bool {
        let working = self.workings().working(id);
        let role = working.symbol.role;
        matches!(
            role,
            Role::Area | Role::CentroidHeight | Role::SecondMoment | Role::Distance | Role::AreaBeyond
        ) && matches!(working.chapter, Chapter::Section | Chapter::Shear)
            && piece_of(working).is_some()
    }

    /// A table with a row for each piece and a column for each role; whether there was enough for one.
    fn table_of_pieces(&mut self, ids: &[Id]) -> bool {
        let workings = self.workings();
        let mut roles: Vec<Role> = Vec::new();
        let mut pieces: Vec<&str> = Vec::new();
        for &id in ids {
            let working = workings.working(id);
            if !roles.contains(&working.symbol.role) {
                roles.push(working.symbol.role);
            }
            let index = working.symbol.index.as_str();
            if !pieces.contains(&index) {
                pieces.push(index);
            }
        }
        let at = |piece: &str, role: Role| {
            ids.iter()
                .map(|&id| workings.working(id))
                .find(|working| working.symbol.index == piece && working.symbol.role == role)
        };
        if pieces.len() < 2 {
            return false;
        }
        // The first piece of each role shows how it is done; a row for each shows what comes out.
        let mut shown: Vec<Id> = Vec::new();
        for &role in &roles {
            shown.extend(ids.iter().find(|&&id| workings.working(id).symbol.role == role));
        }
        let rows: Vec<Vec<Vec<Inline>>> = pieces
            .iter()
            .map(|&piece| {
                let name = ids.iter().find_map(|&id| {
                    let working = workings.working(id);
                    (working.symbol.index == piece).then(|| piece_of(working)).flatten()
                });
                let mut row = vec![line![format!("{piece}  {}", name.unwrap_or(""))]];
                for &role in &roles {
                    row.push(at(piece, role).map(|working| vec![value_of(working)]).unwrap_or_default());
                }
                row
            })
            .collect();
        let mut header = vec![line!["Piece"]];
        for &role in &roles {
            let symbol = workings::role::Symbol::indexed(role, "i");
            header.push(vec![Inline::Math(Expression::Symbol(symbol))]);
        }
        let mut alignment = vec![Alignment::Right; header.len()];
        if let Some(first) = alignment.first_mut() {
            *first = Alignment::Left;
        }
        for id in shown {
            self.step(id);
        }
        self.say(line!["The other pieces in the same way:"]);
        self.table(line!["Piece by piece."], header, alignment, rows);
        true
    }
}

/// The piece that a working belongs to, by its name: `area of top plank`; only for the numbered pieces.
fn piece_of(working: &Working) -> Option<&str> {
    let numbered = working.symbol.index.starts_with(|c: char| c.is_ascii_digit());
    let (_, name) = working.name.split_once(" of ")?;
    let name = name.strip_suffix(" from the neutral axis").unwrap_or(name);
    numbered.then_some(name)
}
