//! The space of all draws of a lesson: one choice for each thing that varies, numbered like the figures of a number whose
//! places have different bases.

use lesson::Lesson;
use lesson::papers::Draw;
use std::sync::Arc;

/// What varies, by how many choices each thing has; and where papers are restricted to some combinations, these.
///
/// ```
/// use assessment::space::Space;
///
/// let space = Space::new(vec![4, 3]);
/// assert_eq!(space.size().count, 12);
/// let draw = space.draw(7).expect("one of twelve");
/// assert_eq!(draw.choices, [2, 1]); // 7 = 2 * 3 + 1
/// assert_eq!(space.index(&draw), Some(7));
/// ```
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Space {
    counts: Vec<usize>,
    /// The only draws, in their order and each once; none where any of all choices will do.
    only: Option<Arc<[Draw]>>,
}

/// How many draws there are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Size {
    /// So many; where there are more than can be counted, the most that can be.
    pub count: u128,
    /// Whether it is all of them.
    pub exact: bool,
}

impl Size {
    /// `810`, or that there are more than can be counted.
    pub fn in_words(&self) -> String {
        if self.exact { self.count.to_string() } else { format!("more than {}", self.count) }
    }
}

impl Space {
    /// A space of these numbers of choices. Of nothing that varies there is one draw; of no choices there is none.
    pub fn new(counts: Vec<usize>) -> Self {
        Self { counts, only: None }
    }

    /// The space of a lesson: all combinations of its choices, or those alone that it restricts its papers to.
    pub fn of(lesson: &Lesson) -> Self {
        let all = Self::new(lesson.vary.iter().map(lesson::Variation::count).collect());
        match &lesson.only {
            Some(draws) => all.restricted(draws),
            None => all,
        }
    }

    /// The same choices, of which only these combinations count; their order says nothing, and what is no combination of
    /// the choices is passed over.
    pub fn restricted(self, draws: &[Draw]) -> Self {
        let mut only: Vec<Draw> = draws.iter().filter(|draw| self.has_choices(draw)).cloned().collect();
        only.sort();
        only.dedup();
        Self { only: Some(only.into()), ..self }
    }

    /// How many choices each thing has, in the order of the lesson, restricted or not.
    pub fn counts(&self) -> &[usize] {
        &self.counts
    }

    /// Whether only some combinations of its choices count.
    pub fn is_restricted(&self) -> bool {
        self.only.is_some()
    }

    /// How many draws there are.
    pub fn size(&self) -> Size {
        if let Some(only) = &self.only {
            return Size { count: only.len() as u128, exact: true };
        }
        let exact = self.counts.iter().try_fold(1_u128, |size, &count| size.checked_mul(count as u128));
        // A space with a thing of no choices is empty, however many choices the others have.
        let none = self.counts.contains(&0).then_some(0);
        match none.or(exact) {
            Some(count) => Size { count, exact: true },
            None => Size { count: u128::MAX, exact: false },
        }
    }

    /// Whether a draw is one of this space.
    pub fn holds(&self, draw: &Draw) -> bool {
        match &self.only {
            Some(only) => only.binary_search(draw).is_ok(),
            None => self.has_choices(draw),
        }
    }

    /// Whether a draw is made of choices that there are, be the combination one of this space or not.
    pub fn has_choices(&self, draw: &Draw) -> bool {
        draw.choices.len() == self.counts.len()
            && draw.choices.iter().zip(&self.counts).all(|(choice, count)| choice < count)
    }

    /// The number of a draw, from 0; the choice of the last thing changes fastest. A restricted space numbers its own
    /// draws, in the same order. `None` where it is not of this space,
    /// or its number is too large.
    pub fn index(&self, draw: &Draw) -> Option<u128> {
        if let Some(only) = &self.only {
            return only.binary_search(draw).ok().map(|at| at as u128);
        }
        if !self.holds(draw) {
            return None;
        }
        draw.choices.iter().zip(&self.counts).try_fold(0_u128, |index, (&choice, &count)| {
            index.checked_mul(count as u128)?.checked_add(choice as u128)
        })
    }

    /// The draw of a number; `None` beyond the last.
    pub fn draw(&self, index: u128) -> Option<Draw> {
        let mut draw = Draw { choices: vec![0; self.counts.len()] };
        self.set(index, &mut draw).then_some(draw)
    }

    /// As [`Space::draw`], into a draw that is there already: nothing is allocated. Whether there is such a draw.
    pub fn set(&self, mut index: u128, draw: &mut Draw) -> bool {
        if let Some(only) = &self.only {
            let found = usize::try_from(index).ok().and_then(|at| only.get(at));
            return found.map(|found| draw.choices.clone_from(&found.choices)).is_some();
        }
        draw.choices.resize(self.counts.len(), 0);
        for (choice, &count) in draw.choices.iter_mut().zip(&self.counts).rev() {
            if count == 0 {
                return false;
            }
            *choice = (index % count as u128) as usize;
            index /= count as u128;
        }
        index == 0
    }
}
