//! Reviews a class that stands as JSON on the standard input, for the comparison with statistics libraries:
//! `{"items": [...], "rows": [...], "forms": [...], "feature": [...]}` gives `{"review": ..., "variants": ..., "features": ...}`.

use assessment::review::{Entry, Item, Matrix, Review, against, variants};
use serde::Deserialize;
use std::io::{Read, Write};

#[derive(Deserialize)]
struct Class {
    items: Vec<Item>,
    rows: Vec<Vec<Entry>>,
    forms: Vec<String>,
    feature: Vec<f64>,
}

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let mut text = String::new();
    std::io::stdin().read_to_string(&mut text)?;
    let Class { items, rows, forms, feature } = serde_json::from_str(&text)?;
    let matrix = Matrix::new(items, rows)?;
    let found = serde_json::json!({
        "review": Review::of(&matrix),
        "variants": variants(&matrix, &forms),
        "features": against(&matrix, &feature, "the feature"),
    });
    std::io::stdout().write_all(found.to_string().as_bytes())?;
    Ok(())
}
