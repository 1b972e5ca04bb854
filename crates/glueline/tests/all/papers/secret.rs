//! The secret of the term, and the ledger that belongs to it.

use crate::run::{Desk, SECRET, assert_same, class};
use std::fs;

#[test]
fn the_secret_is_made_once_for_its_owner_alone_and_stands_in_no_paper() {
    let desk = Desk::new();
    fs::remove_file(desk.path().join("term.secret")).expect("it was there");
    desk.put("class.csv", &class(1, 5));
    let output = desk.run(&["papers", "lesson.toml", "class.csv", "-o", "one"]);
    let said = String::from_utf8(output.stderr).expect("text");
    assert!(output.status.success() && said.contains("wrote term.secret"), "{said}");
    let secret = desk.text("term.secret");
    assert!(secret.trim().len() == 64 && secret.trim().bytes().all(|byte| byte.is_ascii_hexdigit()));
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt as _;
        let about = fs::metadata(desk.path().join("term.secret")).expect("it was made");
        assert_eq!(about.permissions().mode() & 0o777, 0o600);
    }
    for (name, content) in desk.files("one") {
        let holds = content.windows(64).any(|some| some == secret.trim().as_bytes());
        assert!(!holds, "{}", name.display());
    }
    desk.done(&["papers", "lesson.toml", "class.csv", "-o", "two"]);
    assert_eq!(desk.text("term.secret"), secret);
    assert_same(&desk.files("one"), &desk.files("two"));
    // Another secret draws other papers.
    desk.put("other.secret", SECRET);
    desk.done(&["papers", "lesson.toml", "class.csv", "-o", "three", "--secret", "other.secret"]);
    assert!(desk.files("one") != desk.files("three"));
}

#[test]
fn a_ledger_is_not_gone_on_with_by_another_secret() {
    let desk = Desk::new();
    desk.put("class.csv", &class(1, 5));
    desk.done(&["papers", "lesson.toml", "class.csv"]);
    let before = desk.files("lesson-papers");
    desk.put("class.csv", &class(1, 6));
    desk.put("term.secret", "another secret, long enough");
    let said = desk.refused(&["papers", "lesson.toml", "class.csv"], 2);
    assert!(said.contains("is not the secret that drew the papers of the ledger"), "{said}");
    fs::remove_file(desk.path().join("term.secret")).expect("it was there");
    let said = desk.refused(&["papers", "lesson.toml", "class.csv"], 2);
    assert!(said.contains("there is no term.secret"), "{said}");
    assert!(!desk.path().join("term.secret").exists());
    desk.put("term.secret", "short");
    let said = desk.refused(&["papers", "lesson.toml", "class.csv"], 2);
    assert!(said.contains("a secret of 5 bytes can be guessed; it needs at least 16"), "{said}");
    assert_same(&desk.files("lesson-papers"), &before);
}

#[test]
fn a_lesson_that_has_changed_changes_no_paper_unasked() {
    let desk = Desk::new();
    desk.put("class.csv", &class(1, 5));
    desk.done(&["papers", "lesson.toml", "class.csv"]);
    let before = desk.files("lesson-papers");
    let changed = desk.text("lesson.toml").replace("20 kN/m", "22 kN/m");
    desk.put("lesson.toml", &changed);
    let said = desk.refused(&["papers", "lesson.toml", "class.csv"], 2);
    assert!(said.contains("5 papers would now read otherwise, and nothing was touched"), "{said}");
    assert_same(&desk.files("lesson-papers"), &before);
    desk.done(&["papers", "lesson.toml", "class.csv", "--replace"]);
    let after = desk.files("lesson-papers");
    assert_eq!(before.keys().collect::<Vec<_>>(), after.keys().collect::<Vec<_>>());
    assert!(before != after);
    // Other choices: the ledger is of another space.
    desk.put(
        "lesson.toml",
        &changed.replace("a = [\"1 m\", \"1.2 m\", \"1.4 m\"]", "a = [\"1 m\", \"1.2 m\"]"),
    );
    let said = desk.refused(&["papers", "lesson.toml", "class.csv"], 2);
    assert!(said.contains("what varies has changed since the papers of this ledger were drawn"), "{said}");
}

/// After the answers are in: other marks, and a mistake that nobody had thought of. Students read none of it.
#[test]
fn marks_and_known_mistakes_may_change_when_papers_are_given_out() {
    let desk = Desk::new();
    desk.put("class.csv", &class(1, 5));
    desk.done(&["papers", "lesson.toml", "class.csv"]);
    let before = desk.files("lesson-papers");
    let mistake = "\n[marking]\nsign = \"25 %\"\n\n[[mistake]]\nname = \"over-the-web\"\nreplaces = \"shear stress on the cut\"\n\
                   formula = \"shear force at the slice / (width at the cut * 150 mm)\"\nfeedback = \"That is the mean.\"\n";
    desk.put("lesson.toml", &format!("{}{mistake}", desk.text("lesson.toml")));
    desk.done(&["papers", "lesson.toml", "class.csv"]);
    let after = desk.files("lesson-papers");
    assert_eq!(before.keys().collect::<Vec<_>>(), after.keys().collect::<Vec<_>>());
    for (name, content) in &before {
        let same = after.get(name) == Some(content);
        assert!(
            same || !name.starts_with("papers") && !name.starts_with("ledger.json"),
            "{name:?} has changed"
        );
        assert!(!same || !name.starts_with("lessons"), "{name:?} has not changed");
    }
}

#[test]
fn a_folder_with_other_things_is_left_alone() {
    let desk = Desk::new();
    desk.put("class.csv", &class(1, 5));
    let said = desk.refused(&["papers", "lesson.toml", "class.csv", "-o", "."], 2);
    assert!(said.contains("holds other things") && said.contains("no ledger.json"), "{said}");
    assert_eq!(fs::read_dir(desk.path()).expect("the folder").count(), 3);
}

#[test]
fn two_runs_do_not_work_in_one_folder_at_once() {
    let desk = Desk::new();
    desk.put("class.csv", &class(1, 2));
    desk.done(&["papers", "lesson.toml", "class.csv", "-o", "out"]);
    let before = desk.files("out");
    let mark = fs::File::create(desk.path().join("out/.glueline-lock")).expect("a file for the test");
    mark.lock().expect("nobody has it");
    let said = desk.refused(&["papers", "lesson.toml", "class.csv", "-o", "out"], 2);
    assert!(said.contains("another run is making papers in out; wait until it is done"), "{said}");
    // One that a killed run left keeps nobody out.
    drop(mark);
    desk.done(&["papers", "lesson.toml", "class.csv", "-o", "out"]);
    assert_same(&before, &desk.files("out"));
}
