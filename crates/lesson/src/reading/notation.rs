//! How the course writes: units, notation, figures.

use super::node::{Given, Table};
use super::words::in_quotes;
use crate::finding::Report;
use workings::notation::{
    DepthAxis, MomentSide, Notation, NotationFault, Profile, SecondMomentWords, ShearSide, SignMarks,
};
use workings::reading::nearest;
use workings::role::{Role, Symbol};
use workings::rounding::{Figures, RoundingRule};
use workings::style::{DecimalMark, Multiplication, Style};
use workings::unit_system::UnitSystem;

/// The style that the head of the file asks for; what is wrong with it is reported and left at its default.
pub(super) fn read(lesson: &Table, report: &mut Report) -> Style {
    let mut style = Style::default();
    if let Some(units) = lesson.text("units").and_then(|given| UnitSystem::named(given.value)) {
        style.units = units;
    }
    let Some(table) = lesson.table("notation") else { return style };
    if let Some(profile) = table.text("profile").and_then(|given| Profile::named(given.value)) {
        style.notation = Notation::of(profile);
    }
    if let Some(figures) = table.count("figures") {
        style.figures = Figures::Significant(u8::try_from(figures.value).unwrap_or(u8::MAX));
    } else if table.text("figures").is_some() {
        style.figures = Figures::ThreeOrFour;
    }
    if let Some(decimals) = table.count("decimals") {
        if table.has("figures") {
            report
                .add(decimals.span.clone(), "`figures` and `decimals` cannot both be given")
                .mend("keep one of the two");
        }
        style.figures = Figures::Decimals(u8::try_from(decimals.value).unwrap_or(u8::MAX));
    }
    let says = |word: &str, choice: &str| table.text(word).is_some_and(|given| given.value == choice);
    if says("rounding", "half away from zero") {
        style.rounding = RoundingRule::HalfAwayFromZero;
    }
    if says("decimal-mark", ",") {
        style.decimal_mark = DecimalMark::Comma;
    }
    if says("multiplication", "dot") {
        style.multiplication = Multiplication::Dot;
    }
    habits(table, &mut style);
    symbols(table, &mut style, report);
    style
}

/// Sets a habit to the choice that was made for a key, if one was.
fn set<T: Copy>(table: &Table, word: &str, habit: &mut T, choices: &[(&str, T)]) {
    let chosen = table.text(word).and_then(|given| choices.iter().find(|(choice, _)| *choice == given.value));
    if let Some((_, value)) = chosen {
        *habit = *value;
    }
}

fn habits(table: &Table, style: &mut Style) {
    let habits = &mut style.notation.habits;
    set(table, "depth-axis", &mut habits.depth_axis, &[("up", DepthAxis::Up), ("down", DepthAxis::Down)]);
    set(
        table,
        "moment-diagram",
        &mut habits.moment_side,
        &[
            ("positive up", MomentSide::PositiveUp),
            ("positive down", MomentSide::PositiveDown),
            ("tension side", MomentSide::TensionSide),
        ],
    );
    set(
        table,
        "shear-diagram",
        &mut habits.shear_side,
        &[("positive up", ShearSide::PositiveUp), ("positive down", ShearSide::PositiveDown)],
    );
    set(
        table,
        "sign-marks",
        &mut habits.sign_marks,
        &[("signs", SignMarks::Signs), ("bow marks", SignMarks::BowMarks), ("both", SignMarks::Both)],
    );
    set(
        table,
        "second-moment",
        &mut habits.second_moment_words,
        &[
            ("second moment of area", SecondMomentWords::SecondMomentOfArea),
            ("moment of inertia", SecondMomentWords::MomentOfInertia),
        ],
    );
}

fn symbols(table: &Table, style: &mut Style, report: &mut Report) {
    let Some(symbols) = table.table("symbols") else { return };
    let mut asked: Vec<(Role, Given<&str>)> = Vec::new();
    for (word, node) in symbols.iter() {
        match (role_named(word), symbols.text(word)) {
            (Some(role), Some(symbol)) => asked.push((role, symbol)),
            (Some(_), None) => {}
            (None, _) => {
                report
                    .add(node.key.clone(), format!("{} is the name of no quantity", in_quotes(word)))
                    .mend(near_name(word))
                    .by_itself();
            }
        }
    }
    // A letter that is taken may come free when another symbol of the file is changed, wherever that stands.
    loop {
        let before = asked.len();
        asked.retain(|(role, symbol)| style.notation.extend(*role, symbol.value).is_err());
        if asked.len() == before {
            break;
        }
    }
    for (role, symbol) in asked {
        match style.notation.extend(role, symbol.value) {
            Ok(()) => {}
            Err(NotationFault::NotASymbol(_)) => {
                report
                    .add(symbol.span, format!("{} is no symbol", in_quotes(symbol.value)))
                    .mend("write a letter, with an index or a mark where need be: V, I_y, A', S*")
                    .by_itself();
            }
            Err(NotationFault::Taken(other)) => {
                let words = style.notation.words(other);
                report
                    .add(symbol.span, format!("{} already stands for the {words}", in_quotes(symbol.value)))
                    .mend(match profile_with(role, symbol.value, style.notation.profile) {
                        Some(profile) => format!(
                            "take profile = {}, where it is the {}; or take another letter",
                            in_quotes(profile.name()),
                            style.notation.words(role)
                        ),
                        None => format!("take another letter, or give the {words} another one as well"),
                    });
            }
        }
    }
}

/// Another profile in which a quantity has this very symbol.
fn profile_with(role: Role, symbol: &str, not: Profile) -> Option<Profile> {
    let written = symbol.trim().replace('\'', "\u{2032}");
    let writes = |profile: &Profile| Notation::of(*profile).symbol(&Symbol::plain(role)).plain() == written;
    Profile::ALL.into_iter().filter(|profile| *profile != not).find(writes)
}

/// The role of a name, written with spaces or with hyphens; `second moment` will do for `second moment of area`.
fn role_named(word: &str) -> Option<Role> {
    let name = word.trim().replace('-', " ");
    let longer = format!("{name} of ");
    Notation::role_named(word).or_else(|| Notation::role_named(&name)).or_else(|| {
        Notation::role_names().find(|(_, words)| words.starts_with(&longer)).map(|(role, _)| role)
    })
}

/// What would be right for a name that no quantity has.
fn near_name(word: &str) -> String {
    let name = word.replace('-', " ");
    let names = || Notation::role_names().map(|(_, words)| words);
    let near = nearest(&name, names());
    match near.or_else(|| names().find(|words| words.starts_with(&name) && !name.is_empty())) {
        Some(near) => format!("did you mean `{}`?", near.replace(' ', "-")),
        None => "name one such as first-moment, shear-force, width-at-the-cut or shear-stress".to_owned(),
    }
}
