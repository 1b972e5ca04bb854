//! Many labels at one place: one that the others have walled in goes first.

use crate::label::{Placer, Wish};

/// Fewer labels than this do not wall one in.
const CROWD: usize = 8;
/// How often the labels are placed anew. Those of a crowded beam take two or three rounds.
const ROUNDS: usize = 4;

impl Placer {
    /// Places labels in their order. Where one is walled in by those before it, so that its leader would run through one of them,
    /// all are placed anew with that one first.
    pub fn put_all<'a>(&mut self, wishes: impl Iterator<Item = &'a Wish>) {
        let mut order: Vec<&Wish> = wishes.collect();
        if order.len() >= CROWD {
            for _ in 0..ROUNDS {
                let mut tried = self.clone();
                let Some(walled) = order.iter().position(|wish| tried.put_and_tell(wish).1) else {
                    *self = tried;
                    return;
                };
                order[..=walled].rotate_right(1);
            }
        }
        for wish in order {
            self.put(wish);
        }
    }
}
