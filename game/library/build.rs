//! Lists the copies that are compiled in: what is shipped in `assets` and `scenarios`, and the
//! proofs that are kept beside the drills.

use std::{
    env, fs, io,
    path::{Path, PathBuf},
};

/// Where the drills lie, in the root of the project.
const DRILLS: &str = "scenarios";
/// How the name of a proof ends.
const PROOF: &str = ".proof.ron";

fn main() -> io::Result<()> {
    println!("cargo::rerun-if-changed=build.rs");
    let here = env::var_os("CARGO_MANIFEST_DIR").ok_or(io::ErrorKind::NotFound)?;
    let root = PathBuf::from(here).join("../..");
    let mut rows = String::from("&[\n");
    for folder in ["machines", "rules", "procedures"] {
        for file in files_in(&root.join("assets").join(folder))? {
            rows += &row(folder, &file, ".ron");
        }
    }
    for file in files_in(&root.join(DRILLS))? {
        rows += &if file.to_string_lossy().ends_with(PROOF) {
            row("proofs", &file, PROOF)
        } else {
            row("drills", &file, ".ron")
        };
    }
    rows += "]\n";
    let out = env::var_os("OUT_DIR").ok_or(io::ErrorKind::NotFound)?;
    fs::write(PathBuf::from(out).join("built_in.rs"), rows)
}

/// All RON files of a folder and the folders in it, sorted.
fn files_in(folder: &Path) -> io::Result<Vec<PathBuf>> {
    // The folder, not its files: one that comes or goes makes another list.
    println!("cargo::rerun-if-changed={}", folder.display());
    let mut found = Vec::new();
    for entry in fs::read_dir(folder)? {
        let path = entry?.path();
        if path.is_dir() {
            found.extend(files_in(&path)?);
        } else if path.extension().is_some_and(|ending| ending == "ron") {
            found.push(path);
        }
    }
    found.sort();
    Ok(found)
}

/// One copy: its folder, its name, its text.
fn row(folder: &str, file: &Path, ending: &str) -> String {
    let name = file.file_name().unwrap_or_default().to_string_lossy();
    let name = name.strip_suffix(ending).unwrap_or(&name);
    let path = file.to_string_lossy();
    format!("    ({folder:?}, {name:?}, include_str!({path:?})),\n")
}
