//! The lessons that come with the project, and the starting lesson: read without findings. (That they fit the schema is
//! held by `tests/comparison/schema.py`, with a validator that is not ours.)

fn every_lesson() -> Vec<(String, String)> {
    let mut lessons: Vec<(String, String)> = lesson::builtin::ALL
        .iter()
        .map(|builtin| (builtin.name.to_owned(), builtin.text.to_owned()))
        .collect();
    lessons.push(("template".to_owned(), lesson::template("roof-beam")));
    lessons
}

#[test]
fn every_lesson_is_read_without_findings() {
    for (name, text) in every_lesson() {
        let reading = lesson::read(&text, &format!("{name}.toml"));
        let shown: Vec<String> = reading.findings.iter().map(|finding| finding.render(false)).collect();
        assert!(reading.findings.is_empty(), "{name}:\n{}", shown.join("\n\n"));
        let lesson = reading.lesson.expect("nothing was found, so there is a lesson");
        assert_eq!(lesson.problem.beam.supports.len(), lesson.problem.supports.len(), "{name}");
        assert_eq!(lesson.problem.beam.loads.len(), lesson.problem.loads.len(), "{name}");
        assert_eq!(lesson.problem.parts.len(), lesson.problem.part_names.len(), "{name}");
        assert!(lesson.about.teaches.is_some(), "{name} says what it teaches");
        assert!(!lesson.questions.is_empty(), "{name} asks something");
        assert!(lesson.texts.iter().next().is_some(), "{name} says something");
    }
}

#[test]
fn the_reference_page_names_every_key() {
    let page = lesson::reference_page();
    for key in lesson::key::all() {
        let parent = key.parent();
        let heading = match parent {
            "" => "The top of the file".to_owned(),
            "question[]" | "mistake[]" | "variant[]" => format!("`[[{}]]`", parent.trim_end_matches("[]")),
            parent if parent.contains("[]") => format!("`{parent}`"),
            parent => format!("`[{parent}]`"),
        };
        let chapter = page.split("\n## ").find(|chapter| {
            chapter.lines().next().is_some_and(|line| line.split(", ").any(|name| name == heading))
        });
        let chapter = chapter.unwrap_or_else(|| panic!("no chapter {heading} for {}", key.path));
        let word = match key.word() {
            "*" if parent.ends_with("mistakes") => "the name of a mistake",
            "*" => "a name of your own",
            word => word,
        };
        assert!(chapter.contains(&format!("\n| `{word}` |")), "{} is not on the page", key.path);
        assert!(!key.says.is_empty(), "{} says nothing", key.path);
    }
}

/// The page in the repository is the one that the program makes.
/// `REWRITE_REFERENCE=1 cargo test -p lesson --test all builtin` writes it anew.
#[test]
fn the_reference_page_of_the_repository_is_up_to_date() {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../docs/lesson-file.md");
    if std::env::var_os("REWRITE_REFERENCE").is_some() {
        std::fs::write(path, lesson::reference_page()).expect("the folder of documents can be written to");
    }
    let kept = std::fs::read_to_string(path).expect("the page is part of the repository");
    assert!(kept == lesson::reference_page(), "docs/lesson-file.md is out of date");
}

#[test]
fn the_examples_of_the_table_are_toml_of_the_right_form() {
    for key in lesson::key::all().iter().filter(|key| !key.example.is_empty()) {
        let line = format!("x = {}", key.example);
        let table: toml::Table =
            toml::from_str(&line).unwrap_or_else(|error| panic!("{}: {error}", key.path));
        if let (lesson::key::Form::Choice(words), Some(text)) = (key.form, table["x"].as_str()) {
            assert!(words.contains(&text), "{}: {text}", key.path);
        }
    }
}

#[test]
fn the_starting_lesson_has_the_title_of_its_name() {
    for (name, title) in [
        ("roof-beam", "Roof beam"),
        ("gate_2.toml", "Gate 2"),
        ("say \"hi\"", "Say \"hi\""),
        ("", "The title of the lesson"),
    ] {
        let reading = lesson::read(&lesson::template(name), "start.toml");
        assert_eq!(reading.lesson.expect("the starting lesson is sound").about.title, title);
    }
}

/// A lecturer who takes the first # away must not be told of a mistake.
#[test]
fn what_the_template_offers_can_be_taken_in_every_notation() {
    let template = lesson::template("a");
    let offered = [
        "# [notation]",
        "# figures",
        "# second-moment",
        "# [notation.symbols]",
        "# shear-flow",
        "# [vary]",
        "# P =",
        "# [papers]",
        "# require",
        "  # { spread",
        "  # { couple",
        "  # { force",
        "# density",
    ];
    for profile in ["upward", "upward-b", "area-arm", "code-axes", "downward", "bow-marks"] {
        let line = |line: &str| {
            if line.starts_with("# profile = ") {
                format!("profile = \"{profile}\"\n")
            } else if offered.iter().any(|start| line.starts_with(start)) {
                line.replacen("# ", "", 1) + "\n"
            } else {
                format!("{line}\n")
            }
        };
        let text: String = template.lines().map(line).collect();
        for start in offered {
            assert!(!text.lines().any(|line| line.starts_with(start)), "{start} is still a remark");
        }
        let reading = lesson::read(&text, "a.toml");
        let told: Vec<String> = reading.findings.iter().map(|finding| finding.render(false)).collect();
        assert!(reading.lesson.is_some(), "{profile}: {}", told.join("\n"));
    }
}

/// Each lesson has a mistake of its own, and with it comes out another value, by more than a sign; one lesson has a straight cut.
#[test]
fn every_lesson_has_a_mistake_of_its_own() {
    let mut straight_cuts = 0;
    for builtin in lesson::builtin::ALL {
        let reading = lesson::read(builtin.text, builtin.name);
        let (lesson, solved) =
            (reading.lesson.expect("it can be read"), reading.solved.expect("it can be solved"));
        let made: Vec<_> = lesson.mistakes.iter().flat_map(|own| own.applied(&solved)).collect();
        assert!(!made.is_empty(), "{}", builtin.name);
        for own in made {
            let right = solved.value(own.working()).abs();
            let wrong = own.value(&solved, own.working()).expect("it can be evaluated").abs();
            assert!((wrong - right).abs() > 0.02 * right, "{}: {wrong} for {right}", builtin.name);
        }
        straight_cuts += solved.further_cuts().len();
    }
    assert!(straight_cuts >= 1);
}
