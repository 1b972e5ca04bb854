//! A mistake in a lesson file: what is wrong, where, and how to mend it.

use annotate_snippets::{AnnotationKind, Level, Origin, Renderer, Snippet};
use serde::Serialize;
use std::collections::{HashMap, HashSet};
use std::ops::Range;
use std::sync::Arc;

/// The text of a lesson file with the name it is known by.
#[derive(Debug, PartialEq, Eq)]
pub(crate) struct Source {
    name: String,
    text: String,
    /// Where each line begins, in bytes.
    lines: Vec<usize>,
}

impl Source {
    pub(crate) fn new(name: &str, text: &str) -> Self {
        // A mark of the encoding before the first line is no part of it.
        let first = if text.starts_with('\u{feff}') { '\u{feff}'.len_utf8() } else { 0 };
        let after_breaks = text.bytes().enumerate().filter(|&(_, byte)| byte == b'\n').map(|(at, _)| at + 1);
        let lines = std::iter::once(first).chain(after_breaks).collect();
        Self { name: name.to_owned(), text: text.to_owned(), lines }
    }

    pub(crate) fn text(&self) -> &str {
        &self.text
    }

    pub(crate) fn name(&self) -> &str {
        &self.name
    }

    /// The first line that is not empty: where what is missing from the whole file is told.
    pub(crate) fn first_line(&self) -> Range<usize> {
        let start = self.text.len()
            - self.text.trim_start_matches(|c: char| c.is_whitespace() || c == '\u{feff}').len();
        let length = self.text[start..].find('\n').unwrap_or(self.text.len() - start);
        start..start + self.text[start..start + length].trim_end().len()
    }

    /// The index of the line that holds a byte.
    fn line(&self, byte: usize) -> usize {
        self.lines.partition_point(|&start| start <= byte).saturating_sub(1)
    }

    fn place(&self, byte: usize) -> Place {
        let line = self.line(byte);
        let start = self.lines.get(line).copied().unwrap_or(0);
        let column = self.text.get(start..byte).map_or(0, |before| before.chars().count());
        Place { line: line + 1, column: column + 1 }
    }

    /// The span held within the text and to the borders of characters, so that it may be cut out.
    fn held(&self, span: Range<usize>) -> Range<usize> {
        let start = self.text.floor_char_boundary(span.start.min(self.text.len()));
        let end = self.text.ceil_char_boundary(span.end.clamp(start, self.text.len()));
        start..end
    }
}

/// A place in the file, counted as editors count: lines and columns from 1, columns in characters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Place {
    /// Line, from 1.
    pub line: usize,
    /// Column, from 1, in characters.
    pub column: usize,
}

/// One mistake of a lesson file.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Finding {
    /// What is wrong, in the lecturer's own words and units; no full stop.
    pub headline: String,
    /// The offending bytes of the file.
    pub span: Range<usize>,
    /// Where it begins.
    pub start: Place,
    /// Where it ends.
    pub end: Place,
    /// What stands under the offending text, where there is more to say than the headline does.
    pub detail: Option<String>,
    /// What would be right.
    pub mend: Option<String>,
    /// Whether nothing is wrong, but something may not be what was meant.
    #[serde(skip)]
    is_remark: bool,
    #[serde(skip)]
    source: Arc<Source>,
    /// Whether it holds whatever the rest of the file says.
    #[serde(skip)]
    by_itself: bool,
    /// What is wrong where it shows in several places: of findings with the same cause the first is kept.
    #[serde(skip)]
    cause: Option<String>,
}

impl Finding {
    pub(crate) fn new(source: &Arc<Source>, span: Range<usize>, headline: String) -> Self {
        let span = source.held(span);
        let (start, end) = (source.place(span.start), source.place(span.end));
        Self {
            headline,
            span,
            start,
            end,
            detail: None,
            mend: None,
            is_remark: false,
            source: Arc::clone(source),
            by_itself: false,
            cause: None,
        }
    }

    /// The name of the file it was found in.
    pub fn file(&self) -> &str {
        &self.source.name
    }

    /// The offending text.
    pub fn text(&self) -> &str {
        self.source.text.get(self.span.clone()).unwrap_or("")
    }

    /// The finding as it is shown: headline, `file:line:column`, the offending text underlined, and how to mend it.
    /// With colour for a terminal, or as plain text.
    pub fn render(&self, color: bool) -> String {
        // Only the lines about the span are shown, so that a long file costs nothing; of a text over many lines its
        // beginning is enough to find it.
        let first = self.source.line(self.span.start);
        let last = self.source.line(self.span.end).min(first + LINES_SHOWN - 1);
        let from = self.source.lines.get(first).copied().unwrap_or(0);
        let to = self.source.lines.get(last + 1).map_or(self.source.text.len(), |&next| next - 1);
        // Where lines end with two characters the first of them is not shown either.
        let to = if self.source.text[..to].ends_with('\r') { to - 1 } else { to };
        let shown = self.source.held(
            from.max(self.span.start.saturating_sub(BYTES_SHOWN))..to.min(self.span.start + BYTES_SHOWN),
        );
        let excerpt = self.source.text.get(shown.clone()).unwrap_or("");
        let within = |byte: usize| byte.clamp(shown.start, shown.end) - shown.start;
        let span = within(self.span.start)..within(self.span.end);

        let annotation = AnnotationKind::Primary.span(span).label(self.detail.as_deref());
        let snippet = Snippet::source(excerpt).line_start(first + 1).annotation(annotation);
        let level = if self.is_remark { Level::WARNING.with_name("remark") } else { Level::ERROR };
        let title = level.primary_title(self.headline.as_str());
        let mut group = if shown.start == from {
            title.element(snippet.path(self.file()))
        } else {
            // The excerpt begins within the line, so its own columns are not those of the file.
            let place = Origin::path(self.file()).line(self.start.line).char_column(self.start.column);
            title.element(place).element(snippet)
        };
        if let Some(mend) = &self.mend {
            group = group.element(Level::HELP.with_name("to mend it").message(mend.as_str()));
        }
        let renderer = if color { Renderer::styled() } else { Renderer::plain() };
        renderer.render(&[group])
    }
}

