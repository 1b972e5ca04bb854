//! A class list of invented names for the demo: most of them plain, put together from syllables, and some of the kind that
//! breaks programs.

use crate::failure::Failure;
use exchange::table::{Cell, Habit, Table};

/// How many students it has.
const STUDENTS: usize = 300;

/// Given names begin with one of these and end with one of the next.
const GIVEN: [&str; 12] =
    ["Ama", "Belo", "Cori", "Dava", "Élo", "Fen", "Gri", "Hanu", "Ilo", "Jöri", "Kess", "Lumi"];
const GIVEN_ENDS: [&str; 7] = ["ra", "lin", "tho", "ñe", "vik", "sa", "dor"];
/// And family names.
const FAMILY: [&str; 13] =
    ["Mar", "Nol", "Ostra", "Pel", "Quin", "Rud", "Søn", "Tarr", "Ulva", "Vesk", "Wen", "Yor", "Zala"];
const FAMILY_ENDS: [&str; 11] =
    ["bek", "dalen", "fort", "grove", "ický", "kamp", "lund", "mira", "nessa", "puu", "tani"];

/// Names that a list of names must survive: separators, apostrophes, quotation marks, what a spreadsheet takes for a formula,
/// what a typesetter or a browser takes for its own language, other scripts, letters of several characters, one that runs
/// over any line, and three people of one name.
const AWKWARD: [&str; 30] = [
    "Siân O'Tannor",
    "Léonie D’Arvélo",
    "Orvané-Þórdal, Jr.",
    "Rue \"Quill\" Mandor",
    "=SUM(1;2) Tobler",
    "+Plus Adderling",
    "-Minus Takeaway",
    "@Home Sittler",
    "'Tis Apostrof",
    "\"=1+1\" Nested",
    "Ada #strong[Bold] $x^2$ *Star* _Line_",
    "Tilda ~ \\ Backslash <label> @ref",
    "#import \"x.typ\": y",
    "Bo <b>Bold</b> & Sons",
    "</title><script>alert(1)</script> Markup",
    "Amp &amp; Ersand &#65;",
    "100% Per_cent {Brace} ^Hat",
    "مرنا تلوان",
    "נירל תובן־שד",
    "Mixed مرنا Direction",
    "Ζηρα Θελμπου",
    "Жорвил Тапьева",
    "沐岚 瑟维",
    "Trầvel Ngọsor",
    "Zoe\u{308} Combi\u{301}ned",
    "Sunny \u{2600}\u{fe0f} Rayle",
    "Wolvenhaardtsgravensteinbrugge-Kattendijkselaankwartiermeesterszoon van den Overgeschotenbovenkamerraadsheerlijkheid \
     tot Uiterstemeerlandsepolderdijkgraafschap en Verderopgelegenwindmolensteen",
    "Tara Velomar",
    "Tara Velomar",
    "Tara Velomar",
];

/// The class list as CSV.
///
/// # Errors
/// None that is known: every row has its cells.
pub fn csv() -> Result<Vec<u8>, Failure> {
    let ours = |fault: exchange::fault::Fault| Failure::Ours(fault.to_string());
    let header = ["student id", "name", "email", "group", "large print"];
    let mut table = Table::new(header.map(str::to_owned).to_vec());
    for student in 0..STUDENTS {
        // Ids are text: some programs would take the noughts off.
        let id = format!("{:07}", 10_007 + 37 * student);
        // A domain that nobody can have. Source: RFC 2606.
        let email = format!("s{id}@students.example");
        let group = ["Monday", "Wednesday", "Friday"][student % 3];
        let large_print = if student % 50 == 7 { "yes" } else { "no" };
        table
            .push(
                [id, name(student), email, group.to_owned(), large_print.to_owned()].map(Cell::text).to_vec(),
            )
            .map_err(ours)?;
    }
    table.csv(Habit { for_spreadsheets: true, ..Habit::default() }).map_err(ours)
}

/// One awkward name after nine plain ones.
fn name(student: usize) -> String {
    if student % 10 == 9
        && let Some(name) = AWKWARD.get(student / 10)
    {
        return (*name).to_owned();
    }
    let of = |list: &[&'static str], turn: usize| list[turn % list.len()];
    // The lengths of the lists have no common factor, so that the turns do not fall into step.
    format!(
        "{}{} {}{}",
        of(&GIVEN, student),
        of(&GIVEN_ENDS, student),
        of(&FAMILY, student),
        of(&FAMILY_ENDS, student / 2)
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use exchange::roster::Roster;

    #[test]
    fn the_class_reads_back_name_by_name() {
        let roster = Roster::read(&csv().expect("a table")).expect("a sound list");
        assert_eq!(roster.students().len(), STUDENTS);
        for (place, student) in roster.students().iter().enumerate() {
            assert_eq!(student.name, name(place));
        }
        let mut names: Vec<String> = (0..STUDENTS).map(name).collect();
        names.sort();
        names.dedup();
        assert_eq!(names.len(), STUDENTS - 2, "only the three of one name are alike");
    }
}
