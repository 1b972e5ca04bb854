//! A symbol as it is written: letters with their marks and subscripts.

/// A mark at the upper right of a letter.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Mark {
    /// None.
    #[default]
    None,
    /// A prime: `A′`.
    Prime,
    /// A star: `A*`.
    Star,
}

/// One letter of a symbol.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Letter {
    /// Whether an upright Δ stands before it: `Δx`.
    pub difference: bool,
    /// The letter itself, Latin or Greek: `V`, `τ`.
    pub base: String,
    /// Italic, as quantities are; a constant is upright.
    pub italic: bool,
    /// A bar above it: `ȳ`.
    pub bar: bool,
    /// A prime or star.
    pub mark: Mark,
    /// What stands below at the right, left to right, to be written with commas between.
    pub below: Vec<Below>,
}

/// A piece of a subscript.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Below {
    /// The text, never empty.
    pub text: String,
    /// Italic, as axes are (`I_y`); names and numbers are upright (`R_A`).
    pub italic: bool,
}

/// A symbol as it is written, and what it is called.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SymbolText {
    /// One letter, or several that together are one symbol, such as `A ȳ` for a first moment; never empty.
    pub letters: Vec<Letter>,
    /// What it is called, with its index: `shear force`, `reaction at A`, `area of 1`.
    pub words: String,
    /// How the written symbol is spoken: `V`, `tau`, `I sub y`, `A prime`.
    pub spoken: String,
}

/// Where a run of text stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RunLevel {
    /// On the line.
    Line,
    /// Below, as a subscript.
    Below,
}

/// A stretch of one face on one level, for drawings that set text themselves.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Run {
    /// The text: a bar is a combining macron or a precomposed letter, a prime is U+2032.
    pub text: String,
    /// Italic or upright.
    pub italic: bool,
    /// On the line or below.
    pub level: RunLevel,
}

impl Below {
    /// A piece of a subscript: italic where it names axes or counts (`A_i`), upright elsewhere.
    pub(super) fn of(text: &str) -> Self {
        let italic = matches!(text, "i" | "j" | "k") || text.chars().all(|c| matches!(c, 'x' | 'y' | 'z'));
        Self { text: lowered(text), italic }
    }
}

/// A name with a number as it stands in a subscript: of `P_1` the 1 lies lower still.
fn lowered(text: &str) -> String {
    let (mut out, mut low) = (String::with_capacity(text.len()), false);
    let mut rest = text.chars().peekable();
    while let Some(c) = rest.next() {
        low = match c {
            '_' => rest.peek().is_some_and(char::is_ascii_digit),
            _ => low && c.is_ascii_digit(),
        };
        match c.to_digit(10) {
            Some(digit) if low => out.extend(char::from_u32(u32::from('\u{2080}') + digit)),
            _ if low => {}
            _ => out.push(c),
        }
    }
    out
}

/// The digit that a lowered one is of: 1 of `₁`.
pub(crate) fn lowered_digit(c: char) -> Option<char> {
    matches!(c, '\u{2080}'..='\u{2089}')
        .then(|| char::from_digit(u32::from(c) - u32::from('\u{2080}'), 10))
        .flatten()
}

impl Letter {
    /// The letter with its bar, composed where Unicode has it so: fonts set `ȳ` better than `y` and a mark.
    fn barred(&self) -> String {
        match (self.bar, self.base.as_str()) {
            (false, base) => base.to_owned(),
            (true, "y") => "ȳ".to_owned(),
            (true, base) => format!("{base}\u{304}"),
        }
    }

