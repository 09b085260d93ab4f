//! Ctrl-C: the searches end, and what is known by then is said.
//!
//! This is the one place of the commands that knows the system's signals.

use std::{
    ops::ControlFlow,
    process,
    sync::atomic::{AtomicBool, Ordering},
};

use rackproof_model::Model;
use rackproof_prove::{Exploration, Hands, OneHand, Progress, Settings, explore_by};

use crate::Exit;

/// Somebody wants no more.
static CAME: AtomicBool = AtomicBool::new(false);

/// From now on Ctrl-C ends the searches, and a second one the program.
pub(super) fn heed() {
    // Where the system gives no signals, or somebody heeds them already, it is as it was.
    let _ = ctrlc::set_handler(|| {
        if CAME.swap(true, Ordering::Relaxed) {
            process::exit(i32::from(Exit::No.code()));
        }
    });
}

/// Whether somebody wants no more.
pub(super) fn came() -> bool {
    CAME.load(Ordering::Relaxed)
}

/// Explores as the explorer does, until somebody wants no more.
pub(super) fn explore<'m, M>(
    model: &'m M,
    starts: &[M::State],
    settings: &Settings,
    flags: impl Fn(&M::State) -> u64 + Sync,
) -> Exploration<'m, M>
where
    M: Model<State: Send, Cause: Send> + Sync,
{
    let told = &mut |_| {};
    explore_told((&OneHand, told), (model, starts), settings, flags)
}

/// The same by these hands; `tell` hears now and then how far it is.
pub(super) fn explore_told<'m, M>(
    (hands, tell): (&impl Hands, &mut dyn FnMut(Progress)),
    world: (&'m M, &[M::State]),
    settings: &Settings,
    flags: impl Fn(&M::State) -> u64 + Sync,
) -> Exploration<'m, M>
where
    M: Model<State: Send, Cause: Send> + Sync,
{
    explore_by(hands, world, settings, flags, |progress| {
        tell(progress);
        if came() {
            ControlFlow::Break(())
        } else {
            ControlFlow::Continue(())
        }
    })
}
