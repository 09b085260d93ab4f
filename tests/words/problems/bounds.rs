//! Every declared bound of machine files, drill files and rules: its ends are taken, and what lies
//! one step beyond either is refused in words, with the unit and both ends.
//!
//! The figures are those that the readers ask for, each with the bound that it is checked against;
//! so nothing is listed here but lists, whose lengths are not asked for.

use std::{collections::BTreeSet, path::Path};

use rackproof_drill::file;
use rackproof_files::{Asked, Bound, Kind, Place, Problems, Value, What, read};
use rackproof_grade::Rules;
use rackproof_words::Words;

use super::line;
use crate::shipped;

const BOUNDS: &str = "game/drill/src/file/bounds.rs";

/// Reads a text as what it is.
type Read<'r> = dyn Fn(&Problems, &str) + 'r;

fn machine(problems: &Problems, text: &str) {
    file::read_machine(problems.for_file("text", text));
}

fn rules(problems: &Problems, text: &str) {
    Rules::read(problems.for_file("text", text), 16);
}

const FORMULAS: &str = "Rules(name: \"r\", define: {\"w\": Once(within_s: 1.0, of: True), \
                        \"l\": AtLeast(width: Counted, mm: 1.0)}, rules: [])";

/// What is said of a text within one place where a bound is passed there.
fn refused(text: &str, place: Place, read: &Read<'_>) -> Option<String> {
    let problems = Problems::new();
    read(&problems, text);
    let about = |at: Place| place.start <= at.start && at.end <= place.end;
    let all = problems.sorted();
    let mut all = all.iter();
    let found = all.find(|one| one.found.id == "problem-out-of-bounds" && about(one.place))?;
    Some(line(&Words::english(), found))
}

/// A text with another value in a place, and where that then stands.
fn put(text: &str, place: Place, value: &str) -> (String, Place) {
    let (start, end) = (place.start as usize, place.end as usize);
    let mut put = text.to_owned();
    put.replace_range(start..end, value);
    (put, Place::new(start, start + value.len()))
}

/// The ends of a bound are taken, and what is one step beyond is refused as it should be.
fn check_figure(text: &str, place: Place, bound: &Bound, read: &Read<'_>) {
    let told = |number: i64| {
        let (text, place) = put(text, place, &bound.written(number));
        refused(&text, place, read)
    };
    for end in [bound.least, bound.most] {
        assert_eq!(told(end), None, "{} of {}", bound.written(end), bound.words);
    }
    for beyond in [bound.least - 1, bound.most + 1] {
        let number = bound.written(beyond);
        let said = told(beyond).unwrap_or_else(|| panic!("{number} of {}", bound.words));
        check_said(
            &said,
            &number,
            bound.unit,
            &[bound.least, bound.most].map(|end| bound.written(end)),
        );
    }
}

fn check_said(said: &str, number: &str, unit: &str, [least, most]: &[String; 2]) {
    let found = format!("is {number} {unit}");
    let range = format!("from {least} to {most} {unit}");
    for part in [found.trim_end(), range.trim_end()] {
        assert!(said.contains(part), "{part} is missing in {said}");
    }
}

/// Every figure of a text that no text before it had, checked.
fn check_text(text: &str, read: &Read<'_>, known: &mut BTreeSet<String>, each: bool) {
    let problems = Problems::new();
    read(&problems, text);
    for Asked {
        place,
        what,
        left_out,
    } in problems.asked()
    {
        let What::Number(bound) = what else { continue };
        let is_new = known.insert(bound.words.to_owned());
        if left_out.is_none() && (is_new || each) {
            check_figure(text, place, &bound, read);
        }
    }
}

/// A list, by the words of the bound of its length: in which text, of which field, and its items.
struct Listed {
    words: &'static str,
    text: String,
    field: &'static str,
    items: fn(usize) -> String,
}

fn listed() -> [Listed; 7] {
    let alder = super::shipped_text("assets/machines", "alder-16.ron");
    let named = "name: \"alder-16\",";
    let with_words = alder.replacen(named, &format!("{named} words: {{}},"), 1);
    let drill = super::shipped_text("scenarios", "left-inside.ron");
    let of_drill = "name: \"left-inside\",";
    let with_faults = drill.replacen(of_drill, &format!("{of_drill} faults: [],"), 1);
    let listed = |words, text: &str, field, items| Listed {
        words,
        text: text.to_owned(),
        field,
        items,
    };
    [
        listed("kinds of board", &alder, "boards", |count| {
            many(count, |at| {
                format!(
                    "Board(name: \"b{at}\", length_mm: 180.0, width_mm: 160.0, \
                     thickness_mm: 1.6, reflectance: 45, strain_limit: 1000, strain_break: 2000)"
                )
            })
        }),
        listed("stored products", &alder, "products", |count| {
            many(count, |at| {
                format!("Product(name: \"p{at}\", board: \"wren\", width_mm: 160.0)")
            })
        }),
        listed("alarms that latch", &alder, "latching", |count| {
            many(count, |_| "HatchOpened".to_owned())
        }),
        listed("words of the site", &with_words, "words", |count| {
            let words = many(count, |at| format!("\"w{at}\": \"x\""));
            format!("{{{}}}", words.trim_matches(['[', ']']))
        }),
        listed(
            "length of a word of the site",
            &with_words,
            "words",
            |count| format!("{{\"command-reset\": \"{}\"}}", "é".repeat(count)),
        ),
        listed("faults of a drill", &with_faults, "faults", |count| {
            many(count, |at| {
                format!("Fault(name: \"f{at}\", what: BrakeFails, comes: Start)")
            })
        }),
        listed("listed starts", &drill, "variants", |count| {
            many(count, |at| {
                format!("Variant(name: \"v{at}\", traps: [\"half-a-look\"])")
            })
        }),
    ]
}

