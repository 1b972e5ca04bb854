//! The JSON Schema of the lesson file, for editors: made from the table of keys.

use crate::key::{self, Form, Key, Need, SHAPES};
use serde_json::{Map, Value, json};

/// The JSON Schema (draft 2020-12) of a lesson file. It says what an editor can know of the form; what the values
/// mean together only [`crate::read()`] can tell.
pub fn schema() -> Value {
    let mut schema = table("");
    if let Value::Object(members) = &mut schema {
        members.insert("$schema".to_owned(), json!("https://json-schema.org/draft/2020-12/schema"));
        members.insert("title".to_owned(), json!("A lesson file"));
        members.insert(
            "description".to_owned(),
            json!("A beam, its section, where to slice and cut, and what to ask."),
        );
    }
    schema
}

/// The schema of the table at a path.
fn table(path: &str) -> Value {
    let mut properties = Map::new();
    let mut own_names = json!(false);
    let mut required = Vec::new();
    for key in key::within(path) {
        if key.word() == "*" {
            own_names = value(key);
        } else {
            properties.insert(key.word().to_owned(), value(key));
        }
        if key.need == Need::Required {
            required.push(key.word());
        }
    }
    let mut schema = json!({ "type": "object", "properties": properties, "additionalProperties": own_names });
    if let Value::Object(members) = &mut schema {
        if !required.is_empty() {
            members.insert("required".to_owned(), json!(required));
        }
        members.extend(conditions(path));
    }
    schema
}

/// What the keys of a table ask of one another.
fn conditions(path: &str) -> Map<String, Value> {
    let one_of =
        |words: &[&str]| -> Value { words.iter().map(|word| json!({ "required": [word] })).collect() };
    let mut members = Map::new();
    let path = key::in_lesson(path);
    match path {
        "beam.supports[]" => {
            members.insert("oneOf".to_owned(), one_of(&["pin", "roller", "fixed", "guided", "spring"]));
        }
        "beam.loads[]" => {
            members.insert("oneOf".to_owned(), one_of(&["force", "couple", "spread"]));
            let at = json!([{
                "if": { "anyOf": one_of(&["force", "couple"]) },
                "then": { "required": ["at"] },
            }]);
            members.insert("allOf".to_owned(), at);
        }
        "section" | "section.parts[]" => {
            if path == "section" {
                members.insert("oneOf".to_owned(), one_of(&["shape", "profile", "outline", "parts"]));
            }
            let shapes = SHAPES.iter().map(|shape| {
                json!({
                    "if": { "properties": { "shape": { "const": shape.name } }, "required": ["shape"] },
                    "then": { "required": shape.needs },
                })
            });
            members.insert("allOf".to_owned(), shapes.collect());
        }
        path if path.ends_with("outline[]") => {
            members.insert("oneOf".to_owned(), one_of(&["corner", "arc-to"]));
            let arc = json!([{ "if": { "required": ["arc-to"] }, "then": { "required": ["centre"] } }]);
            members.insert("allOf".to_owned(), arc);
        }
        _ => {}
    }
    members
}

/// The schema of a key's value.
fn value(key: &Key) -> Value {
    let quantity = json!({ "type": "string", "minLength": 1 });
    let mut schema = match key.form {
        Form::Text => json!({ "type": "string", "pattern": "\\S" }),
        Form::Markdown => json!({ "type": "string" }),
        Form::YesNo => json!({ "type": "boolean" }),
        Form::Count { least, most } => json!({ "type": "integer", "minimum": least, "maximum": most }),
        Form::Figures { least, most, word } => {
            json!({ "oneOf": [{ "type": "integer", "minimum": least, "maximum": most }, { "const": word }] })
        }
        Form::Number => json!({ "type": "number", "exclusiveMinimum": 0, "maximum": 1_000_000 }),
        Form::Share { most } => json!({ "type": "number", "minimum": 0, "maximum": most }),
        Form::Quantity { .. } | Form::Density | Form::AnyQuantity => quantity,
        Form::Variation => json!({
            "oneOf": [
                { "type": "array", "items": quantity, "minItems": 2 },
                {
                    "type": "object",
                    "properties": { "from": quantity, "to": quantity, "step": quantity },
                    "required": ["from", "to", "step"],
                    "additionalProperties": false,
                },
            ],
        }),
        Form::Choice(words) => json!({ "enum": words }),
        Form::Point => json!({ "type": "array", "items": quantity, "minItems": 2, "maxItems": 2 }),
        Form::Lengths => json!({ "type": "array", "items": quantity }),
        Form::Names | Form::Conditions => json!({ "type": "array", "items": { "type": "string" } }),
        Form::Table => table(&key.path),
        Form::List => json!({ "type": "array", "items": table(&format!("{}[]", key.path)) }),
    };
    if let Value::Object(members) = &mut schema {
        members.insert("description".to_owned(), json!(description(key)));
        if let Need::Optional(without) = key.need
            && !without.is_empty()
        {
            members.insert("$comment".to_owned(), json!(format!("without it: {without}")));
        }
    }
    schema
}

fn description(key: &Key) -> String {
    let example = if key.example.is_empty() {
        String::new()
    } else {
        format!(" For example: {} = {}", key.word(), key.example)
    };
    format!("{}{example}", key.says)
}
