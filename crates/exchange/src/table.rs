//! Writing a table for spreadsheets and for other programs, as CSV by RFC 4180 in UTF-8.

use crate::fault::Fault;
use crate::formula_guard::guarded;

/// What stands in a cell.
#[derive(Clone, Debug, PartialEq)]
pub enum Cell {
    /// Words. If they begin as a formula does, a guard is written before them that [`crate::sheet::read`] takes off;
    /// words that are wholly a number, as a student's raw answer `-12.0`, stay as they are.
    Text(String),
    /// A number.
    Number(Number),
}

impl Cell {
    /// Words.
    pub fn text(words: impl Into<String>) -> Self {
        Self::Text(words.into())
    }
}

/// A finite number, written with all its digits and none added.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Number(f64);

impl Number {
    /// The number; `None` for what is none or is not finite.
    pub fn new(value: f64) -> Option<Self> {
        value.is_finite().then_some(Self(value))
    }
}

/// How numbers and cells are told apart.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Marks {
    /// A point in numbers, a comma between cells.
    #[default]
    Point,
    /// A comma in numbers, a semicolon between cells.
    Comma,
}

/// How a table is written.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Habit {
    /// Decimal mark and separator.
    pub marks: Marks,
    /// Whether the mark of UTF-8 stands before the text; a common spreadsheet takes accents for something else
    /// without it.
    pub for_spreadsheets: bool,
}

/// A header and rows of its length.
#[derive(Clone, Debug, PartialEq)]
pub struct Table {
    header: Vec<String>,
    rows: Vec<Vec<Cell>>,
}

impl Table {
    /// A table without rows.
    pub fn new(header: Vec<String>) -> Self {
        Self { header, rows: Vec::new() }
    }

    /// Adds a row.
    ///
    /// # Errors
    /// If the row has not as many cells as the header.
    pub fn push(&mut self, row: Vec<Cell>) -> Result<(), Fault> {
        if row.len() != self.header.len() {
            let what = format!("this row has {} cells, the header has {}", row.len(), self.header.len());
            return Err(Fault::of_row(self.rows.len() + 2, what, "give every row one cell for each column"));
        }
        self.rows.push(row);
        Ok(())
    }

    /// The table as CSV: CRLF, words between quotation marks, numbers bare where the separator allows it.
    ///
    /// # Errors
    /// None that is known: what the writer of fields refuses is ruled out by [`Table::push`].
    pub fn csv(&self, habit: Habit) -> Result<Vec<u8>, Fault> {
        let (separator, decimal) = match habit.marks {
            Marks::Point => (b',', '.'),
            Marks::Comma => (b';', ','),
        };
        let start = if habit.for_spreadsheets { "\u{feff}".as_bytes().to_vec() } else { Vec::new() };
        let mut writer = csv::WriterBuilder::new()
            .delimiter(separator)
            .terminator(csv::Terminator::CRLF)
            .quote_style(csv::QuoteStyle::NonNumeric)
            .from_writer(start);
        let refused =
            |error: String| Fault::of_file(format!("the table cannot be written: {error}"), "report this");
        let header = self.header.iter().map(|words| guarded(words, decimal));
        writer.write_record(header).map_err(|error| refused(error.to_string()))?;
        for row in &self.rows {
            let row = row.iter().map(|cell| match cell {
                Cell::Text(words) => guarded(words, decimal),
                Cell::Number(Number(value)) => match habit.marks {
                    Marks::Point => value.to_string(),
                    Marks::Comma => value.to_string().replace('.', ","),
                },
            });
            writer.write_record(row).map_err(|error| refused(error.to_string()))?;
        }
        writer.into_inner().map_err(|error| refused(error.to_string()))
    }
}
