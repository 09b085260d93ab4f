//! Puts the proof of the drill that is compiled in where the sources find it: empty, if none is
//! kept.

use std::{env, fs, io, path::PathBuf};

/// Where the drill lies that is compiled in.
const FOLDER: &str = "../../scenarios/changeover";

fn main() -> io::Result<()> {
    // The folder, not the file: one that is not there would make every build a new one.
    println!("cargo::rerun-if-changed={FOLDER}");
    println!("cargo::rerun-if-changed=build.rs");
    let kept = match fs::read_to_string(format!("{FOLDER}/left-inside.proof.ron")) {
        Ok(text) => text,
        Err(error) if error.kind() == io::ErrorKind::NotFound => String::new(),
        Err(error) => return Err(error),
    };
    let folder = env::var_os("OUT_DIR").ok_or(io::ErrorKind::NotFound)?;
    fs::write(PathBuf::from(folder).join("left-inside.proof.ron"), kept)
}
