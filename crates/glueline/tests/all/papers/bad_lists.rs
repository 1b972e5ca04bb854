//! Class lists and lessons that no papers can be made of.

use crate::run::{Desk, LESSON, class};

#[test]
fn a_bad_list_is_refused_with_every_row_and_column() {
    let desk = Desk::new();
    desk.put("class.csv", "student id,name,large print\n1,Ann,yes\n2,,no\n1,Bo,perhaps\n,Cy,\n3,\"Dee\"\n");
    let said = desk.refused(&["papers", "lesson.toml", "class.csv"], 1);
    assert!(said.contains("class.csv, row 6: this row has 2 cells, the header has 3"), "{said}");
    desk.put("class.csv", "student id,name,form\n1,Ann,B\n2,Bo,second\n");
    let said = desk.refused(&["papers", "lesson.toml", "class.csv"], 1);
    assert!(said.contains("row 3, column \"form\": \"second\" is no form of an exam"), "{said}");
    desk.put("class.csv", "student id,name,large print\n1,Ann,yes\n2,,no\n1,Bo,perhaps\n,Cy,\n3,Dee,no\n");
    let said = desk.refused(&["papers", "lesson.toml", "class.csv"], 1);
    for told in [
        "row 2, column \"student id\": the id \"1\" also stands in row 4",
        "row 3, column \"name\": the student \"2\" has no name",
        "row 4, column \"student id\": the id \"1\" also stands in row 2",
        "row 4, column \"large print\": \"perhaps\" is neither yes nor no",
        "row 5, column \"student id\": Cy has no student id",
    ] {
        assert!(said.contains(told), "{told}\n{said}");
    }
    assert!(!desk.path().join("lesson-papers").exists(), "nothing was made");
}

#[test]
fn what_no_papers_can_be_made_of_is_told() {
    let desk = Desk::new();
    desk.put("class.csv", &class(1, 5));
    let said = desk.refused(&["papers", "lesson.toml", "nobody.csv"], 3);
    assert!(said.contains("there is no file nobody.csv"), "{said}");
    let said = desk.refused(&["papers", "lesson.toml"], 2);
    assert!(said.contains("CLASS"), "{said}");

    let nothing_asked: String =
        LESSON.split_inclusive('\n').take_while(|line| !line.contains("[[question]]")).collect();
    desk.put("mute.toml", &nothing_asked);
    let said = desk.refused(&["papers", "mute.toml", "class.csv"], 2);
    assert!(said.contains("mute.toml has no [[question]]"), "{said}");

    // A web that every draw makes half of the area: the mean of the two heights is the centroid then.
    desk.put("never.toml", &LESSON.replace("< 20 MPa", "< 1 MPa"));
    let said = desk.refused(&["papers", "never.toml", "class.csv"], 2);
    assert!(said.contains("no paper can be given out"), "{said}");
    assert!(
        said.contains("against 120 draws: the lesson requires: shear stress on the cut < 1 MPa"),
        "{said}"
    );
}
