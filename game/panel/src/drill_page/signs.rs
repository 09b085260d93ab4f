//! What was perceived, in words, by sense. Nothing of what was heard but its signs is read.

use rackproof_attempt::Heard;
use rackproof_buffer as buffer;
use rackproof_drill::message::{of_look, of_sign};
use rackproof_drill::{Outcome, Sign, VoidCause};
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
        Sign::Crack => Some(Sense::Hear),
        _ => Some(Sense::See),
    }
}

fn sign_of(heard: &Heard) -> Option<&Sign> {
    match &heard.outcome {
        JudgedOutcome::World(Outcome::Sign(sign)) => Some(sign),
        _ => None,
    }
}

/// What came last by one sense: when, and the sentences of that moment.
pub(super) fn last(view: &DrillView<'_>, wanted: Sense) -> Option<(u64, Vec<String>)> {
    let comes = |heard: &&Heard| sign_of(heard).and_then(sense) == Some(wanted);
    let at = view.heard.iter().rev().find(comes)?.at;
    let now = view.heard.iter().rev().take_while(|heard| heard.at >= at);
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
