//! The map of the house goes stale in silence; this holds what a test can hold of it.

use std::fs;
use std::path::{Path, PathBuf};

/// From the ground up. A crate may depend on crates that stand before it only.
const FLOORS: &[&[&str]] = &[
    &["mechanics"],
    &["workings"],
    &["lesson", "figure"],
    &["assessment"],
    &["document"],
    &["exchange"],
    &["board", "unpacker"],
    &["glueline"],
];

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}

fn crates() -> Vec<String> {
    let mut names: Vec<String> = fs::read_dir(root().join("crates"))
        .expect("the workspace has crates")
        .filter_map(|entry| entry.ok().map(|entry| entry.file_name().to_string_lossy().into_owned()))
        .collect();
    names.sort();
    names
}

fn floor(name: &str) -> Option<usize> {
    FLOORS.iter().position(|floor| floor.contains(&name))
}

/// The names under `[dependencies]` (not what only the tests use).
fn dependencies(name: &str) -> Vec<String> {
    let manifest =
        fs::read_to_string(root().join("crates").join(name).join("Cargo.toml")).expect("a manifest");
    manifest
        .lines()
        .skip_while(|line| line.trim() != "[dependencies]")
        .skip(1)
        .take_while(|line| !line.starts_with('['))
        .filter_map(|line| line.split(['.', '=', ' ']).next().map(str::to_owned))
        .filter(|word| !word.is_empty() && !word.starts_with('#'))
        .collect()
}

#[test]
fn no_manifest_points_up_the_house() {
    for name in crates() {
        let here = floor(&name).unwrap_or_else(|| panic!("{name} stands on no floor of this test"));
        for dependency in dependencies(&name) {
            if let Some(there) = floor(&dependency) {
                assert!(there < here, "{name} (floor {here}) depends on {dependency} (floor {there})");
            }
        }
    }
}

#[test]
fn every_crate_stands_on_the_map() {
    let map = fs::read_to_string(root().join("ARCHITECTURE.md")).expect("ARCHITECTURE.md");
    for name in crates() {
        assert!(map.contains(&format!("| `{name}` |")), "ARCHITECTURE.md has no line for {name}");
    }
}

#[test]
fn every_library_has_its_reason_on_the_map() {
    let map = fs::read_to_string(root().join("ARCHITECTURE.md")).expect("ARCHITECTURE.md");
    for name in crates() {
        for dependency in dependencies(&name) {
            if floor(&dependency).is_none() {
                assert!(
                    map.contains(&format!("`{dependency}`")),
                    "ARCHITECTURE.md does not say why {dependency}"
                );
            }
        }
    }
}
