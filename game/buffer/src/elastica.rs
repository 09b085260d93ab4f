//! How far a board bows when the rails close on it.
//!
//! The exact elastica of a strut with pinned ends: with modulus k and the complete integrals K and
//! E, the shortening is 2 − 2E/K of the length, the rise k/K of it, and the greatest curvature
//! times the length 4kK. Source: Timoshenko and Gere, Theory of Elastic Stability, from memory; the
//! test integrates the curve again without those integrals. Valid here up to a shortening of 3 %; a
//! board that is pressed further does not stay between its ledges.

use rackproof_model::{Micrometres, quantity::Microstrain};

/// The greatest shortening that the table knows, in millionths of the width.
pub(crate) const SHORTENING_MOST: u32 = 30_000;

/// Row i: rise, and curvature times width, in millionths, at a shortening of 3 % · (i/60)².
/// Rows spaced so make both columns nearly straight, so that a line between two rows is exact to
/// one part in ten thousand.
const ROWS: [(u32, u32); 61] = [
    (0, 0),
    (1_838, 18_138),
    (3_675, 36_276),
    (5_513, 54_415),
    (7_351, 72_554),
    (9_188, 90_694),
    (11_026, 108_834),
    (12_863, 126_976),
    (14_700, 145_118),
    (16_536, 163_263),
    (18_373, 181_408),
    (20_209, 199_556),
    (22_045, 217_705),
    (23_880, 235_856),
    (25_716, 254_010),
    (27_550, 272_166),
    (29_385, 290_324),
    (31_218, 308_485),
    (33_052, 326_649),
    (34_885, 344_817),
    (36_717, 362_987),
    (38_549, 381_161),
    (40_380, 399_338),
    (42_210, 417_519),
    (44_040, 435_704),
    (45_869, 453_894),
    (47_698, 472_087),
    (49_525, 490_285),
    (51_352, 508_488),
    (53_178, 526_695),
    (55_004, 544_907),
    (56_828, 563_125),
    (58_651, 581_348),
    (60_474, 599_576),
    (62_296, 617_810),
    (64_116, 636_050),
    (65_936, 654_296),
    (67_754, 672_548),
    (69_572, 690_807),
    (71_388, 709_072),
    (73_204, 727_343),
    (75_018, 745_622),
    (76_831, 763_908),
    (78_642, 782_201),
    (80_453, 800_502),
    (82_262, 818_810),
    (84_070, 837_126),
    (85_877, 855_450),
    (87_682, 873_783),
    (89_486, 892_123),
    (91_288, 910_473),
    (93_089, 928_831),
    (94_888, 947_197),
    (96_686, 965_574),
    (98_483, 983_959),
    (100_278, 1_002_354),
    (102_071, 1_020_758),
    (103_862, 1_039_173),
    (105_652, 1_057_597),
    (107_441, 1_076_032),
    (109_227, 1_094_477),
];

const LAST: u64 = 60;
/// Parts between two rows.
const FINE: u64 = 1_000;

/// A bowed board.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Bow {
    /// By how much the width between the edges is less than the board's own, in µm.
    pub shortening: Micrometres,
    /// How far the middle has risen, in µm.
    pub rise: Micrometres,
    /// Strain of the outer fibre in the middle, in µε.
    pub strain: Microstrain,
}

/// The bow of a board `width` wide and `thickness` thick whose edges are pressed together by
/// `shortening`, or `None` beyond 3 % of the width.
pub fn bow_at_shortening(
    width: Micrometres,
    thickness: Micrometres,
    shortening: Micrometres,
) -> Option<Bow> {
    let (wide, short) = (width.0 as u64, shortening.0.max(0) as u64);
    if short * 1_000_000 > u64::from(SHORTENING_MOST) * wide {
        return None;
    }
    // shortening/width = 3 % · (n / (60·FINE))², solved for n.
    // Of a wide board this is more than 64 bits hold.
    let over = u128::from(short) * 1_000_000 * u128::from(LAST * LAST * FINE * FINE);
    let square = over / (u128::from(SHORTENING_MOST) * u128::from(wide));
    Some(bow(wide, thickness, shortening, (square as u64).isqrt()))
}

