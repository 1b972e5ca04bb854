//! A class list: who gets a paper.

use crate::fault::{Fault, shortened};
use crate::sheet;
use crate::table::{Cell, Table};
use std::collections::HashMap;

/// What a class list may say of a student.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Column {
    Id,
    Name,
    Email,
    Group,
    LargePrint,
    Sheet,
    Form,
}

impl Column {
    const ALL: [Self; 7] =
        [Self::Id, Self::Name, Self::Email, Self::Group, Self::LargePrint, Self::Sheet, Self::Form];

    /// Its header in what we write.
    fn header(self) -> &'static str {
        match self {
            Self::Id => "student id",
            Self::Name => "name",
            Self::Email => "email",
            Self::Group => "group",
            Self::LargePrint => "large print",
            Self::Sheet => "sheet",
            Self::Form => "form",
        }
    }

    /// By a header of the file, in any case, with `-` or `_` for the space.
    fn of(header: &str) -> Option<Self> {
        let header = header.to_lowercase().replace(['-', '_'], " ");
        let header = header.split_whitespace().collect::<Vec<_>>().join(" ");
        match header.as_str() {
            "id" | "student number" | "number" => Some(Self::Id),
            "e mail" => Some(Self::Email),
            "paper size" => Some(Self::Sheet),
            header => Self::ALL.into_iter().find(|column| column.header() == header),
        }
    }
}

/// A sheet of paper.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sheet {
    /// A4, 210 mm by 297 mm.
    A4,
    /// US letter, 8.5 in by 11 in.
    Letter,
}

impl Sheet {
    /// As a class list says it.
    const ALL: [(&'static str, Self); 2] = [("a4", Self::A4), ("letter", Self::Letter)];

    fn of(words: &str) -> Option<Self> {
        let words = words.to_lowercase();
        Self::ALL.into_iter().find(|(word, _)| *word == words).map(|(_, sheet)| sheet)
    }

    fn word(self) -> &'static str {
        Self::ALL.into_iter().find(|(_, sheet)| *sheet == self).map_or("", |(word, _)| word)
    }
}

/// A student.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Student {
    /// The student's number: text, with its leading zeros; no other student of the list has it.
    pub id: String,
    /// The name.
    pub name: String,
    /// The address; empty for none.
    pub email: String,
    /// The group; empty for none.
    pub group: String,
    /// Whether the paper is to be printed large.
    pub large_print: bool,
    /// The sheet that the paper is to be printed on; none where nothing is said.
    pub sheet: Option<Sheet>,
    /// The form of the exam that is wanted, a letter from `A` to `Z`; empty for none.
    pub form: String,
    /// What stands in the other columns, in the order of [`Roster::other_columns`].
    pub other: Vec<String>,
}

/// A class list of at least one student.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Roster {
    students: Vec<Student>,
    other_columns: Vec<String>,
    warnings: Vec<Fault>,
}

impl Roster {
    /// The students in the order of the file.
    pub fn students(&self) -> &[Student] {
        &self.students
    }

    /// The headers of columns that mean nothing to us; they are kept and written back.
    pub fn other_columns(&self) -> &[String] {
        &self.other_columns
    }

    /// What was read, but not without doubt.
    pub fn warnings(&self) -> &[Fault] {
        &self.warnings
    }

    /// Each student as to be called where people read it, in the order of the file: by name, and by number too where
    /// two have one name.
    pub fn called(&self) -> Vec<String> {
        let mut bearers: HashMap<&str, usize> = HashMap::new();
        for student in &self.students {
            *bearers.entry(&student.name).or_default() += 1;
        }
        let shared =
            |student: &Student| bearers.get(student.name.as_str()).is_some_and(|&bearers| bearers > 1);
        let called = |student: &Student| match shared(student) {
            true => format!("{} ({})", student.name, student.id),
            false => student.name.clone(),
        };
        self.students.iter().map(called).collect()
    }

    /// The list as a table, with the other columns behind ours.
    ///
    /// # Errors
    /// None that is known: every student has as many other cells as there are other columns.
    pub fn table(&self) -> Result<Table, Fault> {
        let ours = Column::ALL.map(|column| column.header().to_owned());
        let mut table = Table::new(ours.into_iter().chain(self.other_columns.iter().cloned()).collect());
        for student in &self.students {
            let large_print = if student.large_print { "yes" } else { "no" };
            let sheet = student.sheet.map_or("", Sheet::word);
            let ours = [
                &student.id,
                &student.name,
                &student.email,
                &student.group,
                large_print,
                sheet,
                &student.form,
            ];
            table.push(
                ours.into_iter().map(Cell::text).chain(student.other.iter().map(Cell::text)).collect(),
            )?;
        }
        Ok(table)
    }

    /// Reads a class list as [`sheet::read`] reads a sheet. Columns by their headers, in any order: `student id` (or
    /// `id`, `student number`, `number`), `name`, and where wanted `email`, `group`, `large print` (`yes` or `large`, or `no`), `sheet` (or `paper
    /// size`; `A4` or `letter`), `form`.
    ///
    /// # Errors
    /// Every fault of the file: what [`sheet::read`] refuses, a column that is missing or there twice, an id that is
    /// missing or given twice, a name that is missing, no student.
    pub fn read(bytes: &[u8]) -> Result<Self, Vec<Fault>> {
        let sheet = sheet::read(bytes)?;
        let places = Places::of(&sheet.header)?;
        let mut faults = Vec::new();
        let students: Vec<Student> =
            sheet.rows.iter().map(|row| places.student(row, &sheet.header, &mut faults)).collect();
        faults.extend(given_twice(&sheet.rows, &students, &sheet.header, &places));
        if students.is_empty() {
            faults.push(Fault::of_file("the class list has no student", "write one row for each student"));
        }
        if !faults.is_empty() {
            faults.sort_by_key(|fault| fault.row);
            return Err(faults);
        }
        let other_columns =
            places.other.iter().filter_map(|&place| sheet.header.get(place).cloned()).collect();
        Ok(Self { students, other_columns, warnings: sheet.warnings })
    }
}