    fn mark_text(&self) -> &'static str {
        match self.mark {
            Mark::None => "",
            Mark::Prime => "′",
            Mark::Star => "*",
        }
    }

    /// The whole subscript in one line; empty for none.
    pub(crate) fn below_text(&self) -> String {
        let pieces: Vec<&str> = self.below.iter().map(|below| below.text.as_str()).collect();
        pieces.join(",")
    }

    fn plain(&self) -> String {
        let difference = if self.difference { "Δ" } else { "" };
        let below = self.below_text();
        let line = if below.is_empty() { "" } else { "_" };
        format!("{difference}{}{}{line}{below}", self.barred(), self.mark_text())
    }

    fn runs(&self) -> Vec<Run> {
        let mut runs = Vec::new();
        let mut add = |text: &str, italic, level| {
            if !text.is_empty() {
                runs.push(Run { text: text.to_owned(), italic, level });
            }
        };
        add(if self.difference { "Δ" } else { "" }, false, RunLevel::Line);
        add(&self.barred(), self.italic, RunLevel::Line);
        // An italic prime leans into the letter and looks like an accent.
        add(self.mark_text(), false, RunLevel::Line);
        for (place, below) in self.below.iter().enumerate() {
            add(if place > 0 { "," } else { "" }, false, RunLevel::Below);
            add(&below.text, below.italic, RunLevel::Below);
        }
        runs
    }
}

impl SymbolText {
    /// As plain text in one line: `V`, `R_A`, `ȳ′`, `I_y`.
    pub fn plain(&self) -> String {
        let letters: Vec<String> = self.letters.iter().map(Letter::plain).collect();
        letters.join(" ")
    }

    /// As runs of one face and level each.
    pub fn runs(&self) -> Vec<Run> {
        let mut runs = Vec::new();
        for (place, letter) in self.letters.iter().enumerate() {
            if place > 0 {
                runs.push(Run { text: "\u{202f}".to_owned(), italic: false, level: RunLevel::Line });
            }
            runs.extend(letter.runs());
        }
        runs
    }
}

/// Reads a symbol's text: letters with spaces between, each perhaps with Δ before it, a bar (a composed letter or a
/// combining macron), a prime or star, and a subscript after `_`. `None` where it is not that.
pub(super) fn read(text: &str) -> Option<Vec<Letter>> {
    let letters: Option<Vec<Letter>> = text.split_whitespace().map(read_letter).collect();
    letters.filter(|letters| (1..=3).contains(&letters.len()))
}

/// Reads a lecturer's name for a load that is a symbol: a letter, perhaps with a subscript (`P`, `P1`, `w_0`). `None` for a word.
pub(super) fn read_name(name: &str) -> Option<Vec<Letter>> {
    let mut rest = name.chars();
    let first = rest.next()?;
    let rest = rest.as_str();
    let below = rest.strip_prefix('_').unwrap_or(rest);
    if rest.chars().any(|c| !c.is_ascii_digit()) && !rest.starts_with('_') {
        return None;
    }
    let below = if below.is_empty() { Vec::new() } else { vec![Below::of(below)] };
    let base = first.to_string();
    Some(vec![Letter { difference: false, base, italic: true, bar: false, mark: Mark::None, below }])
}

fn read_letter(text: &str) -> Option<Letter> {
    let (head, below) = match text.split_once('_') {
        Some((head, below)) => (head, Some(below.trim_start_matches('{').trim_end_matches('}'))),
        None => (text, None),
    };
    let (difference, head) = match head.strip_prefix(['Δ', '\u{2206}']) {
        Some(rest) if !rest.is_empty() => (true, rest),
        _ => (false, head),
    };
    let mut characters = head.chars();
    let first = characters.next().filter(|c| c.is_alphabetic())?;
    let mut letter = Letter {
        difference,
        base: first.to_string(),
        italic: true,
        bar: false,
        mark: Mark::None,
        below: Vec::new(),
    };
    // Composed letters with a macron, of which mechanics uses y most.
    if let Some((_, plain)) =
        [('ȳ', "y"), ('Ȳ', "Y"), ('ā', "a"), ('ē', "e")].iter().find(|(c, _)| *c == first)
    {
        letter.base = (*plain).to_owned();
        letter.bar = true;
    }
    for character in characters {
        match character {
            '\u{304}' | '\u{305}' if !letter.bar && letter.mark == Mark::None => letter.bar = true,
            '\'' | '′' if letter.mark == Mark::None => letter.mark = Mark::Prime,
            '*' if letter.mark == Mark::None => letter.mark = Mark::Star,
            _ => return None,
        }
    }
    if let Some(below) = below {
        if below.is_empty() || !below.chars().all(|c| c.is_alphanumeric()) {
            return None;
        }
        letter.below.push(Below::of(below));
    }
    Some(letter)
}