/// The bow at which curvature times width reaches `curvature` millionths, or `None` if that is
/// beyond the table.
pub fn bow_at_curvature(width: Micrometres, thickness: Micrometres, curvature: u64) -> Option<Bow> {
    let row = ROWS
        .windows(2)
        .position(|pair| curvature <= u64::from(pair[1].1))? as u64;
    let (low, high) = (
        u64::from(ROWS[row as usize].1),
        u64::from(ROWS[row as usize + 1].1),
    );
    let fine = row * FINE + (curvature.saturating_sub(low)) * FINE / (high - low);
    let wide = width.0 as u64;
    let over = u128::from(SHORTENING_MOST) * u128::from(wide) * u128::from(fine * fine);
    let short = over / (1_000_000 * u128::from(LAST * LAST * FINE * FINE));
    Some(bow(wide, thickness, Micrometres(short as i32), fine))
}

fn bow(wide: u64, thickness: Micrometres, shortening: Micrometres, fine: u64) -> Bow {
    let at = (fine / FINE).min(LAST - 1) as usize;
    let part = fine - at as u64 * FINE;
    let between =
        |low: u32, high: u32| u64::from(low) + (u64::from(high) - u64::from(low)) * part / FINE;
    let rise = between(ROWS[at].0, ROWS[at + 1].0) * wide / 1_000_000;
    let curvature = between(ROWS[at].1, ROWS[at + 1].1);
    // Outer fibre: half the thickness times the curvature.
    let strain = curvature * thickness.0 as u64 / (2 * wide);
    Bow {
        shortening,
        rise: Micrometres(rise as i32),
        strain: Microstrain(strain as u32),
    }
}

#[cfg(test)]
#[expect(
    clippy::float_arithmetic,
    reason = "the outside check integrates the curve in floats"
)]
mod tests {
    use super::*;

    /// Shortening, rise and curvature of the strut whose ends slope by `alpha`, all per length, by
    /// integrating the pendulum equation of the elastica from a pinned end to the middle.
    fn integrated(alpha: f64) -> (f64, f64, f64) {
        let step = 1e-5;
        let (mut slope, mut bend, mut along, mut x, mut y) = (alpha, 0.0, 0.0, 0.0, 0.0);
        loop {
            // Runge-Kutta of the fourth order over (slope, bend, x, y).
            let f = |s: f64, b: f64| [b, -s.sin(), s.cos(), s.sin()];
            let a = f(slope, bend);
            let b = f(slope + step / 2.0 * a[0], bend + step / 2.0 * a[1]);
            let c = f(slope + step / 2.0 * b[0], bend + step / 2.0 * b[1]);
            let d = f(slope + step * c[0], bend + step * c[1]);
            let add = |i: usize| step / 6.0 * (a[i] + 2.0 * b[i] + 2.0 * c[i] + d[i]);
            let next = slope + add(0);
            if next <= 0.0 {
                let length = 2.0 * along;
                return (1.0 - x / along, y / length, bend.abs() * length);
            }
            (slope, bend, x, y) = (next, bend + add(1), x + add(2), y + add(3));
            along += step;
        }
    }

    /// End slope for a shortening, by bisection.
    fn slope_for(shortening: f64) -> f64 {
        let (mut low, mut high) = (1e-4, 2.5);
        for _ in 0..40 {
            let middle = f64::midpoint(low, high);
            if integrated(middle).0 < shortening {
                low = middle
            } else {
                high = middle
            }
        }
        low
    }

    /// Published table of the buckled strut: shortening and rise per length.
    /// Source: Timoshenko and Gere, from memory, to three digits.
    #[test]
    fn the_integration_gives_the_published_table() {
        for (shortening, rise) in [(0.030, 0.110), (0.119, 0.211), (0.259, 0.297)] {
            let found = integrated(slope_for(shortening)).1;
            assert!(
                (found - rise).abs() < 0.001,
                "{shortening}: {found} against {rise}"
            );
        }
    }

