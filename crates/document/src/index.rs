//! The first page of a folder of handouts: what is there, lesson by lesson.

use crate::tree::{Block, Document, FileName, Inline, Paper, Print, words};
use workings::style::Style;

/// What a folder holds of one lesson.
#[derive(Clone, Debug)]
pub struct Entry {
    /// The name of its folder.
    pub folder: String,
    /// The lesson's title.
    pub title: String,
    /// What it teaches; may be empty.
    pub teaches: String,
    /// Its files by name within the folder, each with what it is.
    pub files: Vec<(String, String)>,
    /// Its drawings in the same way, each with its title.
    pub drawings: Vec<(String, String)>,
}

/// A link to a file of a lesson's folder.
fn link(entry: &Entry, name: &str, shown: &str) -> Inline {
    let path = format!("{}/{name}", entry.folder);
    match FileName::new(&path) {
        Some(file) => Inline::File { name: file, text: words(shown) },
        None => Inline::Code(path),
    }
}

/// The page that leads to everything in a folder.
pub fn index(title: &str, entries: &[Entry]) -> Document {
    let mut body = vec![Block::Paragraph(words(
        "Each lesson below was made from one plain-text lesson file. Open the board or the notes first; then change a number in the \
         lesson file and make them again.",
    ))];
    for entry in entries {
        body.push(Block::Heading { level: 1, text: words(&entry.title) });
        if !entry.teaches.is_empty() {
            body.push(Block::Paragraph(crate::markdown::line(&entry.teaches)));
        }
        let item = |(name, what): &(String, String)| {
            vec![Block::Paragraph(vec![link(entry, name, name), format!(": {what}").into()])]
        };
        let mut items: Vec<_> = entry.files.iter().map(item).collect();
        if !entry.drawings.is_empty() {
            let mut line = words("Every drawing by itself: ");
            for (place, (name, what)) in entry.drawings.iter().enumerate() {
                if place > 0 {
                    line.push(" · ".into());
                }
                line.push(link(entry, name, what));
            }
            items.push(vec![Block::Paragraph(line)]);
        }
        body.push(Block::List { ordered: false, items });
    }
    Document {
        title: title.to_owned(),
        kind: String::new(),
        course: String::new(),
        author: String::new(),
        lead: Vec::new(),
        language: "en".to_owned(),
        paper: Paper::A4,
        print: Print::Usual,
        running: Vec::new(),
        identity: title.to_owned(),
        style: Style::default(),
        body,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_drawings_of_a_lesson_share_a_line_and_are_called_by_their_titles() {
        let all = |files: &[(&str, &str)]| -> Vec<(String, String)> {
            files.iter().map(|(name, what)| ((*name).to_owned(), (*what).to_owned())).collect()
        };
        let entry = Entry {
            folder: "a".to_owned(),
            title: "A".to_owned(),
            teaches: String::new(),
            files: all(&[("notes.pdf", "notes")]),
            drawings: all(&[("01-beam.svg", "The beam"), ("02-slice.svg", "The slice")]),
        };
        let Document { body, .. } = index("All", &[entry]);
        let Some(Block::List { items, .. }) = body.last() else { panic!("{body:?}") };
        assert_eq!(items.len(), 2);
        let Some([Block::Paragraph(line)]) = items.last().map(Vec::as_slice) else { panic!("{items:?}") };
        let shown = crate::tree::plain(line, &Style::default());
        assert_eq!(shown, "Every drawing by itself: The beam · The slice");
    }

    #[test]
    fn a_file_name_never_leads_out_of_the_folder() {
        for wrong in [
            "../secret",
            "/etc/passwd",
            "a//b",
            "javascript:alert(1)",
            "a b",
            "",
            ".hidden",
            "x/../y",
            "http://x",
        ] {
            assert_eq!(FileName::new(wrong), None, "{wrong}");
        }
        assert!(FileName::new("box-girder/figures/01-beam.svg").is_some());
    }
}
