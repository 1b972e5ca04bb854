//! What lies in the folder, for whoever opens it.

use super::counted;
use assessment::issue::Issue;
use exchange::qti::left_out;

/// The text of the file.
pub fn text(issue: &Issue, papers: usize) -> String {
    format!(
        "{title}: {papers}

TO HAND OUT
  papers/         each paper as a page for a browser{pdf}; nothing of the key
{to_print}
TO KEEP TO YOURSELF
  keys/           the key of each paper with the worked solution, and all of them as a table: key.csv for a spreadsheet,
                  key.json for another program. A file called ...-with-key.zip, made where --qti asks for it, holds the
                  questions of a paper for a learning platform, and the key with them.{left_out}
  lessons/        each paper as a lesson of its own, for: glueline values, notes, board. Whoever has it has the answers.
  fairness.txt    the papers side by side, and what was thrown out; fairness.json for another program
  ledger.json     who got which paper. Keep it: with it a student who comes later changes no paper of the others.

The same command once more makes what is missing and leaves all else as it is. [marking] and [[mistake]] of the lesson may change when
papers are given out: the same command then makes the keys and what marking goes by anew, and no paper.
{practice}",
        practice = practice(issue),
        left_out = left_out(issue.papers().lesson())
            .map_or_else(String::new, |words| format!("\n                  {words}")),
        title = issue.papers().lesson().about.title,
        papers = counted(papers, "paper"),
        pdf = if cfg!(feature = "pdf") { " and as a PDF" } else { "" },
        to_print = if cfg!(feature = "pdf") {
            "  to-print/       the same PDFs, fifty in a file, for the printer: each paper on sheets of its own\n"
        } else {
            ""
        },
    )
}

/// What the page to practise on may give away.
fn practice(issue: &Issue) -> String {
    let size = issue.space().size();
    if size.count < 2 {
        return String::new();
    }
    let combinations = size.in_words();
    format!(
        "\nWho practises on the page of this lesson has numbers from the same combinations, {combinations} of them, drawn by another secret: the fewer there are, \
         the sooner somebody meets there the numbers of an exam, with their solution. Let more vary before an exam, or give students \
         the page of another lesson.\n"
    )
}
