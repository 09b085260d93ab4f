//! Pictures of a whole page, drawn without a window. They need a Vulkan driver, as the package
//! mesa-vulkan-drivers of Debian brings one.
#![expect(clippy::expect_used, reason = "a test stops where it fails")]

use rackproof_attempt::{Attempt, Exercise, Journal, PlayedAs};
use rackproof_drill::{Outcome, Sign};
use rackproof_files::Problems;
use rackproof_grade::JudgedOutcome;
use rackproof_library::{built_in_drill, load};
use rackproof_window::{Picture, pictures};

const BY_HAND: &str = include_str!("../../../tests/journals/left-inside/by-hand.ron");
const UNSEEN: &str = include_str!("../../../tests/journals/left-inside/declared-unseen.ron");
const SIZE: [u32; 2] = [1280, 720];
/// The teaching layer, and a Wren board: red, green, blue.
const PLUM: [u8; 3] = [0x6B, 0x2A, 0x6E];

/// A journal of the first drill, played.
fn played(text: &str) -> (Exercise, Attempt) {
    let problems = Problems::new();
    let loaded = load(built_in_drill(), &problems).expect("it has no problem");
    let report = problems.for_file("journal.ron", text);
    let journal = Journal::read(report, &loaded.exercise).expect("it has no problem");
    let judged = loaded.exercise.judged(journal.variant);
    let mut attempt = Attempt::new(judged.expect("there is such a variant"));
    journal.run(&mut attempt, report, &mut |_| true);
    (loaded.exercise, attempt)
}

/// Rows of red, green and blue.
struct Drawn(Vec<u8>);

impl Drawn {
    fn of(bytes: &[u8]) -> Drawn {
        let mut reader = png::Decoder::new(std::io::Cursor::new(bytes))
            .read_info()
            .expect("it is a PNG file");
        assert_eq!([reader.info().width, reader.info().height], SIZE);
        let mut rows = vec![0; SIZE[0] as usize * SIZE[1] as usize * 3];
        reader.next_frame(&mut rows).expect("it has a picture");
        Drawn(rows)
    }

    /// Pixels of the hall, between the cards and the sheet.
    fn hall(&self) -> impl Iterator<Item = [u8; 3]> + '_ {
        (60..580_usize).flat_map(move |y| {
            (290..680_usize).filter_map(move |x| {
                let at = (y * SIZE[0] as usize + x) * 3;
                self.0.get(at..at + 3)?.try_into().ok()
            })
        })
    }

    fn count(&self, colour: [u8; 3]) -> usize {
        self.0
            .chunks_exact(3)
            .filter(|pixel| *pixel == colour)
            .count()
    }

    /// Pixels of the hall that are clearly green: a Wren.
    fn green(&self) -> usize {
        let is = |[red, green, blue]: [u8; 3]| {
            i32::from(green) - i32::from(red) > 30 && i32::from(green) - i32::from(blue) > 30
        };
        self.hall().filter(|pixel| is(*pixel)).count()
    }
}

fn draw(exercise: &Exercise, attempt: &Attempt, wanted: &[(u64, PlayedAs, bool)]) -> Vec<Vec<u8>> {
    let wanted: Vec<Picture<'_>> = wanted
        .iter()
        .map(|(at, mode, debrief)| Picture {
            exercise,
            attempt,
            notes: &[],
            mode: *mode,
            at: *at,
            debrief: *debrief,
            size: SIZE,
        })
        .collect();
    pictures(&wanted).expect("install the Debian package mesa-vulkan-drivers")
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
    let practice = PlayedAs::Practice;
    let wanted = [
        (at, practice, false),
        (at - 1, practice, false),
        (at, PlayedAs::Exam, false),
        (at, practice, false),
    ];
    let bytes = draw(&exercise, &attempt, &wanted);
    assert_eq!(bytes[0], bytes[3], "the same moment gives the same bytes");
    let [seen, before, exam] = [0, 1, 2].map(|number| Drawn::of(&bytes[number]));
    let mut colours: Vec<[u8; 3]> = before.hall().collect();
    colours.sort_unstable();
    colours.dedup();
    assert!(
        colours.len() > 100,
        "{} colours: the hall is blank",
        colours.len()
    );
    assert!(seen.green() > 2_000, "{} pixels of the board", seen.green());
    assert_eq!(before.green(), 0, "nobody has looked yet");
    assert!(exam.green() > 2_000, "an exam shows what is seen too");
    assert!(seen.count(PLUM) > 500, "{}", seen.count(PLUM));
    assert_eq!(exam.count(PLUM), 0);
}

#[test]
fn the_debrief_shows_its_moment() {
    let (exercise, attempt) = played(UNSEEN);
    let grade = attempt.grade(&exercise);
    let harm = grade.harms.first().expect("a board is harmed in it").0.at;
    let practice = PlayedAs::Practice;
    let wanted = [(harm, practice, true), (0, practice, true)];
    let bytes = draw(&exercise, &attempt, &wanted);
    let [then, start] = [0, 1].map(|number| Drawn::of(&bytes[number]));
    assert!(then.count(PLUM) > 500, "the marker and the way on are plum");
    assert_ne!(then.0, start.0);
}
