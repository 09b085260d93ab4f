//! Makes the hash of the core that this program is built with.

use std::{
    fs, io,
    path::{Path, PathBuf},
};

use sha2::{Digest, Sha256};

#[path = "src/core_text.rs"]
mod core_text;

/// The crates that decide what is true in a drill and how it is judged.
const CORE: [&str; 4] = ["model", "buffer", "drill", "grade"];

fn main() -> io::Result<()> {
    let mut files = Vec::new();
    for name in CORE {
        let folder = format!("../{name}/src");
        println!("cargo::rerun-if-changed={folder}");
        collect(Path::new(&folder), &format!("{name}/src"), &mut files)?;
    }
    println!("cargo::rerun-if-changed=src/core_text.rs");
    println!("cargo::rerun-if-changed=build.rs");
    let digest = Sha256::digest(core_text::counting(&files).as_bytes());
    let hash: String = digest.iter().map(|byte| format!("{byte:02x}")).collect();
    println!("cargo::rustc-env=RACKPROOF_CORE={hash}");
    Ok(())
}

/// All sources in a folder, under the name that it has in the house.
fn collect(folder: &Path, name: &str, out: &mut Vec<core_text::Source>) -> io::Result<()> {
    let entries: Result<Vec<PathBuf>, io::Error> = fs::read_dir(folder)?
        .map(|entry| entry.map(|entry| entry.path()))
        .collect();
    for path in entries? {
        let last = path.file_name().unwrap_or_default().to_string_lossy();
        let name = format!("{name}/{last}");
        if path.is_dir() {
            collect(&path, &name, out)?;
        } else if last.ends_with(".rs") {
            out.push((name, fs::read_to_string(&path)?));
        }
    }
    Ok(())
}
