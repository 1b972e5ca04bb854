//! The papers side by side: what a lecturer shows to whoever doubts that they are equally hard.

use super::counted;
use super::forms::Letters;
use super::given::Given;
use crate::failure::Failure;
use assessment::fair::{ClassTable, Extent, Hides, Paper, VariantRow};
use assessment::issue::{Issue, Never, ThrownOut, Why};
use serde::Serialize;
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;
use unicode_width::UnicodeWidthStr as _;
use workings::quantity::Quantity;
use workings::role::Role;
use workings::solved::Solved;

/// So many of what stands in the way of further papers are told,
const MOST_IN_THE_WAY: usize = 3;

/// and so many pairs of mistakes of one value.
const MOST_PAIRS: usize = 4;

/// The condition number of a value in one variant over that in another, from which on it is told. Source: the unit's notes on assessment,
/// section 4, for papers of one form.
const FACTOR_OF_VARIANTS: f64 = 2.0;

/// All that is said of the papers of a class.
#[derive(Debug, Serialize)]
pub struct Report {
    lesson: String,
    space: Space,
    #[serde(flatten)]
    table: ClassTable,
    /// The papers whose numbers another paper has too, since no others were left.
    same_numbers: Vec<String>,
    /// The papers that were given although something stands against them: the lesson has changed since.
    in_doubt: Vec<Doubt>,
    /// How many students have each form, where the class gets forms.
    forms: BTreeMap<char, usize>,
    /// The variants of the lesson that no paper can have.
    never: Vec<Never>,
    /// What stands in the way of further papers, the most frequent first; told where papers have the same numbers.
    in_the_way: Vec<Why>,
    thrown_out: ThrownOut,
}

#[derive(Debug, Serialize)]
struct Space {
    combinations: String,
    /// Of so many that were looked at first,
    looked_at: usize,
    /// so many may be given out.
    fit: usize,
}

#[derive(Debug, Serialize)]
struct Doubt {
    paper: String,
    why: Vec<String>,
}

impl Report {
    /// Of the papers that were given.
    pub fn of(issue: &Issue, given: &[Given], letters: &Option<Letters>, thrown_out: ThrownOut) -> Self {
        let form = |given: &Given| letters.as_ref().and_then(|letters| letters.get(&given.student)).copied();
        let mut forms: BTreeMap<char, usize> = BTreeMap::new();
        for letter in given.iter().filter_map(form) {
            *forms.entry(letter).or_default() += 1;
        }
        // A form is one paper, whoever has it.
        let mut seen: BTreeSet<char> = BTreeSet::new();
        let given: Vec<&Given> =
            given.iter().filter(|given| form(given).is_none_or(|letter| seen.insert(letter))).collect();
        let papers: Vec<Paper> = given.iter().map(|given| given.paper.clone()).collect();
        let label = |given: &&Given| given.paper.label.clone();
        let doubt = |given: &&Given| {
            let why: Vec<String> =
                issue.look(&given.entry.draw).against.iter().map(ToString::to_string).collect();
            (!why.is_empty()).then(|| Doubt { paper: label(given), why })
        };
        Self {
            lesson: issue.papers().lesson().about.title.clone(),
            space: Space::of(issue),
            table: ClassTable::of(&papers),
            same_numbers: given
                .iter()
                .filter(|given| given.entry.shared && form(given).is_none())
                .map(label)
                .collect(),
            forms,
            in_doubt: given.iter().filter_map(doubt).collect(),
            never: issue.never_drawn(),
            in_the_way: issue.refused_of_sample().why,
            thrown_out,
        }
    }

    /// What a lecturer must know before anything else: that two students have one paper.
    fn warning(&self) -> Option<String> {
        let same = self.same_numbers.len();
        let papers = match same {
            0 => return None,
            1 => "1 paper has".to_owned(),
            _ => format!("{same} papers have"),
        };
        let Space { combinations, looked_at, fit } = &self.space;
        let mut text = format!(
            "warning: {papers} all the same numbers as another. Of {combinations} combinations {looked_at} were looked at, and {fit} may be \
             given out"
        );
        let why: Vec<String> = self
            .in_the_way
            .iter()
            .take(MOST_IN_THE_WAY)
            .map(|why| format!("\n  against {}: {}", counted(why.draws, "draw"), why.reason))
            .collect();
        if !why.is_empty() {
            let _ = write!(text, "; in the way of the others:{}", why.concat());
        }
        text.push_str(
            "\n  to mend it: let more vary, or in smaller steps; glueline tune says what to widen\n",
        );
        Some(text)
    }

    /// For another program.
    ///
    /// # Errors
    /// [`Failure::Ours`] where it cannot be written.
    pub fn json(&self) -> Result<String, Failure> {
        let text = serde_json::to_string_pretty(self).map_err(|error| Failure::Ours(error.to_string()))?;
        Ok(text + "\n")
    }

