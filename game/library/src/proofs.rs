//! Where proofs are kept: beside their drills, and one compiled in.

use std::{
    fs::{self, File},
    io::{self, Write},
    path::{Path, PathBuf},
};

use rackproof_attempt::{Exercise, Material, Proof, ProofState, Text};
use rackproof_files::Problems;

use crate::read_text;

/// How the name of every proof ends.
const ENDING: &str = "proof.ron";

/// Where the proof of a drill is kept: `NAME.ron` has `NAME.proof.ron`.
pub fn proof_path(drill: &Path) -> PathBuf {
    drill.with_extension(ENDING)
}

/// Whether a file is a proof by its name, and so no drill.
pub fn is_proof(path: &Path) -> bool {
    let name = path.file_name().unwrap_or_default().to_string_lossy();
    name == ENDING || name.ends_with(&format!(".{ENDING}"))
}

/// The file of a drill's proof, by the drill's text: beside the drill, else compiled in. `None` if
/// there is none.
///
/// # Errors
/// If it cannot be read, or is not UTF-8.
pub fn kept_proof(drill: &Text) -> io::Result<Option<Text>> {
    let path = proof_path(Path::new(&drill.file));
    match read_text(&path) {
        Ok(text) => Ok(Some(text)),
        Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(built_in(&path)),
        Err(error) => Err(error),
    }
}

/// The proof of a drill that is compiled in, by the path at which it would be kept.
fn built_in(path: &Path) -> Option<Text> {
    // A drill in a folder has its proof in that folder: only what is compiled in has none.
    let name = path.to_str()?.strip_suffix(ENDING)?.strip_suffix('.')?;
    let kept = crate::built_in("proofs", name)?;
    Some(Text {
        file: format!("{name}.{ENDING}"),
        ..kept
    })
}

/// How a drill stands to its proof.
pub(crate) fn proof_state(material: &Material, exercise: &Exercise) -> ProofState {
    let text = match kept_proof(&material.drill) {
        Ok(Some(text)) => text,
        Ok(None) => return ProofState::Missing,
        Err(_) => return ProofState::Broken,
    };
    let problems = Problems::new();
    match Proof::read(problems.for_file(&text.file, &text.text)) {
        Some(proof) => proof.state(material, exercise, &text.text),
        None => ProofState::Broken,
    }
}

/// Keeps a proof beside its drill, in place of the one before: whole or not at all. Gives its path.
///
/// # Errors
/// The path, and why it cannot be written.
pub fn keep_proof(drill: &Path, proof: &Proof) -> Result<PathBuf, (PathBuf, io::Error)> {
    let path = proof_path(drill);
    let part = path.with_extension(format!("ron.{}", std::process::id()));
    let written = write(&part, &proof.text()).and_then(|()| fs::rename(&part, &path));
    match written {
        Ok(()) => Ok(path),
        Err(error) => {
            // It is of no use to anybody. If it cannot be removed, the error above says why.
            let _ = fs::remove_file(&part);
            Err((path, error))
        }
    }
}

fn write(path: &Path, text: &str) -> io::Result<()> {
    let mut file = File::create(path)?;
    file.write_all(text.as_bytes())?;
    file.sync_all()
}

#[cfg(test)]
mod tests {
    use rackproof_attempt::{Hashes, core_hash};

    use super::*;
    use crate::{FIRST_DRILL, built_in_drill, load, shown};

    fn proof(material: &Material, holds: bool) -> Proof {
        Proof {
            drill: FIRST_DRILL.to_owned(),
            texts: Hashes::of(material),
            core: core_hash().to_owned(),
            claims: vec![("fair".to_owned(), holds)],
            ..Proof::default()
        }
    }

    #[test]
    fn a_proof_is_kept_beside_its_drill_and_found_again() {
        let folder = tempfile::tempdir().expect("a folder can be made");
        let path = folder.path().join("other.ron");
        let drill = Text {
            file: shown(&path),
            ..built_in_drill()
        };
        let state = || {
            let loaded = load(drill.clone(), &Problems::new()).expect("it has no problem");
            (loaded.proof, loaded.material)
        };
        let (missing, material) = state();
        assert_eq!(missing, ProofState::Missing);
        let kept = keep_proof(&path, &proof(&material, true)).expect("it can be written");
        assert!(kept.ends_with("other.proof.ron"), "{kept:?}");
        assert!(state().0.hash().is_some());
        // The next one takes its place.
        keep_proof(&path, &proof(&material, false)).expect("it can be written");
        assert_eq!(state().0, ProofState::Failed(vec!["fair".to_owned()]));
        let whole = fs::read_to_string(&kept).expect("it is there");
        fs::write(&kept, &whole[..whole.len() / 2]).expect("it can be written");
        assert_eq!(state().0, ProofState::Broken);
        fs::write(&kept, b"\xff").expect("it can be written");
        assert_eq!(state().0, ProofState::Broken);
        let there = fs::read_dir(folder.path()).expect("it is there").count();
        assert_eq!(there, 1, "nothing else is left there");
    }

    #[test]
    fn a_proof_that_cannot_be_written_leaves_nothing_behind() {
        let folder = tempfile::tempdir().expect("a folder can be made");
        let path = folder.path().join("other.ron");
        // A folder stands where the proof is to be.
        fs::create_dir_all(folder.path().join("other.proof.ron/inside")).expect("it can be made");
        assert!(keep_proof(&path, &Proof::default()).is_err());
        let there = fs::read_dir(folder.path()).expect("it is there").count();
        assert_eq!(there, 1);
    }

    #[test]
    fn each_drill_that_is_compiled_in_has_its_own_proof() {
        for drill in crate::built_in_drills() {
            let path = proof_path(Path::new(&drill.file));
            assert_eq!(built_in(&Path::new("nowhere").join(&path)), None);
            let shipped = Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/../../scenarios"));
            let files = crate::files_in(shipped, "ron").expect("it is there");
            let kept = files.iter().find(|file| file.ends_with(&path));
            let text = kept.map(|file| read_text(file).expect("it can be read").text);
            assert_eq!(built_in(&path).map(|found| found.text), text, "{path:?}");
        }
        assert_eq!(built_in(Path::new("other.proof.ron")), None);
    }

    #[test]
    fn proofs_are_known_by_their_names() {
        for (name, is) in [
            ("a/left-inside.proof.ron", true),
            ("proof.ron", true),
            ("a/left-inside.ron", false),
            ("a/fireproof.ron", false),
            ("left.proof.ron/a.ron", false),
        ] {
            assert_eq!(is_proof(Path::new(name)), is, "{name}");
        }
        let path = proof_path(Path::new("a/left-inside.ron"));
        assert_eq!(path, Path::new("a/left-inside.proof.ron"));
    }
}
