//! Words into HTML.

use crate::characters::is_direction_control;

/// Words as text or as the value of a quoted attribute. Control characters, which HTML does not allow, become spaces
/// or nothing.
pub(super) fn push_escaped(out: &mut String, words: &str) {
    for c in words.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            '\t' | '\n' | '\r' => out.push(' '),
            c if c.is_control() || is_direction_control(c) => {}
            // Not characters: no parser agrees with another about them.
            '\u{fdd0}'..='\u{fdef}' => {}
            c if u32::from(c) & 0xfffe == 0xfffe => {}
            c => out.push(c),
        }
    }
}

/// Words as the text of a page, or as the value of a quoted attribute: nothing in them is markup.
pub fn escaped(words: &str) -> String {
    let mut out = String::with_capacity(words.len());
    push_escaped(&mut out, words);
    out
}

/// Markup that another printer of ours made, without what steers the direction of writing.
pub(super) fn push_markup(out: &mut String, markup: &str) {
    out.extend(markup.chars().filter(|&c| !is_direction_control(c)));
}
