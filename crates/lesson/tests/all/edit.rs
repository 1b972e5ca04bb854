//! Writing back: one value changes, and not one byte elsewhere.

use lesson::edit::{EditFault, Manuscript, NewValue};
use lesson::papers::Draw;
use proptest::prelude::*;

/// The bytes that differ: from the first to the last, in the old text and in the new one.
fn difference(old: &str, new: &str) -> (String, String) {
    let before = old.bytes().zip(new.bytes()).take_while(|(a, b)| a == b).count();
    let (old, new) = (&old[before..], &new[before..]);
    let after = old.bytes().rev().zip(new.bytes().rev()).take_while(|(a, b)| a == b).count();
    (old[..old.len() - after].to_owned(), new[..new.len() - after].to_owned())
}

#[test]
fn a_lesson_that_is_not_changed_is_the_same_to_the_byte() {
    for builtin in lesson::builtin::ALL {
        assert_eq!(Manuscript::new(builtin.text).text(), builtin.text);
    }
}

#[test]
fn one_change_touches_one_place() {
    let text = lesson::builtin::find("box-girder").expect("a lesson of ours").text;
    for (path, value, old, new) in [
        ("values.P", NewValue::Text("9 kN"), "8", "9"),
        ("beam.loads[0].at", NewValue::Text("1.2 m"), "L / 4", "1.2 m"),
        (
            "cut.at",
            NewValue::Text("40 mm above the neutral axis"),
            "glue line 1",
            "40 mm above the neutral axis",
        ),
        ("section.parts[0].height", NewValue::Text("60 mm"), "5", "6"),
        ("section.joints[1].rows", NewValue::Count(3), "2", "3"),
        ("question[0].marks", NewValue::Number(1.5), "", ".5"),
        ("section.joints[0].beyond[0]", NewValue::Text("bottom plank"), "top", "bottom"),
    ] {
        let mut manuscript = Manuscript::new(text);
        manuscript.set(path, value).unwrap_or_else(|fault| panic!("{path}: {fault}"));
        assert_eq!(difference(text, manuscript.text()), (old.to_owned(), new.to_owned()), "{path}");
    }
}

#[test]
fn a_key_that_is_not_there_is_added_at_the_end_of_its_table() {
    let text =
        "title = \"x\"  # the title\r\n\r\n[cut]\r\nat = \"2 mm\" # low\r\n\r\n[slice]\r\nat = \"1 m\"";
    let mut manuscript = Manuscript::new(text);
    manuscript.set("cut.side", NewValue::Text("below")).expect("[cut] is there");
    assert_eq!(manuscript.text(), text.replace("# low\r\n", "# low\r\nside = \"below\"\r\n"));
    manuscript.set("slice.length", NewValue::Text("5 mm")).expect("[slice] is there");
    assert!(manuscript.text().ends_with("at = \"1 m\"\r\nlength = \"5 mm\"\r\n"));
    manuscript.set("material.E", NewValue::Text("1 GPa")).expect("a heading can be added");
    assert!(manuscript.text().ends_with("\r\n[material]\r\nE = \"1 GPa\"\r\n"));
    manuscript.set("course", NewValue::Text("Statics")).expect("a key can be added at the top");
    assert!(manuscript.text().starts_with("course = \"Statics\"\r\ntitle = \"x\"  # the title\r\n"));
}

#[test]
fn a_key_is_added_to_an_entry_in_braces_and_under_the_right_heading() {
    let text = "[beam]\nloads = [\n  { force = \"4 kN\", at = \"2 m\" }, # P\n]\n\n[[question]]\nask = \"a\"\n\n[[question]]\nask = \"b\" # last\n";
    let mut manuscript = Manuscript::new(text);
    manuscript.set("beam.loads[0].direction", NewValue::Text("up")).expect("the entry is there");
    manuscript.set("question[0].marks", NewValue::Count(2)).expect("the question is there");
    manuscript.set("beam.self-weight", NewValue::YesNo(true)).expect("the beam is there");
    let expected = text
        .replace("at = \"2 m\" }", "at = \"2 m\", direction = \"up\" }")
        .replace("ask = \"a\"\n", "ask = \"a\"\nmarks = 2\n")
        .replace("]\n\n[[question]]\nask = \"a\"", "]\nself-weight = true\n\n[[question]]\nask = \"a\"");
    assert_eq!(manuscript.text(), expected);
}

#[test]
fn what_cannot_be_changed_is_refused_and_nothing_is_touched() {
    let text = lesson::builtin::find("overhang").expect("a lesson of ours").text;
    for (path, value, fault) in [
        ("beam.colour", NewValue::Text("red"), EditFault::NoSuchKey("beam.colour".to_owned())),
        ("", NewValue::Text("red"), EditFault::NoSuchKey(String::new())),
        ("beam.loads[9].at", NewValue::Text("1 m"), EditFault::NoSuchPlace("beam.loads[9].at".to_owned())),
        ("beam.self-weight", NewValue::Text("yes"), EditFault::WrongForm("beam.self-weight".to_owned())),
        (
            "question[0].marks",
            NewValue::Number(f64::NAN),
            EditFault::WrongForm("question[0].marks".to_owned()),
        ),
    ] {
        let mut manuscript = Manuscript::new(text);
        assert_eq!(manuscript.set(path, value), Err(fault));
        assert_eq!(manuscript.text(), text);
    }
    assert_eq!(Manuscript::new("[cut").set("cut.at", NewValue::Text("1 mm")), Err(EditFault::NotToml));
}

