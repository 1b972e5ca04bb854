//! Marks of students on items: what all figures are reckoned from.

use serde::{Deserialize, Serialize};
use std::fmt;

/// Something that earns marks by itself: a part of a question.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Item {
    /// What it is called: `3a`.
    pub label: String,
    /// What a right answer earns; positive.
    pub out_of: f64,
}

/// What one student has on one item.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Entry {
    /// So many marks, from 0 to what a right answer earns.
    Earned(f64),
    /// Nothing was answered; it earns nothing.
    Blank,
    /// Nobody has marked it yet; the student counts in no figure that needs the total.
    NotMarked,
}

impl Entry {
    /// The marks; none where nobody has marked it yet.
    pub fn marks(self) -> Option<f64> {
        match self {
            Self::Earned(marks) => Some(marks),
            Self::Blank => Some(0.0),
            Self::NotMarked => None,
        }
    }
}

/// Why marks make no matrix.
#[derive(Clone, Debug, PartialEq)]
pub enum MatrixFault {
    /// Nothing was asked.
    NoItems,
    /// An item earns nothing, or no finite number of marks.
    OutOf(String),
    /// A student has more or fewer entries than there are items.
    Length {
        /// The student's place, from 0.
        student: usize,
        /// How many entries there are.
        entries: usize,
        /// How many items there are.
        items: usize,
    },
    /// Marks below zero, above what the item earns, or not finite.
    Marks {
        /// The student's place, from 0.
        student: usize,
        /// The label of the item.
        item: String,
    },
}

impl fmt::Display for MatrixFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoItems => f.write_str("there is nothing that earns marks"),
            Self::OutOf(label) => write!(f, "item {label} earns no positive number of marks"),
            Self::Length { student, entries, items } => {
                write!(f, "student {} has {entries} entries for {items} items", student + 1)
            }
            Self::Marks { student, item } => write!(
                f,
                "the marks of student {} on item {item} do not lie between 0 and what the item earns",
                student + 1
            ),
        }
    }
}

impl std::error::Error for MatrixFault {}

/// Marks of students on items. Students who did not take part are not in it.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Matrix {
    items: Vec<Item>,
    rows: Vec<Vec<Entry>>,
}

/// Marks may stand above what an item earns by so much: they were added up.
const SLACK: f64 = 1e-9;

impl Matrix {
    /// A row of entries for each student, one entry for each item.
    ///
    /// # Errors
    /// See [`MatrixFault`].
    pub fn new(items: Vec<Item>, rows: Vec<Vec<Entry>>) -> Result<Self, MatrixFault> {
        if items.is_empty() {
            return Err(MatrixFault::NoItems);
        }
        if let Some(item) = items.iter().find(|item| !(item.out_of > 0.0 && item.out_of.is_finite())) {
            return Err(MatrixFault::OutOf(item.label.clone()));
        }
        for (student, row) in rows.iter().enumerate() {
            if row.len() != items.len() {
                return Err(MatrixFault::Length { student, entries: row.len(), items: items.len() });
            }
            for (entry, item) in row.iter().zip(&items) {
                let marks = entry.marks().unwrap_or(0.0);
                if !(0.0..=item.out_of + SLACK).contains(&marks) {
                    return Err(MatrixFault::Marks { student, item: item.label.clone() });
                }
            }
        }
        Ok(Self { items, rows })
    }

    /// The items.
    pub fn items(&self) -> &[Item] {
        &self.items
    }

    /// How many students there are.
    pub fn students(&self) -> usize {
        self.rows.len()
    }

    /// What there is to earn in all.
    pub fn out_of(&self) -> f64 {
        self.items.iter().map(|item| item.out_of).sum()
    }

    /// The entries of an item, student by student.
    pub fn entries(&self, item: usize) -> impl Iterator<Item = Entry> + '_ {
        self.rows.iter().filter_map(move |row| row.get(item).copied())
    }

    /// The marks of each student; none where not all answers are marked.
    pub fn rows_marked(&self) -> impl Iterator<Item = Option<Vec<f64>>> + '_ {
        self.rows.iter().map(|row| row.iter().map(|entry| entry.marks()).collect())
    }

    /// The marks of the students all of whose answers are marked, a row each.
    pub fn complete(&self) -> Vec<Vec<f64>> {
        self.rows_marked().flatten().collect()
    }
}
