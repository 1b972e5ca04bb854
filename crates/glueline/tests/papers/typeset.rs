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
