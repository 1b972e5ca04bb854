//! What the typesetter makes of papers: PDFs, and packages with drawings in them.

use crate::run::{Desk, class};

#[cfg(not(feature = "pdf"))]
#[test]
fn a_build_without_typesetter_says_that_it_makes_no_packages() {
    let desk = Desk::new();
    desk.put("class.csv", &class(1, 2));
    let said = desk.refused(&["papers", "lesson.toml", "class.csv", "--qti"], 2);
    assert!(said.contains("makes no PDF and no PNG"), "{said}");
    assert!(!desk.path().join("lesson-papers").exists());
}

#[cfg(feature = "pdf")]
#[test]
fn every_paper_is_a_pdf_and_all_are_together_for_the_printer() {
    let desk = Desk::new();
    desk.put("class.csv", "student id,name,large print,sheet\n1,Ann,,\n2,Bo,yes,\n3,Cy,,letter\n");
    desk.done(&["papers", "lesson.toml", "class.csv", "-o", "out"]);
    let files = desk.files("out");
    let pdfs = |folder: &str| {
        let of = |name: &&std::path::PathBuf| {
            name.starts_with(folder) && name.extension().is_some_and(|end| end == "pdf")
        };
        files.keys().filter(of).map(|name| name.to_string_lossy().into_owned()).collect::<Vec<_>>()
    };
    assert_eq!((pdfs("papers").len(), pdfs("keys").len()), (3, 3));
    assert_eq!(
        pdfs("to-print"),
        ["to-print/a4-01.pdf", "to-print/a4-large-01.pdf", "to-print/letter-01.pdf"]
    );
    assert!(
        files
            .iter()
            .filter(|(name, _)| name.extension().is_some_and(|end| end == "pdf"))
            .all(|(_, bytes)| { bytes.starts_with(b"%PDF-") })
    );
    // Nobody wants the letter sheet any more: its file goes, and the others stay what they are.
    desk.put("class.csv", "student id,name,large print,sheet\n1,Ann,,\n2,Bo,yes,\n");
    desk.done(&["papers", "lesson.toml", "class.csv", "-o", "out"]);
    let after = desk.files("out");
    assert!(!after.contains_key(std::path::Path::new("to-print/letter-01.pdf")));
    assert!(after.iter().all(|(name, content)| files.get(name) == Some(content)));
}

/// All that a program reads in a PDF: the text of its pages (pdftotext of Poppler), and every string of its objects, names of
/// documents, alternative and replacement texts among them (qpdf, which decodes them); with every kind of space as one.
#[cfg(feature = "pdf")]
fn told_by(pdf: &std::path::Path) -> String {
    let of = |program: &str, arguments: &[&str], after: &[&str]| {
        let output = std::process::Command::new(program).args(arguments).arg(pdf).args(after).output();
        let output = output.unwrap_or_else(|error| panic!("{program} is needed for this test: {error}"));
        assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
        String::from_utf8_lossy(&output.stdout).into_owned()
    };
    let objects = of("qpdf", &["--json=2", "--json-stream-data=none"], &[]);
    let objects: serde_json::Value = serde_json::from_str(&objects).expect("JSON");
    let (mut told, mut open) = (of("pdftotext", &[], &["-"]), vec![&objects]);
    while let Some(value) = open.pop() {
        match value {
            serde_json::Value::String(text) => told.extend(["\n", text.as_str()]),
            serde_json::Value::Array(all) => open.extend(all),
            serde_json::Value::Object(all) => open.extend(all.values()),
            _ => {}
        }
    }
    told.split(|c: char| c.is_whitespace() || matches!(c, '\u{2009}' | '\u{202f}'))
        .collect::<Vec<_>>()
        .join(" ")
}

/// The right values stand in the PDFs of the keys, and neither they nor anything else of a key in those that are handed out.
#[cfg(feature = "pdf")]
#[test]
fn no_pdf_for_a_student_holds_anything_of_the_key() {
    let desk = Desk::new();
    desk.put("class.csv", "student id,name,large print\n1,Ann,\n2,Bo,yes\n3,Cy,\n");
    desk.done(&["papers", "lesson.toml", "class.csv", "-o", "out"]);
    let files = desk.files("out");
    let pdfs = |folder: &str| {
        let is_pdf = |name: &&std::path::PathBuf| {
            name.starts_with(folder) && name.extension().is_some_and(|end| end == "pdf")
        };
        let read = |name: &std::path::PathBuf| {
            (name.to_string_lossy().into_owned(), told_by(&desk.path().join("out").join(name)))
        };
        files.keys().filter(is_pdf).map(read).collect::<Vec<_>>()
    };
    let handed_out: Vec<(String, String)> = pdfs("papers").into_iter().chain(pdfs("to-print")).collect();
    let keys = pdfs("keys");
    assert_eq!((handed_out.len(), keys.len()), (5, 3));
    let mut found = 0;
    for rows in desk.key("out").chunks(5) {
        let number = rows[0][1].as_str();
        let (_, key) = keys.iter().find(|(name, _)| name.contains(number)).expect("a key of the paper");
        let own: Vec<&(String, String)> =
            handed_out.iter().filter(|(_, told)| told.contains(number)).collect();
        assert_eq!(own.len(), 2, "its own file and one for the printer tell of {number}");
        for row in rows {
            found += usize::from(key.contains(&row[4]));
            let right = format!("{} {}", row[4], row[5].replace('\u{a0}', " "));
            for (name, told) in &own {
                assert!(!told.contains(&right), "{right} stands in {name}");
            }
        }
    }
    assert_eq!(found, 15, "every right value is found in the key: the search can find them");
    for (name, told) in &handed_out {
        assert!(!name.contains("key"), "{name}");
        for word in ["mistake", "tolerance", "Key:", "0123456789abcdef"] {
            assert!(!told.contains(word), "{word} stands in {name}");
        }
    }
}

#[cfg(feature = "pdf")]
#[test]
fn a_package_lies_among_the_keys_and_says_what_it_holds() {
    let desk = Desk::new();
    desk.put("class.csv", &class(1, 2));
    for (version, folder) in [("2.1", "one"), ("3.0", "two")] {
        desk.done(&["papers", "lesson.toml", "class.csv", "-o", folder, "--qti", version]);
        let files = desk.files(folder);
        let number = &desk.key(folder)[0][1];
        let package = format!("keys/paper-{number}-qti-{version}-with-key.zip");
        let bytes = &files[std::path::Path::new(&package)];
        assert!(bytes.starts_with(b"PK"));
        // The names of the files in a zip stand in it as they are.
        let text = String::from_utf8_lossy(bytes);
        assert!(
            text.contains("imsmanifest.xml") && text.contains(&format!("paper-{number}-1.xml")),
            "{package}"
        );
        assert!(
            files
                .keys()
                .filter(|name| name.starts_with("papers"))
                .all(|name| { !name.to_string_lossy().ends_with(".zip") })
        );
    }
}
