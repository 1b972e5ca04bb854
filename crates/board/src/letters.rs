//! Bytes as letters that may stand in a page: thirteen bits as two of ninety-one letters.
//!
//! That is 1.23 letters a byte, where base64 (RFC 4648) takes 1.33: on the engine a tenth of a page. The letters are the
//! printable ones of ASCII without the space and without `&`, `<` and `>`, so that nothing of them is markup.

/// So many bits become two letters: 91 squared is 8281, a little more than 2 to the 13th.
const BITS: u32 = 13;

/// The printable letters of ASCII that may stand anywhere in a page.
fn alphabet() -> Vec<char> {
    ('!'..='~').filter(|letter| !matches!(letter, '&' | '<' | '>')).collect()
}

/// The bytes as letters. Who reads them must know how many bytes they are.
pub fn written(bytes: &[u8]) -> String {
    let alphabet = alphabet();
    let base = alphabet.len() as u32;
    let mut out = String::with_capacity(bytes.len() / 8 * 10 + 16);
    let (mut held, mut count) = (0_u32, 0);
    let mut push = |held: u32| {
        let pair = held & ((1 << BITS) - 1);
        out.extend([pair % base, pair / base].map(|digit| alphabet[digit as usize]));
    };
    for &byte in bytes {
        held |= u32::from(byte) << count;
        count += u8::BITS;
        if count >= BITS {
            push(held);
            held >>= BITS;
            count -= BITS;
        }
    }
    if count > 0 {
        push(held);
    }
    out
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test that cannot go on stops")]

    use super::{alphabet, written};

    /// As the page's script reads it, with the arithmetic turned round.
    fn read(letters: &str, length: usize) -> Vec<u8> {
        let digit = |letter: char| alphabet().iter().position(|known| *known == letter).unwrap();
        let pairs: Vec<char> = letters.chars().collect();
        let bits = pairs.chunks(2).flat_map(|pair| {
            let number = digit(pair[0]) + 91 * digit(pair[1]);
            (0..13).map(move |bit| (number >> bit) & 1)
        });
        let bits: Vec<usize> = bits.take(8 * length).collect();
        bits.chunks(8).map(|byte| (0..8).map(|bit| (byte[bit] << bit) as u8).sum()).collect()
    }

    #[test]
    fn every_length_is_read_back_as_it_was() {
        let bytes: Vec<u8> = (0..200_u32).map(|at| ((at * at * 37) >> 3) as u8 ^ 0xa5).collect();
        for length in 0..bytes.len() {
            assert_eq!(read(&written(&bytes[..length]), length), bytes[..length]);
        }
        assert_eq!(read(&written(&[0xff; 64]), 64), [0xff; 64]);
    }

    #[test]
    fn no_letter_is_markup_and_a_byte_takes_a_letter_and_a_quarter_at_most() {
        assert_eq!(alphabet().len(), 91);
        let letters = written(&[0x3c; 1000]);
        assert!(!letters.contains(['<', '>', '&', ' ']) && letters.len() < 1250, "{}", letters.len());
    }
}
