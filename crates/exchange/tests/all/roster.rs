//! Class lists as spreadsheets save them, and as they should not be.

use exchange::fault::Fault;
use exchange::roster::{Roster, Sheet};
use exchange::table::{Habit, Marks};
use proptest::prelude::*;

fn read(text: &str) -> Roster {
    Roster::read(text.as_bytes()).unwrap_or_else(|faults| panic!("{faults:#?}"))
}

fn refused(bytes: &[u8]) -> Vec<Fault> {
    Roster::read(bytes).expect_err("a fault")
}

/// Row and column of every fault.
fn places(faults: &[Fault]) -> Vec<(Option<usize>, Option<&str>)> {
    faults.iter().map(|fault| (fault.row, fault.column.as_deref())).collect()
}

fn ids_and_names(roster: &Roster) -> Vec<(&str, &str)> {
    roster.students().iter().map(|student| (student.id.as_str(), student.name.as_str())).collect()
}

const LIST: &str = "student id,name,email,group,large print,form\r\n\
    007,Ánna Ødegård,anna@example.org,A,yes,B\r\n\
    0123456789012345678901,Brigid O'Shea,,A,no,\r\n";

#[test]
fn a_plain_list_is_read_with_ids_as_text() {
    let roster = read(LIST);
    assert_eq!(
        ids_and_names(&roster),
        [("007", "Ánna Ødegård"), ("0123456789012345678901", "Brigid O'Shea")]
    );
    let [anna, brigid] = roster.students() else { panic!("two students") };
    assert_eq!(
        (anna.email.as_str(), anna.group.as_str(), anna.large_print, anna.form.as_str()),
        ("anna@example.org", "A", true, "B")
    );
    assert_eq!((brigid.email.as_str(), brigid.large_print, brigid.form.as_str()), ("", false, ""));
    assert!(roster.warnings().is_empty());
}

#[test]
fn encodings_and_separators_make_no_difference() {
    let wanted = read(LIST);
    let utf_16 = |text: &str| -> Vec<u8> {
        [0xff, 0xfe].into_iter().chain(text.encode_utf16().flat_map(u16::to_le_bytes)).collect()
    };
    for separator in [",", ";", "\t"] {
        for end in ["\r\n", "\n", "\r"] {
            let text = LIST.replace(',', separator).replace("\r\n", end);
            let marked = format!("\u{feff}{text}");
            for bytes in [text.as_bytes(), marked.as_bytes(), &utf_16(&text)] {
                assert_eq!(Roster::read(bytes).as_ref(), Ok(&wanted), "{separator:?} {end:?}");
            }
        }
    }
}

/// Source: the WHATWG Encoding Standard's index of windows-1252: 0x80 is the euro sign, 0xE9 is é, 0x9A is š, and 0x81 stands
/// for no character of writing.
#[test]
fn windows_1252_is_read_with_a_warning_and_its_gaps_are_refused() {
    let roster = Roster::read(b"id;name\r\n1;Plain\r\n2;Ren\xe9 Pe\x9aek \x80\r\n").expect("a list");
    assert_eq!(ids_and_names(&roster), [("1", "Plain"), ("2", "René Pešek €")]);
    let [warning] = roster.warnings() else { panic!("one warning: {:?}", roster.warnings()) };
    assert_eq!(warning.row, Some(3));
    assert!(warning.what.contains("Windows-1252"), "{warning}");
    assert_eq!(places(&refused(b"id;name\n1;Ren\xe9\n2;\x81\n")), [(Some(3), Some("name"))]);
}

#[test]
fn columns_stand_in_any_order_under_any_case_and_unknown_ones_are_kept() {
    let roster = read("Seat;NAME;Large_Print;Student-Number;Room\n12;Ines;YES;5;\"B;2\"\n13;Joao;;6;\n");
    assert_eq!(ids_and_names(&roster), [("5", "Ines"), ("6", "Joao")]);
    assert_eq!(roster.other_columns(), ["Seat", "Room"]);
    assert_eq!(roster.students()[0].other, ["12", "B;2"]);
    assert!(roster.students()[0].large_print && !roster.students()[1].large_print);
}

/// Source: RFC 4180, section 2, rules 5 to 7: quotation marks round a field, line breaks in it, marks doubled.
#[test]
fn quoted_fields_are_read_by_the_rfc() {
    let roster = read("id,name,note\r\n\"1\",\"b \r\nbb\",\"a,b\"\r\n2,\"b\"\"bb\",c");
    assert_eq!(ids_and_names(&roster), [("1", "b \r\nbb"), ("2", "b\"bb")]);
    assert_eq!(roster.students()[0].other, ["a,b"]);
    let roster = read("\"a,\nb,c,d\";id;name\nx;1;A\n");
    assert_eq!(roster.other_columns(), ["a,\nb,c,d"]);
}

