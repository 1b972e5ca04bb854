//! Forms for a class whose students are known: each gets one of a few papers, with the name on it.

use crate::failure::Failure;
use assessment::issue::{Issue, form_name};
use assessment::ledger::Ledger;
use assessment::secret::ExamSecret;
use exchange::roster::Roster;
use lesson::papers::Draw;
use std::collections::BTreeMap;

/// The letter of the form of each student, by id.
pub type Letters = BTreeMap<String, char>;

/// Gives each student of a list a form, and enters its draw: that of the list's column `form`, or else the one of `count` that the fewest
/// have so far. None where neither the list nor `count` speaks of forms.
///
/// # Errors
/// Where the list names a form beyond `count`, or a student has a paper already that is none of their form; and as
/// [`Issue::give_forms`].
pub fn give(
    issue: &Issue,
    secret: &ExamSecret,
    ledger: &mut Ledger,
    (roster, count): (&Roster, Option<u8>),
) -> Result<Option<Letters>, Failure> {
    let own = |form: &str| form.chars().next();
    let named = roster.students().iter().filter_map(|student| own(&student.form)).max();
    let most = match (named, count) {
        (None, None) => return Ok(None),
        (Some(letter), None) => letter as u8 - b'A' + 1,
        (_, Some(count)) => count,
    };
    // The forms alone, as they would be drawn for a class without a list.
    let (lesson, space) = (&issue.papers().lesson().about.title, issue.space());
    let mut alone = Ledger::new::<ExamSecret>(lesson, space.clone());
    issue.give_forms(secret, &mut alone, most).map_err(|fault| super::no_paper(&fault, issue))?;
    let letters = (0..most).map(|form| char::from(b'A' + form));
    let mut draws: BTreeMap<char, Draw> = letters
        .zip(0..most)
        .filter_map(|(letter, form)| Some((letter, alone.paper(&form_name(form))?.draw.clone())))
        .collect();
    // What has been given out stays that form, whatever would be drawn now.
    for student in roster.students() {
        if let (Some(letter), Some(entry)) = (own(&student.form), ledger.paper(&student.id)) {
            draws.insert(letter, entry.draw.clone());
        }
    }
    let mut found = Letters::new();
    let mut have: BTreeMap<char, usize> = draws.keys().map(|letter| (*letter, 0)).collect();
    for student in roster.students() {
        let before = ledger.paper(&student.id).map(|entry| &entry.draw);
        let letter = match (own(&student.form), before) {
            (Some(letter), _) => letter,
            (None, Some(before)) => match draws.iter().find(|(_, draw)| *draw == before) {
                Some((letter, _)) => *letter,
                None => return Err(another(&student.id, None)),
            },
            (None, None) => have.iter().min_by_key(|(_, count)| **count).map_or('A', |(letter, _)| *letter),
        };
        let Some(draw) = draws.get(&letter) else {
            return Err(Failure::Asked(format!(
                "the class list gives the student {:?} form {letter}, but there are {most} forms\n  to mend it: --forms {}, or another letter in \
                 the list",
                student.id,
                letter as u8 - b'A' + 1
            )));
        };
        if before.is_some_and(|before| before != draw) {
            return Err(another(&student.id, Some(letter)));
        }
        *have.entry(letter).or_default() += 1;
        let draw = draw.clone();
        ledger.give_this(secret, &student.id, &draw, 0).map_err(|fault| Failure::Asked(fault.to_string()))?;
        found.insert(student.id.clone(), letter);
    }
    Ok(Some(found))
}

/// A paper of this folder that is not of the student's form.
fn another(student: &str, letter: Option<char>) -> Failure {
    let form = letter.map_or_else(|| "none of the forms".to_owned(), |letter| format!("not form {letter}"));
    Failure::Asked(format!(
        "the student {student:?} has a paper in this folder already, and it is {form}\n  to mend it: name a new folder: -o FOLDER"
    ))
}
