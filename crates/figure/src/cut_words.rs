//! Words that several descriptions share.

use crate::scene::Scene;
use crate::words::SHORT;
use workings::dimension::Dimension;
use workings::role::Role;

/// The text, cut at a word where it is longer than a short description may be.
pub(crate) fn at_most(text: &str) -> String {
    if text.chars().count() <= SHORT {
        return text.to_owned();
    }
    let head: String = text.chars().take(SHORT - 1).collect();
    let end = head.rfind(' ').unwrap_or(head.len());
    format!("{}…", &head[..end])
}

/// The width of the cut; where it runs through several stretches of material, each of them too.
pub(crate) fn width(scene: &Scene) -> String {
    let text = |value: f64| scene.writer.text(value, Dimension::LENGTH, Role::WidthAtCut);
    let all = text(scene.values.width);
    if scene.cut_chords.len() < 2 {
        return all;
    }
    let each: Vec<String> = scene.cut_chords.iter().map(|chord| text(chord.length())).collect();
    format!("{all} in all, {}", each.join(" and "))
}
