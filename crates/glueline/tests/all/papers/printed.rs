//! What is handed out, and what is not.

use crate::run::{Desk, class};
use std::collections::BTreeSet;

/// Names as lists have them, and some that break programs.
const CLASS: &str = "student id,name,large print,paper size\n\
    0001,Sian O'Tannor,no,letter\n\
    a/../../b,Tara Velomar,yes,\n\
    a//..//..b,Tara Velomar,,A4\n\
    0004,\"<script>alert(1)</script> & \"\"Quill\"\" #strong[x] $y$\",no,\n\
    0005,'=SUM(1) \u{5e0}\u{5d9}\u{5e8}\u{5dc},no,\n";

/// The words of a page, without its style, its drawings and its tags.
fn words(page: &str) -> String {
    let mut text = page.to_owned();
    for (from, to) in [("<style", "</style>"), ("<svg", "</svg>"), ("<", ">")] {
        while let Some(start) = text.find(from) {
            let end = text[start..].find(to).map_or(text.len(), |end| start + end + to.len());
            text.replace_range(start..end, " ");
        }
    }
    text.replace(['\u{a0}', '\u{202f}', '\u{2009}'], " ")
}

#[test]
fn each_student_gets_a_page_of_their_own_and_no_name_is_taken_for_markup() {
    let desk = Desk::new();
    desk.put("class.csv", CLASS);
    desk.done(&["papers", "lesson.toml", "class.csv", "-o", "out"]);
    let key = desk.key("out");
    let names: Vec<String> = desk
        .files("out")
        .keys()
        .filter(|name| name.starts_with("papers") && name.extension().is_some_and(|end| end == "html"))
        .map(|name| name.to_string_lossy().replace('\\', "/"))
        .collect();
    let number = |id: &str| key.iter().find(|row| row[0] == id).expect("a row of the key")[1].clone();
    let page = |stem: &str, id: &str| format!("papers/{stem}-{}.html", number(id));
    let wanted: BTreeSet<String> = [
        page("0001", "0001"),
        page("a-------b", "a/../../b"),
        page("a--------b", "a//..//..b"),
        page("0004", "0004"),
        page("0005", "0005"),
    ]
    .into();
    assert_eq!(names.iter().cloned().collect::<BTreeSet<_>>(), wanted);

    let strange = desk.text(&format!("out/{}", page("0004", "0004")));
    assert!(!strange.contains("<script>alert") && !strange.contains("<b>"));
    assert!(words(&strange).contains("&lt;script&gt;alert(1)&lt;/script&gt; &amp;"), "{}", words(&strange));
    let formula = words(&desk.text(&format!("out/{}", page("0005", "0005"))));
    // The guard against formulas belongs to the sheet, not to the name.
    assert!(formula.contains(" =SUM(1) \u{5e0}\u{5d9}\u{5e8}\u{5dc} "), "{formula}");
}

/// The right values stand in the key and nowhere on the papers, and nothing else of the key does.
#[test]
fn no_page_for_a_student_holds_anything_of_the_key() {
    let desk = Desk::new();
    desk.put("class.csv", &class(1, 6));
    desk.done(&["papers", "lesson.toml", "class.csv", "-o", "out"]);
    let files = desk.files("out");
    let (mut papers, mut found_in_keys) = (0, 0);
    for rows in desk.key("out").chunks(5) {
        let number = &rows[0][1];
        let of = |folder: &str| {
            let of_paper = |name: &&std::path::PathBuf| {
                let text = name.to_string_lossy();
                name.starts_with(folder) && text.contains(number.as_str()) && text.ends_with(".html")
            };
            let name =
                files.keys().find(of_paper).unwrap_or_else(|| panic!("a page of {number} in {folder}"));
            words(std::str::from_utf8(&files[name]).expect("text"))
        };
        let (paper, key) = (of("papers"), of("keys"));
        assert!(paper.contains(number.as_str()) && key.contains(number.as_str()));
        for row in rows {
            let right = format!("{} {}", row[4], row[5].replace('\u{a0}', " "));
            assert!(!paper.contains(&right), "{right} stands on the paper {number}");
            found_in_keys += usize::from(key.contains(&row[4]));
        }
        for word in ["mistake", "tolerance", "Key", "0123456789abcdef"] {
            assert!(!paper.contains(word), "{word} stands on the paper {number}");
        }
        papers += 1;
    }
    assert_eq!(
        (papers, found_in_keys),
        (6, 30),
        "every right value is found in the key: the search can find them"
    );
    for name in files.keys().filter(|name| name.starts_with("papers")) {
        assert!(!name.to_string_lossy().contains("key"), "{}", name.display());
    }
}

#[test]
fn a_form_has_its_letter_and_no_name() {
    let desk = Desk::new();
    desk.done(&["papers", "lesson.toml", "--forms", "2", "-o", "out"]);
    let pages: Vec<String> = desk
        .files("out")
        .into_iter()
        .filter(|(name, _)| name.starts_with("papers") && name.extension().is_some_and(|end| end == "html"))
        .map(|(_, page)| words(std::str::from_utf8(&page).expect("text")))
        .collect();
    assert_eq!(pages.len(), 2);
    assert!(pages[0].contains("form A") && !pages[0].contains("form B") && pages[1].contains("form B"));
    // A class that gets papers in the same folder leaves the forms as they are, and the other way round.
    desk.put("class.csv", &class(1, 2));
    let told = desk.done(&["papers", "lesson.toml", "class.csv", "-o", "out"]);
    assert!(told.contains("2 papers of the ledger belong to nobody on this list"), "{told}");
    let before = desk.kept("out");
    desk.done(&["papers", "lesson.toml", "--forms", "2", "-o", "out"]);
    crate::run::assert_same(&before, &desk.kept("out"));
}

/// A paper whose student is on the list no longer is left as it is, and told.
#[test]
fn who_is_on_the_list_no_longer_keeps_the_paper() {
    let desk = Desk::new();
    desk.put("class.csv", &class(1, 3));
    desk.done(&["papers", "lesson.toml", "class.csv", "-o", "out"]);
    let before = desk.kept("out");
    desk.put("class.csv", &class(2, 2));
    let told = desk.done(&["papers", "lesson.toml", "class.csv", "-o", "out"]);
    assert!(
        told.contains("1 paper of the ledger belongs to nobody on this list and was left as it is"),
        "{told}"
    );
    crate::run::assert_same(&before, &desk.kept("out"));
}

/// By hand: 1 mark, 2 and one for the step, 2 and a half for the step, which are 6.5, and 3 for a drawing, which no package can ask for.
#[test]
fn the_readme_says_which_questions_no_package_holds() {
    let desk = Desk::new();
    let readme = |lesson: &str, out: &str| {
        desk.put("lesson.toml", lesson);
        desk.done(&["papers", "lesson.toml", "class.csv", "-o", out]);
        desk.text(&format!("{out}/README.txt"))
    };
    desk.put("class.csv", &class(1, 1));
    let lesson = desk.text("lesson.toml");
    assert!(!readme(&lesson, "values").contains("drawn by hand"));
    let said = readme(&format!("{lesson}\n[[question]]\nsketch = \"shear force\"\nmarks = 3\n"), "drawn");
    let expected = "Question 4 is drawn by hand and is not in the package, which has 6.5 of all 9.5 marks.";
    assert!(said.contains(expected), "{said}");
}