    #[test]
    fn the_rows_are_those_of_the_integration() {
        for row in [1_usize, 7, 20, 41, 60] {
            let shortening = 0.03 * (row as f64 / 60.0).powi(2);
            let (_, rise, curvature) = integrated(slope_for(shortening));
            let (table_rise, table_curvature) = ROWS[row];
            assert!(
                (f64::from(table_rise) / 1e6 - rise).abs() < 3e-5,
                "row {row}: {rise}"
            );
            let off = (f64::from(table_curvature) / 1e6 - curvature).abs();
            assert!(off < 3e-4, "row {row}: {curvature}");
        }
    }

    /// Width of a board, and for each shortening its rise and strain.
    type Bows = (i32, [(i32, i32, u32); 5]);

    /// Boards of 1.6 mm. Width in mm; for each shortening in µm the rise in tenths of a mm and the
    /// strain in µε. Source: Euler's beam with pinned edges, reckoned by the small-angle formulas
    /// rise = (2/π)·√(w·δ) and strain = (t/2)·rise·(π/w)².
    const HANDBOOK: [Bows; 3] = [
        (
            100,
            [
                (100, 20, 1590),
                (250, 32, 2513),
                (500, 45, 3554),
                (1_000, 64, 5027),
                (2_000, 90, 7109),
            ],
        ),
        (
            200,
            [
                (100, 28, 562),
                (250, 45, 889),
                (500, 64, 1257),
                (1_000, 90, 1777),
                (2_000, 127, 2513),
            ],
        ),
        (
            300,
            [
                (100, 35, 306),
                (250, 55, 484),
                (500, 78, 684),
                (1_000, 110, 967),
                (2_000, 156, 1368),
            ],
        ),
    ];

    #[test]
    fn boards_of_the_trade_bow_as_the_handbook_says() {
        for (width, rows) in HANDBOOK {
            let (wide, thickness) = (Micrometres(width * 1_000), Micrometres(1_600));
            for (short, rise, strain) in rows {
                let bow = bow_at_shortening(wide, thickness, Micrometres(short));
                let bow = bow.expect("2 % is in the table");
                // Half a tenth is the table's rounding, the rest that angles are not small.
                let off = (bow.rise.0 - rise * 100).abs();
                assert!(
                    off <= 50 + rise * 100 * 7 / 1_000,
                    "{width} {short}: {bow:?}"
                );
                let off = bow.strain.0.abs_diff(strain);
                assert!(off <= 1 + strain * 5 / 1_000, "{width} {short}: {bow:?}");
            }
        }
    }

    #[test]
    fn beyond_three_in_a_hundred_there_is_no_answer() {
        let (width, thickness) = (Micrometres(160_000), Micrometres(1_600));
        assert!(bow_at_shortening(width, thickness, Micrometres(4_800)).is_some());
        assert!(bow_at_shortening(width, thickness, Micrometres(4_801)).is_none());
    }

    /// The widest board that a file may say: its ways are as those of a narrow one, scaled. What
    /// stands between did not fit into 64 bits once.
    #[test]
    fn the_widest_board_bows_like_a_narrow_one() {
        let [narrow, wide] = [60_000, 600_000].map(Micrometres);
        let thickness = [600, 6_000].map(Micrometres);
        for parts in [1, 300, 1_000, 1_800] {
            let bow = bow_at_shortening(narrow, thickness[0], Micrometres(parts)).expect("it bows");
            let same = bow_at_shortening(wide, thickness[1], Micrometres(10 * parts));
            let same = same.expect("it bows");
            assert_eq!(same.strain, bow.strain);
            assert!(
                (same.rise.0 - 10 * bow.rise.0).abs() <= 10,
                "{same:?} {bow:?}"
            );
        }
        let bow = bow_at_curvature(wide, thickness[1], 1_094_477).expect("the last row");
        assert_eq!(bow.shortening, Micrometres(18_000));
    }

    #[test]
    fn curvature_and_shortening_are_each_others_way_back() {
        let (width, thickness) = (Micrometres(160_000), Micrometres(1_600));
        for curvature in [50_000, 200_000, 700_000, 1_090_000] {
            let bow = bow_at_curvature(width, thickness, curvature).expect("in the table");
            let again = bow_at_shortening(width, thickness, bow.shortening).expect("in the table");
            assert!(
                again.strain.0.abs_diff(bow.strain.0) <= bow.strain.0 / 100 + 3,
                "{bow:?}"
            );
        }
    }
}
