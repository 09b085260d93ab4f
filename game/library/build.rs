//! Puts the proofs of the drills that are compiled in where the sources find them: empty, if none
//! is kept.

use std::{env, fs, io, path::PathBuf};

/// The folders and names of the drills that are compiled in.
const DRILLS: [(&str, &str); 2] = [
    ("../../scenarios/changeover", "left-inside"),
    ("../../scenarios/production", "blocked-downstream"),
];

fn main() -> io::Result<()> {
    println!("cargo::rerun-if-changed=build.rs");
    let out = PathBuf::from(env::var_os("OUT_DIR").ok_or(io::ErrorKind::NotFound)?);
    for (folder, name) in DRILLS {
        // The folder, not the file: one that is not there would make every build a new one.
        println!("cargo::rerun-if-changed={folder}");
        let kept = match fs::read_to_string(format!("{folder}/{name}.proof.ron")) {
            Ok(text) => text,
            Err(error) if error.kind() == io::ErrorKind::NotFound => String::new(),
            Err(error) => return Err(error),
        };
        fs::write(out.join(format!("{name}.proof.ron")), kept)?;
    }
    Ok(())
}
