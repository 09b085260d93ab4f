//! Pictures of a whole page, drawn without a window. They need a Vulkan driver, as the package
//! mesa-vulkan-drivers of Debian brings one.
#![expect(
    clippy::expect_used,
    clippy::panic,
    reason = "a test stops where it fails"
)]

use rackproof_attempt::{Attempt, Exercise, Journal, PlayedAs};
use rackproof_drill::{Outcome, Sign};
use rackproof_files::Problems;
use rackproof_grade::JudgedOutcome;
use rackproof_library::{built_in_drill, load};
use rackproof_window::{Missing, Picture, pictures};

const BY_HAND: &str = include_str!("../../../tests/journals/left-inside/by-hand.ron");
const UNSEEN: &str = include_str!("../../../tests/journals/left-inside/declared-unseen.ron");
const SIZE: [u32; 2] = [1280, 720];
/// The teaching layer: red, green, blue.
const PLUM: [u8; 3] = [0x6B, 0x2A, 0x6E];
/// Where nothing but the hall is drawn, in pixels: between the cards and the sheet of the drill.
const HALL: [[usize; 2]; 2] = [[290, 680], [60, 580]];
/// The same in the debrief: between the drawing of the rails and the slot map.
const HALL_OF_DEBRIEF: [[usize; 2]; 2] = [[730, 1060], [60, 450]];
/// Side of the smallest patch that counts as a board, in pixels. A lamp is smaller.
const PATCH: usize = 16;

/// A journal of the first drill, played.
fn played(text: &str) -> (Exercise, Attempt) {
    let problems = Problems::new();
    let loaded = load(built_in_drill(), &problems).expect("it has no problem");
    let report = problems.for_file("journal.ron", text);
    let journal = Journal::read(report, &loaded.exercise).expect("it has no problem");
    let judged = loaded.exercise.judged(journal.variant);
    let mut attempt = Attempt::new(judged.expect("there is such a variant"));
    assert!(journal.run(&mut attempt, report, &mut |_| true));
    (loaded.exercise, attempt)
}

/// A picture: rows of red, green and blue.
struct Drawn {
    size: [u32; 2],
    rows: Vec<u8>,
}

impl Drawn {
    fn of(bytes: &[u8]) -> Drawn {
        let mut reader = png::Decoder::new(std::io::Cursor::new(bytes))
            .read_info()
            .expect("it is a PNG file");
        let info = reader.info();
        let size = [info.width, info.height];
        assert_eq!(info.color_type, png::ColorType::Rgb);
        let mut rows = vec![0; size[0] as usize * size[1] as usize * 3];
        reader.next_frame(&mut rows).expect("it has a picture");
        Drawn { size, rows }
    }

    fn pixel(&self, x: usize, y: usize) -> [u8; 3] {
        let at = (y * self.size[0] as usize + x) * 3;
        let pixel = self.rows[at..at + 3].try_into();
        pixel.expect("three make a pixel")
    }

    /// Pixels of a part of the picture, row by row.
    fn part(&self, [[left, right], [top, bottom]]: [[usize; 2]; 2]) -> Vec<[u8; 3]> {
        let row = |y| (left..right).map(move |x| self.pixel(x, y));
        (top..bottom).flat_map(row).collect()
    }

    fn hall(&self) -> Vec<[u8; 3]> {
        self.part(HALL)
    }

    fn count(&self, colour: [u8; 3]) -> usize {
        let (pixels, _) = self.rows.as_chunks::<3>();
        pixels.iter().filter(|pixel| **pixel == colour).count()
    }

    /// Whether the hall shows a whole patch that is clearly green: a Wren.
    fn shows_a_wren(&self) -> bool {
        let [[left, right], [top, bottom]] = HALL;
        let patch = |x: usize, y: usize| {
            let mut pixels = self.part([[x, x + PATCH], [y, y + PATCH]]).into_iter();
            pixels.all(green)
        };
        (top..bottom - PATCH).any(|y| (left..right - PATCH).any(|x| patch(x, y)))
    }
}

fn green([red, green, blue]: [u8; 3]) -> bool {
    let over = |other: u8| i32::from(green) - i32::from(other);
    over(red) > 30 && over(blue) > 30
}

