//! Unpacks the board's engine in the browser.
//!
//! Browsers unpack Deflate by themselves; LZMA makes the engine a quarter smaller, and this module, which the page
//! carries beside the engine, is a fiftieth of what that saves. The page asks [`room`] for as many bytes as the packed engine
//! has, writes them there and calls [`unpack`].

use lzma_rust2::LzmaReader;
use std::cell::RefCell;
use std::io::Read;

/// The most memory that unpacking may take beside its result, KiB: twice the dictionary that the engine is packed with.
const MOST_MEMORY: u32 = 8 << 10;

thread_local! {
    static PACKED: RefCell<Vec<u8>> = const { RefCell::new(Vec::new()) };
    static ENGINE: RefCell<Vec<u8>> = const { RefCell::new(Vec::new()) };
}

/// What was packed as an LZMA file (the form with a header of 13 bytes, which tells the size); nothing where it ends early or
/// is no such file. It has no checksum: a page whose letters were changed may give an engine that the browser refuses.
#[must_use]
pub fn unpacked(packed: &[u8]) -> Option<Vec<u8>> {
    let mut out = Vec::new();
    LzmaReader::new_mem_limit(packed, MOST_MEMORY, None).ok()?.read_to_end(&mut out).ok()?;
    Some(out)
}

/// Room for so many packed bytes.
#[allow(unsafe_code, reason = "a name that the browser can call")]
#[unsafe(no_mangle)]
pub extern "C" fn room(length: usize) -> *mut u8 {
    PACKED.with_borrow_mut(|packed| {
        packed.resize(length, 0);
        packed.as_mut_ptr()
    })
}

/// Unpacks what was written to [`room`]: how many bytes it has become. None at all where it cannot be unpacked.
#[allow(unsafe_code, reason = "a name that the browser can call")]
#[unsafe(no_mangle)]
pub extern "C" fn unpack() -> usize {
    let engine = PACKED.with_borrow_mut(|packed| unpacked(&std::mem::take(packed))).unwrap_or_default();
    ENGINE.with_borrow_mut(|kept| {
        *kept = engine;
        kept.len()
    })
}

/// Where they begin.
#[allow(unsafe_code, reason = "a name that the browser can call")]
#[unsafe(no_mangle)]
pub extern "C" fn engine() -> *const u8 {
    ENGINE.with_borrow(|kept| kept.as_ptr())
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test that cannot go on stops")]

    use super::unpacked;
    use lzma_rust2::{LzmaOptions, LzmaWriter};
    use std::io::Write;

    fn packed(bytes: &[u8]) -> Vec<u8> {
        let mut packed = Vec::new();
        let length = bytes.len() as u64;
        let options = LzmaOptions { dict_size: 4 << 20, ..LzmaOptions::with_preset(9) };
        let mut writer = LzmaWriter::new_use_header(&mut packed, &options, Some(length)).unwrap();
        writer.write_all(bytes).unwrap();
        writer.finish().unwrap();
        packed
    }

    #[test]
    fn what_was_packed_comes_back() {
        for length in [0, 1, 2, 1000, 300_000_u32] {
            let bytes: Vec<u8> =
                (0..length).map(|at| (at.wrapping_mul(at).wrapping_mul(37) >> 7) as u8).collect();
            assert_eq!(unpacked(&packed(&bytes)), Some(bytes), "{length} bytes");
        }
    }

    #[test]
    fn what_ends_early_or_is_something_else_gives_nothing() {
        let whole = packed(&(0..=255).cycle().take(5000).collect::<Vec<u8>>());
        assert_eq!(unpacked(&whole[..whole.len() / 2]), None);
        assert_eq!(unpacked(b"no engine at all, only words"), None);
        assert_eq!(unpacked(&[]), None);
    }
}
