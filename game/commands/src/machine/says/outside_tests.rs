//! Figures of the trade that a question tells, reckoned again, and the shipped machines beside
//! them.

use rackproof_buffer::bow_at_shortening;
use rackproof_drill::file;
use rackproof_files::Problems;
use rackproof_library::machines;
use rackproof_model::Micrometres;
use rackproof_words::Words;

/// The numbers in a text, as they follow each other.
fn numbers(id: &str) -> Vec<f64> {
    let text = Words::english().say(id, &[]);
    let words = text.split(|one: char| !one.is_ascii_digit() && one != '.');
    words.filter_map(|word| word.parse().ok()).collect()
}

fn shipped() -> Vec<rackproof_buffer::Machine> {
    let read = |text: &rackproof_attempt::Text| {
        let problems = Problems::new();
        let read = file::read_machine(problems.for_file(&text.file, &text.text));
        read.expect("it has no problem").0
    };
    machines().iter().map(read).collect()
}

/// How far the middle of a board sags by its own weight, its edges lying on ledges, in mm. Width
/// and thickness in mm, parts in kg/m².
///
/// Source: a beam on two supports under an even load, 5 q w⁴ / (384 E I), any handbook; FR-4 of
/// 1850 kg/m³ and 22 GPa, between tables that differ by 30 %.
fn sag(width: f64, thickness: f64, parts: f64) -> f64 {
    let (wide, thick) = (width / 1e3, thickness / 1e3);
    let load = (1_850.0 * thick + parts) * 9.806_65;
    let stiffness = 22e9 * thick.powi(3) / 12.0;
    5.0 * load * wide.powi(4) / (384.0 * stiffness) * 1e3
}

#[test]
fn what_is_told_of_sag_is_what_a_beam_does() {
    let near = |is: f64, want: f64| assert!((is - want).abs() < 0.006, "{is} is not {want}");
    for (width, bare, with_parts) in [
        (200.0, 0.08, 0.22),
        (300.0, 0.41, 1.10),
        (400.0, 1.29, 3.47),
        (460.0, 2.25, 6.06),
    ] {
        near(sag(width, 1.6, 0.0), bare);
        near(sag(width, 1.6, 5.0), with_parts);
    }
    let told = numbers("ask-measure-part-margin-mm");
    let &[thick, bare, width, bare_wide, wide, parts, full, full_wide] = &told[..] else {
        panic!("{told:?} are other figures");
    };
    for (width, [bare, full]) in [(width, [bare, full]), (wide, [bare_wide, full_wide])] {
        near(sag(width, thick, 0.0), bare);
        near(sag(width, thick, parts), full);
    }
    for machine in shipped() {
        let parts = machine.parts();
        let margin = f64::from(parts.storing.part_margin.0) / 1e3;
        let widest = f64::from(parts.width_most.0) / 1e3;
        let most = sag(widest, 1.6, 5.0);
        assert!(margin > most, "{margin} mm are less than {most} mm of sag");
    }
}

/// The guideline's limit in µε for a thickness in mm and a rate in µε/s. Source: IPC/JEDEC-9704 of
/// 2005, from memory: √(2.35 / t) · (1900 − 300 · log₁₀ rate).
fn guideline(thickness: f64, rate: f64) -> f64 {
    (2.35 / thickness).sqrt() * (1_900.0 - 300.0 * rate.log10())
}

#[test]
fn what_is_told_of_quick_bends_is_the_guideline_and_rails_are_quicker() {
    let table = [
        (0.8, [1869, 1714, 1355, 1200, 840]),
        (1.0, [1671, 1533, 1212, 1073, 752]),
        (1.6, [1321, 1212, 958, 848, 594]),
        (2.35, [1090, 1000, 790, 700, 490]),
        (3.2, [934, 857, 677, 600, 420]),
    ];
    for (thickness, row) in table {
        for (rate, limit) in [5e2, 1e3, 5e3, 1e4, 5e4].into_iter().zip(row) {
            let is = guideline(thickness, rate);
            assert!(
                (is - f64::from(limit)).abs() < 1.0,
                "{thickness} {rate}: {is}"
            );
        }
    }
    let told = numbers("ask-measure-strain-limit");
    let &[thickness, _year, slow, slow_rate, quick, quick_rate] = &told[..] else {
        panic!("{told:?} are other figures");
    };
    assert_eq!(guideline(thickness, slow_rate).round(), slow);
    assert_eq!(guideline(thickness, quick_rate).round(), quick);
    for machine in shipped() {
        for kind in 0..machine.parts().kinds.len() {
            let rate = rate_at_limit(&machine, kind);
            assert!(rate > quick_rate, "board {kind} is bent by {rate} µε/s");
        }
    }
}

/// How quickly the strain of a board grows as the rails, at their speed, reach its limit: µε/s.
fn rate_at_limit(machine: &rackproof_buffer::Machine, kind: usize) -> f64 {
    let board = machine.parts().kinds[kind];
    let at = machine.press_limits(kind as u8).overstrained_at;
    let strain = |width: i32| {
        let short = Micrometres(board.width.0 - width);
        let bow = bow_at_shortening(board.width, board.thickness, short);
        f64::from(bow.expect("it is in the table").strain.0)
    };
    // Over a twentieth of a millimetre, so that whole µε say something.
    let grown = strain(at.0 - 25) - strain(at.0 + 25);
    grown / 50.0 * f64::from(machine.parts().axes.rails.speed.0)
}
