//! What cannot be taken back, and what nobody was told: for the debrief.

use rackproof_buffer::{Harm, HarmKind, Place, Side};
use rackproof_model::Micrometres;

use super::{Argument, Message, board, half, of_place, slot};
use crate::{Fact, World};

/// A harm with its place, the number that passed a limit, and the limit.
pub fn of_harm(world: &World, harm: &Harm) -> Message {
    let named = harm
        .board
        .map_or(("board", Argument::Id("board-some")), |kind| {
            board(world, kind)
        });
    let place = harm.place.map_or(Argument::Id("place-between"), |place| {
        Argument::Message(of_place(place))
    });
    let place = ("place", place);
    let length = |number| Argument::Length(Micrometres(number));
    let plain = |number| Argument::Number(i64::from(number));
    let lengths = [
        ("number", length(harm.number)),
        ("limit", length(harm.limit)),
    ];
    let [number, limit] = lengths.clone();
    match harm.kind {
        // At a mouth the lift bends the board: the number is lift travel, not strain.
        HarmKind::Overstrained if matches!(harm.place, Some(Place::Mouth(_))) => {
            Message::with("harm-overstrained-at-mouth", [named, place, number, limit])
        }
        HarmKind::Overstrained | HarmKind::Broken => {
            let id = if harm.kind == HarmKind::Broken {
                "harm-broken"
            } else {
                "harm-overstrained"
            };
            let strain = [("number", plain(harm.number)), ("limit", plain(harm.limit))];
            let [number, limit] = strain;
            Message::with(id, [named, place, number, limit])
        }
        HarmKind::SprungOut => Message::with("harm-sprung-out", [named, place, number, limit]),
        // Behind our end: over it, or between rails that are not ours.
        HarmKind::Dropped if harm.place.is_none() && harm.limit == 0 => {
            Message::with("harm-fell-over-end", [named])
        }
        HarmKind::Dropped if harm.place.is_none() => {
            Message::with("harm-fell-downstream", [named, number, limit])
        }
        HarmKind::Dropped => Message::with("harm-dropped", [named, place, number, limit]),
        HarmKind::Sheared => Message::with("harm-sheared", [named, place, number, limit]),
        // No board runs into another there: it is the machine downstream that stands.
        HarmKind::Collided if harm.place == Some(Place::Belt(Side::Outfeed)) => {
            Message::with("harm-driven-into-downstream", [named])
        }
        HarmKind::Collided => Message::with("harm-collided", [named, place, number]),
        HarmKind::HandInjured => {
            let speed = i64::from(millimetres_per_second(harm.number));
            Message::with("harm-hand-injured", [("speed", Argument::Number(speed))])
        }
        HarmKind::PropStruck => Message::with("harm-prop-struck", [number]),
        HarmKind::PartsStruck => Message::with("harm-parts-struck", [named, place, number, limit]),
        HarmKind::LiftFell => {
            let speed = ("speed", plain(harm.number / 1_000));
            Message::with("harm-lift-fell", [speed])
        }
        HarmKind::CaughtUnderLift => {
            let speed = ("speed", plain(harm.number / 1_000));
            Message::with("harm-caught-under-lift", [speed])
        }
        HarmKind::Charged => {
            let volts = [("number", plain(harm.number)), ("limit", plain(harm.limit))];
            let [number, limit] = volts;
            Message::with("harm-charged", [named, number, limit])
        }
        HarmKind::Burned => {
            let heat = [("number", plain(harm.number)), ("limit", plain(harm.limit))];
            let [number, limit] = heat;
            Message::with("harm-burned", [named, number, limit])
        }
    }
}

/// From nm/s, rounded up: what moves is not shown as standing.
fn millimetres_per_second(speed: i32) -> u32 {
    speed.unsigned_abs().div_ceil(1_000_000)
}

/// A fact that nobody was told.
pub fn of_fact(world: &World, fact: &Fact) -> Message {
    match *fact {
        Fact::BoardEntered => Message::plain("fact-board-entered"),
        Fact::LiftSank => Message::plain("fact-lift-sank"),
        Fact::BoardLaid(kind) => Message::with("fact-board-laid", [board(world, kind)]),
        Fact::FailedBoardCame(kind) => {
            Message::with("fact-failed-board-came", [board(world, kind)])
        }
        Fact::FailedBoardTakenAway(kind) => {
            Message::with("fact-failed-board-taken-away", [board(world, kind)])
        }
        Fact::BoardTaken(at, kind) => Message::with(
            "fact-board-taken",
            [board(world, kind), slot(at.slot), half(at.half)],
        ),
        Fact::BoardPutIn(at, kind) => Message::with(
            "fact-board-put-in",
            [board(world, kind), slot(at.slot), half(at.half)],
        ),
        Fact::BoardPutDown { kind, good } => {
            let id = if good {
                "fact-good-board-put-down"
            } else {
                "fact-harmed-board-put-down"
            };
            Message::with(id, [board(world, kind)])
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::world_tests::sample_world;

    fn harm(kind: HarmKind, place: Option<Place>, number: i32) -> Harm {
        Harm {
            kind,
            board: Some(3),
            place,
            number,
            limit: 500,
        }
    }

    #[test]
    fn each_number_has_the_unit_of_its_harm() {
        let world = sample_world();
        let strain = harm(HarmKind::Overstrained, Some(Place::Belt(Side::Infeed)), 800);
        let travel = harm(
            HarmKind::Overstrained,
            Some(Place::Mouth(Side::Infeed)),
            800,
        );
        let hand = harm(HarmKind::HandInjured, None, 12_000_001);
        let cases = [
            (strain, "harm-overstrained", "number", Argument::Number(800)),
            (
                travel,
                "harm-overstrained-at-mouth",
                "number",
                Argument::Length(Micrometres(800)),
            ),
            (hand, "harm-hand-injured", "speed", Argument::Number(13)),
        ];
        for (harm, id, name, value) in cases {
            let message = of_harm(&world, &harm);
            assert_eq!(message.id, id);
            assert!(message.arguments.contains(&(name, value)), "{message:?}");
        }
    }
}
