//! What differs from system to system: where preferences lie, and whether there is a display.

use std::{path::PathBuf, time::Duration};

/// The folder for what a person set, if the system has one.
pub(crate) fn settings_folder() -> Option<PathBuf> {
    let folder = |name: &str| {
        std::env::var_os(name)
            .filter(|value| !value.is_empty())
            .map(PathBuf::from)
    };
    if cfg!(windows) {
        folder("APPDATA")
    } else {
        folder("XDG_CONFIG_HOME").or_else(|| folder("HOME").map(|home| home.join(".config")))
    }
}

/// A new folder of this program alone, among the system's temporary ones.
pub(crate) fn own_folder() -> std::io::Result<PathBuf> {
    let name = format!("rackproof-{}", std::process::id());
    let folder = std::env::temp_dir().join(name);
    std::fs::create_dir(&folder)?;
    Ok(folder)
}

/// Time that all threads of this program have spent so far, at ten milliseconds' grain.
#[cfg(target_os = "linux")]
pub(crate) fn cpu_time() -> Option<Duration> {
    let text = std::fs::read_to_string("/proc/self/stat").ok()?;
    // After the name in brackets: state is the first field, time of user and system the 12th and
    // 13th, in hundredths of a second (proc(5)).
    let fields = text.rsplit_once(')')?.1;
    let times: Vec<u64> = fields
        .split_whitespace()
        .skip(11)
        .take(2)
        .filter_map(|field| field.parse().ok())
        .collect();
    let [user, system] = times.try_into().ok()?;
    Some(Duration::from_millis((user + system) * 10))
}

/// Not measured on this system.
#[cfg(not(target_os = "linux"))]
pub(crate) fn cpu_time() -> Option<Duration> {
    None
}

/// Whether a display answers that a window can be opened on.
#[cfg(target_os = "linux")]
pub(crate) fn has_display() -> bool {
    display::wayland() || display::x11()
}

/// Other systems always have one.
#[cfg(not(target_os = "linux"))]
pub(crate) fn has_display() -> bool {
    true
}

#[cfg(target_os = "linux")]
mod display {
    use std::{
        env,
        net::TcpStream,
        os::{
            linux::net::SocketAddrExt,
            unix::net::{SocketAddr, UnixStream},
        },
        path::{Path, PathBuf},
    };

    fn named(name: &str) -> Option<String> {
        env::var(name).ok().filter(|value| !value.is_empty())
    }

    /// Whether a Wayland compositor answers.
    pub(super) fn wayland() -> bool {
        let Some(name) = named("WAYLAND_DISPLAY") else {
            return false;
        };
        let folder = named("XDG_RUNTIME_DIR")
            .map(PathBuf::from)
            .unwrap_or_default();
        UnixStream::connect(folder.join(name)).is_ok()
    }

    /// Whether an X server answers.
    pub(super) fn x11() -> bool {
        named("DISPLAY").is_some_and(|display| match server(&display) {
            Some((host, number)) if host.is_empty() || host == "unix" => {
                let path = format!("/tmp/.X11-unix/X{number}");
                let hidden = SocketAddr::from_abstract_name(path.as_bytes());
                hidden.is_ok_and(|address| UnixStream::connect_addr(&address).is_ok())
                    || UnixStream::connect(Path::new(&path)).is_ok()
            }
            Some((host, number)) => TcpStream::connect((host, 6_000 + number)).is_ok(),
            None => false,
        })
    }

    /// Host and number of a display's name: `host:number.screen`.
    fn server(display: &str) -> Option<(&str, u16)> {
        let (host, rest) = display.rsplit_once(':')?;
        let number = rest.split('.').next()?.parse().ok()?;
        Some((host, number))
    }

    #[cfg(test)]
    mod tests {
        use super::*;

        #[test]
        fn names_of_displays_are_read() {
            let cases = [
                (":0", Some(("", 0))),
                (":99.1", Some(("", 99))),
                ("shop:10.0", Some(("shop", 10))),
                ("0", None),
                (":x", None),
            ];
            for (name, expected) in cases {
                assert_eq!(server(name), expected, "{name}");
            }
        }
    }
}
