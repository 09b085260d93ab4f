//! The answers, as text with their formulas and as one JSON object.

use std::io;

use rackproof_buffer::{Order, Sending};
use rackproof_words::{Arg, Words};
use serde_json::{Value, json};

use super::{
    asked::{Asked, Changeover},
    figures::{Begin, DAY, Figures},
    person::Share,
};
use crate::lines::wrapped;

/// Values of a message.
type Told<'a> = Vec<(&'static str, Arg<'a>)>;

/// A time in seconds to a thousandth, without noughts at its end: `4.91 s`.
fn seconds(micros: u64) -> Arg<'static> {
    let millis = (micros + 500) / 1_000;
    let (whole, rest) = (millis / 1_000, millis % 1_000);
    let decimals = format!("{rest:03}");
    let decimals = decimals.trim_end_matches('0');
    Arg::from(if decimals.is_empty() {
        format!("{whole} s")
    } else {
        format!("{whole}.{decimals} s")
    })
}

fn count(number: impl Into<i64>) -> Arg<'static> {
    Arg::Number(number.into())
}

/// Writes all answers.
pub(super) fn write_text(
    asked: &Asked,
    figures: &Figures,
    out: &mut dyn io::Write,
    words: &Words,
) -> io::Result<()> {
    let head = [
        ("machine", Arg::from(asked.hall.name.as_str())),
        ("product", Arg::from(product(asked, asked.product))),
        ("boards", count(asked.boards)),
        ("order", Arg::from(words.say(order_id(asked), &[]))),
    ];
    write!(out, "{}", wrapped("", 0, &words.say("reckon-head", &head)))?;
    let parts = [
        ("reckon-part-slots", slots(figures)),
        ("reckon-part-drain", drain(asked, figures)),
        ("reckon-part-begin", begin(asked, figures)),
        ("reckon-part-belt", belt(figures)),
        ("reckon-part-hand", hand(asked, figures)),
        ("reckon-part-changeover", changeover(figures)),
        ("reckon-part-rests", vec![("reckon-rests", Vec::new())]),
    ];
    let next = ("next", Arg::from(product(asked, asked.next)));
    for (head, rows) in parts {
        writeln!(out, "\n{}", words.say(head, std::slice::from_ref(&next)))?;
        for (id, told) in rows {
            write!(out, "{}", wrapped("  -", 4, &words.say(id, &told)))?;
        }
    }
    Ok(())
}

fn product(asked: &Asked, number: u8) -> &str {
    let name = asked.hall.product_names.get(usize::from(number));
    name.map_or("", String::as_str)
}

fn order_id(asked: &Asked) -> &'static str {
    match asked.machine.order_for(asked.product) {
        Order::FirstInFirstOut => "reckon-order-first",
        Order::LastInFirstOut => "reckon-order-last",
        Order::StraightThrough => "reckon-order-through",
    }
}

fn slots(figures: &Figures) -> Vec<(&'static str, Told<'_>)> {
    let capacity = &figures.capacity;
    let used = vec![
        ("slots", count(capacity.slots)),
        ("interval", count(capacity.interval)),
        ("used", count(capacity.used)),
    ];
    let room = vec![
        ("used", count(capacity.used)),
        ("each", count(capacity.boards_in_slot)),
        ("boards", count(capacity.boards)),
    ];
    vec![("reckon-slots", used), ("reckon-room", room)]
}

/// One board, in its parts.
fn sending(one: &Sending) -> Told<'static> {
    vec![
        ("slot", count(one.slot + 1)),
        ("index", seconds(one.index.0.into())),
        ("draw", seconds(one.draw_back.0.into())),
        ("belts", seconds(one.transfer.0.into())),
        ("back", seconds(one.back.0.into())),
        ("signal", seconds(one.signal.0.into())),
        ("time", seconds(one.cycle().0.into())),
    ]
}

