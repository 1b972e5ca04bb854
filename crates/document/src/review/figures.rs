//! How the figures are reckoned, how they are read, and where they come from.

use super::heading;
use crate::notes::line;
use crate::tree::{Alignment, Block, Table};

/// Figure, how it is reckoned, how it is read, source. Those that are cited from memory say so.
const EXPLAINED: [[&str; 4]; 8] = [
    [
        "Difficulty p",
        "the mean mark of the answer, over what a right answer earns",
        "0.2 to 0.8 is usual; below 0.2 or above 0.9 look again",
        "common in classical test theory; Crocker and Algina 1986 (from memory)",
    ],
    [
        "95 % interval",
        "Wilson's interval for a share of so many students",
        "where another class of the same sort may lie",
        "Wilson, J. Am. Stat. Assoc. 22 (1927) 209 (from memory)",
    ],
    [
        "Discrimination D",
        "p among the 27 % with the highest totals, less p among the 27 % with the lowest; students with one total are kept together",
        "0.40 and more very good, 0.30 good, 0.20 marginal, below poor, below 0 check the key",
        "Kelley 1939; Ebel and Frisbie 1991 (from memory)",
    ],
    [
        "Correlation with the rest",
        "Pearson's correlation of the marks of the answer with the total of all other answers",
        "the one to go by: the answer is not part of what it is held against; below 0 look at the key, where the whole interval is",
        "Crocker and Algina 1986; the interval: Fisher, Metron 1 (1921) 3 (from memory)",
    ],
    [
        "Point-biserial",
        "(mean total of those right, less mean total of those wrong) over the standard deviation of the totals, times the root of \
         p (1 \u{2212} p)",
        "as the correlation with the total; only where every mark is all or nothing",
        "Crocker and Algina 1986 (from memory)",
    ],
    [
        "Alpha",
        "k/(k \u{2212} 1) times (1 less the sum of the answers' variances over the variance of the totals), k answers, variances over N",
        "0.7 and more is usual for a test of a class; below 0 the answers contradict each other",
        "Cronbach, Psychometrika 16 (1951) 297 (from memory)",
    ],
    [
        "Formula 20",
        "the same where every answer earns nothing or one mark",
        "as alpha",
        "Kuder and Richardson, Psychometrika 2 (1937) 151 (from memory)",
    ],
    [
        "Error of measurement",
        "the standard deviation of the totals times the root of (1 less alpha)",
        "in marks; totals that are nearer to each other are not told apart",
        "Crocker and Algina 1986 (from memory)",
    ],
];

pub(super) fn explained() -> Vec<Block> {
    let table = Table {
        caption: line!["The figures of this review."],
        number: None,
        alignment: vec![Alignment::Left; 4],
        header: ["Figure", "How it is reckoned", "How it is read", "Source"].map(|word| line![word]).into(),
        rows: EXPLAINED.iter().map(|row| row.iter().map(|cell| line![*cell]).collect()).collect(),
        row_heads: true,
        total: false,
    };
    vec![
        heading("How the figures are reckoned"),
        Block::Table(table),
        Block::Paragraph(line![
            "Figures that need the total are reckoned from the students whose answers are all marked. Who handed in nothing is in no \
             figure. A question is not re-marked because of its figures alone: they say where to look."
        ]),
    ]
}
