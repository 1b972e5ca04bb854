//! The lesson that a lecturer starts from: it is valid as it stands and teaches the format by its remarks.

const TEMPLATE: &str = include_str!("template.toml");

/// What stands for the title in the template.
const TITLE: &str = "The title of the lesson";

/// The commented starting lesson, with a title made from its name: `roof-beam` becomes "Roof beam".
pub fn template(name: &str) -> String {
    let words: String = name
        .trim_end_matches(".toml")
        .chars()
        .map(|character| if matches!(character, '-' | '_') { ' ' } else { character })
        .filter(|character| !character.is_control())
        .collect();
    let mut letters = words.trim().chars();
    let title = match letters.next() {
        Some(first) => first.to_uppercase().chain(letters).collect(),
        None => TITLE.to_owned(),
    };
    let quoted_title = toml::Value::from(title).to_string();
    TEMPLATE.replacen(&format!("\"{TITLE}\""), &quoted_title, 1)
}
