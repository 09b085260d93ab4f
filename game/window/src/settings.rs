//! What a person set, kept between two sessions. It changes no attempt.

use std::{
    fs,
    path::{Path, PathBuf},
};

use rackproof_panel::{Preferences, STRETCHES};

use crate::platform::settings_folder;

/// A file of preferences as it is written.
#[derive(serde::Serialize, serde::Deserialize)]
#[serde(default)]
struct File {
    /// `None` where nobody chose a size: it follows that of the window.
    scale: Option<f32>,
    less_motion: bool,
    no_letters: bool,
    press_twice: bool,
    plain_words: bool,
    stretch: u32,
}

impl Default for File {
    fn default() -> File {
        File::of(&Preferences::default())
    }
}

impl File {
    fn of(preferences: &Preferences) -> File {
        File {
            scale: preferences.own_scale.then_some(preferences.scale),
            less_motion: preferences.less_motion,
            no_letters: preferences.no_letters,
            press_twice: preferences.press_twice,
            plain_words: preferences.plain_words,
            stretch: preferences.stretch,
        }
    }

    fn preferences(&self) -> Preferences {
        let scale = self.scale.filter(|scale| scale.is_finite());
        Preferences {
            scale: scale.map_or(1.0, |scale| scale.clamp(0.9, 2.0)),
            own_scale: scale.is_some(),
            less_motion: self.less_motion,
            no_letters: self.no_letters,
            press_twice: self.press_twice,
            plain_words: self.plain_words,
            stretch: Some(self.stretch)
                .filter(|stretch| STRETCHES.contains(stretch))
                .unwrap_or(1),
        }
    }
}

/// The size of texts that suits a window of this size in logical pixels: 1.0 at 1280x720, 1.25 from
/// 1920x1080 on.
pub(crate) fn fitting(width: f32, height: f32) -> f32 {
    if width >= 1920.0 && height >= 1000.0 {
        1.25
    } else {
        1.0
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
            own_scale: true,
            less_motion: true,
            no_letters: false,
            press_twice: true,
            plain_words: true,
            stretch: 4,
        };
        keep_in(&path, &set).expect("it can be written");
        assert_eq!(kept_in(&path), Some(set));
        let unset = Preferences {
            scale: 1.25,
            own_scale: false,
            ..set
        };
        keep_in(&path, &unset).expect("it can be written");
        let kept = kept_in(&path).map(|kept| (kept.scale, kept.own_scale));
        assert_eq!(kept, Some((1.0, false)), "it follows the window anew");
        fs::write(&path, "{\"stretch\": 0}").expect("it can be written");
        assert_eq!(kept_in(&path).map(|kept| kept.stretch), Some(1));
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
