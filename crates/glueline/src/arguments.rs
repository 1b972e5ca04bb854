//! The command line.

use clap::{Args, Parser, Subcommand, ValueEnum};
use std::net::{IpAddr, Ipv4Addr};
use std::path::PathBuf;

/// From one plain-text lesson file to values, drawings, lecture notes and slides of the beam-stress unit.
#[derive(Debug, Parser)]
#[command(
    version,
    arg_required_else_help = true,
    after_help = "Exit codes: 0 done; 1 the lesson or the class list has mistakes; 2 the command line has; 3 a file could not be read or \
                  written; 70 a mistake of Glueline's own.\n\nBegin with: glueline start my-beam\nor look at finished lessons: \
                  glueline demo --open"
)]
pub struct Arguments {
    #[command(subcommand)]
    pub job: Job,
}

/// What is to be done.
#[derive(Debug, Subcommand)]
pub enum Job {
    /// Make a lesson file to edit, with remarks that explain it
    Start(Start),
    /// Read lessons and tell every mistake, with its place and how to mend it
    Check(Check),
    /// Print every value of a lesson, as a table or as JSON
    Values(Values),
    /// Search what varies for numbers that come out round, survive rounding, and hide no usual mistake
    Tune(Tune),
    /// Give every student of a class a paper with numbers of their own, with the key and the proof that they are fair
    Papers(Papers),
    /// Mark what a class answered: each answer against the student's own paper, with the reason for every lost mark
    Mark(Mark),
    /// Write the drawings of a lesson, each as a file
    Figures(Figures),
    /// Write the lecture notes with the worked solution, as PDF or as one HTML file
    Notes(Notes),
    /// Write the slides, one page for each step, as PDF
    Slides(Slides),
    /// Open the live board of a lesson in the browser and keep it in step with the file
    Board(Board),
    /// Write the live board as one HTML file that works offline, for students and for your own screen
    Page(Page),
    /// Print what a lesson file may say: as a JSON Schema for editors, or as a page to read
    Schema(Schema),
    /// Make a folder with everything that comes out of the built-in lessons
    Demo(Demo),
}

#[derive(Debug, Args)]
pub struct Start {
    /// Name of the lesson; the file is NAME.toml
    pub name: String,
}

#[derive(Debug, Args)]
pub struct Check {
    /// The lesson files
    #[arg(required = true)]
    pub lessons: Vec<PathBuf>,
    /// Print the mistakes as JSON, for another program
    #[arg(long)]
    pub json: bool,
}

#[derive(Debug, Args)]
pub struct Values {
    /// The lesson file
    pub lesson: PathBuf,
    /// Print JSON: name, symbol, value in SI, unit, shown text, place and formula of each value
    #[arg(long)]
    pub json: bool,
    /// Add the values at another station, such as "1.2 m" (may be given again)
    #[arg(long, value_name = "STATION")]
    pub at: Vec<String>,
    /// Add the values at another cut, such as "35 mm" or the name of a joint (may be given again)
    #[arg(long, value_name = "CUT", allow_hyphen_values = true)]
    pub cut: Vec<String>,
}

#[derive(Debug, Args)]
pub struct Tune {
    /// The lesson file
    pub lesson: PathBuf,
    /// What is to come out round, separated by commas, by the names that `values` prints [default: what the questions
    /// ask for, and as far as may be all on the way]
    #[arg(long, value_name = "NAME,..")]
    pub results: Vec<String>,
    /// How many combinations to look for
    #[arg(long, value_name = "N", default_value_t = 10, value_parser = clap::value_parser!(u16).range(1..=500))]
    pub count: u16,
    /// Print JSON: the combinations with their results and what each is judged by, the counts, the advice
    #[arg(long)]
    pub json: bool,
    /// Write the combinations into the lesson, as the only ones that papers may have
    #[arg(long)]
    pub write: bool,
}

/// The version of a package of questions.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum Qti {
    /// The oldest that holds whole tests, and the one that most platforms read
    #[value(name = "2.1")]
    V21,
    /// What new platforms take
    #[value(name = "3.0")]
    V30,
}

#[derive(Debug, Args)]
pub struct Papers {
    /// The lesson file
    pub lesson: PathBuf,
    /// The class list as CSV, with the columns "student id" and "name", and if you like "large print" (yes or large, for a paper
    /// in large letters; no, or empty), "email", "group", "sheet" (A4 or letter), "form" (A, B and so on: those of
    /// one letter get one paper) and others of your own
    #[arg(required_unless_present = "forms")]
    pub class: Option<PathBuf>,
    /// Make so many forms (A, B, C and so on), as alike as can be found: without a class list one of each; with one every student gets a form,
    /// that of the column "form", or else in turn
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u8).range(1..=26))]
    pub forms: Option<u8>,
    /// The folder to put them in [default: the lesson's name with -papers]
    #[arg(short, long, value_name = "FOLDER")]
    pub out: Option<PathBuf>,
    /// The file with the secret that draws the papers [default: term.secret beside the lesson, made on first use]
    #[arg(long, value_name = "FILE")]
    pub secret: Option<PathBuf>,
    /// The sheet that they are printed on [default: letter for a lesson in US units, otherwise a4]
    #[arg(long, value_enum)]
    pub paper: Option<Sheet>,
    /// Write the questions of each paper as a package for a learning platform too, with the key in it, in this version of QTI
    #[arg(long, value_enum, value_name = "VERSION", num_args = 0..=1, default_missing_value = "2.1")]
    pub qti: Option<Qti>,
    /// Make papers that are there already anew where the lesson has changed
    #[arg(long)]
    pub replace: bool,
}

