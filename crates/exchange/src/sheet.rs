//! Reading what a spreadsheet has saved as text: a header and rows, all of it words.

use crate::encoding::decode;
use crate::fault::Fault;
use crate::formula_guard::unguarded;
use crate::quoting;

/// The largest file, in bytes: some fifty times a class list of a thousand with long names.
pub const LARGEST_FILE: usize = 8 << 20;
/// The most rows after the header.
pub const MOST_ROWS: usize = 50_000;
/// The most columns.
pub const MOST_COLUMNS: usize = 1_000;
/// The longest text of a cell, in characters.
pub const LONGEST_TEXT: usize = 10_000;
/// So many faults are told: a file that is no class list at all has one in every cell.
const MOST_FAULTS: usize = 1_000;

/// A header and rows.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sheet {
    /// What stands in the first row that is not blank; at least one column.
    pub header: Vec<String>,
    /// The rows that are not blank.
    pub rows: Vec<Row>,
    /// What was read, but not without doubt.
    pub warnings: Vec<Fault>,
}

/// A row.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Row {
    /// Its number as a spreadsheet counts, from 1, the header included.
    pub number: usize,
    /// As many cells as the header has.
    pub cells: Vec<String>,
}

/// Reads UTF-8 with or without mark, UTF-16 with its mark, or else Windows-1252 with a warning; separated by comma,
/// semicolon or tab, by the header; quoted by RFC 4180. The apostrophe that guards a formula is taken off.
///
/// # Errors
/// Every fault: no header, rows of another length than the header, quotation marks that do not match, bytes that are
/// no text, a file too large.
pub fn read(bytes: &[u8]) -> Result<Sheet, Vec<Fault>> {
    if bytes.len() > LARGEST_FILE {
        let what = format!("the file has {} bytes; at most {LARGEST_FILE} are read", bytes.len());
        return Err(vec![Fault::of_file(what, "keep to the columns of the class list, or split the file")]);
    }
    let decoded = decode(bytes).map_err(|fault| vec![fault])?;
    let separator = quoting::separator(&decoded.text);
    let numbers = quoting::rows(&decoded.text, separator).map_err(|fault| vec![fault])?;
    if numbers.len() > MOST_ROWS + 1 {
        let what = format!("the file has {} rows; at most {MOST_ROWS} are read", numbers.len() - 1);
        return Err(vec![Fault::of_file(what, "split the file")]);
    }

    let mut reader = csv::ReaderBuilder::new()
        .delimiter(separator)
        .has_headers(false)
        .flexible(true)
        .from_reader(decoded.text.as_bytes());
    let mut rows = reader.records().zip(numbers).map(|(record, number)| match record {
        Ok(record) => {
            Ok(Row { number, cells: record.iter().map(|cell| unguarded(cell).to_owned()).collect() })
        }
        Err(error) => {
            Err(vec![Fault::of_row(number, format!("this row cannot be read: {error}"), "write it again")])
        }
    });
    let header = match rows.next().transpose()? {
        Some(Row { cells, .. }) if cells.iter().any(|cell| !cell.trim().is_empty()) => cells,
        _ => {
            let mend = "name the columns in the first row, such as: student id,name";
            return Err(vec![Fault::of_file("the file has no header", mend)]);
        }
    };
    if header.len() > MOST_COLUMNS {
        let what = format!("the header has {} columns; at most {MOST_COLUMNS} are read", header.len());
        return Err(vec![Fault::of_file(what, "take away the columns that nobody needs")]);
    }

    let (mut kept, mut faults) = (Vec::new(), Vec::new());
    check_cells(1, &header, &header, &mut faults);
    for row in rows {
        let row = row?;
        if row.cells.iter().all(|cell| cell.trim().is_empty()) {
            continue; // spreadsheets save rows of separators alone
        }
        if row.cells.len() != header.len() {
            let what = format!("this row has {} cells, the header has {}", row.cells.len(), header.len());
            let mend = "give every row one cell for each column; put text with a separator in it between quotation marks";
            faults.push(Fault::of_row(row.number, what, mend));
        }
        check_cells(row.number, &header, &row.cells, &mut faults);
        kept.push(row);
        if faults.len() >= MOST_FAULTS {
            let what = format!("the file has more faults; the first {} are told", faults.len());
            faults.push(Fault::of_file(what, "mend these and read it again"));
            break;
        }
    }
    if faults.is_empty() {
        Ok(Sheet { header, rows: kept, warnings: decoded.warning.into_iter().collect() })
    } else {
        Err(faults)
    }
}

fn check_cells(row: usize, header: &[String], cells: &[String], faults: &mut Vec<Fault>) {
    for (place, cell) in cells.iter().enumerate() {
        let column = header.get(place).map_or("", String::as_str);
        // No keyboard writes these: the file is in another encoding than it seems, or is no text at all.
        if let Some(odd) = cell.chars().find(|&c| c.is_control() && !matches!(c, '\t' | '\r' | '\n')) {
            let what = format!("here is a character that no text has, U+{:04X}", u32::from(odd));
            faults.push(Fault::of_cell(row, column, what, "save the file again as CSV in UTF-8"));
        }
        let length = cell.chars().count();
        if length > LONGEST_TEXT {
            let what = format!("this text has {length} characters; at most {LONGEST_TEXT} are read");
            faults.push(Fault::of_cell(row, column, what, "shorten it"));
        }
    }
}
