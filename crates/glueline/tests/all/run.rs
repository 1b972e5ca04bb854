//! A folder with the lesson of the tests, a class, and the command run in it.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};
use tempfile::TempDir;

pub const LESSON: &str = include_str!("lesson.toml");

/// A secret for tests: two runs with it draw the same.
pub const SECRET: &str = "0123456789abcdef0123456789abcdef";

/// Every file of a folder with its content.
pub type Files = BTreeMap<PathBuf, Vec<u8>>;

/// A folder with `lesson.toml` and `term.secret`.
pub struct Desk(TempDir);

impl Desk {
    pub fn new() -> Self {
        let desk = Self(tempfile::tempdir().expect("a folder for the test"));
        desk.put("lesson.toml", LESSON);
        desk.put("term.secret", SECRET);
        desk
    }

    pub fn path(&self) -> &Path {
        self.0.path()
    }

    pub fn put(&self, name: &str, text: &str) {
        fs::write(self.path().join(name), text).expect("a file for the test");
    }

    pub fn command(&self, arguments: &[&str]) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_glueline"));
        command.args(arguments).current_dir(self.path());
        command
    }

    pub fn run(&self, arguments: &[&str]) -> Output {
        self.command(arguments).output().expect("the command runs")
    }

    /// A run that must end well; what it printed.
    pub fn done(&self, arguments: &[&str]) -> String {
        let output = self.run(arguments);
        assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
        String::from_utf8(output.stdout).expect("text")
    }

    /// A run that must be refused with an exit code; what it said.
    pub fn refused(&self, arguments: &[&str], code: i32) -> String {
        let output = self.run(arguments);
        assert_eq!(output.status.code(), Some(code), "{}", String::from_utf8_lossy(&output.stderr));
        String::from_utf8(output.stderr).expect("text")
    }

    /// Every file of a folder with its content.
    pub fn files(&self, folder: &str) -> Files {
        let (mut files, mut open) = (BTreeMap::new(), vec![self.path().join(folder)]);
        while let Some(folder) = open.pop() {
            for entry in fs::read_dir(folder).expect("a folder") {
                let path = entry.expect("an entry").path();
                if path.is_dir() {
                    open.push(path);
                } else {
                    let name = path.strip_prefix(self.path()).expect("inside").components().skip(1).collect();
                    files.insert(name, fs::read(&path).expect("a file"));
                }
            }
        }
        files
    }

    /// As [`Self::files`], without those for the printer: they are made anew for whoever is on the list.
    pub fn kept(&self, folder: &str) -> Files {
        let mut files = self.files(folder);
        files.retain(|name, _| !name.starts_with("to-print"));
        files
    }

    /// The file of a folder, as text.
    pub fn text(&self, name: &str) -> String {
        fs::read_to_string(self.path().join(name)).expect("a file that was made")
    }

    /// The rows of the key of a folder, without the header, as cells.
    pub fn key(&self, folder: &str) -> Vec<Vec<String>> {
        let text = self.text(&format!("{folder}/keys/key.csv"));
        let cells = |line: &str| line.split(',').map(|cell| cell.trim_matches('"').to_owned()).collect();
        text.lines().skip(1).map(cells).collect()
    }
}

/// That two folders hold the same, byte by byte; says which files do not.
pub fn assert_same(one: &Files, other: &Files) {
    let differ: Vec<&PathBuf> =
        one.keys().chain(other.keys()).filter(|name| one.get(*name) != other.get(*name)).collect();
    assert!(differ.is_empty(), "{differ:?}");
}

/// A class list of so many students, from a number on.
pub fn class(from: usize, count: usize) -> String {
    let rows = (from..from + count).map(|student| format!("{:05},Student {student}\n", 37 * student));
    std::iter::once("student id,name\n".to_owned()).chain(rows).collect()
}

/// Runs the command in a folder.
pub fn glueline(folder: &Path, arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_glueline"))
        .args(arguments)
        .current_dir(folder)
        .output()
        .expect("the command runs")
}

/// What it printed.
pub fn out(output: &Output) -> String {
    String::from_utf8_lossy(&output.stdout).into_owned()
}

/// What it said on standard error.
pub fn err(output: &Output) -> String {
    String::from_utf8_lossy(&output.stderr).into_owned()
}