    /// To read.
    pub fn text(&self, issue: &Issue) -> String {
        let warning = self.warning().unwrap_or_default();
        let mut text = format!("{warning}{}\n{}\n", self.lesson, self.space.text());
        let _ = writeln!(text, "{}", self.thrown_out_in_words());
        if let Some(solved) = &solved(issue) {
            for row in &self.table.rows {
                let lines = [
                    ("right value", shown(&row.right, &row.working, solved)),
                    ("may be off by", shown(&row.half_width, &row.working, solved)),
                    ("rounding on the way, of the tolerance", numbers(&row.carried, 2)),
                    ("condition number", numbers(&row.condition, 1)),
                    ("mistakes that give the right value", numbers(&row.hidden, 0)),
                    ("pairs of mistakes that give one value", numbers(&row.alike, 0)),
                    ("mistakes that a slip would make right again", numbers(&row.slipped_back, 0)),
                    ("slips that give the value of a mistake", numbers(&row.slip_or_mistake, 0)),
                ];
                text.push_str(&block(&row.working, &lines));
            }
        }
        text.push('\n');
        for line in self.remarks() {
            let _ = writeln!(text, "{line}");
        }
        text
    }

    fn thrown_out_in_words(&self) -> String {
        let ThrownOut { draws, passed_over, refused, why } = &self.thrown_out;
        let mut text = format!("{} for {}", counted(*draws, "draw"), counted(self.table.papers, "paper"));
        let _ = write!(text, "; {refused} thrown out");
        if *passed_over > 0 {
            let _ = write!(
                text,
                ", {passed_over} passed over for one whose numbers or answers no other paper has, or whose mistakes are better apart"
            );
        }
        for why in why {
            let _ = write!(text, "\n  {:>4} thrown out: {}", why.draws, why.reason);
        }
        text
    }

    /// What is to be known beside the measures.
    fn remarks(&self) -> Vec<String> {
        let mut lines = Vec::new();
        let variants = self.table.variants.len();
        match self.table.other_ways.len() {
            0 if variants > 1 => lines.push("all papers of a variant take one way to the answers".to_owned()),
            0 => lines.push("all papers take one way to the answers".to_owned()),
            others => lines.push(format!("{} another way to the answers", taking(others))),
        }
        lines.extend(
            self.forms.iter().map(|(letter, count)| format!("form {letter}: {}", counted(*count, "student"))),
        );
        lines.extend(self.variants());
        lines.extend(self.pairs_alike());
        for (working, groups) in self.shared_by_working() {
            let largest = groups.iter().copied().max().unwrap_or(0);
            lines.push(format!(
                "{working}: {} of papers on which one right answer is right on another, the largest of {}",
                counted(groups.len(), "group"),
                counted(largest, "paper")
            ));
        }
        for (working, mistakes) in self.hidden_by_working() {
            lines.push(format!(
                "{working}: right on every paper in spite of a mistake: {}",
                mistakes.join(", ")
            ));
        }
        match self.same_numbers.len() {
            0 => lines.push("no two papers have all the same numbers".to_owned()),
            same => lines.push(format!(
                "{} all the same numbers as another",
                if same == 1 { "1 paper has".to_owned() } else { format!("{same} papers have") }
            )),
        }
        for doubt in &self.in_doubt {
            lines.push(format!(
                "paper {} was given out before the lesson changed: {}",
                doubt.paper,
                doubt.why.join("; ")
            ));
        }
        lines
    }

    /// How the papers are parted among the variants of the lesson, how hard each is beside the others, and which never come.
    fn variants(&self) -> Vec<String> {
        let variants = &self.table.variants;
        let mut lines: Vec<String> =
            variants.iter().map(|of| format!("{}: {}", of.variant, counted(of.papers, "paper"))).collect();
        // Harder by so much as one value answers more strongly to its inputs.
        let apart = self.table.rows.iter().enumerate().filter_map(|(at, row)| {
            let conditions = || variants.iter().filter_map(|of| of.conditions.get(at).copied().zip(Some(of)));
            let by_condition = |one: &(f64, &VariantRow), other: &(f64, &VariantRow)| one.0.total_cmp(&other.0);
            let (least, most) = (conditions().min_by(by_condition)?, conditions().max_by(by_condition)?);
            (most.0 > FACTOR_OF_VARIANTS * least.0).then(|| {
                format!(
                    "{}: harder in one variant than in another by its condition number, {:.1} ({}) against {:.1} ({})",
                    row.working, most.0, most.1.variant, least.0, least.1.variant
                )
            })
        });
        lines.extend(apart);
        for never in &self.never {
            let why = match never.why.first() {
                Some(why) => {
                    format!("against {} stands {}", share(why.draws, never.draws), why.reason)
                }
                None => "the lesson restricts its papers to combinations without it".to_owned(),
            };
            lines.push(format!("{} is on no paper: {why}", never.variant));
        }
        lines
    }