/// Names that are something else to some program; here they are names.
const NAMES: [&str; 12] = [
    "=HYPERLINK(\"http://example.org\")",
    "'=1+1",
    "-1+2",
    "＝SUM(A1)",
    "O'Neill-D’Arcy",
    "\"Ann\" Lee",
    "نور الهدى",
    "#strong[Bo] $x$ \\ // @ref",
    "<b>Bo</b> &amp; <script>alert(1)</script>",
    "{{name}} ${name} %s",
    "Nguyễn Thị Ánh",
    "Ü\u{308}\u{200f}x",
];

#[test]
fn a_name_is_a_name_and_is_written_back_as_it_was() {
    let long = "Wolfeschlegel".repeat(500);
    let names: Vec<&str> = NAMES.into_iter().chain([long.as_str()]).collect();
    let mut text = "student id,name,=cmd\r\n".to_owned();
    for (place, name) in names.iter().enumerate() {
        // As our own writer would put it: the apostrophe before what begins like a formula.
        let guard = if name.trim_start_matches('\'').starts_with(['=', '-', '＝']) { "'" } else { "" };
        text.push_str(&format!("{place:04},\"{guard}{}\",\"'@{place}\"\r\n", name.replace('"', "\"\"")));
    }
    let roster = read(&text);
    assert_eq!(roster.students().iter().map(|student| student.name.as_str()).collect::<Vec<_>>(), names);
    assert_eq!(roster.students()[3].other, ["@3"]);
    for marks in [Marks::Point, Marks::Comma] {
        for for_spreadsheets in [false, true] {
            let written = roster.table().and_then(|table| table.csv(Habit { marks, for_spreadsheets }));
            assert_eq!(Roster::read(&written.expect("a table")).as_ref(), Ok(&roster));
        }
    }
}

#[test]
fn two_of_one_name_are_told_apart_by_their_ids() {
    assert_eq!(read("id,name\n1,Kim Lee\n2,Bo\n3,Kim Lee\n").called(), ["Kim Lee (1)", "Bo", "Kim Lee (3)"]);
}

#[test]
fn every_missing_and_every_doubled_id_is_told_at_its_place() {
    let faults =
        refused(b"name;Student ID;large print\nA;1;\nB;;\nC;2;maybe\nD;1;\n\n;3;\n  E; 1 ;\n;;\nF;;");
    let id = Some("Student ID");
    let wanted = [
        (Some(2), id),
        (Some(3), id),
        (Some(4), Some("large print")),
        (Some(5), id),
        (Some(7), Some("name")),
        (Some(8), id),
        (Some(10), id),
    ];
    assert_eq!(places(&faults), wanted);
    let told = faults[0].to_string();
    assert!(
        told.starts_with("row 2, column \"Student ID\": the id \"1\" also stands in row 5, 8\nto mend it: "),
        "{told}"
    );
    assert!(faults.iter().all(|fault| !fault.what.is_empty() && !fault.mend.is_empty()));
}

#[test]
fn two_rows_of_one_id_name_each_other() {
    let faults = refused(b"id,name\n07,A\n7,B\n07,C\n");
    assert_eq!(places(&faults), [(Some(2), Some("id")), (Some(4), Some("id"))]);
    assert!(faults[0].what.ends_with("row 4") && faults[1].what.ends_with("row 2"), "{faults:?}");
}

#[test]
fn what_is_no_class_list_is_refused_and_says_why() {
    for (bytes, row, words) in [
        (&b""[..], None, "no header"),
        (b"\xef\xbb\xbf\r\n\r\n", None, "no header"),
        (b";;\n1;2;3\n", None, "no header"),
        (b"student id,name\r\n", None, "no student"),
        (b"student id,name\r\n,\r\n", None, "no student"),
        (b"first,second\n1,2\n", Some(1), "no column is called \"student id\""),
        (b"id,name,id\n1,A,2\n", Some(1), "a second column for the student id"),
        (b"id,name\n1,A\n2\n", Some(3), "this row has 1 cells, the header has 2"),
        (b"id,name\n1,Lee, Bo\n", Some(2), "this row has 3 cells, the header has 2"),
        (b"id,name\n\n1,\"A\n2,B\n", Some(3), "never closed"),
        (b"id,name\n1,\"A\"x\n", Some(2), "closing quotation mark"),
        (b"\xef\xbb\xbfid,name\n1,A\n2,\xff\n", Some(3), "no UTF-8"),
        (b"\xff\xfei\0d\0,\0n\0a\0m\0e\0\n\x001\0,\0\x00\xd8\n\0", Some(2), "no UTF-16"),
        (b"i\0d\0,\0n\0a\0m\0e\0\n\x001\0,\0A\0\n\0", Some(1), "U+0000"),
        (b"PK\x03\x04\x14\0\0\0", Some(1), "a character that no text has"),
    ] {
        let faults = refused(bytes);
        let told = faults.iter().find(|fault| fault.what.contains(words));
        let told = told.unwrap_or_else(|| panic!("{words:?} is not told: {faults:#?}"));
        assert_eq!(told.row, row, "{told}");
    }
}

