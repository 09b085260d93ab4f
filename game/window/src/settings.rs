//! What a person set, kept between two sessions. It changes no attempt.

use std::{
    fs,
    path::{Path, PathBuf},
};

use rackproof_panel::Preferences;

use crate::platform::settings_folder;

/// A file of preferences as it is written.
#[derive(serde::Serialize, serde::Deserialize)]
#[serde(default)]
struct File {
    scale: f32,
    less_motion: bool,
    no_letters: bool,
    press_twice: bool,
    plain_words: bool,
}

impl Default for File {
    fn default() -> File {
        File::of(&Preferences::default())
    }
}

impl File {
    fn of(preferences: &Preferences) -> File {
        File {
            scale: preferences.scale,
            less_motion: preferences.less_motion,
            no_letters: preferences.no_letters,
            press_twice: preferences.press_twice,
            plain_words: preferences.plain_words,
        }
    }

    fn preferences(&self) -> Preferences {
        let scale = if self.scale.is_finite() {
            self.scale
        } else {
            1.0
        };
        Preferences {
            scale: scale.clamp(0.9, 2.0),
            less_motion: self.less_motion,
            no_letters: self.no_letters,
            press_twice: self.press_twice,
            plain_words: self.plain_words,
        }
    }
}

fn path() -> Option<PathBuf> {
    settings_folder().map(|folder| folder.join("rackproof").join("window.json"))
}

/// What was kept, or `None` if nothing was, or nothing that can be read.
pub(crate) fn kept() -> Option<Preferences> {
    path().as_deref().and_then(kept_in)
}

fn kept_in(path: &Path) -> Option<Preferences> {
    let text = fs::read_to_string(path).ok()?;
    let file: File = serde_json::from_str(&text).ok()?;
    Some(file.preferences())
}

/// Keeps them. Where that cannot be done they last until the window is closed.
pub(crate) fn keep(preferences: &Preferences) {
    if let Some(path) = path() {
        // A place that cannot be written is no reason to disturb anybody.
        let _unkept = keep_in(&path, preferences);
    }
}

fn keep_in(path: &Path, preferences: &Preferences) -> std::io::Result<()> {
    if let Some(folder) = path.parent() {
        fs::create_dir_all(folder)?;
    }
    fs::write(path, serde_json::to_string(&File::of(preferences))?)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_was_set_is_there_again_and_nonsense_is_not() {
        let folder = tempfile::tempdir().expect("a folder can be made");
        let path = folder.path().join("a").join("window.json");
        assert_eq!(kept_in(&path), None);
        let set = Preferences {
            scale: 1.5,
            less_motion: true,
            no_letters: false,
            press_twice: true,
            plain_words: true,
        };
        keep_in(&path, &set).expect("it can be written");
        assert_eq!(kept_in(&path), Some(set));
        for (text, scale) in [
            ("{\"scale\": 99}", Some(2.0)),
            ("{}", Some(1.0)),
            ("nonsense", None),
            ("{\"scale\": \"big\"}", None),
        ] {
            fs::write(&path, text).expect("it can be written");
            assert_eq!(kept_in(&path).map(|kept| kept.scale), scale, "{text}");
        }
    }
}
