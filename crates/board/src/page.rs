//! The page: one file that a browser opens from a disk, with the sheet already drawn in it.

use crate::board::{Board, Refusal};
use crate::fields::Field;
use crate::letters::written;
use crate::sheet::{Content, Part};
use assessment::space::Space;
use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use document::html::{escaped, ground};
use figure::dark;
use figure::drawing::Drawing;
use lesson::Lesson;
use serde::Serialize;
use sha2::{Digest as _, Sha256};
use std::collections::BTreeMap;
use std::fmt::Write as _;

/// The script of the page, one file a matter; together they are one script.
const SCRIPTS: [&str; 20] = [
    include_str!("../ui/engine.js"),
    include_str!("../ui/board.js"),
    include_str!("../ui/ahead.js"),
    include_str!("../ui/fit.js"),
    include_str!("../ui/keep.js"),
    include_str!("../ui/sync.js"),
    include_str!("../ui/grip-places.js"),
    include_str!("../ui/grips.js"),
    include_str!("../ui/lecture-fold.js"),
    include_str!("../ui/lecture.js"),
    include_str!("../ui/ink-strokes.js"),
    include_str!("../ui/ink-canvas.js"),
    include_str!("../ui/ink-steps.js"),
    include_str!("../ui/ink-blocks.js"),
    include_str!("../ui/ink-rooms.js"),
    include_str!("../ui/ink-hand.js"),
    include_str!("../ui/ink-pick.js"),
    include_str!("../ui/ink-tools.js"),
    include_str!("../ui/ink.js"),
    include_str!("../ui/practice.js"),
];

/// What runs them, last of all.
const START: &str = include_str!("../ui/start.js");

const STYLES: [&str; 5] = [
    include_str!("../ui/board.css"),
    include_str!("../ui/grips.css"),
    include_str!("../ui/lecture.css"),
    include_str!("../ui/ink.css"),
    include_str!("../ui/practice.css"),
];

/// Where the drawings of a dark board lie.
const DARK: &str = ":root[data-board=\"dark\"] .plate";

/// What the page keeps beside its sheet; a saved page carries it along.
#[derive(Serialize)]
struct Kept<'a> {
    name: &'a str,
    text: &'a str,
    served: bool,
}

/// The board of a lesson as one HTML file. `engine` is this crate, compiled for the browser and
/// packed, with what unpacks it; `served` says that the
/// command serves the page and keeps it in step with the file.
///
/// # Errors
/// Where the lesson has mistakes.
pub fn page(text: &str, name: &str, engine: &[u8], served: bool) -> Result<String, Refusal> {
    let mut board = Board::new(text, name)?;
    let sheet = board.sheet_of_a_page();
    let about = &board.lesson().about;
    let script = lean(&SCRIPTS) + &lean(&[START]);
    let style = format!("{}{}@media not print{{\n{}}}\n", ground(), lean(&STYLES), dark::sheet(DARK));
    let hash = |text: &str| STANDARD.encode(Sha256::digest(text.as_bytes()));
    // A page that the command serves may ask the command, and nothing else; one from a disk asks nobody.
    let connect = if served { "connect-src 'self'; " } else { "" };
    let policy = format!(
        "default-src 'none'; script-src 'sha256-{}' 'wasm-unsafe-eval'; style-src 'sha256-{}'; font-src data:; \
         img-src data: blob:; {connect}base-uri 'none'; form-action 'none'",
        hash(&script),
        hash(&style)
    );
    let (lead, practice) = practice_places(board.lesson());
    let kept = Kept { name, text, served };
    // Inside a script element nothing ends the data but its closing tag.
    let kept = serde_json::to_string(&kept).unwrap_or_default().replace('<', "\\u003c");
    let language = if about.language.is_empty() { "en" } else { &about.language };
    let mut out = String::with_capacity(2_000_000);
    let _ = write!(
        out,
        "<!doctype html>\n<html lang=\"{}\">\n<head>\n<meta charset=\"utf-8\"/>\n\
         <meta http-equiv=\"Content-Security-Policy\" content=\"{policy}\"/>\n\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n<title>{}</title>\n<style>{style}</style>\n\
         </head>\n<body>\n{}\n<main>\n<h1 id=\"title\">{}</h1>\n{lead}<div id=\"sheet\">\n{sheet}</div>\n{practice}</main>\n\
         <p id=\"said\" class=\"unseen\" role=\"status\" aria-live=\"polite\"></p>\n\
         <script type=\"application/json\" id=\"kept\">{kept}</script>\n\
         <script type=\"text/plain\" id=\"engine\" data-bytes=\"{}\">{}</script>\n<script>{script}</script>\n</body>\n</html>\n",
        escaped(language),
        escaped(&about.title),
        bar(served),
        escaped(&about.title),
        engine.len(),
        written(engine),
    );
    Ok(out)
}