/// Moment, way of playing, debrief, and size.
type Wish = (u64, PlayedAs, bool, [u32; 2]);

fn draw(exercise: &Exercise, attempt: &Attempt, wanted: &[Wish]) -> Vec<Vec<u8>> {
    let wanted: Vec<Picture<'_>> = wanted
        .iter()
        .map(|(at, mode, debrief, size)| Picture {
            exercise,
            attempt,
            notes: &[],
            mode: *mode,
            at: *at,
            debrief: *debrief,
            size: *size,
        })
        .collect();
    let drawn = match pictures(&wanted) {
        Ok(drawn) => drawn,
        Err(Missing::Driver) => panic!("install the Debian package mesa-vulkan-drivers"),
        Err(missing) => panic!("nothing was drawn: {missing:?}"),
    };
    assert_eq!(drawn.len(), wanted.len());
    for (bytes, wanted) in drawn.iter().zip(&wanted) {
        assert_eq!(Drawn::of(bytes).size, wanted.size);
    }
    drawn
}

fn colours(mut pixels: Vec<[u8; 3]>) -> usize {
    pixels.sort_unstable();
    pixels.dedup();
    pixels.len()
}

#[test]
fn a_board_is_in_the_picture_from_its_look_on_and_an_exam_has_no_plum() {
    let (exercise, attempt) = played(BY_HAND);
    let saw = |outcome: &JudgedOutcome| {
        matches!(
            outcome,
            JudgedOutcome::World(Outcome::Sign(Sign::SawBoard { .. }))
        )
    };
    let looked = attempt.heard().iter().find(|heard| saw(&heard.outcome));
    let at = looked.expect("a board is seen in it").at;
    let practice = (at, PlayedAs::Practice, false, SIZE);
    let exam = (at, PlayedAs::Exam, false, SIZE);
    let before = (at - 1, PlayedAs::Practice, false, SIZE);
    let bytes = draw(&exercise, &attempt, &[practice, before, exam, practice]);
    assert!(bytes[0] == bytes[3], "the same wish, other bytes");
    // Nor does it matter what was drawn before.
    let again = draw(&exercise, &attempt, &[before, practice]);
    assert!(again[0] == bytes[1] && again[1] == bytes[0]);
    let [seen, before, exam] = [0, 1, 2].map(|number| Drawn::of(&bytes[number]));
    for (drawn, wren) in [(&seen, true), (&before, false), (&exam, true)] {
        let colours = colours(drawn.hall());
        assert!(colours > 100, "{colours} colours: the hall is blank");
        assert_eq!(drawn.shows_a_wren(), wren);
    }
    assert!(!before.hall().into_iter().any(green), "nobody has looked");
    assert!(exam.hall() == seen.hall(), "an exam shows what is seen too");
    assert!(seen.count(PLUM) > 500, "{}", seen.count(PLUM));
    assert_eq!(exam.count(PLUM), 0);
}

#[test]
fn the_debrief_shows_its_moment() {
    let (exercise, attempt) = played(UNSEEN);
    let grade = attempt.grade(&exercise);
    let harm = grade.harms.first().expect("a board is harmed in it").0.at;
    let moment = |at, size| (at, PlayedAs::Practice, true, size);
    let (larger, smaller) = ([1600, 900], [800, 640]);
    let wanted = [
        moment(harm, SIZE),
        moment(0, SIZE),
        moment(harm, larger),
        moment(harm, smaller),
    ];
    let bytes = draw(&exercise, &attempt, &wanted);
    let [then, start] = [0, 1].map(|number| Drawn::of(&bytes[number]));
    let halls = [&then, &start].map(|drawn| drawn.part(HALL_OF_DEBRIEF));
    let colours = halls.clone().map(colours);
    assert!(colours.iter().all(|count| *count > 100), "{colours:?}");
    assert!(halls[0] != halls[1], "the hall is of another moment");
    assert!(then.count(PLUM) > 500, "the marker and the way on are plum");
    for drawn in &bytes[2..] {
        let drawn = Drawn::of(drawn);
        assert!(drawn.count(PLUM) > 300, "{:?}", drawn.size);
    }
}
