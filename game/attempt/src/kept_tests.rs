//! Kept attempts: the same bytes, rebuilt, cut off, edited, and any bytes at all.

use std::io::{self, Write};

use proptest::prelude::*;
use rackproof_files::Problems;
use rackproof_grade::Verdict;
use rackproof_model::Micros;

use crate::{
    Attempt, Durable, Foreign, Journal, Kept, Note, Pieces, PlayedAs, ProofState, Reading,
    Recorder, read_attempt,
    sample::{BY_HAND, exercise, material, plain},
};

/// The final state of the journal by hand, in debug and release, on any machine.
const BY_HAND_KEY: &str = "410fbb063608c381b619d52e100ed0a7ccb2055ff2c72d6137afc8861120c871";

/// Plays the journal by hand; `after` hears of the attempt after each of its entries.
fn play(pieces: Pieces, after: &mut dyn FnMut(&Attempt)) -> Attempt {
    play_text(BY_HAND, pieces, after)
}

fn play_text(text: &str, pieces: Pieces, after: &mut dyn FnMut(&Attempt)) -> Attempt {
    let exercise = exercise();
    let problems = Problems::new();
    let report = problems.for_file("by-hand.ron", text);
    let journal = Journal::read(report, &exercise);
    assert_eq!(plain(&problems), [""; 0]);
    let journal = journal.expect("it has no problem");
    let judged = exercise.judged(journal.variant).expect("it is listed");
    let mut attempt = Attempt::new(judged).in_pieces(pieces);
    let whole = journal.run(&mut attempt, report, &mut |attempt| {
        after(attempt);
        true
    });
    assert_eq!(plain(&problems), [""; 0]);
    assert!(whole);
    attempt
}

/// The journal by hand as kept, and where it stood after each of its causes.
fn record() -> (Vec<u8>, Vec<Attempt>) {
    let exercise = exercise();
    let variant = exercise.variant("green-middle").expect("it is listed");
    let begun = Recorder::begin(
        Vec::new(),
        &material(),
        &exercise,
        variant,
        PlayedAs::Practice,
        &ProofState::Missing,
    );
    let mut recorder = begun.expect("memory can be written");
    let mut stood: Vec<Attempt> = Vec::new();
    let attempt = play(Pieces::Events, &mut |attempt| {
        recorder.catch_up(attempt).expect("memory can be written");
        if attempt.done().len() > stood.len() {
            stood.push(attempt.clone());
        }
    });
    (
        recorder.end(&attempt).expect("memory can be written"),
        stood,
    )
}

fn kept(bytes: &[u8]) -> Kept {
    match read_attempt(bytes) {
        Reading::Whole(kept) | Reading::CutOff(Some(kept)) => *kept,
        other => panic!("{other:?}"),
    }
}

/// A record of two causes on short texts, so that every byte of it can be tried. Nothing of it can
/// be rebuilt.
fn small() -> Vec<u8> {
    let exercise = exercise();
    let mut texts = material();
    for text in [
        &mut texts.machine,
        &mut texts.drill,
        &mut texts.rules,
        &mut texts.procedure,
    ] {
        text.text = "(ä)".to_owned();
    }
    let judged = exercise.judged(0).expect("it is listed");
    let mut attempt = Attempt::new(judged);
    let (mode, proof) = (PlayedAs::Exam, ProofState::Proved("ä".repeat(64)));
    let begun = Recorder::begin(Vec::new(), &texts, &exercise, 0, mode, &proof);
    let mut recorder = begun.expect("memory can be written");
    for intent in attempt.offers().into_iter().take(2) {
        attempt.do_intent(intent).expect("it is on offer");
    }
    recorder.catch_up(&attempt).expect("memory can be written");
    let note = Note {
        noted: attempt.at(),
        note: "Tick(5, Infeed)".to_owned(),
    };
    recorder.note(&note).expect("memory can be written");
    recorder.end(&attempt).expect("memory can be written")
}

