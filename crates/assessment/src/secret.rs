//! Draws by a secret: who knows it can draw every paper again, who does not can foresee none.
//!
//! A draw depends on the secret, the lesson, the student and the attempt, and on nothing else: not on the other students,
//! not on the order in which they are asked for. It is made by HMAC with SHA-256. Source: RFC 2104 and FIPS 180-4.

use crate::space::Space;
use hmac::{Hmac, Mac};
use lesson::papers::Draw;
use sha2::Sha256;
use std::fmt;

/// The fewest bytes of a secret: 128 bits cannot be tried through.
const FEWEST_BYTES: usize = 16;

/// A secret that draws papers; what it is for is part of every draw.
pub trait Secret: sealed::Keyed {
    /// What it is for.
    const PURPOSE: &'static str;
}

mod sealed {
    /// A secret as a key, for this crate alone.
    pub trait Keyed {
        /// The function that it keys.
        fn keyed(&self) -> &hmac::Hmac<sha2::Sha256>;
    }
}

/// A secret is too short.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct TooShort {
    /// How many bytes it has.
    pub bytes: usize,
}

impl fmt::Display for TooShort {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "a secret of {} bytes can be guessed; it needs at least {FEWEST_BYTES}", self.bytes)
    }
}

impl std::error::Error for TooShort {}

macro_rules! secret {
    ($(#[$doc:meta])* $name:ident, $purpose:literal) => {
        $(#[$doc])*
        #[derive(Clone)]
        pub struct $name(Hmac<Sha256>);

        impl $name {
            /// A secret of these bytes, which should come from the system's own random numbers.
            ///
            /// # Errors
            /// If there are fewer than 16.
            pub fn new(bytes: &[u8]) -> Result<Self, TooShort> {
                let short = TooShort { bytes: bytes.len() };
                if bytes.len() < FEWEST_BYTES {
                    return Err(short);
                }
                // A key of any length is taken.
                Hmac::new_from_slice(bytes).map(Self).map_err(|_| short)
            }
        }

        impl sealed::Keyed for $name {
            fn keyed(&self) -> &Hmac<Sha256> {
                &self.0
            }
        }

        impl Secret for $name {
            const PURPOSE: &'static str = $purpose;
        }

        /// Never shows the bytes.
        impl fmt::Debug for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str(concat!(stringify!($name), "(..)"))
            }
        }
    };
}

secret!(
    /// The secret of papers to practise with. It may lie on the page that students open.
    PracticeSecret,
    "practice"
);
secret!(
    /// The secret of exam papers. No function takes it where one of practice is wanted, and the same bytes in both give
    /// other draws.
    ExamSecret,
    "exam"
);

/// The draw of a student: any draw of the space, each as likely as the other.
///
/// The first attempt is 0; where a draw is refused the next attempt is taken. `None` where the space is empty.
pub fn draw<S: Secret>(secret: &S, lesson: &str, student: &str, attempt: u64, space: &Space) -> Option<Draw> {
    let mut stream = Stream::new(secret, &["draw", lesson, student], attempt);
    if space.is_restricted() {
        let count = u64::try_from(space.size().count).unwrap_or(u64::MAX);
        return space.draw(u128::from(stream.below(count)?));
    }
    let choices =
        space.counts().iter().map(|&count| stream.below(count as u64).map(|choice| choice as usize));
    Some(Draw { choices: choices.collect::<Option<_>>()? })
}

/// Numbers that follow from a secret and some words.
pub(crate) struct Stream {
    keyed: Hmac<Sha256>,
    block: u64,
    bytes: [u8; 32],
    used: usize,
}

impl Stream {
    pub(crate) fn new<S: Secret>(secret: &S, words: &[&str], attempt: u64) -> Self {
        let mut keyed = secret.keyed().clone();
        // Each word with its length before it: no two lists of words are alike.
        for word in std::iter::once(&S::PURPOSE).chain(words) {
            keyed.update(&(word.len() as u64).to_be_bytes());
            keyed.update(word.as_bytes());
        }
        keyed.update(&attempt.to_be_bytes());
        Self { keyed, block: 0, bytes: [0; 32], used: 32 }
    }

    fn next(&mut self) -> u64 {
        if self.used == self.bytes.len() {
            let mut keyed = self.keyed.clone();
            keyed.update(&self.block.to_be_bytes());
            self.bytes = keyed.finalize().into_bytes().into();
            self.block += 1;
            self.used = 0;
        }
        let number =
            self.bytes[self.used..self.used + 8].iter().fold(0, |all, &byte| all << 8 | u64::from(byte));
        self.used += 8;
        number
    }

    /// A number below `count`, each as likely as the other: what lies above the last whole multiple is drawn again.
    /// `None` for a count of 0.
    pub(crate) fn below(&mut self, count: u64) -> Option<u64> {
        // 2^64 mod count.
        let over = (u64::MAX % count.max(1) + 1) % count.max(1);
        loop {
            let number = self.next();
            if number <= u64::MAX - over {
                return number.checked_rem(count);
            }
        }
    }
}
