//! Machine and drill files at random: the shipped ones with figures and choices changed.

use rackproof_files::{Bound, Problems};

use crate::{
    World,
    file::{bounds, read_drill, read_machine},
};

const MACHINES: [&str; 2] = [
    include_str!("../../../assets/machines/alder-16.ron"),
    include_str!("../../../assets/machines/rowan-40.ron"),
];
const DRILL: &str = include_str!("../../../scenarios/changeover/left-inside.ron");

/// A stream of numbers from a seed. Source: the generator splitmix64, published in the public
/// domain by its author.
pub(crate) struct Chance(pub(crate) u64);

impl Chance {
    pub(crate) fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    /// A number below `bound`, which is not nought.
    pub(crate) fn below(&mut self, bound: u64) -> u64 {
        self.next() % bound
    }

    pub(crate) fn of<T: Copy>(&mut self, list: &[T]) -> T {
        list[self.below(list.len() as u64) as usize]
    }
}

/// Figures that are changed, with their bounds. A board's length is told apart by its line.
const FIGURES: &[(&str, &Bound)] = &[
    ("slots", &bounds::SLOTS),
    ("pitch_mm", &bounds::PITCH),
    ("length_mm", &bounds::RACK_LENGTH),
    ("rest_clearance_mm", &bounds::REST_CLEARANCE),
    ("ledge_mm", &bounds::LEDGE),
    ("reference_below_mm", &bounds::REFERENCE_BELOW),
    ("reached_from_under", &bounds::REACHED_FROM_UNDER),
    ("least_mm", &bounds::WIDTH),
    ("most_mm", &bounds::WIDTH),
    ("side_play_mm", &bounds::SIDE_PLAY),
    ("gap_mm", &bounds::GAP),
    ("infeed_mm", &bounds::BELT),
    ("outfeed_mm", &bounds::BELT),
    ("end_beam_before_mm", &bounds::END_BEAM_BEFORE),
    ("bent_after_mm", &bounds::MOUTH_TRAVEL),
    ("sheared_after_mm", &bounds::MOUTH_TRAVEL),
    ("speed_mm_s", &bounds::SPEED),
    ("acceleration_mm_s2", &bounds::ACCELERATION),
    ("braking_mm_s2", &bounds::ACCELERATION),
    ("jerk_mm_s3", &bounds::JERK),
    ("range_mm", &bounds::BEAM_RANGE),
    ("reflectance", &bounds::REFLECTANCE),
    ("end_reflectance", &bounds::REFLECTANCE),
    ("signal_open_s", &bounds::SIGNAL_OPEN),
    ("declare_hold_s", &bounds::DECLARE_HOLD),
    ("release_interval_s", &bounds::RELEASE_INTERVAL),
    ("arrival_time_out_s", &bounds::ARRIVAL_TIME_OUT),
    ("part_margin_mm", &bounds::PART_MARGIN),
    ("at_mm", &bounds::BEAM_PLACE),
    ("clearance_mm", &bounds::BEAM_CLEARANCE),
    ("past_mm", &bounds::PAST_MOUTH),
    ("width_mm", &bounds::WIDTH),
    ("thickness_mm", &bounds::THICKNESS),
    ("above_mm", &bounds::PART_HEIGHT),
    ("below_mm", &bounds::PART_HEIGHT),
    ("strain_limit", &bounds::STRAIN),
    ("strain_break", &bounds::STRAIN),
    ("interval", &bounds::INTERVAL),
];

/// Choices that are changed.
const CHOICES: &[(&str, &[&str])] = &[
    ("machine_ready", &["Room", "OnOffer"]),
    ("rails_zero", &["Closing", "Opening"]),
    ("sweep_seen", &["FromThereUp", "All"]),
    ("rails_asked", &["true", "false"]),
    ("runs_after_changeover", &["true", "false"]),
    ("whole_cycle_if_same", &["true", "false"]),
    (
        "order",
        &["FirstInFirstOut", "LastInFirstOut", "StraightThrough"],
    ),
    ("order_scope", &["Product", "Machine"]),
    ("priority", &["Filling", "Emptying"]),
    ("tandem", &["true", "false"]),
    ("lays_by_hand", &["true", "false"]),
    ("downstream_ready", &["true", "false"]),
    ("mode", &["Production", "Changeover"]),
];

/// The bound itself, anything within it, or near what it was.
fn figure(bound: &Bound, old: &str, chance: &mut Chance) -> String {
    let scale = 10_i64.pow(u32::from(bound.decimals));
    let (whole, rest) = old.split_once('.').unwrap_or((old, ""));
    let rest = format!("{rest:0<width$}", width = usize::from(bound.decimals));
    let old = whole.parse::<i64>().unwrap_or(0) * scale + rest.parse::<i64>().unwrap_or(0);
    let room = (bound.most - bound.least + 1) as u64;
    let new = match chance.below(8) {
        0 => bound.least,
        1 => bound.most,
        2 | 3 => bound.least + chance.below(room) as i64,
        _ => old * (50 + chance.below(100) as i64) / 100,
    };
    let new = new.clamp(bound.least, bound.most);
    let sign = if new < 0 { "-" } else { "" };
    let (whole, rest) = (new.abs() / scale, new.abs() % scale);
    if bound.decimals == 0 {
        return format!("{sign}{whole}");
    }
    format!(
        "{sign}{whole}.{rest:0width$}",
        width = usize::from(bound.decimals)
    )
}