#[test]
fn the_journal_by_hand_passes_and_ends_where_it_always_did() {
    let attempt = play(Pieces::Events, &mut |_| {});
    let grade = attempt.grade(&exercise());
    assert_eq!(grade.verdict, Verdict::Passed, "{:?}", grade.breaches);
    assert_eq!(attempt.key_hash(), BY_HAND_KEY);
    assert_eq!(
        attempt.state().world.machine,
        attempt.clone().state().world.machine
    );
}

#[test]
fn the_same_journal_gives_the_same_bytes() {
    assert!(record().0 == record().0);
}

#[test]
fn pieces_change_nothing() {
    // One long wait passes many events, where a wait for rest goes from each to the next.
    let long_waits = BY_HAND.replace("WaitForRest", "Wait(60)");
    for text in [BY_HAND, &long_waits] {
        let whole = play_text(text, Pieces::Events, &mut |_| {});
        for piece in [1_000, 16_000, 16_667, 3_600_000_000] {
            let other = play_text(text, Pieces::Of(Micros(piece)), &mut |_| {});
            assert_eq!(other.key_hash(), whole.key_hash(), "{piece}");
            assert_eq!(other.heard(), whole.heard(), "{piece}");
            assert_eq!(other.at(), whole.at(), "{piece}");
        }
    }
}

#[test]
fn rebuilt_after_every_cause_it_ends_the_same() {
    let (bytes, stood) = record();
    let exercise = exercise();
    let lines: Vec<usize> = bytes
        .iter()
        .enumerate()
        .filter(|(_, byte)| **byte == b'\n')
        .map(|(at, _)| at)
        .collect();
    assert_eq!(
        lines.len(),
        stood.len() + 2,
        "first line, causes, last line"
    );
    for (number, stood) in stood.iter().enumerate() {
        let part = &bytes[..=lines[number + 1]];
        let kept = kept(part);
        assert_eq!(kept.causes(), number + 1);
        let problems = Problems::new();
        let rebuilt = kept.rebuild(&problems).expect("its texts can be read");
        assert_eq!(rebuilt.difference, None);
        assert_eq!(rebuilt.attempt.done(), &stood.done()[..=number]);
        // Gone on with, it ends in the same bytes.
        let mut file = part.to_vec();
        file.truncate(kept.whole_bytes());
        let mut attempt = rebuilt.attempt;
        let mut recorder = Recorder::go_on(file, &kept, &attempt).expect("memory");
        for done in &play(Pieces::Events, &mut |_| {}).done()[number + 1..] {
            attempt.wait(done.at - attempt.at());
            attempt.do_at_once(done.cause).expect("it was on offer");
        }
        recorder.catch_up(&attempt).expect("memory");
        assert!(
            recorder.end(&attempt).expect("memory") == bytes,
            "after {number}"
        );
        assert_eq!(attempt.grade(&exercise).verdict, Verdict::Passed);
    }
}

#[test]
fn cut_at_any_byte_it_is_cut_off_and_keeps_its_whole_lines() {
    let bytes = small();
    let ends: Vec<usize> = (1..=bytes.len())
        .filter(|end| bytes[end - 1] == b'\n')
        .collect();
    for end in 0..bytes.len() {
        let cut = &bytes[..end];
        let Reading::CutOff(kept) = read_attempt(cut) else {
            panic!("{end}: {:?}", read_attempt(cut));
        };
        // A line that lacks nothing but its newline is whole.
        let whole = ends
            .iter()
            .rev()
            .find(|line| **line <= end + 1)
            .copied()
            .unwrap_or(0);
        let found = kept.map_or(0, |kept| kept.whole_bytes());
        assert_eq!(found, whole.min(end), "{end}");
    }
    assert!(matches!(read_attempt(&bytes), Reading::Whole(_)));
}

#[test]
fn any_changed_byte_is_found() {
    let bytes = small();
    let first = bytes
        .iter()
        .position(|byte| *byte == b'\n')
        .expect("it has lines");
    for at in 0..bytes.len() {
        for flip in [1, 2, 4, 8, 16, 32, 64, 128] {
            let mut changed = bytes.clone();
            changed[at] ^= flip;
            match read_attempt(&changed) {
                Reading::Edited(_) => {}
                Reading::Foreign(_) if at < first => {}
                other => panic!("byte {at}, flip {flip}: {other:?}"),
            }
        }
    }
}

