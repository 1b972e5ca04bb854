//! Forms for a class whose students are known: each gets one of a few papers, with the name on it.

use crate::failure::Failure;
use assessment::issue::{Issue, LETTERS};
use assessment::ledger::{Drawn, Entry, Ledger, LedgerFault, form_name};
use assessment::secret::ExamSecret;
use exchange::roster::Roster;
use std::collections::BTreeMap;

/// The letter of the form of each student, by id.
pub type Letters = BTreeMap<String, char>;

/// Gives each student of a list a form, and enters its draw: the one that the ledger has, that of the list's column `form`, or else the one
/// of `count` that the fewest have so far. None where neither list nor ledger nor `count` speaks of forms.
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
    let given = ledger.papers().filter_map(|(_, entry)| entry.form).max();
    let most = match (named.max(given), count) {
        (None, None) => return Ok(None),
        (Some(letter), None) => letter as u8 - b'A' + 1,
        (_, Some(count)) => count,
    };
    // The forms alone, as they would be drawn for a class without a list; those that have been given out stay what they are.
    let (lesson, space) = (&issue.papers().lesson().about.title, issue.space());
    let mut forms = Ledger::new::<ExamSecret>(lesson, space.clone());
    let not_entered = |fault: LedgerFault| Failure::Asked(fault.to_string());
    for (_, entry) in ledger.papers() {
        if let Some(letter) = entry.form {
            forms.give_this(secret, &form_name(letter), drawn(entry, None)).map_err(not_entered)?;
        }
    }
    issue.give_forms(secret, &mut forms, most).map_err(|fault| super::no_paper(&fault, issue))?;
    let mut have: BTreeMap<char, usize> = LETTERS.take(most.into()).map(|letter| (letter, 0)).collect();
    let mut found = Letters::new();
    for student in roster.students() {
        let named = own(&student.form);
        let letter = match (named, ledger.paper(&student.id).map(|entry| entry.form)) {
            (Some(named), Some(Some(given))) if named == given => Some(given),
            (None, Some(Some(given))) => Some(given),
            (named, Some(_)) => return Err(another(&student.id, named)),
            (named, None) => named,
        };
        if let Some(letter) = letter {
            if let Some(count) = have.get_mut(&letter) {
                *count += 1;
            }
            found.insert(student.id.clone(), letter);
        }
    }
    for student in roster.students() {
        let fewest = || have.iter().min_by_key(|(_, count)| **count).map(|(letter, _)| *letter);
        let Some(letter) = found.get(&student.id).copied().or_else(fewest) else { continue };
        let Some(entry) = forms.paper(&form_name(letter)) else {
            return Err(Failure::Asked(format!(
                "the class list gives the student {:?} form {letter}, but there are {most} forms\n  to mend it: --forms {}, or another letter in \
                 the list",
                student.id,
                letter as u8 - b'A' + 1
            )));
        };
        ledger.give_this(secret, &student.id, drawn(entry, Some(letter))).map_err(not_entered)?;
        if found.insert(student.id.clone(), letter).is_none() {
            *have.entry(letter).or_default() += 1;
        }
    }
    Ok(Some(found))
}

/// The paper of a form, for a student or by itself.
fn drawn(entry: &Entry, form: Option<char>) -> Drawn {
    Drawn { draw: entry.draw.clone(), attempt: entry.attempt, form }
}

/// A paper of this folder that is not of the student's form.
fn another(student: &str, letter: Option<char>) -> Failure {
    let form = letter.map_or_else(|| "none of the forms".to_owned(), |letter| format!("not form {letter}"));
    Failure::Asked(format!(
        "the student {student:?} has a paper in this folder already, and it is {form}\n  to mend it: name a new folder: -o FOLDER"
    ))
}
