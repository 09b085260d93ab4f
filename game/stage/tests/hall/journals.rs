//! Every kept journal in the hall: pictures at its decisive moments, as the window takes them. None
//! panics, none is empty, and each cue that the journal tells is in the picture of its moment.

use std::{collections::BTreeSet, fs, path::Path};

use rackproof_attempt::{Attempt, History, Journal, journal_drill};
use rackproof_drill::{Aim, Cause, Cue, Intent, Outcome, Sign, Stand};
use rackproof_files::Problems;
use rackproof_grade::JudgedOutcome;
use rackproof_library::{Loaded, drill, files_in, load};
use rackproof_stage::hall::{Filter, Gaze, Hall, Scene, Shows, View, cue_mark};

use crate::{
    cues::{is_upright, turn_for},
    scenes::{Painter, marks},
};

const SIZE: [u32; 2] = [824, 556];
/// So many pixels has a cue at least.
const CUE_LEAST: u32 = 12;
/// A picture of the hall has at least so many colours.
const COLOURS_LEAST: usize = 40;

/// A journal, and the drill with all that it names.
fn read(path: &Path) -> (Loaded, Journal) {
    let text = fs::read_to_string(path).expect("it can be read");
    let problems = Problems::new();
    let file = path.to_string_lossy();
    let report = problems.for_file(&file, &text);
    let name = journal_drill(report).expect("it names its drill");
    let named = drill(&name, path).expect("its drill is there");
    let loaded = load(named, &problems).expect("its drill has no problem");
    let journal = Journal::read(report, &loaded.exercise);
    assert!(problems.is_empty(), "{name}: {:?}", problems.sorted());
    (loaded, journal.expect("it has no problem"))
}

fn play(loaded: &Loaded, journal: &Journal) -> Attempt {
    let judged = loaded.exercise.judged(journal.variant);
    let mut attempt = Attempt::new(judged.expect("it is listed"));
    let problems = Problems::new();
    let report = problems.for_file("journal", "");
    assert!(journal.run(&mut attempt, report, &mut |_| true));
    attempt
}

/// A moment to be drawn, from which view, and the cue that is told there.
type Moment = (u64, View, Option<Cue>);

/// The moments that decide: each cue that has a piece, in its view; each board that is seen, each
/// harm and breach, and the end, as the person looks then.
fn moments(history: &History) -> Vec<Moment> {
    let mut moments: Vec<Moment> = Vec::new();
    let end = history.end();
    for heard in history.heard_until(end) {
        let stand = history.state_at(heard.at).world.person.stand;
        let looks = View::of(stand, aim_at(history, heard.at));
        let moment = match &heard.outcome {
            JudgedOutcome::World(Outcome::Sign(Sign::Cue(cue))) if cue_mark(*cue).is_some() => {
                let view = if is_upright(*cue) {
                    View::Stand(stand)
                } else {
                    looks
                };
                (heard.at, view, Some(*cue))
            }
            JudgedOutcome::World(Outcome::Sign(Sign::SawBoard { .. } | Sign::Crack))
            | JudgedOutcome::World(Outcome::Harm(_))
            | JudgedOutcome::Broke(_) => (heard.at, looks, None),
            _ => continue,
        };
        if !moments.contains(&moment) {
            moments.push(moment);
        }
    }
    let stand = history.state_at(end).world.person.stand;
    moments.push((end, View::of(stand, aim_at(history, end)), None));
    moments
}

/// The aim that the person kept: of their last look, until they walked or shut the hatch.
fn aim_at(history: &History, at: u64) -> Option<Aim> {
    let mut aim = None;
    for done in history.done_until(at) {
        match done.cause {
            Cause::Did(Intent::Look(of)) => aim = Some(of),
            Cause::Did(Intent::Walk(_) | Intent::ShutHatch) => aim = None,
            _ => {}
        }
    }
    aim
}

/// The hall of one drill, and who paints it.
struct Place {
    drill: String,
    hall: Hall,
    painter: Painter,
}

/// Draws a journal's moments. How many, and how many of them have a cue.
fn draw(path: &Path, place: &mut Option<Place>, wrong: &mut Vec<String>) -> [usize; 2] {
    let (loaded, journal) = read(path);
    let attempt = play(&loaded, &journal);
    let history = History::of(&attempt);
    let world = attempt.world();
    let drill = &loaded.exercise.drill.id;
    let known = place.take().filter(|place| place.drill == *drill);
    let Place { hall, painter, .. } = place.insert(known.unwrap_or_else(|| {
        let hall = Hall::new(world);
        let painter = Painter::new(&hall, SIZE[0], SIZE[1]);
        let drill = drill.clone();
        Place {
            drill,
            hall,
            painter,
        }
    }));
    let mut counts = [0; 2];
    for (at, view, cue) in moments(&history) {
        let state = history.state_at(at).world;
        let scene = Scene {
            world,
            state: &state,
            gaze: Gaze {
                turn: turn_for(cue),
                ..view.into()
            },
            shows: Shows::Seen,
        };
        let name = format!("{} at {at} {view:?}", path.display());
        let area = painter.area();
        let picture = painter.paint(hall.frame(&scene, area));
        // Enough of its pixels, and quickly.
        let pixels = picture.bytes.chunks_exact(4).step_by(7);
        let colours: BTreeSet<&[u8]> = pixels.collect();
        if colours.len() < COLOURS_LEAST {
            wrong.push(format!("{name}: {} colours", colours.len()));
        }
        counts[0] += 1;
        if let Some((cue, mark)) = cue.and_then(|cue| Some((cue, cue_mark(cue)?))) {
            let frame = hall.count_frame(&scene, area, Filter::AsDrawn, None);
            let found = marks(&painter.paint(frame)).get(&mark).copied();
            if found.unwrap_or(0) < CUE_LEAST {
                wrong.push(format!("{name}: {cue:?} has {found:?} px"));
            }
            counts[1] += 1;
        }
    }
    counts
}

#[test]
fn every_kept_journal_is_shown_at_the_moments_that_decide() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    let folder = root.join("tests/journals");
    let (mut wrong, mut journals, mut counts) = (Vec::new(), 0, [0; 2]);
    let mut place = None;
    for path in files_in(&folder, "ron").expect("it is a folder") {
        if path
            .components()
            .any(|part| part.as_os_str() == "scenarios")
        {
            continue;
        }
        let drawn = draw(&path, &mut place, &mut wrong);
        assert!(drawn[0] > 0);
        journals += 1;
        counts = [counts[0] + drawn[0], counts[1] + drawn[1]];
    }
    assert!(wrong.is_empty(), "{}:\n{}", wrong.len(), wrong.join("\n"));
    assert!(journals >= 70 && counts[1] >= 15, "{journals} {counts:?}");
    println!("{journals} journals, {counts:?} pictures, those of a cue behind");
}

/// The stand of a cue is the one of its side: a moment upright is at that neighbour.
#[test]
fn a_journal_of_a_quirk_has_a_moment_upright() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    let path = root.join("tests/journals/neighbours/jumper-seen.ron");
    let (loaded, journal) = read(&path);
    let history = History::of(&play(&loaded, &journal));
    let upright = View::Stand(Stand::Outfeed);
    let cues = moments(&history);
    let jumper = cues
        .iter()
        .find(|(_, view, cue)| *view == upright && matches!(cue, Some(Cue::Jumper(_))));
    assert!(jumper.is_some(), "{cues:?}");
}