#[test]
fn large_print_is_asked_for_in_either_of_two_words() {
    let list = b"student id,name,large print\r\n1,A,yes\r\n2,B,Large\r\n3,C,no\r\n4,D,\r\n";
    let roster = Roster::read(list).expect("a list");
    let large: Vec<bool> = roster.students().iter().map(|student| student.large_print).collect();
    assert_eq!(large, [true, true, false, false]);
}

#[test]
fn what_is_too_large_is_refused_before_it_is_read() {
    let large = vec![b'a'; exchange::sheet::LARGEST_FILE + 1];
    assert!(refused(&large)[0].what.contains("bytes"));
    let rows = format!("id,name\n{}", "1,A\n".repeat(exchange::sheet::MOST_ROWS + 1));
    assert!(refused(rows.as_bytes())[0].what.contains("rows"));
    let broad = format!("id,name{}\n", ",".repeat(exchange::sheet::MOST_COLUMNS));
    assert!(refused(broad.as_bytes())[0].what.contains("columns"));
    let long = format!("id,name\n1,{}\n", "a".repeat(exchange::sheet::LONGEST_TEXT + 1));
    assert_eq!(places(&refused(long.as_bytes())), [(Some(2), Some("name"))]);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(1024))]

    /// Whatever the bytes, there is a list or there are faults, each with something to do about it.
    #[test]
    fn any_bytes_are_read_or_refused(
        start in prop::sample::select(vec![&b""[..], b"\xef\xbb\xbf", b"\xff\xfe", b"\xfe\xff", b"id,name\n", b"id;name;form\r\n1;A;\r\n"]),
        rest in prop::collection::vec(prop_oneof![any::<u8>(), prop::sample::select(b"\",;\t\r\n\0'=1A".to_vec())], 0..200),
    ) {
        match Roster::read(&[start, &rest].concat()) {
            Ok(roster) => prop_assert!(!roster.students().is_empty()),
            Err(faults) => {
                prop_assert!(!faults.is_empty());
                prop_assert!(faults.iter().all(|fault| !fault.what.is_empty() && !fault.mend.is_empty()));
            }
        }
    }

    /// Whatever the names, a list comes back from its file as it was.
    #[test]
    fn a_list_written_is_the_list_read(
        names in prop::collection::vec("[^\\p{Cc}]{0,20}", 1..8), groups in prop::collection::vec("\\PC{0,6}", 8),
        comma in any::<bool>(), for_spreadsheets in any::<bool>(),
    ) {
        let quoted = |text: &str| format!("\"{}\"", text.replace('"', "\"\""));
        let mut text = "id,name,group,room\n".to_owned();
        for (place, (name, group)) in names.iter().zip(&groups).enumerate() {
            text.push_str(&format!("{place},{},{},{}\n", quoted(&format!("x{name}x")), quoted(group), quoted(name)));
        }
        let roster = read(&text);
        let habit = Habit { marks: if comma { Marks::Comma } else { Marks::Point }, for_spreadsheets };
        let written = roster.table().and_then(|table| table.csv(habit)).expect("a table");
        let back = Roster::read(&written);
        prop_assert_eq!(back.as_ref(), Ok(&roster));
    }
}

#[test]
fn a_list_may_say_the_sheet() {
    let roster = read("student id,name,Paper size\n1,Ann,A4\n2,Bo,letter\n3,Cy,\n");
    let sheets: Vec<Option<Sheet>> = roster.students().iter().map(|student| student.sheet).collect();
    assert_eq!(sheets, [Some(Sheet::A4), Some(Sheet::Letter), None]);
    let faults = Roster::read(b"student id,name,sheet\n1,Ann,A5\n").expect_err("no such sheet");
    assert_eq!(
        faults[0].to_string(),
        "row 2, column \"sheet\": \"A5\" is no sheet that papers are printed on\nto mend it: write A4 or letter, or leave it empty"
    );
}
