//! Several searches at a time.

use std::sync::{
    Mutex, PoisonError,
    atomic::{AtomicUsize, Ordering},
    mpsc,
};

use rackproof_prove::{Hands, OneHand};

/// How many searches go on at a time, of so many.
pub(super) fn workers(jobs: usize) -> usize {
    cores().min(jobs)
}

fn cores() -> usize {
    std::thread::available_parallelism().map_or(1, usize::from)
}

/// The processor's cores, shared by the searches that go on: a search gets more of them as soon as
/// there is nothing else to do.
pub(super) struct Crew {
    cores: usize,
    searches: AtomicUsize,
}

impl Crew {
    /// All cores, for one search alone.
    pub(super) fn whole() -> Crew {
        Crew {
            cores: cores(),
            searches: AtomicUsize::new(1),
        }
    }
}

impl Hands for Crew {
    fn count(&self) -> usize {
        self.cores / self.searches.load(Ordering::Relaxed).max(1)
    }

    fn each<P: Send>(
        &self,
        parts: &mut [P],
        work: impl Fn(&mut P) + Sync,
        meanwhile: impl FnOnce(),
    ) {
        let helpers = self.count().min(parts.len()).saturating_sub(1);
        if helpers == 0 {
            return OneHand.each(parts, work, meanwhile);
        }
        let left = Mutex::new(parts.iter_mut());
        let next = || left.lock().unwrap_or_else(PoisonError::into_inner).next();
        let all = || {
            while let Some(part) = next() {
                work(part);
            }
        };
        std::thread::scope(|scope| {
            for _ in 0..helpers {
                scope.spawn(all);
            }
            meanwhile();
            all();
        });
    }
}

/// Works on all jobs, on as many workers as the machine has. `work` may say how far it is; `hear`
/// gets all that is said, and each answer. The answers come in the order of the jobs. Cores that
/// have no job help the others.
pub(super) fn each<J: Sync, F: Send, A: Send>(
    jobs: &[J],
    work: impl Fn(&J, &Crew, &mut dyn FnMut(F)) -> A + Sync,
    hear: &mut dyn FnMut(Said<'_, F, A>),
) -> Vec<A> {
    let next = AtomicUsize::new(0);
    let mut answers: Vec<Option<A>> = jobs.iter().map(|_| None).collect();
    let crew = Crew {
        cores: cores(),
        searches: AtomicUsize::new(workers(jobs.len())),
    };
    std::thread::scope(|scope| {
        let (send, receive) = mpsc::channel();
        for _ in 0..workers(jobs.len()) {
            let (send, next, work, crew) = (send.clone(), &next, &work, &crew);
            scope.spawn(move || {
                loop {
                    let number = next.fetch_add(1, Ordering::Relaxed);
                    let Some(job) = jobs.get(number) else { break };
                    // Whoever waited may have gone: then there is nobody to tell.
                    let mut far = |far| drop(send.send((number, Err(far))));
                    let answer = work(job, crew, &mut far);
                    drop(send.send((number, Ok(answer))));
                }
                crew.searches.fetch_sub(1, Ordering::Relaxed);
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
            |&job, _, tell| {
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

    #[test]
    fn a_crew_does_each_part_once_and_what_is_to_be_done_beside_them() {
        for (cores, searches) in [(1, 1), (2, 1), (4, 1), (4, 2), (1, 3)] {
            let crew = Crew {
                cores,
                searches: AtomicUsize::new(searches),
            };
            for count in [0, 1, 2, 100] {
                let (mut parts, mut beside) = (vec![0; count], 0);
                crew.each(&mut parts, |part| *part += 1, || beside += 1);
                assert_eq!((parts, beside), (vec![1; count], 1), "{cores} {searches}");
            }
        }
        assert_eq!(Crew::whole().count(), cores());
    }
}
