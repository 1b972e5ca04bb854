//! A rolled profile of the catalogue, by its name.

use super::node::Table;
use super::section_shape::{Shaped, unknown_profile};
use crate::finding::Report;

/// The profile that a table asks for; one that is not in the catalogue is reported.
pub(super) fn read(table: &Table, report: &mut Report) -> Option<Shaped> {
    let name = table.text("profile")?;
    let (headline, mend) = unknown_profile(name.value, None);
    report.add(name.span, headline).mend(mend);
    None
}
