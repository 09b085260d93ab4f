//! What was perceived, in words, by sense. Nothing of what was heard but its signs is read.

use rackproof_attempt::Heard;
use rackproof_buffer as buffer;
use rackproof_drill::message::{of_look, of_sign};
use rackproof_drill::{Cue, Outcome, Sign, VoidCause};
use rackproof_grade::JudgedOutcome;
use rackproof_phrases::text;

use crate::DrillView;

/// By which sense a sign comes. The panel shows its own signs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Sense {
    See,
    Hear,
    Told,
}

fn sense(sign: &Sign) -> Option<Sense> {
    match sign {
        Sign::Machine(sign) => match sign.shown() {
            buffer::Outcome::Started(_)
            | buffer::Outcome::Stopped(_)
            | buffer::Outcome::MotorHummed
            | buffer::Outcome::BrakeTicked => Some(Sense::Hear),
            _ => None,
        },
        // It has a card of its own.
        Sign::LooksVoided(_) => None,
        Sign::Told(_) => Some(Sense::Told),
        Sign::Crack | Sign::Cue(Cue::LiftJerks) => Some(Sense::Hear),
        _ => Some(Sense::See),
    }
}

/// A sound that no louder one may hide.
fn is_faint(sign: &Sign) -> bool {
    let Sign::Machine(sign) = sign else {
        return false;
    };
    matches!(
        sign.shown(),
        buffer::Outcome::MotorHummed | buffer::Outcome::BrakeTicked
    )
}

fn sign_of(heard: &Heard) -> Option<&Sign> {
    match &heard.outcome {
        JudgedOutcome::World(Outcome::Sign(sign)) => Some(sign),
        _ => None,
    }
}

/// A faint sound so shortly before the last one is still in the ear, in µs: a motor hums right
/// before it stops.
const IN_THE_EAR: u64 = 2_000_000;

/// What came last by one sense: when, and the sentences of that moment.
pub(super) fn last(view: &DrillView<'_>, wanted: Sense) -> Option<(u64, Vec<String>)> {
    let comes = |heard: &&Heard| sign_of(heard).and_then(sense) == Some(wanted);
    let at = view.heard.iter().rev().find(comes)?.at;
    let from = match wanted {
        Sense::Hear => at.saturating_sub(IN_THE_EAR),
        Sense::See | Sense::Told => at,
    };
    let now = view.heard.iter().rev();
    let now = now.take_while(|heard| heard.at >= from);
    let now = now.filter(|heard| heard.at >= at || sign_of(heard).is_some_and(is_faint));
    let mut said: Vec<String> = Vec::new();
    for heard in now.filter(comes) {
        let Some(sign) = sign_of(heard) else { continue };
        let mut sentences = sentences(view, sign);
        sentences.retain(|one| !said.contains(one));
        said.splice(0..0, sentences);
    }
    // A hand inside says nothing by itself.
    (!said.is_empty()).then_some((at, said))
}

fn sentences(view: &DrillView<'_>, sign: &Sign) -> Vec<String> {
    let messages = match sign {
        Sign::Looked { empty, boards } => of_look(*empty, *boards),
        _ => of_sign(view.world, sign).into_iter().collect(),
    };
    messages
        .iter()
        .map(|message| text(view.words, message))
        .collect()
}

/// Whether a sign is what a look showed.
fn is_look(sign: &Sign) -> bool {
    matches!(
        sign,
        Sign::Looked { .. } | Sign::SawBelt(..) | Sign::SawMouth(..)
    )
}

/// What made the looks void, and when: until the next look, and only if something was looked at.
pub(super) fn voided(view: &DrillView<'_>) -> Option<(u64, VoidCause)> {
    let mut void = None;
    for heard in view.heard.iter().rev() {
        match sign_of(heard) {
            Some(Sign::LooksVoided(cause)) => {
                void = void.or(Some((heard.at, *cause)));
            }
            Some(sign) if is_look(sign) => return void,
            _ => {}
        }
    }
    None
}

#[cfg(test)]
mod tests {
    use buffer::{AxisName, Outcome as Shown};
    use rackproof_drill::MachineSign;

    use super::*;
    use crate::{Way, drill_page::sample::Sample};

    fn heard(at: u64, shown: Shown) -> Heard {
        let sign = MachineSign::of(shown).expect("it can be heard");
        let outcome = JudgedOutcome::World(Outcome::Sign(Sign::Machine(sign)));
        Heard { at, outcome }
    }

    /// Without any sound of the program a hum is written, in an exam too, and what is louder right
    /// behind it does not hide it. What was long ago is gone.
    #[test]
    fn a_hum_is_written_though_the_rails_rest_right_after() {
        let sample = Sample::new(Way::Exam);
        for (rest, sentences) in [(1_200_000, 2), (9_000_000, 1)] {
            let list = [
                heard(1_000_000, Shown::MotorHummed),
                heard(rest, Shown::Stopped(AxisName::Rails)),
            ];
            let view = DrillView {
                heard: &list,
                ..sample.view()
            };
            let (at, said) = last(&view, Sense::Hear).expect("something was heard");
            assert_eq!((at, said.len()), (rest, sentences), "{said:?}");
            let hums = said.iter().any(|one| one.contains("hums softly"));
            assert_eq!(hums, sentences == 2, "{said:?}");
        }
    }
}
