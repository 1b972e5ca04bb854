//! What we write for spreadsheets: it comes back the same, and nothing in it runs.

use exchange::sheet;
use exchange::table::{Cell, Habit, Marks, Number, Table};
use proptest::prelude::*;

fn table(header: &[&str], rows: &[&[Cell]]) -> Table {
    let mut table = Table::new(header.iter().map(|&words| words.to_owned()).collect());
    for row in rows {
        table.push(row.to_vec()).expect("a row of the header's length");
    }
    table
}

fn number(value: f64) -> Cell {
    Cell::Number(Number::new(value).expect("finite"))
}

const POINT: Habit = Habit { marks: Marks::Point, for_spreadsheets: false };
const COMMA: Habit = Habit { marks: Marks::Comma, for_spreadsheets: true };

/// Source: RFC 4180, section 2: CRLF after every row, a comma between fields, quotation marks doubled within quotation
/// marks. The mark of UTF-8 is U+FEFF (RFC 3629, section 6).
#[test]
fn the_bytes_are_those_of_the_rfc() {
    let marks = table(
        &["name", "mark"],
        &[&[Cell::text("Lee, \"Bo\""), number(-12.5)], &[Cell::text("Ána"), number(3.0)]],
    );
    let point = marks.csv(POINT).expect("a table");
    assert_eq!(
        String::from_utf8_lossy(&point),
        "\"name\",\"mark\"\r\n\"Lee, \"\"Bo\"\"\",-12.5\r\n\"Ána\",3\r\n"
    );
    let comma = marks.csv(COMMA).expect("a table");
    assert_eq!(
        String::from_utf8_lossy(&comma),
        "\u{feff}\"name\";\"mark\"\r\n\"Lee, \"\"Bo\"\"\";\"-12,5\"\r\n\"Ána\";3\r\n"
    );
}

/// Source: the signs of OWASP's page on CSV injection (= + - @, tab, carriage return, line feed, full-width forms).
#[test]
fn text_like_a_formula_is_guarded_and_a_raw_answer_is_not_spoilt() {
    let texts = [
        "=1+1", "+1", "-1+1", "@A1", "\t=1", "\r=1", "\n=1", "＝1", "＋1", "－1", "＠1", "'=1", "-", "-0,44",
        "-1e",
    ];
    for text in texts {
        let written = table(&["t"], &[&[Cell::text(text)]]).csv(POINT).expect("a table");
        assert_eq!(String::from_utf8_lossy(&written), format!("\"t\"\r\n\"'{text}\"\r\n"));
        assert_eq!(sheet::read(&written).expect("a sheet").rows[0].cells, [text]);
    }
    for answer in ["-12.0", "-0.44", "-1.2e3", "-5E-2"] {
        let written = table(&["t"], &[&[Cell::text(answer)]]).csv(POINT).expect("a table");
        assert_eq!(String::from_utf8_lossy(&written), format!("\"t\"\r\n{answer}\r\n"));
        assert_eq!(sheet::read(&written).expect("a sheet").rows[0].cells, [answer]);
    }
}

#[test]
fn a_row_of_another_length_and_a_number_that_is_none_are_refused() {
    assert!(Table::new(vec!["a".to_owned()]).push(vec![]).is_err());
    assert!(
        [f64::NAN, f64::INFINITY, f64::NEG_INFINITY].into_iter().all(|value| Number::new(value).is_none())
    );
}

/// Words with many formula signs, apostrophes, separators and quotation marks among them.
fn words() -> impl Strategy<Value = String> {
    let awkward =
        prop::sample::select("=+-@'\t\r\n＝＋－＠\",;.eE0189 \u{feff}aé".chars().collect::<Vec<_>>());
    let character = prop_oneof![4 => awkward, 1 => any::<char>()];
    let no_control = |c: &char| !c.is_control() || matches!(c, '\t' | '\r' | '\n');
    prop::collection::vec(character.prop_filter("text", no_control), 0..8)
        .prop_map(|all| all.into_iter().collect())
}

/// What a spreadsheet takes for a number: an own reading of the same grammar, by the standard library.
fn is_number(field: &str, decimal: char) -> bool {
    field.chars().all(|c| c.is_ascii_digit() || c == decimal || matches!(c, '-' | '+' | 'e' | 'E'))
        && field.replace(decimal, ".").parse::<f64>().is_ok()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2048))]

    #[test]
    fn what_is_written_is_read_and_no_text_starts_a_formula(
        header in prop::collection::vec(words(), 2), texts in prop::collection::vec(words(), 0..6),
        values in prop::collection::vec(any::<f64>().prop_filter("finite", |value| value.is_finite()), 6),
        comma in any::<bool>(), for_spreadsheets in any::<bool>(),
    ) {
        let habit = Habit { marks: if comma { Marks::Comma } else { Marks::Point }, for_spreadsheets };
        let (separator, decimal) = if comma { (b';', ',') } else { (b',', '.') };
        // A header and rows without a word count as none; rows here always have their number.
        let header: Vec<String> = header.into_iter().map(|words| format!("{words}h")).collect();
        let mut table = Table::new(header.clone());
        for (text, &value) in texts.iter().zip(&values) {
            table.push(vec![Cell::text(text.as_str()), number(value)]).expect("two cells");
        }
        let written = table.csv(habit).expect("a table");

        let back = sheet::read(&written).expect("a sheet");
        prop_assert_eq!(&back.header, &header);
        prop_assert_eq!(back.rows.len(), texts.len().min(values.len()));
        for ((row, text), value) in back.rows.iter().zip(&texts).zip(&values) {
            prop_assert_eq!(&row.cells[0], text);
            let digits = row.cells[1].replace(decimal, ".");
            prop_assert_eq!(digits.parse::<f64>().map(f64::to_bits), Ok(value.to_bits()));
        }

        // The fields as a program sees them that knows nothing of guards.
        let body = written.strip_prefix("\u{feff}".as_bytes()).unwrap_or(&written);
        let mut fields = csv::ReaderBuilder::new().delimiter(separator).has_headers(false).from_reader(body);
        for record in fields.records() {
            for field in record.expect("a record").iter() {
                let harmless = is_number(field, decimal) && !field.starts_with('+');
                prop_assert!(harmless || !field.starts_with(['=', '+', '-', '@', '\t', '\r', '\n', '＝', '＋', '－', '＠']), "{:?}", field);
            }
        }
    }
}
