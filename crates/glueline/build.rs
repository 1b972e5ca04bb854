//! Compiles the board for the browser and packs it, so that the command carries it inside.
//!
//! `BOARD_ENGINE` in the environment takes the place of that: the path of a packed engine, or nothing for none at all
//! (for editors and lints, which do not look at it).
//!
//! A packed engine is an LZMA file, and before it, gzipped, the small module that unpacks it in the browser with its length in
//! four bytes (the lowest first).

use lzma_rust2::{LzmaOptions, LzmaWriter};
use std::env;
use std::ffi::OsStr;
use std::fs;
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use std::process::Command;

const TARGET: &str = "wasm32-unknown-unknown";
/// The profile of the workspace by which the board is compiled, and the name of its folder.
const PROFILE: &str = "board";

fn main() {
    if let Err(what) = build() {
        println!("cargo::error={what}");
        std::process::exit(1);
    }
}

fn build() -> Result<(), String> {
    println!("cargo::rerun-if-changed=build.rs");
    println!("cargo::rerun-if-env-changed=BOARD_ENGINE");
    let out = PathBuf::from(variable("OUT_DIR")?).join("engine.packed");
    if let Some(given) = env::var_os("BOARD_ENGINE") {
        let engine = if given.is_empty() { Vec::new() } else { read(Path::new(&given))? };
        return write(&out, &engine);
    }
    let workspace = PathBuf::from(variable("CARGO_MANIFEST_DIR")?).join("../..");
    let workspace = workspace.canonicalize().map_err(|error| error.to_string())?;
    // A folder of its own under the target folder, the same for every profile: two runs of cargo in one folder would
    // wait for each other.
    let target = out.ancestors().nth(5).ok_or("no target folder")?.join("wasm-app");
    compile(&workspace, &target)?;
    let made = target.join(TARGET).join(PROFILE);
    for made_from in ["board.d", "unpacker.d"] {
        watch(&workspace, &read(&made.join(made_from))?);
    }
    let unpacker = gzipped(&read(&made.join("unpacker.wasm"))?).map_err(|error| error.to_string())?;
    let engine = packed(&read(&made.join("board.wasm"))?).map_err(|error| error.to_string())?;
    let length = u32::try_from(unpacker.len()).map_err(|error| error.to_string())?.to_le_bytes();
    write(&out, &[&length, &*unpacker, &*engine].concat())
}

fn compile(workspace: &Path, target: &Path) -> Result<(), String> {
    let mut cargo = Command::new(variable("CARGO")?);
    cargo
        .current_dir(workspace)
        .args([
            "build",
            "--locked",
            "--package",
            "board",
            "--package",
            "unpacker",
            "--lib",
            "--profile",
            PROFILE,
            "--target",
            TARGET,
        ])
        .arg("--target-dir")
        .arg(target);
    // What was meant for the machine's own code must not reach the browser's.
    for (name, _) in env::vars_os() {
        let Some(word) = name.to_str() else { continue };
        let meant_for_the_machine = matches!(
            word,
            "RUSTFLAGS"
                | "CARGO_TARGET_DIR"
                | "RUSTC"
                | "RUSTC_WRAPPER"
                | "RUSTC_WORKSPACE_WRAPPER"
                | "CARGO_MAKEFLAGS"
        ) || [
            "CARGO_ENCODED_",
            "CARGO_BUILD_",
            "CARGO_PROFILE_",
            "CARGO_CFG_",
            "CARGO_FEATURE_",
            "CARGO_LLVM_COV",
        ]
        .iter()
        .any(|beginning| word.starts_with(beginning));
        if meant_for_the_machine {
            cargo.env_remove(&name);
        }
    }
    cargo.env("CARGO_ENCODED_RUSTFLAGS", flags(workspace));
    let status = cargo.status().map_err(|error| format!("cargo could not be run for the board: {error}"))?;
    if status.success() {
        return Ok(());
    }
    Err(format!(
        "the board could not be compiled for the browser; if the target is missing: rustup target add {TARGET}"
    ))
}

/// Places of source files are part of the code; those of this machine are no business of a page's readers.
fn flags(workspace: &Path) -> String {
    let mut flags = vec![format!("--remap-path-prefix={}=.", workspace.display())];
    let home = env::var_os("CARGO_HOME").map(PathBuf::from).or_else(|| {
        #[allow(deprecated, reason = "right again since Rust 1.85")]
        env::home_dir().map(|home| home.join(".cargo"))
    });
    let sources = home.map(|home| home.join("registry/src"));
    for index in sources.and_then(|sources| fs::read_dir(sources).ok()).into_iter().flatten().flatten() {
        flags.push(format!("--remap-path-prefix={}=crates", index.path().display()));
    }
    flags.join("\u{1f}")
}

/// Runs again when a file changes that the board is made from: those that the compiler names, and the manifests.
fn watch(workspace: &Path, depends: &[u8]) {
    let depends = String::from_utf8_lossy(depends);
    let sources = depends.split_once(": ").map_or("", |(_, sources)| sources);
    // Spaces inside a name are escaped.
    let mut name = String::new();
    for part in sources.split_whitespace() {
        name.push_str(part.trim_end_matches('\\'));
        if part.ends_with('\\') {
            name.push(' ');
            continue;
        }
        println!("cargo::rerun-if-changed={name}");
        name.clear();
    }
    println!("cargo::rerun-if-changed={}", workspace.join("Cargo.lock").display());
    println!("cargo::rerun-if-changed={}", workspace.join("Cargo.toml").display());
    for each in fs::read_dir(workspace.join("crates")).into_iter().flatten().flatten() {
        let manifest = each.path().join("Cargo.toml");
        if manifest.is_file() && each.file_name() != OsStr::new("glueline") {
            println!("cargo::rerun-if-changed={}", manifest.display());
        }
    }
}

fn gzipped(bytes: &[u8]) -> io::Result<Vec<u8>> {
    let mut packed = Vec::new();
    zopfli::compress(zopfli::Options::default(), zopfli::Format::Gzip, bytes, &mut packed)?;
    Ok(packed)
}

fn packed(bytes: &[u8]) -> io::Result<Vec<u8>> {
    let mut options = LzmaOptions::with_preset(9);
    // The longest that a match may be: the tightest.
    options.nice_len = 273;
    // What the browser keeps while it unpacks: no more than the engine.
    options.dict_size = 4 << 20;
    // Code for the browser has no words of four bytes to line up with.
    options.pb = 0;
    let mut writer = LzmaWriter::new_use_header(Vec::new(), &options, Some(bytes.len() as u64))?;
    writer.write_all(bytes)?;
    writer.finish()
}

fn variable(name: &str) -> Result<std::ffi::OsString, String> {
    env::var_os(name).ok_or_else(|| format!("cargo gave no {name}"))
}

fn read(path: &Path) -> Result<Vec<u8>, String> {
    fs::read(path).map_err(|error| format!("{}: {error}", path.display()))
}

fn write(path: &Path, bytes: &[u8]) -> Result<(), String> {
    fs::write(path, bytes).map_err(|error| format!("{}: {error}", path.display()))
}
