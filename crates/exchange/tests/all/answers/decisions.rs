//! What a person decides about answers that could not be read.

use super::class::{answer, class, number, paper, read, stress};
use exchange::answers::{self, Answers, Decisions, Habit, Mark, Read, table_to_read};
use exchange::table::{Habit as Writing, Marks};

/// Without a unit of its own a decision is in the unit that the answer would be in.
#[test]
fn a_decision_is_in_the_unit_beside_the_answer() {
    let asked = [paper("1", "", vec![stress("1"), stress("2")])];
    let text = "id;1 (kPa);2;2 unit\n1;1,234;some;kPa\n";
    let mut list = Decisions::default();
    for (place, decided) in ["1234", "5 MPa"].into_iter().enumerate() {
        let mut entry = read(text, &asked).to_read[place].clone();
        entry.decided = decided.into();
        list.made.push((place + 2, entry));
    }
    let found = answers::read(text.as_bytes(), &asked, Habit::default(), &list).expect("answers");
    assert_eq!((number(&found, "1", "1").value, number(&found, "1", "2").value), (1234e3, 5e6));
}

/// The list is written, filled in by a person, read again, and survives further runs.
#[test]
fn decisions_survive_a_rerun() {
    let text = "id,1,2a,3\n007,\"1,234\",=some 12,b\n12,12 %,don't know,e\n";
    let first = read(text, &class());
    assert_eq!(first.to_read.len(), 5);
    let written = |answers: &Answers| {
        let table = table_to_read(&answers.to_read).expect("a table");
        table.csv(Writing { marks: Marks::Point, for_spreadsheets: true }).expect("a file")
    };
    let mut list = Decisions::read(&written(&first)).expect("a list");
    assert_eq!(list.made.iter().map(|(_, entry)| entry.clone()).collect::<Vec<_>>(), first.to_read);
    for ((_, entry), decided) in list.made.iter_mut().zip(["1234", "12 MPa", "", "unreadable", "blank"]) {
        entry.decided = decided.into();
    }
    let again = |text: &str, list: &Decisions| {
        answers::read(text.as_bytes(), &class(), Habit::default(), list).expect("answers")
    };
    let second = again(text, &list);
    assert_eq!(number(&second, "007", "1").value, 1234e3);
    assert_eq!(number(&second, "007", "2a").value, 12e6);
    assert!(answer(&second, "007", "1").decided);
    assert!(matches!(answer(&second, "12", "1").read, Read::ByHand(_)));
    assert_eq!(answer(&second, "12", "2a").read, Read::Unreadable);
    assert_eq!(answer(&second, "12", "3").read, Read::Blank);
    // Written again, the list is the same; and the run after it too.
    let kept = Decisions::read(&written(&second)).expect("a list");
    assert_eq!(again(text, &kept), second);
    // A spreadsheet has made numbers and dates of ids and answers: what was decided holds all the same.
    let mut spoilt = kept.clone();
    for (_, entry) in &mut spoilt.made {
        entry.student = entry.student.trim_start_matches('0').into();
        entry.raw = "01.04.2026".into();
    }
    assert_eq!(again(text, &spoilt), second);
    // An answer that has changed is not decided by the old decision, which is kept and told.
    let changed = again(&text.replace("=some 12", "=some 13"), &kept);
    assert!(matches!(answer(&changed, "007", "2a").read, Read::ByHand(_)));
    assert!(changed.to_read.iter().any(|entry| entry.raw == "=some 12" && entry.decided == "12 MPa"));
    let [gone] = changed.of_decisions.as_slice() else { panic!("{:#?}", changed.of_decisions) };
    assert!(gone.what.contains("does not stand in the file any more"), "{gone}");
    assert!(gone.mend.contains("now \"=some 13\" stands there"), "{gone}");
    // What a person has decided stands, also where a declared mark would read the answer without doubt.
    let point = Habit { declared: Some(Mark::Comma), ..Habit::default() };
    let declared = answers::read(text.as_bytes(), &class(), point, &kept).expect("answers");
    assert_eq!(number(&declared, "007", "1").value, 1234e3);
    assert!(
        declared.to_read.iter().any(|entry| entry.why.contains("without doubt") && entry.decided == "1234")
    );
    // A decision that is in doubt itself decides nothing.
    let mut unclear = kept.clone();
    unclear.made[0].1.decided = "1,234".into();
    let third = again(text, &unclear);
    assert!(matches!(answer(&third, "007", "1").read, Read::ByHand(_)));
    assert!(
        third
            .of_decisions
            .iter()
            .any(|remark| remark.what.contains("1234 kN or 1.234 kN") && remark.row == Some(2)),
        "{:#?}",
        third.of_decisions
    );
}

/// A decision about a student, a part or an answer that is not there is told with its row and with what would be right.
#[test]
fn a_decision_about_nothing_says_what_would_be_right() {
    let text = "id,1,2a,3\n007,\"1,234\",,b\n12,,,\n";
    let entry = read(text, &class()).to_read[0].clone();
    let told = |change: &dyn Fn(&mut answers::ToRead)| {
        let mut entry =
            answers::ToRead { decided: "1234 kN".into(), reference: "bcdfg".into(), ..entry.clone() };
        change(&mut entry);
        let list = Decisions { made: vec![(5, entry)] };
        let found = answers::read(text.as_bytes(), &class(), Habit::default(), &list).expect("answers");
        let [one] = found.of_decisions.as_slice() else { panic!("{:#?}", found.of_decisions) };
        assert_eq!(one.row, Some(5));
        one.to_string()
    };
    let stranger = told(&|entry| entry.student = "99".into());
    assert!(stranger.contains("no student of these papers has the id \"99\""), "{stranger}");
    let no_part = told(&|entry| entry.part = "7".into());
    assert!(no_part.contains("has no part \"7\"") && no_part.contains("it has 1, 2a, 2b, 3, 4"), "{no_part}");
    let wrong = told(&|_| {});
    assert!(wrong.contains(&format!("write {}", entry.reference)), "{wrong}");
    // An id without its noughts is still that of the student.
    let without = told(&|entry| entry.student = "7".into());
    assert!(without.contains("is not the reference of this answer"), "{without}");
}