fn many(count: usize, item: impl Fn(usize) -> String) -> String {
    let items: Vec<String> = (0..count).map(item).collect();
    format!("[{}]", items.join(", "))
}

/// Where the value of a field stands.
fn place_of(text: &str, field: &str) -> Place {
    fn find(value: &Value, field: &str) -> Option<Place> {
        let Kind::Record(record) = &value.kind else {
            return None;
        };
        let here = record.fields.iter().find(|one| one.name == field);
        let inside = || record.fields.iter().find_map(|one| find(&one.value, field));
        here.map(|one| one.value.place).or_else(inside)
    }
    let problems = Problems::new();
    let value = read(problems.for_file("text", text)).expect("it can be read");
    find(&value, field).unwrap_or_else(|| panic!("no field {field}"))
}

/// Lists as long and as short as they may be, and one item beyond either.
fn check_lists(known: &mut BTreeSet<String>) {
    let all = declared(BOUNDS);
    let alder = shipped::machine("alder-16");
    let drill = |problems: &Problems, text: &str| {
        file::read_drill(problems.for_file("text", text), |_| Ok(&alder));
    };
    for list in listed() {
        let bound = all.iter().find(|one| one.words == list.words);
        let bound = bound.unwrap_or_else(|| panic!("no bound of {}", list.words));
        let [least, most] = bound.ends.expect("its ends are plain numbers");
        let read: &Read<'_> = if list.text.contains("Drill(") {
            &drill
        } else {
            &machine
        };
        let place = place_of(&list.text, list.field);
        let told = |count: i64| {
            let count = usize::try_from(count).ok()?;
            let (text, place) = put(&list.text, place, &(list.items)(count));
            refused(&text, place, read)
        };
        for end in [least, most] {
            assert_eq!(told(end), None, "{end} of {}", list.words);
        }
        for beyond in [least - 1, most + 1] {
            let said = told(beyond);
            assert_eq!(said.is_none(), beyond < 0, "{beyond} of {}", list.words);
            if let Some(said) = said {
                let ends = [least, most].map(|end| end.to_string());
                check_said(&said, &beyond.to_string(), &bound.unit, &ends);
            }
        }
        known.insert(list.words.to_owned());
    }
}

/// A bound as its source has it.
struct Declared {
    words: String,
    /// Its ends, where they are plain numbers.
    ends: Option<[i64; 2]>,
    unit: String,
}

/// All bounds that a source file declares.
fn declared(source: &str) -> Vec<Declared> {
    let source = shipped::text(&Path::new(env!("CARGO_MANIFEST_DIR")).join(source));
    let each = source.split(": Bound =").skip(1);
    each.map(|one| {
        let one = one.split(");").next().unwrap_or_default();
        let texts: Vec<&str> = one.split('"').skip(1).step_by(2).collect();
        let numbers: Vec<i64> = one
            .split('"')
            .step_by(2)
            .flat_map(|part| part.split([',', '(', ' ', '\n']))
            .filter_map(|part| part.replace('_', "").parse().ok())
            .collect();
        Declared {
            words: (*texts.last().expect("its words")).to_owned(),
            ends: numbers.try_into().ok(),
            unit: texts[1].to_owned(),
        }
    })
    .collect()
}

#[test]
fn each_end_of_each_bound_is_taken_and_what_is_beyond_is_refused_with_unit_and_range() {
    let mut known = BTreeSet::new();
    for name in ["rowan-40.ron", "alder-16.ron"] {
        let text = super::shipped_text("assets/machines", name);
        check_text(&text, &machine, &mut known, true);
    }
    let machines = ["alder-16", "rowan-40"].map(|name| (name, shipped::machine(name)));
    let kept = ["scenarios", "tests/journals"].map(|folder| shipped::files(folder, "ron"));
    for path in kept.iter().flatten() {
        let text = shipped::text(path);
        let named = |name: &str| text.contains(&format!("machine: {name:?}"));
        let Some((_, machine)) = machines.iter().find(|(name, _)| named(name)) else {
            continue;
        };
        if text.contains("Drill(") {
            let read = |problems: &Problems, text: &str| {
                file::read_drill(problems.for_file("text", text), |_| Ok(machine));
            };
            check_text(&text, &read, &mut known, false);
        }
    }
    let start = "mode: Production)";
    let settings = "mode: Production, settings: Settings(width_offset_mm: 0.0, \
                    confirm_within_s: 1.0))";
    let text = super::shipped_text("scenarios", "left-inside.ron");
    let text = text.replacen(start, settings, 1);
    let read = |problems: &Problems, text: &str| {
        file::read_drill(problems.for_file("text", text), |_| Ok(&machines[0].1));
    };
    check_text(&text, &read, &mut known, false);
    check_text(FORMULAS, &rules, &mut known, false);
    check_lists(&mut known);
    let all = [BOUNDS, "game/grade/src/limits.rs"];
    let all = all.iter().flat_map(|source| declared(source));
    let missing: Vec<String> = all
        .map(|one| one.words)
        .filter(|one| !known.contains(one))
        .collect();
    assert_eq!(missing, [""; 0], "bounds that no text asks for");
}
