//! Standing still, measured from outside: nothing is asked of the window meanwhile.

use std::{
    sync::{
        Arc, OnceLock,
        atomic::{AtomicU32, Ordering},
    },
    time::Duration,
};

use bevy::winit::{EventLoopProxyWrapper, WinitUserEvent};

use crate::platform;

/// How long the window has rested at least before it is measured.
const SETTLED: Duration = Duration::from_secs(2);

/// How long it is measured.
const MEASURED: Duration = Duration::from_secs(30);

/// What came of it, once it is there.
#[derive(Clone, Debug, Default)]
pub(super) struct Resting(Arc<OnceLock<Rested>>);

/// A window that stood still.
#[derive(Clone, Copy, Debug)]
struct Rested {
    spent: Option<Duration>,
    pictures: u32,
}

impl Resting {
    /// Begins to measure, and wakes the window when it is done. `pictures` counts its pictures.
    pub(super) fn begin(pictures: Arc<AtomicU32>, proxy: &EventLoopProxyWrapper) -> Resting {
        let resting = Resting::default();
        let (kept, proxy) = (resting.clone(), (**proxy).clone());
        std::thread::spawn(move || {
            std::thread::sleep(SETTLED);
            let (before, drawn) = (platform::cpu_time(), pictures.load(Ordering::Relaxed));
            std::thread::sleep(MEASURED);
            let spent = platform::cpu_time().zip(before);
            let rested = Rested {
                spent: spent.map(|(after, before)| after.saturating_sub(before)),
                pictures: pictures.load(Ordering::Relaxed) - drawn,
            };
            kept.0.get_or_init(|| rested);
            // Only a window that was closed meanwhile is gone.
            let _gone = proxy.send_event(WinitUserEvent::WakeUp);
        });
        resting
    }

    /// Share of one processor, and pictures. `None`: not done yet.
    pub(super) fn told(&self) -> Option<String> {
        let rested = self.0.get()?;
        let pictures = rested.pictures;
        Some(match rested.spent {
            Some(spent) => {
                let share = spent.as_secs_f64() * 100.0 / MEASURED.as_secs_f64();
                format!("{share:.1} %, {pictures}")
            }
            None => format!("-, {pictures}"),
        })
    }
}