    /// Which mistakes cannot be told apart on which papers, though other numbers would tell them apart.
    fn pairs_alike(&self) -> Vec<String> {
        let mut lines = Vec::new();
        for row in &self.table.rows {
            let pairs = self.table.alike.iter().filter(|of| of.pair.working == row.working);
            let mut told: Vec<String> = pairs
                .map(|of| {
                    let [one, other] = &of.pair.mistakes;
                    format!("{one} and {other} ({})", counted(of.papers, "paper"))
                })
                .collect();
            let more = told.len().saturating_sub(MOST_PAIRS);
            told.truncate(MOST_PAIRS);
            if more > 0 {
                told.push(format!("and {}", counted(more, "pair")));
            }
            if !told.is_empty() {
                lines.push(format!(
                    "{}: mistakes that give one value on some papers: {}",
                    row.working,
                    told.join(", ")
                ));
            }
        }
        lines
    }

    /// The mistakes that no paper shows, by asked value.
    fn hidden_by_working(&self) -> Vec<(&str, Vec<&str>)> {
        let mut all: Vec<(&str, Vec<&str>)> = Vec::new();
        for Hides { working, mistake, .. } in &self.table.hidden_on_all {
            match all.last_mut().filter(|(last, _)| last == working) {
                // Made at several workings it is still one mistake.
                Some((_, mistakes)) if mistakes.last() == Some(&mistake.as_str()) => {}
                Some((_, mistakes)) => mistakes.push(mistake),
                None => all.push((working, vec![mistake])),
            }
        }
        all
    }

    /// The sizes of the groups that share an answer, by asked value in the order of the questions.
    fn shared_by_working(&self) -> Vec<(&str, Vec<usize>)> {
        let mut all: Vec<(&str, Vec<usize>)> = Vec::new();
        for shared in &self.table.shared {
            match all.last_mut().filter(|(working, _)| *working == shared.working) {
                Some((_, groups)) => groups.push(shared.papers.len()),
                None => all.push((&shared.working, vec![shared.papers.len()])),
            }
        }
        all
    }
}

impl Space {
    fn of(issue: &Issue) -> Self {
        let (size, looked) = (issue.space().size(), issue.refused_of_sample());
        let count = grouped(size.count);
        Self {
            combinations: if size.exact { count } else { format!("more than {count}") },
            looked_at: looked.draws,
            fit: looked.draws - looked.refused,
        }
    }

    fn text(&self) -> String {
        let Self { combinations, looked_at, fit } = self;
        let only = if combinations == "1" {
            "nothing varies: there is 1 combination".to_owned()
        } else {
            format!("{combinations} combinations of what varies")
        };
        format!("{only}; of {looked_at} looked at first, {fit} may be given out")
    }
}

/// `all 40 draws`, `30 of 40 draws`.
fn share(some: usize, all: usize) -> String {
    if some == all {
        format!("all {}", counted(all, "draw"))
    } else {
        format!("{some} of {}", counted(all, "draw"))
    }
}

fn taking(papers: usize) -> String {
    if papers == 1 { "1 paper takes".to_owned() } else { format!("{papers} papers take") }
}

/// Figures in groups of three.
fn grouped(number: u128) -> String {
    let digits = number.to_string();
    let mut text = String::new();
    for (place, digit) in digits.chars().enumerate() {
        if place > 0 && (digits.len() - place).is_multiple_of(3) {
            text.push(' ');
        }
        text.push(digit);
    }
    text
}

/// The lesson as its file shows it: for the roles and units of its workings.
fn solved(issue: &Issue) -> Option<Solved> {
    let lesson = issue.papers().lesson();
    Solved::new(lesson.problem.clone(), lesson.style.clone()).ok()
}

fn shown(extent: &Extent, working: &str, solved: &Solved) -> [String; 3] {
    let working = solved.workings().get(working);
    let largest = extent.min.abs().max(extent.max.abs());
    [extent.min, extent.median, extent.max].map(|value| match working {
        Some(working) => {
            let (role, dimension): (Role, _) = (working.symbol.role, working.value.dimension);
            solved.style().show_beside(Quantity::new(value, dimension), role, largest).text()
        }
        None => value.to_string(),
    })
}

fn numbers(extent: &Extent, decimals: usize) -> [String; 3] {
    [extent.min, extent.median, extent.max].map(|value| format!("{value:.decimals$}"))
}

/// The measures of one asked value.
fn block(title: &str, lines: &[(&str, [String; 3])]) -> String {
    let first = lines.iter().map(|(name, _)| name.width() + 2).chain([title.width()]).max().unwrap_or(0);
    let heads = ["min", "median", "max"];
    let widths: Vec<usize> = (0..3)
        .map(|column| {
            lines
                .iter()
                .map(|(_, cells)| cells[column].width())
                .chain([heads[column].len()])
                .max()
                .unwrap_or(0)
        })
        .collect();
    let line = |name: &str, cells: [&str; 3]| {
        let mut text = format!("{name}{}", " ".repeat(first.saturating_sub(name.width())));
        for (cell, width) in cells.iter().zip(&widths) {
            let _ = write!(text, "  {}{cell}", " ".repeat(width.saturating_sub(cell.width())));
        }
        text + "\n"
    };
    let mut text = format!("\n{}", line(title, heads));
    for (name, [min, median, max]) in lines {
        text.push_str(&line(&format!("  {name}"), [min, median, max]));
    }
    text
}