fn drain<'a>(asked: &Asked, figures: &'a Figures) -> Vec<(&'static str, Told<'a>)> {
    let mut rows = vec![("reckon-board", Vec::new())];
    if let Some([quickest, slowest]) = figures.ends() {
        rows.push(("reckon-quickest", sending(&quickest)));
        if slowest.cycle() != quickest.cycle() {
            rows.push(("reckon-slowest", sending(&slowest)));
        }
    }
    let (waiting, slower) = figures.waiting();
    let others = figures.drain.sendings.len() as u64 - 1 - waiting;
    let last = figures.drain.sendings.last();
    let time = figures.drain.time();
    let mut sum = vec![
        ("others", count(others as i64)),
        ("slower", seconds(slower)),
        (
            "last",
            seconds(last.map_or(0, |one| one.until_left().0.into())),
        ),
        ("time", seconds(time)),
        ("clock", Arg::Clock(time)),
    ];
    let Some(takt) = asked.takt else {
        rows.push(("reckon-drain-free", sum));
        return rows;
    };
    let takt = ("takt", seconds(takt.0.into()));
    sum.extend([("waiting", count(waiting as i64)), takt.clone()]);
    rows.push(("reckon-drain-takt", sum));
    let slowest = figures.ends().map_or(0, |[_, slowest]| slowest.cycle().0);
    if slowest > figures.drain.takt.0 {
        let told = vec![takt, ("time", seconds(slowest.into()))];
        rows.push(("reckon-takt-short", told));
        return rows;
    }
    // Little's law, L = λ · W: n boards inside and one out each takt, so a board stays n takts.
    let stay = u64::from(asked.boards) * u64::from(figures.drain.takt.0);
    let law = vec![
        ("boards", count(asked.boards)),
        takt,
        ("time", seconds(stay)),
        ("clock", Arg::Clock(stay)),
    ];
    rows.push(("reckon-stay", law));
    rows
}

fn begin<'a>(asked: &Asked, figures: &'a Figures) -> Vec<(&'static str, Told<'a>)> {
    let time = ("time", seconds(figures.drain.time()));
    let before = vec![
        time.clone(),
        ("minutes", count(figures.minutes_before() as i64)),
    ];
    let mut rows = vec![("reckon-before", before)];
    match (asked.changeover, figures.begin) {
        (Some(Changeover::At(minute)), Some(Begin::At(at, before))) => {
            let of_day = |micros: u64| Arg::from(time_of_day(micros));
            let id = if before {
                "reckon-begin-day-before"
            } else {
                "reckon-begin-at"
            };
            let changeover = of_day(u64::from(minute) * 60_000_000);
            let told = vec![("changeover", changeover), time, ("begin", of_day(at))];
            rows.push((id, told));
        }
        (Some(Changeover::Within(minutes)), Some(Begin::Within(left))) => {
            let told = vec![
                ("minutes", count(i64::from(minutes))),
                time,
                ("begin", Arg::Clock(left)),
            ];
            rows.push(("reckon-begin-within", told));
        }
        (Some(Changeover::Within(minutes)), Some(Begin::Late(inside))) => {
            let told = vec![
                ("minutes", count(i64::from(minutes))),
                time,
                ("boards", count(inside)),
            ];
            rows.push(("reckon-begin-late", told));
        }
        _ => {}
    }
    rows
}

/// A time of day: `13:31:40`.
fn time_of_day(micros: u64) -> String {
    let seconds = micros % DAY / 1_000_000;
    let (hours, minutes) = (seconds / 3_600, seconds / 60 % 60);
    format!("{hours:02}:{minutes:02}:{:02}", seconds % 60)
}

/// The machine's share and the person's.
fn sum(machine: u64, person: u64) -> (&'static str, Told<'static>) {
    let told = vec![
        ("machine", seconds(machine)),
        ("person", seconds(person)),
        ("time", seconds(machine + person)),
        ("clock", Arg::Clock(machine + person)),
    ];
    ("reckon-sum", told)
}

fn belt(figures: &Figures) -> Vec<(&'static str, Told<'_>)> {
    let (belt, share) = (&figures.belt, &figures.belt_person);
    let (slots, boards) = (count(belt.slots), count(belt.boards));
    let mut machine = vec![
        ("index", seconds(belt.index)),
        ("slots", slots.clone()),
        ("run", seconds(belt.run_out.0.into())),
        ("firsts", count(belt.boards - belt.pairs)),
        ("first", seconds(belt.first_board.0.into())),
        ("time", seconds(belt.time())),
    ];
    let id = if belt.pairs == 0 {
        "reckon-belt-machine"
    } else {
        machine.push(("seconds", count(belt.pairs)));
        machine.push(("second", seconds(belt.second_board.0.into())));
        "reckon-belt-machine-pairs"
    };
    let time = share.time(belt.boards, belt.slots);
    let person = vec![
        ("before", seconds(share.before)),
        ("slots", slots),
        ("slot", seconds(share.slot)),
        ("boards", boards),
        ("board", seconds(share.board)),
        ("time", seconds(time)),
    ];
    vec![
        (id, machine),
        ("reckon-belt-person", person),
        sum(belt.time(), time),
    ]
}

