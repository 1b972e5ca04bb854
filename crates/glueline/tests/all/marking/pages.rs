//! What marking tells: to each student what is theirs, to the lecturer what the class is.

use super::{MARK, answered, key, table};
use crate::run::{self, Desk, class};
use std::path::Path;

/// The page of a student, by the number of the paper.
fn page(desk: &Desk, student: &str) -> String {
    let files = desk.files("lesson-marks");
    let name = files
        .keys()
        .find(|name| {
            let name = name.to_string_lossy();
            name.starts_with("feedback") && name.contains(&format!("/{student}-")) && name.ends_with(".html")
        })
        .unwrap_or_else(|| panic!("a page of {student}"));
    desk.text(&Path::new("lesson-marks").join(name).to_string_lossy())
}

#[test]
fn every_student_is_told_what_is_theirs_and_nothing_of_anybody_else() {
    let desk = answered();
    desk.done(&MARK);
    let papers = table(&desk, "lesson-marks/marks.csv");
    let students: Vec<(&str, &str, &str)> =
        papers[1..].iter().map(|row| (row[0].as_str(), row[1].as_str(), row[2].as_str())).collect();
    assert_eq!(students.len(), 5);
    for (student, name, number) in &students {
        let page = page(&desk, student);
        assert!(page.contains(name) && page.contains(number), "{student}");
        for (other, other_name, other_number) in students.iter().filter(|(other, ..)| other != student) {
            // The faces in the style sheet are letters and figures as well.
            let (_, body) = page.split_once("</style>").expect("a style sheet");
            for theirs in [other, other_name, other_number] {
                assert!(!body.contains(*theirs), "{theirs} on the page of {student}");
            }
        }
    }
    // The second went on with a wrong shear force; the last handed in nothing.
    let ids: Vec<String> = key(&desk).into_keys().collect();
    let second = page(&desk, &ids[1]);
    assert!(second.contains("The first step that went wrong: question 1"));
    assert!(second.contains("Right from your own values."));
    assert!(page(&desk, &ids[0]).contains("Everything is right."));
    assert!(page(&desk, &ids[2]).contains("A person will read this."));
    assert!(page(&desk, &ids[4]).contains("No answer of yours was found"));
}

#[test]
fn pages_follow_what_a_person_decides_and_are_the_same_bytes_again() {
    let desk = answered();
    desk.done(&MARK);
    let ids: Vec<String> = key(&desk).into_keys().collect();
    let first = desk.files("lesson-marks");
    desk.done(&MARK);
    run::assert_same(&first, &desk.files("lesson-marks"));
    let review = desk.text("lesson-marks/review.html");
    assert!(review.contains("answers wait for a person, 1 to be read"), "what waits");
    assert!(review.contains("Below 20"), "four students are no class");

    let number =
        table(&desk, "lesson-marks/marks.csv").into_iter().find(|row| row[0] == ids[1]).expect("a row")[2]
            .clone();
    let to_mark = desk.text("lesson-marks/to-mark.csv");
    desk.put(
        "lesson-marks/to-mark.csv",
        &format!("{to_mark},{},,{number},1,,1,0.5,<b>sound</b> method,\n", ids[1]),
    );
    desk.done(&MARK);
    let told = page(&desk, &ids[1]);
    assert!(told.contains("A person has marked this.") && told.contains("&lt;b&gt;sound&lt;/b&gt; method"));
    // Nobody else's page has changed.
    let after = desk.files("lesson-marks");
    let changed: Vec<String> = after
        .iter()
        .filter(|(name, content)| first.get(*name) != Some(content) && name.starts_with("feedback"))
        .map(|(name, _)| name.to_string_lossy().into_owned())
        .collect();
    assert!(changed.iter().all(|name| name.contains(&number)) && !changed.is_empty(), "{changed:?}");
    assert!(desk.text("lesson-marks/review.html").contains("and marked 1 answer."));
}

#[test]
fn what_students_write_stays_text() {
    let desk = Desk::new();
    desk.put("class.csv", &class(1, 2));
    desk.done(&["papers", "lesson.toml", "class.csv"]);
    let ids: Vec<String> = key(&desk).into_keys().collect();
    let hostile = "\"<script>alert(1)</script> #strong[x] =1+1 \u{202e}\"";
    desk.put("answers.csv", &format!("student id,Question 1\n{},{hostile}\n{},=2+2\n", ids[0], ids[1]));
    desk.done(&MARK);
    for student in &ids {
        let page = page(&desk, student);
        assert!(!page.contains("<script") && !page.contains('\u{202e}'));
    }
    assert!(page(&desk, &ids[0]).contains("&lt;script&gt;alert(1)&lt;/script&gt; #strong[x] =1+1"));
    assert!(page(&desk, &ids[1]).contains("=2+2"));
}

#[cfg(feature = "pdf")]
#[test]
fn every_page_is_a_pdf_too_and_the_same_bytes_again() {
    let desk = answered();
    desk.done(&MARK);
    let first = desk.files("lesson-marks");
    let of =
        |ending: &str| first.keys().filter(|name| name.extension().is_some_and(|end| end == ending)).count();
    assert_eq!((of("html"), of("pdf")), (6, 6), "five students and the class");
    let pdfs = first.iter().filter(|(name, _)| name.extension().is_some_and(|end| end == "pdf"));
    assert!(pdfs.into_iter().all(|(_, bytes)| bytes.starts_with(b"%PDF-")));
    desk.done(&MARK);
    run::assert_same(&first, &desk.files("lesson-marks"));
}