#[test]
fn a_later_form_and_other_files_are_foreign() {
    let later = b"{\"format\":7,\"kind\":\"rackproof attempt\",\"new\":1}\n";
    assert_eq!(read_attempt(later), Reading::Foreign(Foreign::Later(7)));
    let others: [&[u8]; 4] = [
        b"\n",
        b"{}\n",
        b"Journal(drill: \"a\")",
        b"{\"format\":1}\n",
    ];
    for other in others {
        assert_eq!(read_attempt(other), Reading::Foreign(Foreign::NotAnAttempt));
    }
    assert_eq!(read_attempt(b""), Reading::CutOff(None));
}

#[test]
fn another_outcome_or_end_is_a_difference_on_its_line() {
    let (bytes, _) = record();
    let whole = kept(&bytes);
    let mut outcome = whole.clone();
    let (line, cause) = &mut outcome.causes[5];
    let line = *line;
    cause.heard.push("1 UnitChanged(Held)".to_owned());
    let mut refused = whole.clone();
    refused.causes[3].1.cause = "HandIn".to_owned();
    let mut time = whole.clone();
    time.causes[2].1.at = 0;
    let mut key = whole.clone();
    let (last, end) = key.end.as_mut().expect("it is whole");
    let last = *last;
    end.key = "0".repeat(64);
    for (changed, line) in [(outcome, line), (refused, 5), (time, 4), (key, last)] {
        let rebuilt = changed
            .rebuild(&Problems::new())
            .expect("its texts can be read");
        assert_eq!(rebuilt.difference.map(|it| it.line), Some(line));
    }
    let rebuilt = whole
        .rebuild(&Problems::new())
        .expect("its texts can be read");
    assert_eq!(rebuilt.difference, None);
}

/// A disk that takes so many bytes and then fails.
struct Full(usize);

impl Write for Full {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        self.0 = self
            .0
            .checked_sub(bytes.len())
            .ok_or(io::ErrorKind::StorageFull)?;
        Ok(bytes.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}

impl Durable for Full {
    fn make_sure(&mut self) -> io::Result<()> {
        Ok(())
    }
}

#[test]
fn a_full_disk_is_an_error_at_once() {
    let exercise = exercise();
    let (mode, proof) = (PlayedAs::Practice, ProofState::Missing);
    let begin = |room| Recorder::begin(Full(room), &material(), &exercise, 0, mode, &proof);
    assert!(begin(10).is_err());
    let mut recorder = begin(1_000_000).map_err(|_| ()).expect("there is room");
    let note = Note {
        noted: 0,
        note: "x".repeat(1_000_000),
    };
    assert!(recorder.note(&note).is_err());
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 256,
        failure_persistence: None,
        ..ProptestConfig::default()
    })]

    #[test]
    fn any_bytes_are_answered(bytes in proptest::collection::vec(any::<u8>(), 0..400)) {
        let _answer = read_attempt(&bytes);
    }

    #[test]
    fn any_bytes_after_a_good_beginning_are_answered(
        cut in 0..small().len(),
        bytes in proptest::collection::vec(any::<u8>(), 0..80),
    ) {
        let mut all = small()[..cut].to_vec();
        all.extend(bytes);
        if let Reading::Whole(kept) | Reading::CutOff(Some(kept)) = read_attempt(&all) {
            let _problems = kept.rebuild(&Problems::new());
        }
    }

    #[test]
    fn any_text_as_a_journal_is_answered(text in "\\PC{0,80}", at in 0..BY_HAND.len()) {
        let exercise = exercise();
        let cut = BY_HAND.floor_char_boundary(at);
        let journal = format!("{}{text}{}", &BY_HAND[..cut], &BY_HAND[cut..]);
        let problems = Problems::new();
        let report = problems.for_file("", &journal);
        if let Some(journal) = Journal::read(report, &exercise) {
            let judged = exercise.judged(journal.variant).expect("it was found");
            journal.run(&mut Attempt::new(judged), report, &mut |_| true);
        }
    }
}