/// Scripts or styles without what only their readers need: the lines that are comments, and the indents. A comment beside
/// code stays, and so does what a line of code begins with; no text of ours goes over several lines.
fn lean(sources: &[&str]) -> String {
    let mut out = String::new();
    for source in sources {
        let mut inside = false;
        for line in source.lines().map(str::trim) {
            let begins = !inside && line.starts_with("/*");
            let ends = line.find("*/").map(|place| place + 2 == line.len());
            let is_comment = inside || line.starts_with("//") || (begins && ends != Some(false));
            inside = (inside || begins) && ends.is_none();
            if !is_comment && !line.is_empty() {
                out.push_str(line);
                out.push('\n');
            }
        }
    }
    out
}

/// The way to a paper to practise with, and where it comes; nothing where the lesson asks nothing.
fn practice_places(lesson: &Lesson) -> (String, String) {
    if lesson.questions.is_empty() {
        return Default::default();
    }
    let size = Space::of(lesson).size();
    let (title, words, number, shows) = if size.count > 1 {
        let combinations = size.in_words();
        (
            "Practise with numbers of your own",
            format!(
                "Choose any number. It makes a paper with numbers that are not worked out here, one of {combinations} combinations, and \
                 always the same one. "
            ),
            "<label><span>Number of the paper</span> <input type=\"text\" inputmode=\"numeric\" autocomplete=\"off\" \
             aria-describedby=\"practice-refusal\"/></label> ",
            "Show this paper",
        )
    } else {
        // Of a lesson that restricts its papers to one combination the numbers may be others than those of the sheet.
        let words = match lesson.vary.is_empty() {
            true => {
                "These questions have the numbers that are worked out above: answer first, and look afterwards. "
            }
            false => "",
        };
        ("Practise", words.to_owned(), "<input type=\"hidden\" value=\"1\"/>", "Show the questions")
    };
    let lead =
        format!("<p id=\"practice-lead\"><button type=\"button\" id=\"practice-go\">{title}</button></p>\n");
    let place = format!(
        "<section id=\"practice\" aria-labelledby=\"h-practice\">\n<h2 id=\"h-practice\">{title}</h2>\n\
         <p>{words}Answer with units: 12.5 kN, -3 kN m, 480 kPa. Nothing leaves this page.</p>\n\
         <form id=\"practice-choose\">{number}<button type=\"submit\">{shows}</button></form>\n\
         <p id=\"practice-refusal\" role=\"alert\"></p>\n<div id=\"practice-paper\"></div>\n</section>\n"
    );
    (lead, place)
}

/// The controls of the page; those of the lecture and of the ink join them, before what is seldom wanted.
fn bar(served: bool) -> String {
    let save = if served { "Save to the file" } else { "Save the lesson" };
    format!(
        "<header id=\"bar\">\n<div class=\"tools\" role=\"group\" aria-label=\"Changes\">\n\
         <button type=\"button\" id=\"undo\" disabled>Undo</button>\n<button type=\"button\" id=\"redo\" disabled>Redo</button>\n\
         <button type=\"button\" id=\"save\">{save}</button>\n</div>\n\
         <button type=\"button\" id=\"more-open\" popovertarget=\"more\">More</button>\n\
         <div id=\"more\" popover role=\"group\" aria-label=\"More\">\n\
         <button type=\"button\" id=\"dark\" aria-pressed=\"false\">Dark board</button>\n\
         <button type=\"button\" id=\"keep\">Save this page</button>\n\
         <button type=\"button\" id=\"link\">Copy a link</button>\n\
         <button type=\"button\" id=\"print\">Print</button>\n</div>\n\
         <p id=\"message\" hidden></p>\n<div id=\"caution\" hidden>\n<p></p>\n\
         <button type=\"button\" id=\"caution-undo\">Undo the last step</button>\n\
         <button type=\"button\" id=\"caution-leave\">Leave it so</button>\n</div>\n</header>"
    )
}

