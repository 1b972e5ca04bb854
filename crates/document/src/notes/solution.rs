//! The worked solution: the graph printed in its order.

use super::author::Author;
use super::elastic::capital;
use super::line;
use crate::tree::{Alignment, Block, Equation, Inline};
use lesson::{Scene, When};
use workings::expression::Expression;
use workings::role::{Role, Symbol};
use workings::working::{Chapter, Formula, Id, Working};

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
            if ids.is_empty() {
                continue;
            }
            self.part(chapter.title());
            if chapter == Chapter::Given {
                self.table_of_workings(line!["What the lesson gives."], &ids);
            } else if chapter == Chapter::Joints {
                self.solution_of_joints(&ids);
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

    /// One step for itself, which was or will be told in its place: its equation gets no number.
    pub(crate) fn step_again(&mut self, id: Id) -> Vec<Block> {
        let told = std::mem::take(&mut self.blocks);
        let equations = self.equations;
        self.step(id);
        self.equations = equations;
        let unnumbered = |block: Block| match block {
            Block::Equation(equation) => Block::Equation(Equation { number: None, ..equation }),
            other => other,
        };
        std::mem::replace(&mut self.blocks, told).into_iter().map(unnumbered).collect()
    }

    /// Says with which flexural rigidity the steps to come are reckoned, where it falls out of what they lead to.
    pub(crate) fn rigidity_falls_out(&mut self, rigidity: Id, of: Id) {
        let own = |id: Id| Expression::Symbol(self.working(id).symbol.clone());
        let words = line![
            "The movements of the released beam are reckoned with its flexural rigidity ",
            Inline::Math(Expression::Equal(vec![own(rigidity), self.workings().result(rigidity)])),
            ". It stands in each of them and falls out of ",
            Inline::Math(own(of)),
            ": any other leads to the same."
        ];
        self.say(words);
    }

    /// One working: what is done and why, then the line that does it.
    fn step(&mut self, id: Id) {
        let working = self.workings().working(id);
        let mut words = line![self.style.notation.in_its_words(&working.sentence)];
        if let Formula::Engine { how, .. } = &working.formula
            && !how.is_empty()
            && *how != working.sentence
        {
            words.push(format!(" {how}").into());
        }
        // On a drawing neither walls nor joints bear the numbers of their symbols.
        if matches!(working.chapter, Chapter::Walls | Chapter::Joints) {
            let name = self.style.notation.in_its_words(&self.solved.in_a_sentence(&working.name));
            words.insert(0, Inline::Strong(line![format!("{}. ", capital(&name))]));
        }
        self.say(words);
        let equation = self.workings().equation(id);
        self.equation(&equation);
    }

    fn is_of_a_piece(&self, id: Id) -> bool {
        let working = self.working(id);
        let of_pieces = matches!(
            working.symbol.role,
            Role::Area
                | Role::CentroidHeight
                | Role::SecondMoment
                | Role::Depth
                | Role::Distance
                | Role::AreaBeyond
                | Role::Height
                | Role::Breadth
        );
        of_pieces
            && matches!(working.chapter, Chapter::Section | Chapter::Shear)
            && piece_of(working).is_some()
    }

    /// A table with a row for each piece and a column for each quantity; whether there was enough for one.
    fn table_of_pieces(&mut self, ids: &[Id]) -> bool {
        let pieces_of = |id: Id| piece_of(self.working(id)).map(|piece| (id, piece));
        let all: Vec<(Id, Piece<'_>)> = ids.iter().filter_map(|&id| pieces_of(id)).collect();
        let mut columns: Vec<(Role, &str)> = Vec::new();
        let mut pieces: Vec<Piece<'_>> = Vec::new();
        for &(id, piece) in &all {
            let column = (self.working(id).symbol.role, piece.mark);
            if !columns.contains(&column) {
                columns.push(column);
            }
            if !pieces.iter().any(|other| other.number == piece.number) {
                pieces.push(piece);
            }
        }
        if pieces.len() < 2 {
            return false;
        }
        let found = |number: Option<&str>, (role, mark): (Role, &str)| {
            all.iter().find(|(id, piece)| {
                let matches = self.working(*id).symbol.role == role && piece.mark == mark;
                matches && number.is_none_or(|number| piece.number == number)
            })
        };
        // The first of each kind shows how it is done; a row for each piece shows what comes out.
        let shown: Vec<Id> =
            columns.iter().filter_map(|&column| found(None, column)).map(|&(id, _)| id).collect();
        let rows: Vec<Vec<Vec<Inline>>> = pieces
            .iter()
            .map(|piece| {
                let mut row = vec![line![format!("{}\u{2002}{}", piece.number, piece.name)]];
                for &column in &columns {
                    let found = found(Some(piece.number), column);
                    row.push(found.map(|&(id, _)| vec![self.value(id)]).unwrap_or_default());
                }
                row
            })
            .collect();
        let mut header = vec![line!["Piece"]];
        for (role, mark) in &columns {
            let symbol = Symbol::indexed(*role, format!("i{mark}"));
            let words = self.style.notation.words(*role);
            header.push(line![format!("{words} "), Inline::Math(Expression::Symbol(symbol))]);
        }
        let mut alignment = vec![Alignment::Right; header.len()];
        if let Some(first) = alignment.first_mut() {
            *first = Alignment::Left;
        }
        for id in shown {
            self.step(id);
        }
        self.say(line!["The others in the same way:"]);
        self.table(line!["Piece by piece."], header, alignment, rows);
        true
    }
}

/// The numbered piece of a section that a working belongs to.
#[derive(Clone, Copy)]
struct Piece<'a> {
    /// Its number, the first index of the symbol.
    number: &'a str,
    /// What stands behind it in the index: `, NA`.
    mark: &'a str,
    /// What it is called.
    name: &'a str,
}

/// The piece that a working belongs to; `None` where it belongs to the whole section.
fn piece_of(working: &Working) -> Option<Piece<'_>> {
    let index = working.symbol.index.as_str();
    let end = index.find(|c: char| !c.is_ascii_digit()).unwrap_or(index.len());
    let (number, mark) = index.split_at(end);
    let (_, name) = working.name.split_once(" of ")?;
    let name = name.split_once(" beyond ").map_or(name, |(name, _)| name);
    let name = name.strip_suffix(" from the neutral axis").unwrap_or(name);
    (!number.is_empty()).then_some(Piece { number, mark, name })
}
