//! Packages against the published schemas. These may not be handed on with the project: the test runs where the environment
//! variable QTI_SCHEMAS names a folder with them, and python3 has lxml.

use crate::common;
use exchange::qti::Version;
use std::io::Write;
use std::process::Command;

#[test]
fn packages_are_valid_by_the_published_schemas() {
    let Some(schemas) = std::env::var_os("QTI_SCHEMAS") else {
        // Past the test runner, which keeps the words of a test that passes to itself.
        let said = b"SKIPPED: no schema was tested; QTI_SCHEMAS names no folder with the published schemas\n";
        std::io::stderr().write_all(said).expect("stderr");
        return;
    };
    let folder = std::env::temp_dir().join(format!("qti-schemas-{}", std::process::id()));
    std::fs::create_dir_all(&folder).expect("a folder");
    let mut check = Command::new("python3");
    check.arg(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/schemas.py")).arg(schemas);
    for version in [Version::Qti21, Version::Qti30] {
        let archive = common::package().zip(version).expect("a package");
        let file = folder.join(archive.name);
        std::fs::write(&file, archive.bytes).expect("a file");
        check.arg(file);
    }
    let outcome = check.output().expect("python3");
    std::fs::remove_dir_all(&folder).expect("the folder");
    let said = String::from_utf8_lossy(&outcome.stdout);
    // A folder may hold the schemas of one version only: how many files were checked is always said.
    std::io::stderr().write_all(&outcome.stdout).expect("stderr");
    assert!(outcome.status.success(), "{said}{}", String::from_utf8_lossy(&outcome.stderr));
}