/// Which column of the file is what.
struct Places {
    ours: Vec<(Column, usize)>,
    other: Vec<usize>,
}

impl Places {
    fn of(header: &[String]) -> Result<Self, Vec<Fault>> {
        let (mut ours, mut other, mut faults) = (Vec::<(Column, usize)>::new(), Vec::new(), Vec::new());
        for (place, name) in header.iter().enumerate() {
            match Column::of(name) {
                Some(column) if ours.iter().any(|&(known, _)| known == column) => {
                    let what = format!("a second column for the {}", column.header());
                    faults.push(Fault::of_cell(1, name, what, "keep one of them and rename the other"));
                }
                Some(column) => ours.push((column, place)),
                None => other.push(place),
            }
        }
        for column in [Column::Id, Column::Name] {
            if !ours.iter().any(|&(known, _)| known == column) {
                let names: Vec<String> =
                    header.iter().take(8).map(|name| format!("{:?}", shortened(name))).collect();
                let what =
                    format!("no column is called {:?}; the header has {}", column.header(), names.join(", "));
                let mend = format!("call the column of the {0} {0:?} in the first row", column.header());
                faults.push(Fault { row: Some(1), ..Fault::of_file(what, mend) });
            }
        }
        if faults.is_empty() { Ok(Self { ours, other }) } else { Err(faults) }
    }

    fn place(&self, column: Column) -> Option<usize> {
        self.ours.iter().find(|&&(known, _)| known == column).map(|&(_, place)| place)
    }

    fn student(&self, row: &sheet::Row, header: &[String], faults: &mut Vec<Fault>) -> Student {
        let cell = |column| {
            let cell = self.place(column).and_then(|place| row.cells.get(place));
            cell.map_or("", |cell| cell.trim()).to_owned()
        };
        let mut fault = |column, what: String, mend: &str| {
            faults.push(Fault::of_cell(row.number, self.called(column, header), what, mend));
        };
        let (id, name) = (cell(Column::Id), cell(Column::Name));
        if id.is_empty() {
            fault(
                Column::Id,
                format!("{} has no student id", or_nobody(&name)),
                "give each student an id of their own",
            );
        }
        if name.is_empty() {
            fault(Column::Name, format!("the student {:?} has no name", shortened(&id)), "write the name");
        }
        let wanted = cell(Column::LargePrint);
        let large_print = match wanted.to_lowercase().as_str() {
            "yes" | "large" => true,
            "no" | "" => false,
            _ => {
                fault(
                    Column::LargePrint,
                    format!("{:?} is neither yes nor no", shortened(&wanted)),
                    "write yes or no",
                );
                false
            }
        };
        let wanted = cell(Column::Sheet);
        let sheet = Sheet::of(&wanted);
        if sheet.is_none() && !wanted.is_empty() {
            let what = format!("{:?} is no sheet that papers are printed on", shortened(&wanted));
            fault(Column::Sheet, what, "write A4 or letter, or leave it empty");
        }
        let wanted = cell(Column::Form);
        let form = form_of(&wanted);
        if form.is_none() {
            let what = format!("{:?} is no form of an exam", shortened(&wanted));
            fault(Column::Form, what, "write a letter from A to Z, or leave it empty");
        }
        let other =
            self.other.iter().map(|&place| row.cells.get(place).cloned().unwrap_or_default()).collect();
        Student {
            id,
            name,
            email: cell(Column::Email),
            group: cell(Column::Group),
            large_print,
            sheet,
            form: form.unwrap_or_default(),
            other,
        }
    }

    /// The header of one of our columns, as it stands in the file.
    fn called<'a>(&self, column: Column, header: &'a [String]) -> &'a str {
        self.place(column).and_then(|place| header.get(place)).map_or("", String::as_str)
    }
}

/// `B` of `B`, `b` or `form B`; empty of nothing; none of what is no form.
fn form_of(words: &str) -> Option<String> {
    let upper = words.to_uppercase();
    let letter = upper.strip_prefix("FORM").unwrap_or(&upper).trim();
    match letter.as_bytes() {
        [] => upper.is_empty().then(String::new),
        [b'A'..=b'Z'] => Some(letter.to_owned()),
        _ => None,
    }
}

fn or_nobody(name: &str) -> String {
    if name.is_empty() { "this row".to_owned() } else { shortened(name) }
}

/// A fault for every row whose id another row has too.
fn given_twice(rows: &[sheet::Row], students: &[Student], header: &[String], places: &Places) -> Vec<Fault> {
    let mut bearers: HashMap<&str, Vec<usize>> = HashMap::new();
    for (row, student) in rows.iter().zip(students).filter(|(_, student)| !student.id.is_empty()) {
        bearers.entry(&student.id).or_default().push(row.number);
    }
    let mut faults = Vec::new();
    for (row, student) in rows.iter().zip(students) {
        let Some(all) = bearers.get(student.id.as_str()).filter(|all| all.len() > 1) else { continue };
        let others: Vec<String> =
            all.iter().filter(|&&other| other != row.number).take(8).map(usize::to_string).collect();
        let what = format!("the id {:?} also stands in row {}", shortened(&student.id), others.join(", "));
        let mend = "give each student an id of their own, or take the row away if it is one student twice";
        faults.push(Fault::of_cell(row.number, places.called(Column::Id, header), what, mend));
    }
    faults
}