/// Lines of the file that one finding shows at most.
const LINES_SHOWN: usize = 6;

/// Bytes of the file that one finding shows at most, on either side of its beginning: no lecturer writes such lines,
/// but a file that is no lesson may have them.
const BYTES_SHOWN: usize = 2000;

/// The findings of one file as they come up.
#[derive(Debug)]
pub(crate) struct Report {
    source: Arc<Source>,
    findings: Vec<Finding>,
    remarks: Vec<Finding>,
}

impl Report {
    pub(crate) fn new(source: Arc<Source>) -> Self {
        Self { source, findings: Vec::new(), remarks: Vec::new() }
    }

    /// The text of the file.
    pub(crate) fn text(&self) -> &str {
        self.source.text()
    }

    /// Adds a finding; its detail and its mend may be added to what comes back.
    pub(crate) fn add(&mut self, span: Range<usize>, headline: impl Into<String>) -> &mut Finding {
        self.findings.push(Finding::new(&self.source, span, headline.into()));
        let last = self.findings.len() - 1;
        &mut self.findings[last]
    }

    /// Adds a remark: nothing is wrong, but it may not be what was meant.
    pub(crate) fn remark(&mut self, span: Range<usize>, headline: impl Into<String>) -> &mut Finding {
        let remark = Finding { is_remark: true, ..Finding::new(&self.source, span, headline.into()) };
        self.remarks.push(remark);
        let last = self.remarks.len() - 1;
        &mut self.remarks[last]
    }

    /// The remarks so far, in the order of the file.
    pub(crate) fn take_remarks(&mut self) -> Vec<Finding> {
        let mut remarks = std::mem::take(&mut self.remarks);
        remarks.sort_by_key(|remark| remark.span.start);
        remarks
    }

    pub(crate) fn is_empty(&self) -> bool {
        self.findings.is_empty()
    }

    /// Takes over all findings of a second report on the same file.
    pub(crate) fn join(&mut self, second: Report) {
        self.findings.extend(second.findings);
    }

    /// Takes over the findings of a second report on the same file that hold by themselves and stand on lines of
    /// which nothing was said before.
    pub(crate) fn take_over(&mut self, second: Report) {
        let lines: HashSet<usize> = self.findings.iter().map(|finding| finding.start.line).collect();
        let sound = |finding: &Finding| finding.by_itself && !lines.contains(&finding.start.line);
        self.findings.extend(second.findings.into_iter().filter(sound));
    }

    /// The findings in the order of the file; of two with the same words at the same place, or with the same cause, the
    /// first is kept.
    pub(crate) fn into_findings(mut self) -> Vec<Finding> {
        self.findings.sort_by_key(|finding| (finding.span.start, finding.span.end));
        self.findings
            .dedup_by(|later, earlier| later.span == earlier.span && later.headline == earlier.headline);
        let mut shows: HashMap<String, usize> = HashMap::new();
        for cause in self.findings.iter().filter_map(|finding| finding.cause.clone()) {
            *shows.entry(cause).or_default() += 1;
        }
        // The first of a cause takes its count away; the others find none left.
        self.findings.retain_mut(|finding| {
            let Some(times) = finding.cause.as_ref().and_then(|cause| shows.get_mut(cause)) else {
                return true;
            };
            let (first, others) = (*times > 0, times.saturating_sub(1));
            *times = 0;
            if others > 0 {
                let places = if others == 1 { "place" } else { "places" };
                finding.detail = Some(format!("the same in {others} other {places}"));
            }
            first
        });
        self.findings
    }
}

impl Finding {
    /// Says more under the offending text.
    pub(crate) fn detail(&mut self, detail: impl Into<String>) -> &mut Self {
        self.detail = Some(detail.into());
        self
    }

    /// Says that it holds whatever the rest of the file says.
    pub(crate) fn by_itself(&mut self) -> &mut Self {
        self.by_itself = true;
        self
    }

    /// Says what is wrong where the same slip shows in several places.
    pub(crate) fn because(&mut self, cause: String) -> &mut Self {
        self.cause = Some(cause);
        self
    }

    /// Says what would be right.
    pub(crate) fn mend(&mut self, mend: impl Into<String>) -> &mut Self {
        self.mend = Some(mend.into());
        self
    }
}
