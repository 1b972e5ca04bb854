//! A shape with its dimensions, from the keys of a section or of one of its parts.

use super::node::Table;
use super::section_faults;
use super::words::listed;
use crate::finding::Report;
use crate::key::{SHAPES, Shape};
use mechanics::section::{Fault, shapes};
use workings::style::Style;

/// What a shape or a profile gives: what it is called, and its parts with their names.
pub(super) type Shaped = shapes::Shape;

/// The shape of this name with the dimensions of the table; what is missing, too much or impossible is reported.
pub(super) fn read(
    shape: &'static Shape,
    table: &Table,
    style: &Style,
    report: &mut Report,
) -> Option<Shaped> {
    let mut sound = true;
    for word in shape.needs {
        if !table.has(word) {
            sound = false;
            if !table.has_stranger {
                let needs: Vec<String> = shape.needs.iter().map(|word| format!("`{word}`")).collect();
                report
                    .add(table.place("shape"), format!("{} needs a `{word}`", shape.with_article))
                    .mend(format!("{} takes {}", shape.with_article, listed(&needs, "and")));
            }
        }
    }
    refuse_others(shape, table, report);
    let value = |word: &str| table.value(word).map(|given| given.value);
    let size = |word: &str| value(word).unwrap_or(f64::NAN);
    if !sound || shape.needs.iter().any(|word| value(word).is_none()) {
        return None;
    }
    let upside_down = table.yes("upside-down");
    let (width, height) = (size("width"), size("height"));
    let (flange, web) = (size("flange-thickness"), size("web-thickness"));
    let root = value("root-radius");
    let shaped = match shape.name {
        "rectangle" => shapes::rectangle(width, height),
        "circle" => shapes::circle(size("diameter")),
        "half circle" => shapes::half_circle(size("diameter"), !upside_down),
        "tube" => shapes::round_tube(size("diameter"), size("wall")),
        "rectangular tube" => shapes::rectangular_tube(width, height, size("wall")),
        "box" => shapes::box_girder(width, height, web, flange, flange),
        "triangle" => shapes::triangle(width, height, 0.5 * width, !upside_down),
        "trapezoid" => {
            let (bottom, top) = (size("bottom-width"), size("top-width"));
            shapes::trapezoid(bottom, top, height, 0.5 * (bottom - top))
        }
        "T" => shapes::tee(width, flange, web, height, !upside_down),
        "I" => match root {
            Some(root) => shapes::rolled_i(height, width, web, flange, root),
            None => shapes::i_section(height, (width, flange), (width, flange), web),
        },
        "unequal I" => shapes::i_section(
            height,
            (size("top-width"), size("top-thickness")),
            (size("bottom-width"), size("bottom-thickness")),
            web,
        ),
        "channel" => match root {
            Some(root) => shapes::rolled_channel(height, width, web, flange, root),
            None => shapes::channel(height, width, web, flange),
        },
        _ => shapes::angle(height, width, size("thickness"), size("thickness")),
    };
    match shaped {
        Ok(shaped) => Some(shaped),
        Err(faults) => {
            for fault in &faults {
                tell(fault, shape, table, style, report);
            }
            None
        }
    }
}

/// Dimensions that belong to another shape.
fn refuse_others(shape: &Shape, table: &Table, report: &mut Report) {
    let of_shapes = |word: &str| SHAPES.iter().any(|other| other.takes(word));
    for (word, node) in table.iter() {
        if of_shapes(word) && !shape.takes(word) {
            let takes: Vec<String> =
                shape.needs.iter().chain(shape.may_take).map(|word| format!("`{word}`")).collect();
            report
                .add(node.key.clone(), format!("{} has no `{word}`", shape.with_article))
                .mend(format!("it takes {}", listed(&takes, "and")))
                .by_itself();
        }
    }
}

fn tell(fault: &Fault, shape: &Shape, table: &Table, style: &Style, report: &mut Report) {
    let (word, headline, mend) = section_faults::of_shape(fault, shape.name, style);
    report.add(table.place(word), headline).mend(mend).by_itself();
}

/// The shape that a table asks for; a part without one is a rectangle.
pub(super) fn asked(table: &Table, otherwise: Option<&str>) -> Option<&'static Shape> {
    match table.text("shape") {
        Some(given) => Shape::named(given.value),
        None if table.has("shape") => None,
        None => otherwise.and_then(Shape::named),
    }
}
