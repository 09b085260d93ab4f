//! Outcomes as text: what a kept attempt records beside each cause. The form never changes its
//! meaning: an old record is compared with what this program computes, text by text. Names of plain
//! choices are their names in the core; a test pins every form.

use rackproof_buffer::{self as buffer, Halves, Harm, Place};
use rackproof_drill::{Cue, Fact, Outcome, Sign, World};
use rackproof_grade::{Judged, JudgedOutcome};

use crate::{notation::half_slot_text, setting_text::setting_text};

/// One outcome as kept attempts write it.
pub fn outcome_text(judged: &Judged, outcome: &JudgedOutcome) -> String {
    let world = judged.world();
    match outcome {
        JudgedOutcome::Broke(rule) => {
            let rule = judged.rules().list.get(usize::from(*rule));
            format!("Broke({})", rule.map_or("", |rule| rule.name.as_str()))
        }
        JudgedOutcome::World(Outcome::Harm(harm)) => harm_text(world, harm),
        JudgedOutcome::World(Outcome::Fact(fact)) => fact_text(world, fact),
        JudgedOutcome::World(Outcome::Sign(sign)) => sign_text(world, sign),
    }
}

fn kind(world: &World, number: u8) -> &str {
    let names = &world.hall().kind_names;
    names.get(usize::from(number)).map_or("", String::as_str)
}

fn product(world: &World, number: u8) -> &str {
    let names = &world.hall().product_names;
    names.get(usize::from(number)).map_or("", String::as_str)
}

fn slot(number: u8) -> u32 {
    u32::from(number) + 1
}

fn halves(set: Halves) -> String {
    format!("{:x}/{:x}", set.infeed, set.outfeed)
}

/// A place as attempts write it: `Slot(5, Outfeed)`, `Belt(Infeed)`.
pub fn place_text(place: Place) -> String {
    match place {
        Place::Slot(at) => format!("Slot({})", half_slot_text(at)),
        Place::Belt(side) => format!("Belt({side:?})"),
        Place::Mouth(side) => format!("Mouth({side:?})"),
    }
}

fn harm_text(world: &World, harm: &Harm) -> String {
    let Harm {
        kind: what,
        board,
        place,
        number,
        limit,
    } = *harm;
    let board = board.map_or("none", |board| kind(world, board));
    format!(
        "Harm({what:?}, {board}, {}, {number}, {limit})",
        place.map_or_else(|| "nowhere".to_owned(), place_text)
    )
}

fn fact_text(world: &World, fact: &Fact) -> String {
    let at =
        |name: &str, at, board| format!("{name}({}, {})", half_slot_text(at), kind(world, board));
    match *fact {
        Fact::BoardEntered => "BoardEntered".to_owned(),
        Fact::LiftSank => "LiftSank".to_owned(),
        Fact::BoardLaid(board) => format!("BoardLaid({})", kind(world, board)),
        Fact::FailedBoardCame(board) => format!("FailedBoardCame({})", kind(world, board)),
        Fact::FailedBoardTakenAway(board) => {
            format!("FailedBoardTakenAway({})", kind(world, board))
        }
        Fact::BoardTaken(slot, board) => at("BoardTaken", slot, board),
        Fact::BoardPutIn(slot, board) => at("BoardPutIn", slot, board),
        Fact::BoardPutDown { kind: board, good } => {
            format!("BoardPutDown({}, good {good})", kind(world, board))
        }
    }
}

