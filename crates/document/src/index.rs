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
            let path = format!("{}/{name}", entry.folder);
            let link = match FileName::new(&path) {
                Some(file) => Inline::File { name: file, text: words(name) },
                None => Inline::Code(path),
            };
            vec![Block::Paragraph(vec![link, format!(": {what}").into()])]
        };
        body.push(Block::List { ordered: false, items: entry.files.iter().map(item).collect() });
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
