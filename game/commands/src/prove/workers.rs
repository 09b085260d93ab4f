//! Several searches at a time.

use std::sync::{
    atomic::{AtomicUsize, Ordering},
    mpsc,
};

/// How many searches go on at a time, of so many.
pub(super) fn workers(jobs: usize) -> usize {
    std::thread::available_parallelism()
        .map_or(1, usize::from)
        .min(jobs)
}

/// Works on all jobs, on as many workers as the machine has. `work` may say how far it is; `hear`
/// gets all that is said, and each answer. The answers come in the order of the jobs.
pub(super) fn each<J: Sync, F: Send, A: Send>(
    jobs: &[J],
    work: impl Fn(&J, &mut dyn FnMut(F)) -> A + Sync,
    hear: &mut dyn FnMut(Said<'_, F, A>),
) -> Vec<A> {
    let next = AtomicUsize::new(0);
    let mut answers: Vec<Option<A>> = jobs.iter().map(|_| None).collect();
    std::thread::scope(|scope| {
        let (send, receive) = mpsc::channel();
        for _ in 0..workers(jobs.len()) {
            let (send, next, work) = (send.clone(), &next, &work);
            scope.spawn(move || {
                loop {
                    let number = next.fetch_add(1, Ordering::Relaxed);
                    let Some(job) = jobs.get(number) else { break };
                    // Whoever waited may have gone: then there is nobody to tell.
                    let mut far = |far| drop(send.send((number, Err(far))));
                    let answer = work(job, &mut far);
                    drop(send.send((number, Ok(answer))));
                }
            });
        }
        drop(send);
        for (number, said) in receive {
            match said {
                Err(far) => hear(Said::Far(far)),
                Ok(answer) => {
                    hear(Said::Done(&answer));
                    answers[number] = Some(answer);
                }
            }
        }
    });
    answers.into_iter().flatten().collect()
}

/// What is heard of the work.
pub(super) enum Said<'a, F, A> {
    /// How far a job is.
    Far(F),
    /// A job is done.
    Done(&'a A),
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_answers_come_in_the_order_of_the_jobs() {
        let jobs: Vec<u64> = (0..100).collect();
        let (mut far, mut done) = (0, 0);
        let answers = each(
            &jobs,
            |&job, tell| {
                tell(job);
                job * job
            },
            &mut |said| match said {
                Said::Far(number) => far += number,
                Said::Done(square) => done += square,
            },
        );
        assert_eq!(
            answers,
            jobs.iter().map(|job| job * job).collect::<Vec<_>>()
        );
        assert_eq!((far, done), (jobs.iter().sum(), answers.iter().sum()));
    }
}
