//! The lessons that come with the project, with questions of every kind.

use assessment::set::SetPaper;
use std::sync::LazyLock;

/// Every lesson up to its questions.
pub static LESSONS: LazyLock<Vec<(&str, &str)>> = LazyLock::new(|| {
    let lessons = lesson::builtin::ALL.iter().map(|builtin| {
        let end = builtin.text.find("[[question]]").unwrap_or(builtin.text.len());
        (builtin.name, &builtin.text[..end])
    });
    lessons.collect()
});

/// Questions of every kind that can be asked of every one of them.
pub const QUESTIONS: &str = r#"
[[question]]
ask = "reaction at A"
marks = 2

[[question]]
ask = "shear stress on the cut"
steps = ["shear force at the slice", "centroid height", "second moment", "first moment at the cut"]
step-marks = 0.5
marks = 3

[[question]]
ask = "largest shear force"
place = true
marks = 2

[[question]]
ask = "largest shear stress over the depth"
place = true

[[question]]
ask = "bending moment at the slice"
choose = 3

[[question]]
ask = "bending stress at the top"
text = "With the loads as given, find the bending stress at the *top* of the slice."

[[question]]
sketch = "shear force"
marks = 3

[[question]]
sketch = "bending moment"
marks = 3

[[question]]
sketch = "bending stress"
marks = 2

[[question]]
sketch = "shear stress"
marks = 2

[[question]]
sketch = "largest shear stress"

[[question]]
sketch = "part beyond the cut"
marks = 3
"#;

/// A lesson, set.
pub struct Set {
    pub name: &'static str,
    pub set: SetPaper,
}

/// A lesson with these questions.
pub fn set_of(name: &str, lesson: &str, questions: &str) -> SetPaper {
    let reading = lesson::read(&format!("{lesson}\n{questions}"), name);
    let told: Vec<String> = reading.findings.iter().map(|finding| finding.render(false)).collect();
    let (lesson, solved) =
        reading.lesson.zip(reading.solved).unwrap_or_else(|| panic!("{name}: {}", told.join("\n")));
    SetPaper::new(lesson, solved).unwrap_or_else(|faults| panic!("{name}: {faults:?}"))
}

/// All of them, with questions of every kind.
pub fn all_sets() -> impl Iterator<Item = Set> {
    LESSONS.iter().map(|(name, text)| Set { name, set: set_of(name, text, QUESTIONS) })
}
