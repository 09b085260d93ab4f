//! The window as the commands know it.

use std::path::Path;

use rackproof_commands::display::{Display, Figure, Missing, Page, Picture, SearchShortest};
use rackproof_library::Loaded;
use rackproof_window as window;

/// The window of this program.
pub(crate) struct Hall;

fn missing(missing: window::Missing) -> Missing {
    match missing {
        window::Missing::Display => Missing::Display,
        window::Missing::Driver => Missing::Driver,
        window::Missing::Picture => Missing::Picture,
        window::Missing::Window => Missing::Window,
        window::Missing::Other(reason) => Missing::Other(reason),
    }
}

impl Display for Hall {
    fn open(
        &self,
        drills: (Loaded, Vec<Loaded>),
        attempt: Option<&Path>,
        search: SearchShortest,
    ) -> Result<(), Missing> {
        window::open(drills, attempt, search).map_err(missing)
    }

    fn pictures(&self, wanted: &[Picture<'_>]) -> Result<Vec<Vec<u8>>, Missing> {
        let wanted: Vec<window::Picture<'_>> = wanted
            .iter()
            .map(|one| window::Picture {
                exercise: one.exercise,
                attempt: one.attempt,
                notes: one.notes,
                mode: one.mode,
                at: one.at,
                debrief: one.page == Page::Debrief,
                size: one.size,
            })
            .collect();
        window::pictures(&wanted).map_err(missing)
    }

    fn measure(&self, drill: Loaded) -> Result<Vec<Figure>, Missing> {
        let figures = window::measure(drill).map_err(missing)?;
        let named = figures.into_iter().map(|(id, value)| Figure { id, value });
        Ok(named.collect())
    }
}
