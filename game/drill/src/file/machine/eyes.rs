//! Whether the eyes and posts of a machine file stand where a person and a hatch can be, and
//! whether a look shows each board.

use rackproof_buffer::{Half, Machine};
use rackproof_files::{Fields, Place, Report};
use rackproof_model::Micrometres;

use super::together::millimetres;
use crate::sight::{Point, Sight};

const SIDES: [&str; 2] = ["infeed", "outfeed"];

/// Who looks through the hatch stands before the rack: the hatch is in the long side at y = 0.
pub(super) fn check_hatch_eyes(eyes: Option<&[Point; 2]>, fields: &Fields<'_>) {
    let place = fields.place_of("hatch_eyes_mm");
    for (eye, side) in eyes.into_iter().flatten().zip(SIDES) {
        if eye[1].0 >= 0 {
            let told = [("side", side.to_owned()), ("at", millimetres(eye[1].0))];
            let told = told.each_ref().map(|(name, value)| (*name, value as _));
            fields
                .report()
                .add(place, "problem-hatch-eye-in-rack", &told)
                .expected("expected-before-rack", &[]);
        }
    }
}

/// The posts of the hatch stand before the rack.
pub(super) fn check_posts(at: Option<Micrometres>, fields: &Fields<'_>) {
    if let Some(at) = at.filter(|at| at.0 >= 0) {
        fields
            .report()
            .add(
                fields.place_of("post_at_mm"),
                "problem-posts-in-rack",
                &[("at", &millimetres(at.0))],
            )
            .expected("expected-before-rack", &[]);
    }
}

/// Who looks through a mouth stands outside the rack at that end of it, and above the boards.
pub(super) fn check_mouth_eyes(
    eyes: Option<&[Point; 2]>,
    rack: Option<[Micrometres; 2]>,
    fields: &Fields<'_>,
) {
    let (Some(eyes), Some([length, _])) = (eyes, rack) else {
        return;
    };
    let (report, place) = (fields.report(), fields.place_of("mouth_eyes_mm"));
    let outside = [eyes[0][0].0 < 0, eyes[1][0] > length];
    let expected = ["expected-eye-before-end", "expected-eye-behind-end"];
    for (number, (eye, side)) in eyes.iter().zip(SIDES).enumerate() {
        let [along, _, above] = eye.map(|place| millimetres(place.0));
        if !outside[number] {
            report
                .add(
                    place,
                    "problem-mouth-eye-in-rack",
                    &[("side", &side), ("at", &along)],
                )
                .expected(expected[number], &[("end", &millimetres(length.0))]);
        }
        if eye[2].0 <= 0 {
            report
                .add(
                    place,
                    "problem-mouth-eye-below",
                    &[("side", &side), ("at", &above)],
                )
                .expected("expected-eye-above", &[]);
        }
    }
}

/// The places that a look tests lie in the rack: none before the fixed rail, none behind the other
/// where that stands furthest away.
pub(super) fn check_across(
    across: Option<[Micrometres; 2]>,
    rack: Option<[Micrometres; 2]>,
    fields: &Fields<'_>,
) {
    let (Some([from, to]), Some([_, widest])) = (across, rack) else {
        return;
    };
    if from.0 < 0 || to >= widest {
        fields
            .report()
            .add(
                fields.place_of("across_mm"),
                "problem-looks-beside-rack",
                &[("from", &millimetres(from.0)), ("to", &millimetres(to.0))],
            )
            .expected(
                "expected-looks-in-rack",
                &[("most", &millimetres(widest.0))],
            );
    }
}

/// Each board, where it rests in a half of a slot, covers a place at which a look tests that half:
/// of another board no look through the hatch would ever tell.
pub(super) fn check_looks(
    machine: &Machine,
    sight: &Sight,
    names: &[String],
    places: &[Place],
    report: Report<'_>,
) {
    for (kind, (name, place)) in names.iter().zip(places).enumerate() {
        for (half, side) in Half::BOTH.into_iter().zip(SIDES) {
            if sight.tells_of(machine, kind as u8, half) {
                continue;
            }
            let [along, across] = sight.tested(machine, half);
            let both = |two: [Micrometres; 2]| two.map(|one| millimetres(one.0)).join(", ");
            report
                .add(
                    *place,
                    "problem-board-never-seen",
                    &[("board", name), ("side", &side)],
                )
                .expected(
                    "expected-board-seen",
                    &[("along", &both(along)), ("across", &both(across))],
                );
        }
    }
}
