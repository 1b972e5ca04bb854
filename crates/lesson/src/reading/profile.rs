//! A rolled profile of the catalogue, by its name.

use super::node::Table;
use super::section_shape::Shaped;
use super::words::in_quotes;
use crate::finding::Report;
use crate::key::SHAPES;
use mechanics::section::catalogue;
use workings::reading::nearest;

/// The profile that a table asks for, with its name as printed; one that is not in the catalogue is reported.
pub(super) fn read(table: &Table, report: &mut Report) -> Option<(&'static str, Shaped)> {
    let given = table.text("profile")?;
    for (word, node) in table.iter() {
        if SHAPES.iter().any(|shape| shape.takes(word)) {
            report
                .add(
                    node.key.clone(),
                    format!("a rolled profile has no `{word}`: its dimensions are those of the catalogue"),
                )
                .mend("take it out, or write a shape with dimensions of its own")
                .by_itself();
        }
    }
    if let Some(profile) = catalogue::profile(given.value) {
        // Every profile of the catalogue has a sound outline; its own tests see to that.
        return Some((profile.name, profile.shape().ok()?));
    }
    let names: Vec<&str> = catalogue::profiles().map(|profile| profile.name).collect();
    let mend = match nearest(given.value.trim(), names.iter().copied()) {
        Some(near) => format!(
            "did you mean {}? or give its dimensions: shape = \"I\", width = ..., ...",
            in_quotes(near)
        ),
        None => "give its dimensions instead: shape = \"I\", width = ..., height = ..., ...".to_owned(),
    };
    report
        .add(given.span, format!("{} is not in the catalogue of rolled profiles", in_quotes(given.value)))
        .mend(mend);
    None
}
