//! Bytes into text: UTF-8 with or without its mark, UTF-16 with its mark, Windows-1252 as a last resort.

use crate::fault::Fault;
use encoding_rs::{Encoding, UTF_8, WINDOWS_1252};

/// Text, and what has to be said about how it was read.
pub(crate) struct Decoded {
    pub text: String,
    pub warning: Option<Fault>,
}

const SAVE_AS: &str = "save the file again as CSV in UTF-8";

pub(crate) fn decode(bytes: &[u8]) -> Result<Decoded, Fault> {
    if let Some((encoding, mark)) = Encoding::for_bom(bytes) {
        let marked = bytes.get(mark..).unwrap_or_default();
        return match encoding.decode_without_bom_handling_and_without_replacement(marked) {
            Some(text) => Ok(Decoded { text: text.into_owned(), warning: None }),
            None => Err(broken(encoding, marked)),
        };
    }
    match std::str::from_utf8(bytes) {
        Ok(text) => Ok(Decoded { text: text.to_owned(), warning: None }),
        Err(error) => {
            // Every byte is something in this encoding; those that are nothing in the published table become control
            // characters, and these are refused where their row and column are known.
            let (text, _) = WINDOWS_1252.decode_without_bom_handling(bytes);
            let row = row_of(&String::from_utf8_lossy(bytes.get(..error.valid_up_to()).unwrap_or_default()));
            let what = "the file is not UTF-8 and was read as Windows-1252; accents may be wrong";
            let mend = format!("look at the names from this row on; if they are wrong, {SAVE_AS}");
            Ok(Decoded { text: text.into_owned(), warning: Some(Fault::of_row(row, what, mend)) })
        }
    }
}

fn broken(encoding: &'static Encoding, bytes: &[u8]) -> Fault {
    let (text, _) = encoding.decode_without_bom_handling(bytes);
    let before = text.split(char::REPLACEMENT_CHARACTER).next().unwrap_or_default();
    let name = if encoding == UTF_8 { "UTF-8" } else { "UTF-16" };
    let what = format!("the file begins as {name}, but here are bytes that are no {name}");
    Fault::of_row(row_of(before), what, SAVE_AS)
}

/// The row in which a text ends.
fn row_of(before: &str) -> usize {
    1 + before.replace("\r\n", "\n").matches(['\n', '\r']).count()
}