fn sign_text(world: &World, sign: &Sign) -> String {
    match *sign {
        Sign::Machine(sign) => machine_text(world, sign.shown()),
        Sign::LooksVoided(cause) => format!("LooksVoided({cause:?})"),
        Sign::Looked { empty, boards } => {
            format!("Looked(empty {}, boards {})", halves(empty), halves(boards))
        }
        Sign::Dark => "Dark".to_owned(),
        Sign::SawBoard {
            at,
            kind: board,
            damaged,
        } => format!(
            "SawBoard({}, {}, damaged {damaged})",
            half_slot_text(at),
            kind(world, board)
        ),
        Sign::SawBelt(side, boards) => format!("SawBelt({side:?}, {boards})"),
        Sign::SawMouth(side, taken) => format!("SawMouth({side:?}, taken {taken})"),
        Sign::Took {
            kind: board,
            damaged,
        } => {
            format!("Took({}, damaged {damaged})", kind(world, board))
        }
        Sign::NothingThere => "NothingThere".to_owned(),
        Sign::NoRoom(at) => format!("NoRoom({})", half_slot_text(at)),
        Sign::NothingStarted => "NothingStarted".to_owned(),
        Sign::Told(told) => format!("Told({told:?})"),
        Sign::StrapsTested => "StrapsTested".to_owned(),
        Sign::HandEntered => "HandEntered".to_owned(),
        Sign::Crack => "Crack".to_owned(),
        Sign::BoardLaid => "SawBoardLaid".to_owned(),
        Sign::Cue(cue) => cue_text(cue),
    }
}

fn cue_text(cue: Cue) -> String {
    match cue {
        Cue::Bowed(place) => format!("Cue(Bowed({}))", place_text(place)),
        Cue::Askew(place) => format!("Cue(Askew({}))", place_text(place)),
        Cue::Turned(place) => format!("Cue(Turned({}))", place_text(place)),
        _ => format!("Cue({cue:?})"),
    }
}

fn machine_text(world: &World, shown: buffer::Outcome) -> String {
    use buffer::{Outcome as Shown, Question};
    let question = |question: Question| match question {
        Question::Rails => "Rails".to_owned(),
        Question::Seen(at) => format!("Seen({})", slot(at)),
        Question::Take(at) => format!("Take({})", slot(at)),
        Question::Answer(at) => format!("Answer({})", slot(at)),
        Question::Arrival(at) => format!("Arrival({})", slot(at)),
        Question::AnswerHalf(at) => format!("AnswerHalf({})", half_slot_text(at)),
        Question::Confirmation => "Confirmation".to_owned(),
    };
    match shown {
        Shown::UnitChanged(unit) => format!("UnitChanged({unit:?})"),
        Shown::ModeChanged(mode) => format!("ModeChanged({mode:?})"),
        Shown::TaskChanged(task) => format!("TaskChanged({task:?})"),
        Shown::Started(axis) => format!("Started({axis:?})"),
        Shown::Stopped(axis) => format!("Stopped({axis:?})"),
        Shown::Asked(asked) => format!("Asked({})", question(asked)),
        Shown::Refused(refusal) => format!("Refused({refusal:?})"),
        Shown::Alarmed(alarm) => format!("Alarmed({alarm:?})"),
        Shown::SweepSaw(at) => format!("SweepSaw({})", slot(at)),
        Shown::SweepSawNothing => "SweepSawNothing".to_owned(),
        Shown::Answered(at, answer) => format!("Answered({}, {answer:?})", slot(at)),
        Shown::ClearedOut => "ClearedOut".to_owned(),
        Shown::DeclaredEmpty => "DeclaredEmpty".to_owned(),
        Shown::ProductChosen(number) => format!("ProductChosen({})", product(world, number)),
        Shown::ProductLoaded(number) => format!("ProductLoaded({})", product(world, number)),
        Shown::ProductSaved(number) => format!("ProductSaved({})", product(world, number)),
        Shown::AnsweredHalf(at, answer) => {
            format!("AnsweredHalf({}, {answer:?})", half_slot_text(at))
        }
        Shown::WidthTyped(width) => format!("WidthTyped({})", width.0),
        Shown::SettingChanged(setting) => format!("SettingChanged({})", setting_text(setting)),
        Shown::WaitsForWidth => "WaitsForWidth".to_owned(),
        Shown::ReferenceFound => "ReferenceFound".to_owned(),
        Shown::ReferenceLost => "ReferenceLost".to_owned(),
        Shown::Powered(on) => format!("Powered({on})"),
        Shown::WidthReached => "WidthReached".to_owned(),
        Shown::MachineReady(closed) => format!("MachineReady({closed})"),
        Shown::BoardAvailable(closed) => format!("BoardAvailable({closed})"),
        Shown::BoardEntered => "BoardEntered".to_owned(),
        Shown::MotorHummed => "MotorHummed".to_owned(),
        Shown::BrakeTicked => "BrakeTicked".to_owned(),
        Shown::LiftSank => "LiftSank".to_owned(),
        Shown::BoardStored(at) => format!("BoardStored({})", slot(at)),
        Shown::BoardSent(at) => format!("BoardSent({})", slot(at)),
        Shown::BoardPassed(at) => format!("BoardPassed({})", slot(at)),
        Shown::BoardRanPast(at) => format!("BoardRanPast({})", slot(at)),
        Shown::BoardReachedEnd(at) => format!("BoardReachedEnd({})", slot(at)),
        Shown::Harmed(harm) => harm_text(world, &harm),
    }
}