fn hand<'a>(asked: &Asked, figures: &'a Figures) -> Vec<(&'static str, Told<'a>)> {
    let (hand, share) = (&figures.hand, &figures.hand_person);
    let machine = vec![
        ("declare", seconds(hand.declare.0.into())),
        ("reference", seconds(hand.reference.0.into())),
        ("time", seconds(figures.hand_machine())),
    ];
    let time = share.time(asked.boards, 0);
    let person = vec![
        ("before", seconds(share.before)),
        ("boards", count(asked.boards)),
        ("board", seconds(share.board)),
        ("after", seconds(share.after)),
        ("time", seconds(time)),
    ];
    vec![
        ("reckon-hand-person", person),
        ("reckon-hand-machine", machine),
        sum(figures.hand_machine(), time),
    ]
}

fn changeover(figures: &Figures) -> Vec<(&'static str, Told<'_>)> {
    let hand = &figures.hand;
    let row = |way: u32, time: u64| {
        vec![
            ("way", seconds(way.into())),
            ("sweep", seconds(hand.sweep.0.into())),
            ("zero", seconds(hand.rails_to_zero.0.into())),
            ("width", seconds(hand.rails_to_width.0.into())),
            ("time", seconds(time)),
        ]
    };
    let after_belt = row(figures.back_to_sweep.0, figures.changeover_after_belt());
    let after_hand = row(hand.to_sweep.0, figures.changeover_after_hand());
    vec![
        ("reckon-changeover", Vec::new()),
        ("reckon-changeover-belt", after_belt),
        ("reckon-changeover-hand", after_hand),
    ]
}

/// All answers as one object. Times in µs.
pub(super) fn object(asked: &Asked, figures: &Figures) -> Value {
    let Figures {
        capacity,
        drain,
        belt,
        hand,
        ..
    } = figures;
    let sendings = drain.sendings.iter().map(|one| {
        json!({
            "slot": one.slot + 1, "index_us": one.index.0, "draw_back_us": one.draw_back.0,
            "belts_us": one.transfer.0, "back_us": one.back.0, "signal_us": one.signal.0,
            "cycle_us": one.cycle().0,
        })
    });
    let person = |share: &Share, time: u64| {
        json!({
            "before_us": share.before, "board_us": share.board, "slot_us": share.slot,
            "after_us": share.after, "time_us": time,
        })
    };
    let begin = figures.begin.map(|begin| match begin {
        Begin::Within(left) => json!({ "in_us": left }),
        Begin::At(at, before) => json!({ "at": time_of_day(at), "day_before": before }),
        Begin::Late(inside) => json!({ "late": true, "boards_inside": inside }),
    });
    let belt_person = figures.belt_person.time(belt.boards, belt.slots);
    let hand_person = figures.hand_person.time(asked.boards, 0);
    json!({
        "machine": asked.hall.name,
        "product": product(asked, asked.product),
        "next": product(asked, asked.next),
        "boards": asked.boards,
        "takt_us": asked.takt.map(|takt| takt.0),
        "capacity": {
            "slots": capacity.slots, "interval": capacity.interval, "used": capacity.used,
            "boards_in_slot": capacity.boards_in_slot, "boards": capacity.boards,
        },
        "drain": { "time_us": drain.time(), "sendings": sendings.collect::<Vec<_>>() },
        "begin_minutes_before": figures.minutes_before(),
        "begin": begin,
        "clear_out_by_belt": {
            "index_us": belt.index, "slots": belt.slots, "run_out_us": belt.run_out.0,
            "boards": belt.boards, "pairs": belt.pairs, "first_board_us": belt.first_board.0,
            "second_board_us": belt.second_board.0, "machine_us": belt.time(),
            "person": person(&figures.belt_person, belt_person), "time_us": figures.belt_time(),
            "changeover_us": figures.changeover_after_belt(),
        },
        "clear_out_by_hand": {
            "declare_us": hand.declare.0, "reference_us": hand.reference.0,
            "machine_us": figures.hand_machine(),
            "person": person(&figures.hand_person, hand_person), "time_us": figures.hand_time(),
            "changeover_us": figures.changeover_after_hand(),
        },
    })
}

#[cfg(test)]
mod told_tests;