/// The sheet as HTML: every scene with its steps and pieces, those that are not to be written now empty.
pub(crate) fn sheet(
    plan: &[Part],
    written: &impl Fn(Content) -> bool,
    pieces: &BTreeMap<String, String>,
    words: &BTreeMap<&str, String>,
    drawings: &[Drawing],
    fields: &[Field],
) -> String {
    let mut out = String::new();
    for part in plan {
        let name = part.name;
        let _ = writeln!(
            out,
            "<section class=\"scene\" id=\"scene-{name}\" aria-labelledby=\"h-{name}\">\n<h2 id=\"h-{name}\">{}</h2>",
            escaped(part.title)
        );
        for step in &part.steps {
            if step.predict.is_empty() {
                out.push_str("<div class=\"step\">\n");
            } else {
                let _ = writeln!(out, "<div class=\"step\" data-predict=\"{}\">", escaped(step.predict));
            }
            for piece in &step.pieces {
                let inside = pieces.get(&piece.id).map_or("", String::as_str);
                match piece.content {
                    Content::Drawing(name) => {
                        if let Some(drawing) = drawings.iter().find(|drawing| drawing.name == name) {
                            let inside = if written(piece.content) { inside } else { "" };
                            push_drawing(&mut out, &piece.id, drawing, inside, words.get(name));
                        }
                    }
                    Content::Fields(group) => push_fields(&mut out, &piece.id, group, fields),
                    content => {
                        let inside = if written(content) { inside } else { "" };
                        let _ = writeln!(out, "<div class=\"piece\" id=\"{}\">{inside}</div>", piece.id);
                    }
                }
            }
            out.push_str("</div>\n");
        }
        out.push_str("</section>\n");
    }
    out
}

pub(crate) fn push_drawing(out: &mut String, id: &str, drawing: &Drawing, svg: &str, words: Option<&String>) {
    let (name, title) = (&drawing.name, escaped(&drawing.title));
    let _ = write!(
        out,
        "<figure data-drawing=\"{name}\">\n<div class=\"plate\" tabindex=\"0\" role=\"group\" aria-label=\"{title}\">\
         <div class=\"piece\" id=\"{id}\">{svg}</div></div>\n<figcaption>{title} \
         <button type=\"button\" class=\"take\" data-take=\"svg\" aria-label=\"Take out as SVG: {title}\">SVG</button> \
         <button type=\"button\" class=\"take\" data-take=\"png\" aria-label=\"Take out as PNG: {title}\">PNG</button>\
         </figcaption>\n<details><summary>In words: {title}</summary>\n<div id=\"words-{name}\">{}</div></details>\n</figure>\n",
        words.map_or("", String::as_str)
    );
}

fn push_fields(out: &mut String, id: &str, group: &str, fields: &[Field]) {
    let own: Vec<&Field> = fields.iter().filter(|field| field.group == group).collect();
    if own.is_empty() {
        return;
    }
    let _ = writeln!(out, "<div class=\"fields\" id=\"{id}\">");
    for field in own {
        let _ = writeln!(
            out,
            "<label><span>{}</span> <input type=\"text\" autocomplete=\"off\" spellcheck=\"false\" data-path=\"{}\" value=\"{}\"/></label>",
            escaped(&field.label),
            escaped(&field.path),
            escaped(&field.written)
        );
    }
    out.push_str("</div>\n");
}

#[cfg(test)]
mod tests {
    use super::{SCRIPTS, STYLES, lean};

    #[test]
    fn only_comments_and_indents_are_left_out() {
        let source = "// first\n/** @type {A} */ (a).b();\n  /* one */\n  let c = 1; // here\n\n/**\n * @param d\n */\nfunction e() {\n  return \"/*\";\n}\n";
        assert_eq!(
            lean(&[source]),
            "/** @type {A} */ (a).b();\nlet c = 1; // here\nfunction e() {\nreturn \"/*\";\n}\n"
        );
    }

    /// What [`lean`] relies on: a text over several lines would lose its indents, a line of it that looks like a comment too.
    #[test]
    fn no_text_of_the_scripts_goes_over_several_lines() {
        for line in SCRIPTS.iter().chain(&STYLES).flat_map(|source| source.lines()) {
            assert!(line.matches('`').count() % 2 == 0, "{line}");
        }
    }
}