/// What is written for a field in place of `old`.
fn changed(line: &str, field: &str, old: &str, chance: &mut Chance) -> Option<String> {
    if let Some((_, words)) = CHOICES.iter().find(|(name, _)| *name == field) {
        return Some(chance.of(words).to_owned());
    }
    let (_, bound) = FIGURES.iter().find(|(name, _)| *name == field)?;
    let is_number = old.starts_with(|first: char| first.is_ascii_digit());
    let bound = if field == "length_mm" && line.contains("Board(") {
        &bounds::BOARD_LENGTH
    } else {
        *bound
    };
    is_number.then(|| figure(bound, old, chance))
}

/// The text with about one in `rare` of its figures and choices changed.
fn vary(text: &str, rare: u64, chance: &mut Chance) -> String {
    let mut out = String::new();
    for line in text.lines() {
        let code = line.split("//").next().unwrap_or("");
        for (number, part) in code.split_inclusive([',', '(']).enumerate() {
            debug_assert!(number < 100, "a line of fields");
            let new = part.split_once(": ").and_then(|(field, value)| {
                let old = value.trim_end_matches([',', ')', ' ']);
                let new = (chance.below(rare) == 0)
                    .then(|| changed(line, field.trim(), old, chance))??;
                Some(format!("{field}: {new}{}", &value[old.len()..]))
            });
            out.push_str(new.as_deref().unwrap_or(part));
        }
        out.push('\n');
    }
    out
}

/// What may be said of a neighbour, of each list one.
const WORKS: &[&str] = &[
    "Every(cycle_s: 0.1)",
    "Every(cycle_s: 9.0, first_s: 4.0)",
    "Chance",
    "Stopped",
];
const UPSTREAM: [&[&str]; 5] = [
    &[
        "AtExit",
        "AtExit",
        "WhenReady",
        "Jumper",
        "TestBox",
        "ByHand",
    ],
    &["Changed", "Old"],
    &[
        "Failed(boards: [2], line: Both)",
        "Failed(boards: [1, 3], line: Either)",
    ],
    &["Never", "Chance", "Board(number: 2, after_s: 0.6)"],
    &["Never", "Chance", "Board(1)"],
];
const DOWNSTREAM: [&[&str]; 4] = [
    &["Room", "Room", "OnOffer", "Jumper", "Design", "TestBox"],
    &["Changed", "Old"],
    &["false", "true"],
    &["Never", "Chance", "Board(number: 1, after_s: 2.5)"],
];

/// A line in place of the drill's, in half of the cases.
fn vary_line(text: &str, chance: &mut Chance) -> String {
    let from = text.find("downstream_ready: ").unwrap_or(text.len());
    let to = text[from..].find(')').map_or(from, |end| from + end);
    if chance.below(2) == 0 {
        return text.to_owned();
    }
    let works = [(); 2].map(|()| chance.of(WORKS));
    let [available, rails, failed, drops, two] = UPSTREAM.map(|list| chance.of(list));
    let [ready, width, chatters, drops_too] = DOWNSTREAM.map(|list| chance.of(list));
    let late = if works[1].contains("9.0") {
        "3.0"
    } else {
        "0.0"
    };
    let boards = 1 + chance.below(12);
    let line = format!(
        "upstream: Upstream(boards: {boards}, works: {}, available: {available}, rails: {rails},
            failed: {failed}, drops: {drops}, two_at_once: {two}),
        downstream: Downstream(works: {}, ready: {ready}, rails: {width}, opens_late_s: {late},
            chatters: {chatters}, drops: {drops_too})",
        works[0], works[1]
    );
    format!("{}{line}{}", &text[..from], &text[to..])
}

/// The drill with slots that the rack has.
fn drill_for(slots: u8, chance: &mut Chance) -> String {
    let text = vary_line(&vary(DRILL, 3, chance), chance);
    let mut parts = text.split("slot: ");
    let mut out = parts.next().unwrap_or("").to_owned();
    for part in parts {
        let (number, rest) = part.split_once(',').unwrap_or((part, ""));
        let slot: u8 = number.parse().unwrap_or(1);
        out.push_str(&format!("slot: {},{rest}", (slot - 1) % slots + 1));
    }
    out
}

/// A world of a random machine, and the text of its file; or nothing if the files are refused,
/// which they are in words.
pub(crate) fn any_world(chance: &mut Chance) -> Option<(World, String)> {
    let rare = chance.of(&[4, 8, 20, 60]);
    let text = vary(chance.of(&MACHINES), rare, chance);
    let problems = Problems::new();
    let machine = read_machine(problems.for_file("machine", &text));
    assert_eq!(machine.is_none(), !problems.sorted().is_empty(), "{text}");
    let machine = machine?;
    let drill = drill_for(machine.0.slots(), chance);
    let drill = read_drill(problems.for_file("drill", &drill), |_| Ok(&machine))?;
    let variant = chance.below(drill.variants.len() as u64) as usize;
    Some((World::new(machine.0, machine.1, drill, variant), text))
}
