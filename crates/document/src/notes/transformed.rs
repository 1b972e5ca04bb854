//! The transformed section, and the stress in each material.

use super::author::{Author, listed, symbol_of, value_of};
use super::line;
use crate::tree::{Alignment, Inline};
use lesson::{Scene, When};
use workings::expression::Expression;
use workings::material::Material;
use workings::role::{Role, Symbol};
use workings::working::{Chapter, Id};

impl Author<'_> {
    pub(crate) fn transformed(&mut self) {
        let materials = self.solved.problem().materials();
        if materials.is_empty() {
            return;
        }
        self.chapter("The transformed section");
        self.own_words(Scene::Transformed, When::Before);
        self.ratios(&materials);
        self.breadths(&materials);
        self.whole();
        self.in_each(&materials);
        self.shares(&materials);
        self.own_words(Scene::Transformed, When::After);
    }

    /// One equation below the other.
    pub(super) fn equations(&mut self, ids: &[Id]) {
        for &id in ids {
            let equation = self.workings().equation(id);
            self.equation(&equation);
        }
    }

    fn named(&self, names: impl IntoIterator<Item = String>) -> Vec<Id> {
        names.into_iter().filter_map(|name| self.workings().id(&name)).collect()
    }

    /// Why moduli come into it, and the modular ratios.
    fn ratios(&mut self, materials: &[Material]) {
        let plain = |role: Role| Inline::Math(Expression::Symbol(Symbol::plain(role)));
        let names: Vec<Vec<Inline>> = materials.iter().map(|material| line![material.name.clone()]).collect();
        let mut words = line!["This beam is made of "];
        words.extend(listed(names));
        words.extend(line![
            ", and its joints hold them together: what was a plane section stays plane, so at one height all materials are \
             strained alike. Stress is strain times the modulus. At one height, therefore, the stresses stand to each other \
             as the moduli do."
        ]);
        self.say(words);
        let reference = materials.iter().find(|material| material.is_reference());
        let reference = reference.map_or_else(
            || line!["the material of reference"],
            |material| line![material.name.clone(), ", the material of reference,"],
        );
        let mut words = line!["The modular ratio "];
        words.push(plain(Role::ModularRatio));
        words.extend(line![" tells how many times as much another material bears as "]);
        words.extend(reference);
        words.extend(line![" does beside it."]);
        self.say(words);
        let others = materials.iter().filter(|material| !material.is_reference());
        let ratios = self.named(others.map(|material| format!("modular ratio of {}", material.name)));
        self.equations(&ratios);
    }

    /// The breadths of the transformed section, and the drawing.
    fn breadths(&mut self, materials: &[Material]) {
        let number = self.next_figure();
        let of_reference = materials.iter().find(|material| material.is_reference());
        let reference = of_reference.map_or("the material of reference", |material| material.name.as_str());
        self.say(line![format!(
            "So put for every level strip of another material a strip of {reference} that is as many times as broad, and the \
             beam carries as before (figure {number}). The heights must stay, for strain goes with the height above the \
             neutral axis. What comes out is the transformed section: it is of one material, and the neutral axis passes \
             through its centroid."
        )]);
        self.figure(
            "transformed",
            line![
                "The section, the transformed section and the bending stress in each material, on one height axis. The \
                 letters and hatches tell the materials."
            ],
        );
        let breadths: Vec<Id> = self
            .workings()
            .chapter(Chapter::Section)
            .filter(|(_, working)| working.symbol.role == Role::Breadth)
            .map(|(id, _)| id)
            .collect();
        self.equations(&breadths);
    }

    /// Centroid and second moment of the transformed section.
    fn whole(&mut self) {
        let key = self.solved.key();
        let both = self.style.notation.in_its_words("Centroid and second moment");
        self.say(line![format!(
            "{both} are reckoned as those of any section put together from pieces, each with its transformed breadth; the \
             pieces one by one stand in the worked solution."
        )]);
        self.equations(&[key.centroid, key.second_moment]);
    }

    /// The stress in each material at every height where something begins or ends.
    fn in_each(&mut self, materials: &[Material]) {
        self.part("Stress in each material");
        let symbol = |role| Inline::Math(Expression::Symbol(Symbol::plain(role)));
        self.say(line![
            "The bending formula with ",
            symbol(Role::SecondMoment),
            " of the transformed section gives the stress in the material of reference. In another material it is ",
            symbol(Role::ModularRatio),
            " times as large; forget it, and the stiff material seems to bear next to nothing. For each material the height \
             where it is stressed most at the slice:"
        ]);
        if self.bends_askew() {
            self.say(line![format!(
                "These are the stresses of a beam that is held so that it cannot move sideways. Those of a beam that is free to do so stand \
                 in the chapter “{}”.",
                Chapter::Skew.title()
            )]);
        }
        let mut all: Vec<Id> = Vec::new();
        let mut most: Vec<Id> = Vec::new();
        for material in materials {
            let start = format!("bending stress in {} at ", material.name);
            let chapter = self.workings().chapter(Chapter::Materials);
            let of_it = chapter.filter(|(_, working)| working.name.starts_with(&start)).map(|(id, _)| id);
            let of_it: Vec<Id> = of_it.collect();
            let size = |id: &&Id| self.working(**id).value.value.abs();
            most.extend(of_it.iter().max_by(|one, other| size(one).total_cmp(&size(other))));
            all.extend(of_it);
        }
        self.equations(&most);
        let height = |id: Id| self.working(id).place.height.unwrap_or_default();
        all.sort_by(|&one, &other| height(other).total_cmp(&height(one)));
        let rows = all.iter().map(|&id| {
            let working = self.working(id);
            let (what, place) = working.name.split_once(" at ").unwrap_or((&working.name, ""));
            let material = what.trim_start_matches("bending stress in ");
            vec![
                line![place.to_owned()],
                line![material.to_owned()],
                vec![symbol_of(working)],
                vec![value_of(working)],
            ]
        });
        let rows: Vec<_> = rows.collect();
        self.table(
            line![
                "Bending stress at the slice, from the top down, on both sides of every joint: at one height the stresses \
                 stand as the moduli."
            ],
            vec![line!["At"], line!["In"], line!["Symbol"], line!["Stress"]],
            vec![Alignment::Left, Alignment::Left, Alignment::Left, Alignment::Right],
            rows,
        );
        let largest = materials.iter();
        let largest = self.named(
            largest.map(|material| format!("largest bending stress in {} along the beam", material.name)),
        );
        self.table_of_workings(line!["Where each material is stressed most along the beam."], &largest);
    }

    /// What each material takes of the bending moment, and what the shear formula asks for.
    fn shares(&mut self, materials: &[Material]) {
        let symbol = |role| Inline::Math(Expression::Symbol(Symbol::plain(role)));
        let shares = self.named(
            materials.iter().map(|material| format!("share of the bending moment in {}", material.name)),
        );
        if !shares.is_empty() {
            let mut words = line!["What a material adds to "];
            words.push(symbol(Role::SecondMoment));
            words.extend(line![", it takes of the bending moment; together they take all of it."]);
            self.say(words);
            self.equations(&shares);
        }
        self.say(line![
            "For the shear stress the same section serves: ",
            symbol(Role::SecondMoment),
            " and ",
            symbol(Role::FirstMoment),
            " are those of the transformed section, for they come from the bending stresses. The width ",
            symbol(Role::WidthAtCut),
            " is the true one, for that is what the shear flow passes through. Where materials lie side by side on a cut, the \
             formula gives the mean over all of them, which is the stress of none: the stiffer in shear bears more."
        ]);
    }
}
