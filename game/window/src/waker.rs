//! Wakes the window when its next picture is due, from a thread of its own. The engine could wake
//! by itself after a time, but each change of that time costs a picture more.

use std::{
    sync::mpsc::{Receiver, RecvTimeoutError, Sender, channel},
    thread,
    time::{Duration, Instant},
};

/// Wakes somebody, at the time that was said last.
#[derive(Debug)]
pub(crate) struct Waker(Sender<Option<Instant>>);

impl Waker {
    /// A waker that does `wake` at each time that is due, as long as it is kept and `wake` can.
    pub(crate) fn new(wake: impl Fn() -> bool + Send + 'static) -> Waker {
        let (send, receive) = channel();
        thread::spawn(move || keep_time(&receive, &wake));
        Waker(send)
    }

    /// Wakes once after so much time, or not at all, whatever was said before.
    pub(crate) fn wake_in(&self, wait: Option<Duration>) {
        // Whoever could not be woken any more has gone, and the thread with it.
        let _gone = self.0.send(wait.map(|wait| Instant::now() + wait));
    }
}

/// Waits for a time and what changes it, until nobody says any more.
fn keep_time(said: &Receiver<Option<Instant>>, wake: &dyn Fn() -> bool) {
    let mut due: Option<Instant> = None;
    loop {
        let heard = match due {
            Some(at) => said.recv_timeout(at.saturating_duration_since(Instant::now())),
            None => said.recv().map_err(|_| RecvTimeoutError::Disconnected),
        };
        match heard {
            Ok(next) => due = next,
            Err(RecvTimeoutError::Timeout) => {
                due = None;
                if !wake() {
                    return;
                }
            }
            Err(RecvTimeoutError::Disconnected) => return,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn it_wakes_once_for_what_was_said_last() {
        let (send, receive) = channel();
        let waker = Waker::new(move || send.send(()).is_ok());
        waker.wake_in(Some(Duration::ZERO));
        assert_eq!(receive.recv(), Ok(()));
        // Taken back, and put off: only the last counts.
        waker.wake_in(Some(Duration::from_secs(3_600)));
        waker.wake_in(None);
        waker.wake_in(Some(Duration::from_millis(1)));
        assert_eq!(receive.recv(), Ok(()));
        // Once: when it is gone, nothing more has come.
        drop(waker);
        assert_eq!(receive.recv().ok(), None);
    }
}
