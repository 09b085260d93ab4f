//! The files of the house: what is, or could be, under version control.

use std::path::Path;
use std::process::Command;

/// The folder that the workspace is in.
const ROOT: &str = env!("CARGO_MANIFEST_DIR");

/// All files, tracked or new, without what git ignores, as sorted paths with `/` from the root.
/// Without git, or outside a clone: all files but those of `.git` and of `target` folders.
pub(crate) fn files() -> Result<Vec<String>, String> {
    let mut files = match from_git() {
        Some(files) if !files.is_empty() => files,
        _ => {
            let mut files = Vec::new();
            walk(Path::new(ROOT), "", &mut files)
                .map_err(|error| format!("{ROOT} cannot be walked: {error}"))?;
            files
        }
    };
    files.sort();
    files.dedup();
    Ok(files)
}

/// The text of a file, or None if it is not text.
pub(crate) fn read(path: &str) -> Result<Option<String>, String> {
    let bytes = std::fs::read(Path::new(ROOT).join(path))
        .map_err(|error| format!("{path} cannot be read: {error}"))?;
    Ok(String::from_utf8(bytes).ok())
}

fn from_git() -> Option<Vec<String>> {
    let output = Command::new("git")
        .args([
            "ls-files",
            "-z",
            "--cached",
            "--others",
            "--exclude-standard",
        ])
        .current_dir(ROOT)
        .output()
        .ok()?;
    let text = String::from_utf8(output.stdout).ok()?;
    // A file that was deleted but not yet committed is still listed.
    let exists = |path: &&str| Path::new(ROOT).join(path).is_file();
    let files = text
        .split('\0')
        .filter(|path| !path.is_empty())
        .filter(exists);
    output
        .status
        .success()
        .then(|| files.map(str::to_owned).collect())
}

fn walk(folder: &Path, prefix: &str, files: &mut Vec<String>) -> std::io::Result<()> {
    for entry in std::fs::read_dir(folder)? {
        let entry = entry?;
        let name = entry.file_name().to_string_lossy().into_owned();
        let path = format!("{prefix}{name}");
        if !entry.file_type()?.is_dir() {
            files.push(path);
        } else if name != ".git" && name != "target" {
            walk(&entry.path(), &format!("{path}/"), files)?;
        }
    }
    Ok(())
}

#[test]
fn git_and_the_folder_name_the_same_sources() -> Result<(), String> {
    let mut walked = Vec::new();
    walk(Path::new(ROOT), "", &mut walked).map_err(|error| error.to_string())?;
    for listed in [files()?, walked] {
        for expected in ["Cargo.toml", "game/main.rs", "tests/house/listing.rs"] {
            assert!(
                listed.iter().any(|path| path == expected),
                "{expected} not in {listed:?}"
            );
        }
        assert!(listed.iter().all(|path| !path.starts_with(".git/")));
    }
    Ok(())
}
