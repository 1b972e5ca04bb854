//! Writes the packages of the tests, in both versions, for players to play.
//!
//!     cargo run -p exchange --example packages -- FOLDER

#[path = "../tests/all/common.rs"]
mod common;

use exchange::qti::Version;
use std::error::Error;
use std::io::Cursor;
use std::path::PathBuf;

fn main() -> Result<(), Box<dyn Error>> {
    let folder = PathBuf::from(std::env::args_os().nth(1).ok_or("name a folder")?);
    for (version, name) in [(Version::Qti21, "2.1"), (Version::Qti30, "3.0")] {
        let archive = common::package().zip(version).map_err(|faults| format!("{faults:#?}"))?;
        zip::ZipArchive::new(Cursor::new(&archive.bytes))?.extract(folder.join(name))?;
        std::fs::write(folder.join(&archive.name), &archive.bytes)?;
    }
    Ok(())
}
