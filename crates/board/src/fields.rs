//! The values that can be typed: every quantity and every place of the lesson file, with a label in words.

use lesson::edit::Input;
use serde::Serialize;

/// A value that can be typed.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Field {
    /// Where it stands in the lesson file: `beam.loads[2].force`.
    pub path: String,
    /// What it is, in words.
    pub label: String,
    /// What the file says there.
    pub written: String,
    /// The scene that it belongs to: the word of the heading of the file.
    pub group: String,
}

/// The fields of a lesson in the order of its file.
pub fn fields(inputs: &[Input]) -> Vec<Field> {
    inputs.iter().filter_map(field).collect()
}

fn field(input: &Input) -> Option<Field> {
    let (group, _) = input.path.split_once('.')?;
    if !["values", "beam", "section", "slice", "cut", "material"].contains(&group) {
        return None;
    }
    let group = group.to_owned();
    let label = label(&input.path, &input.owner);
    Some(Field { path: input.path.clone(), label, written: input.written.clone(), group })
}

/// What the value at a path is, in words; `owner` is what the lecturer calls the thing that it belongs to.
pub(crate) fn label(path: &str, owner: &str) -> String {
    match path.split_once('.') {
        Some(("values", name)) => name.to_owned(),
        Some(("slice", "at")) => "position of the slice".to_owned(),
        Some(("slice", _)) => "length of the slice".to_owned(),
        Some(("cut", _)) => "place of the cut".to_owned(),
        Some((_, rest)) => words(rest, owner),
        None => path.to_owned(),
    }
}

/// `loads[2].force` of a load without a name becomes `load 3: force`; of one called crate, `crate: force`.
fn words(rest: &str, owner: &str) -> String {
    let Some((list, key)) = rest.split_once('.') else {
        return if rest == "length" { "length of the beam".to_owned() } else { rest.replace('-', " ") };
    };
    let thing = match (owner, list.split_once('[')) {
        ("", Some((many, place))) => {
            let number: usize = place.trim_end_matches(']').parse().unwrap_or(0);
            format!("{} {}", many.strip_suffix('s').unwrap_or(many), number + 1)
        }
        ("", None) => list.to_owned(),
        (owner, _) => owner.to_owned(),
    };
    let key = match key {
        "pin" | "roller" => format!("place of the {key}"),
        "fixed" | "guided" | "spring" | "at" => "place".to_owned(),
        "from" => "beginning".to_owned(),
        "to" => "end".to_owned(),
        "spread" => "intensity".to_owned(),
        "becoming" => "intensity at its end".to_owned(),
        other => other.replace('-', " "),
    };
    format!("{thing}: {key}")
}

#[cfg(test)]
mod tests {
    use super::fields;

    #[test]
    fn a_field_says_in_words_what_it_is() {
        let text = "[values]\nP = \"8 kN\"\n[beam]\nlength = \"4 m\"\nsupports = [{ pin = \"0 m\", name = \"A\" }]\n\
                    loads = [{ force = \"P\", at = \"1 m\" }]\n[slice]\nat = \"1 m\"\nlength = \"40 mm\"\n[cut]\nat = \"glue\"\n";
        let labels: Vec<String> =
            fields(&lesson::read_as_shown(text, "").inputs).into_iter().map(|field| field.label).collect();
        let wanted = [
            "P",
            "length of the beam",
            "A: place of the pin",
            "load 1: force",
            "load 1: place",
            "position of the slice",
            "length of the slice",
            "place of the cut",
        ];
        assert_eq!(labels, wanted);
    }
}
