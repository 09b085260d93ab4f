//! Whether the attempts so far are enough to decide, by Wald's sequential test.
//!
//! Two rates are told apart: `good`, of somebody who should be certified, and `poor`, of somebody
//! who must not be. After each attempt the log of the ratio of likelihoods moves: up by
//! ln(good / poor) if it passed, down by ln((1 - poor) / (1 - good)) if not. With a the risk of
//! certifying the poor and b that of holding back the good, it is decided at
//! ln((1 - b) / a) and at ln(b / (1 - a)). Source: Wald 1947, from memory.

use crate::{Problem, Trials};

/// What a sequential test is to tell apart, and how often it may be wrong.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Aims {
    /// How often somebody passes who must not be certified.
    pub poor: f64,
    /// How often somebody passes who should be certified.
    pub good: f64,
    /// The risk of certifying somebody with the poor rate.
    pub false_pass: f64,
    /// The risk of holding back somebody with the good rate.
    pub false_hold: f64,
}

impl Aims {
    /// The lowest rate that is taken.
    pub const RATE_LEAST: f64 = 0.001;
    /// The highest rate that is taken.
    pub const RATE_MOST: f64 = 0.999;
    /// How far apart the two rates must be at least.
    pub const GAP_LEAST: f64 = 0.001;
    /// The lowest risk that is taken.
    pub const RISK_LEAST: f64 = 0.0001;
    /// The highest risk that is taken: below one half, so that the bounds lie apart.
    pub const RISK_MOST: f64 = 0.49;
}

/// A sequential test.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Plan {
    bounds: Bounds,
    steps: Steps,
}

/// Where it is decided. Natural logarithms.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bounds {
    /// From here up somebody may be certified. Above 0.
    pub certified: f64,
    /// From here down it is not yet. Below 0.
    pub not_yet: f64,
}

/// How far an attempt moves the ratio. Natural logarithms.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Steps {
    /// If it passed. Above 0.
    pub passed: f64,
    /// If it did not. Below 0.
    pub failed: f64,
}

/// What the attempts say.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Decision {
    /// May be certified.
    Certified,
    /// Not yet.
    NotYet,
    /// Too early to say.
    GoOn,
}

/// How the attempts went.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Course {
    /// What they say.
    pub decision: Decision,
    /// How many were looked at: up to the one that decided, or all.
    pub attempts: usize,
    /// The log of the ratio after those.
    pub ratio: f64,
}

/// A ratio that is short of a bound by less than this has reached it: a bound that whole steps
/// meet exactly would be missed by rounding. The same goes for the gap between two rates.
const ROUNDING: f64 = 1e-9;

impl Plan {
    /// The test with these aims, if it can be.
    pub fn new(aims: Aims) -> Result<Plan, Problem> {
        for rate in [aims.poor, aims.good] {
            if !(Aims::RATE_LEAST..=Aims::RATE_MOST).contains(&rate) {
                return Err(Problem::RateOutOfBounds(rate));
            }
        }
        if aims.good - aims.poor < Aims::GAP_LEAST - ROUNDING {
            return Err(Problem::RatesTooClose {
                poor: aims.poor,
                good: aims.good,
            });
        }
        for risk in [aims.false_pass, aims.false_hold] {
            if !(Aims::RISK_LEAST..=Aims::RISK_MOST).contains(&risk) {
                return Err(Problem::RiskOutOfBounds(risk));
            }
        }
        Ok(Plan {
            bounds: Bounds {
                certified: ((1.0 - aims.false_hold) / aims.false_pass).ln(),
                not_yet: (aims.false_hold / (1.0 - aims.false_pass)).ln(),
            },
            steps: Steps {
                passed: (aims.good / aims.poor).ln(),
                failed: ((1.0 - aims.good) / (1.0 - aims.poor)).ln(),
            },
        })
    }

    /// Where it is decided.
    pub fn bounds(&self) -> Bounds {
        self.bounds
    }

    /// How far an attempt moves the ratio.
    pub fn steps(&self) -> Steps {
        self.steps
    }

    /// How many attempts certify if all pass.
    pub fn clean_run(&self) -> Trials {
        // At most some 9 300, from the bounds on the aims.
        let least = ((self.bounds.certified - ROUNDING) / self.steps.passed).ceil();
        Trials(least as u32)
    }

    /// Looks at the attempts in their order, true if passed, until it is decided. What comes
    /// after that does not count: the risks hold for the first crossing alone.
    pub fn decide(&self, passed: &[bool]) -> Course {
        let (mut successes, mut failures) = (0_u64, 0_u64);
        let mut course = Course {
            decision: Decision::GoOn,
            attempts: 0,
            ratio: 0.0,
        };
        for &is_success in passed {
            if is_success {
                successes += 1;
            } else {
                failures += 1;
            }
            // From the counts each time, so that rounding does not add up.
            course.ratio =
                successes as f64 * self.steps.passed + failures as f64 * self.steps.failed;
            course.attempts += 1;
            course.decision = self.at(course.ratio);
            if course.decision != Decision::GoOn {
                break;
            }
        }
        course
    }

    fn at(&self, ratio: f64) -> Decision {
        if ratio >= self.bounds.certified - ROUNDING {
            Decision::Certified
        } else if ratio <= self.bounds.not_yet + ROUNDING {
            Decision::NotYet
        } else {
            Decision::GoOn
        }
    }
}