proptest! {
    /// Whatever is written is read back as it was meant, and everything else stays.
    #[test]
    fn any_text_is_written_so_that_it_reads_back(text in any::<String>(), which in 0..6_usize) {
        let builtin = lesson::builtin::ALL[which];
        let mut manuscript = Manuscript::new(builtin.text);
        manuscript.set("title", NewValue::Text(&text)).expect("every lesson has a title");
        let table: toml::Table = toml::from_str(manuscript.text()).expect("still TOML");
        prop_assert_eq!(table["title"].as_str(), Some(text.as_str()));
        let after_title = |text: &str| text[text.find("\ncourse").expect("our lessons name a course")..].to_owned();
        prop_assert_eq!(after_title(manuscript.text()), after_title(builtin.text));
    }

    #[test]
    fn no_path_and_no_file_makes_it_panic(path in "[a-z.\\[\\]0-9-]{0,30}", text in any::<String>()) {
        let _ = Manuscript::new(text).set(&path, NewValue::Text("1 m"));
        let _ = Manuscript::new(lesson::builtin::ALL[0].text).set(&path, NewValue::Text("1 m"));
    }
}

/// Remarks, order, line ends and all else stay; what was written is read back as it was meant.
#[test]
fn a_lesson_is_restricted_in_its_own_file() {
    let before = r#"title = "Restricted"   # stays

[values]
P = "4 kN"

# Each student gets one of these.
[vary]
P = { from = "3 kN", to = "6 kN", step = "0.5 kN" }   # seven

[beam]   # the hall's
length = "6 m"
supports = [{ pin = "0 m" }, { roller = "6 m" }]
loads = [{ force = "P", at = "2 m" }]

[material]
E = "10 GPa"

[section]
shape = "rectangle"
width = "100 mm"
height = "200 mm"

[slice]
at = "1 m"
length = "50 mm"

[cut]
at = "80 mm"

[[variant]]
of = "the \"supports\""
name = "as it is"

[[variant]]
of = "the \"supports\""
name = "built in"
beam.supports = [{ fixed = "0 m" }]
"#;
    let draws = |rows: &[[usize; 2]]| -> Vec<Draw> {
        rows.iter().map(|row| Draw { choices: row.to_vec() }).collect()
    };
    for text in [before.to_owned(), before.replace('\n', "\r\n")] {
        let lesson = lesson::read(&text, "x.toml").lesson.expect("a sound lesson");
        let mut manuscript = Manuscript::new(text.clone());
        manuscript.restrict(&lesson, &draws(&[[3, 1], [0, 0]])).expect("there is room");
        let end = if text.contains('\r') { "\r\n" } else { "\n" };
        let added = [
            "",
            "[papers]",
            "only = [",
            r#"  { P = "4.5 kN", 'the "supports"' = "built in" },"#,
            r#"  { P = "3 kN", 'the "supports"' = "as it is" },"#,
            "]",
            "",
        ];
        let expected =
            text.replacen(&format!("# seven{end}"), &format!("# seven{end}{}", added.join(end)), 1);
        assert_eq!(manuscript.text(), expected);
        let reading = lesson::read(manuscript.text(), "x.toml");
        assert!(reading.findings.is_empty(), "{:?}", reading.findings);
        let restricted = reading.lesson.expect("still sound");
        assert_eq!(restricted.only, Some(draws(&[[3, 1], [0, 0]])));

        // Other rows in their place; a remark of one's own stays.
        let remarked = manuscript.text().replacen("only = [", &format!("only = [{end}  # by ear"), 1);
        let mut manuscript = Manuscript::new(remarked.clone());
        manuscript.restrict(&restricted, &draws(&[[1, 1]])).expect("there is room");
        let from = remarked.find("  { P").expect("the first row");
        let to = from + remarked[from..].find(']').expect("the end");
        let row = format!("  {{ P = \"3.5 kN\", 'the \"supports\"' = \"built in\" }},{end}");
        assert_eq!(manuscript.text(), format!("{}{row}{}", &remarked[..from], &remarked[to..]));
        assert_eq!(
            lesson::read(manuscript.text(), "x.toml").lesson.expect("still sound").only,
            Some(draws(&[[1, 1]]))
        );

        let unchanged = manuscript.clone();
        assert!(manuscript.restrict(&lesson, &draws(&[[9, 0]])).is_err(), "there is no such choice");
        assert!(manuscript.restrict(&lesson, &[]).is_err(), "no paper could be drawn");
        assert_eq!(manuscript, unchanged);
    }
    // Beside requirements that stand there already.
    let text = before.replacen(
        "[beam]",
        "[papers]\nrequire = [\"the reactions are positive\"]   # else it lifts\n\n[beam]",
        1,
    );
    let lesson = lesson::read(&text, "x.toml").lesson.expect("a sound lesson");
    let mut manuscript = Manuscript::new(text.clone());
    manuscript.restrict(&lesson, &draws(&[[2, 0]])).expect("there is room");
    let row = "only = [\n  { P = \"4 kN\", 'the \"supports\"' = \"as it is\" },\n]\n";
    assert_eq!(manuscript.text(), text.replacen("# else it lifts\n", &format!("# else it lifts\n{row}"), 1));
}