#[cfg(test)]
mod tests {
    use rackproof_buffer::{AxisName, Half, HalfSlot, HarmKind, Side};
    use rackproof_drill::{MachineSign, Told, VoidCause};

    use super::*;
    use crate::sample;

    fn cases() -> Vec<(Outcome, &'static str)> {
        let at = HalfSlot {
            slot: 11,
            half: Half::Outfeed,
        };
        let harm = Harm {
            kind: HarmKind::Broken,
            board: Some(3),
            place: Some(Place::Slot(at)),
            number: 4_100,
            limit: 4_000,
        };
        let sign = |sign| Outcome::Sign(sign);
        let shown = |shown| sign(Sign::Machine(MachineSign::of(shown).expect("it is shown")));
        vec![
            (
                Outcome::Harm(harm),
                "Harm(Broken, raven, Slot(12, Outfeed), 4100, 4000)",
            ),
            (
                Outcome::Fact(Fact::BoardTaken(at, 0)),
                "BoardTaken(12, Outfeed, wren)",
            ),
            (
                Outcome::Fact(Fact::BoardPutDown {
                    kind: 1,
                    good: false,
                }),
                "BoardPutDown(heron, good false)",
            ),
            (
                sign(Sign::Looked {
                    empty: Halves::slot(4),
                    boards: Halves::NONE,
                }),
                "Looked(empty 10/10, boards 0/0)",
            ),
            (
                sign(Sign::LooksVoided(VoidCause::Moved(AxisName::Lift))),
                "LooksVoided(Moved(Lift))",
            ),
            (sign(Sign::SawBelt(Side::Infeed, 2)), "SawBelt(Infeed, 2)"),
            (
                sign(Sign::Took {
                    kind: 0,
                    damaged: true,
                }),
                "Took(wren, damaged true)",
            ),
            (sign(Sign::Told(Told::LeadKnows)), "Told(LeadKnows)"),
            (
                sign(Sign::Cue(Cue::Bowed(Place::Slot(at)))),
                "Cue(Bowed(Slot(12, Outfeed)))",
            ),
            (
                sign(Sign::Cue(Cue::LensFilmed(buffer::BeamName::End))),
                "Cue(LensFilmed(End))",
            ),
            (
                shown(buffer::Outcome::Asked(buffer::Question::Answer(6))),
                "Asked(Answer(7))",
            ),
            (
                shown(buffer::Outcome::ProductLoaded(1)),
                "ProductLoaded(kestrel)",
            ),
            (
                shown(buffer::Outcome::UnitChanged(buffer::UnitState::Idle)),
                "UnitChanged(Idle)",
            ),
        ]
    }

    #[test]
    fn forms_are_pinned() {
        let exercise = sample::exercise();
        let judged = exercise.judged(0).expect("it has variants");
        for (outcome, text) in cases() {
            assert_eq!(outcome_text(&judged, &JudgedOutcome::World(outcome)), text);
        }
        assert_eq!(
            outcome_text(&judged, &JudgedOutcome::Broke(0)),
            "Broke(rails-unproven)"
        );
    }
}