#[derive(Debug, Args)]
pub struct Mark {
    /// The folder that `glueline papers` made for the class
    pub papers: PathBuf,
    /// The answers as CSV: a row for each student with a column for each question, or a row for each answer; what is drawn is
    /// left empty and waits for your marks
    pub answers: PathBuf,
    /// The class list, for the names beside the marks
    #[arg(long, value_name = "FILE")]
    pub class: Option<PathBuf>,
    /// The folder to put the marks in [default: that of the papers with -marks in the place of -papers]
    #[arg(short, long, value_name = "FOLDER")]
    pub out: Option<PathBuf>,
    /// The decimal mark of the answers, where one could be taken for the other [default: as the answers themselves tell]
    #[arg(long, value_enum, value_name = "MARK")]
    pub decimal: Option<DecimalMark>,
    /// The answers were typed on a learning platform, in the units of its questions, and not on the printed papers
    #[arg(long)]
    pub platform: bool,
}

/// A decimal mark.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum DecimalMark {
    Point,
    Comma,
}

/// The form of a drawing's file.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum Form {
    Svg,
    Png,
    Pdf,
}

#[derive(Debug, Args)]
pub struct Figures {
    /// The lesson file
    pub lesson: PathBuf,
    /// The folder to put them in [default: the lesson's name with -figures]
    #[arg(short, long, value_name = "FOLDER")]
    pub out: Option<PathBuf>,
    /// The forms of file, separated by commas
    #[arg(long = "as", value_enum, value_delimiter = ',', default_value = "svg")]
    pub forms: Vec<Form>,
    /// Only the drawings of these names, separated by commas, such as "beam,section"
    #[arg(long, value_name = "NAME", value_delimiter = ',')]
    pub only: Vec<String>,
    /// Replace files that are already there
    #[arg(long)]
    pub replace: bool,
}

/// The sheet that notes are printed on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum Sheet {
    A4,
    Letter,
}

#[derive(Debug, Args)]
pub struct Notes {
    /// The lesson file
    pub lesson: PathBuf,
    /// The file to write [default: the lesson's name with -notes.pdf or -notes.html]
    #[arg(short, long, value_name = "FILE")]
    pub out: Option<PathBuf>,
    /// One HTML file instead of a PDF
    #[arg(long)]
    pub html: bool,
    /// The sheet of the PDF [default: letter for a lesson in US units, otherwise a4]
    #[arg(long, value_enum, ignore_case = true, value_name = "SHEET", conflicts_with = "html")]
    pub paper: Option<Sheet>,
    /// Replace the file if it is already there
    #[arg(long)]
    pub replace: bool,
}

#[derive(Debug, Args)]
pub struct Slides {
    /// The lesson file
    pub lesson: PathBuf,
    /// The file to write [default: the lesson's name with -slides.pdf]
    #[arg(short, long, value_name = "FILE")]
    pub out: Option<PathBuf>,
    /// Replace the file if it is already there
    #[arg(long)]
    pub replace: bool,
}

#[derive(Debug, Args)]
pub struct Page {
    /// The lesson file
    pub lesson: PathBuf,
    /// The file to write [default: the lesson's name with -board.html]
    #[arg(short, long, value_name = "FILE")]
    pub out: Option<PathBuf>,
    /// Replace the file if it is already there
    #[arg(long)]
    pub replace: bool,
}

#[derive(Debug, Args)]
pub struct Schema {
    /// The reference page of the lesson file, in Markdown, instead of the schema
    #[arg(long)]
    pub reference: bool,
    /// A file to write, instead of printing
    #[arg(short, long, value_name = "FILE")]
    pub out: Option<PathBuf>,
    /// Replace the file if it is already there
    #[arg(long)]
    pub replace: bool,
}

#[derive(Debug, Args)]
pub struct Demo {
    /// The folder to make
    #[arg(default_value = "glueline-demo")]
    pub folder: PathBuf,
    /// Open its first page when it is made
    #[arg(long)]
    pub open: bool,
    /// Replace files of the folder that differ
    #[arg(long)]
    pub replace: bool,
}

#[derive(Debug, Args)]
pub struct Board {
    /// The lesson file
    pub lesson: PathBuf,
    /// The port to serve at [default: any that is free]
    #[arg(long, default_value_t = 0, hide_default_value = true)]
    pub port: u16,
    /// The address to serve at; any but this one can be reached from other machines
    #[arg(long, default_value_t = IpAddr::V4(Ipv4Addr::LOCALHOST))]
    pub address: IpAddr,
    /// Print the address only, and open no browser
    #[arg(long)]
    pub no_open: bool,
}
