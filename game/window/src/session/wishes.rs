//! What becomes of a wish in an attempt that is played, watched or looked at.

use std::io;

use rackproof_panel::Wish;

use super::{Play, Review, Watch};

pub(super) fn wish_of_play(play: &mut Play, wish: &Wish) -> io::Result<()> {
    match wish {
        Wish::Do(intent) => play.begin(*intent),
        Wish::Emergency => play.emergency(),
        Wish::BreakOff => {
            play.break_off();
            Ok(())
        }
        Wish::Wait => play.wait(),
        Wish::Hint => play.hint(),
        Wish::Tick(at) => play.tick(*at),
        _ => Ok(()),
    }
}

pub(super) fn wish_of_watch(watch: &mut Watch, wish: &Wish) {
    match wish {
        Wish::Play(plays) => watch.play(*plays),
        Wish::Speed(speed) => watch.set_speed(*speed),
        _ => {}
    }
}

pub(super) fn wish_of_review(review: &mut Review, wish: &Wish) {
    match wish {
        Wish::Play(plays) => review.play(*plays),
        Wish::Speed(speed) => review.set_speed(*speed),
        Wish::Scrub(at) => review.scrub(*at),
        Wish::Finding(number) => review.choose(*number),
        _ => {}
    }
}
