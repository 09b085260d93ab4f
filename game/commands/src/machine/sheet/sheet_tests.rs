//! Changes in a machine file and what is asked after them.

use super::*;

const ALDER: &str = include_str!("../../../../../assets/machines/alder-16.ron");

fn sheet() -> Sheet {
    Sheet::new(Text {
        file: "alder-16.ron".to_owned(),
        text: ALDER.to_owned(),
    })
}

#[test]
fn every_value_can_be_changed_in_its_place_alone() {
    let whole = sheet();
    let count = whole.questions.len();
    for at in 0..count {
        let mut sheet = sheet();
        let one = &sheet.questions[at];
        let is_written = matches!(
            one.what,
            What::Number(_) | What::Choice(_) | What::Flag | What::Several(_)
        );
        if one.left_out.is_some() || !is_written {
            continue;
        }
        sheet.at = at;
        let value = sheet.value(&sheet.questions[at]).into_owned();
        let path = sheet.questions[at].path.clone();
        sheet.change("7.125");
        // While boards do not fit, nobody can choose one of them for a product.
        let of_names = |one: &&Question| matches!(one.what, What::OneOf(_));
        let others = |sheet: &Sheet| {
            let names = sheet.questions.iter().filter(of_names).count();
            sheet.questions.len() - names
        };
        assert_eq!(others(&sheet), others(&whole), "{path:?}");
        assert_eq!((sheet.at, sheet.marks[at]), (at + 1, Mark::Changed));
        assert_eq!(sheet.value(&sheet.questions[at]), "7.125");
        sheet.at = at;
        sheet.change(&value);
        assert_eq!(sheet.text.text, ALDER, "{path:?}");
    }
}

/// Each part of each machine of ours that is not there: written with figures that fit, asked
/// about, and taken out without a trace. What is left out beside it is written and read.
#[test]
fn every_part_and_every_figure_that_is_left_out_can_be_written() {
    for text in rackproof_library::machines() {
        let count = Sheet::new(text.clone()).questions.len();
        let mut parts = 0;
        for at in 0..count {
            let mut sheet = Sheet::new(text.clone());
            let question = sheet.questions[at].clone();
            if question.left_out.is_none() {
                continue;
            }
            sheet.at = at;
            let way = question.shown();
            if question.is_part() {
                parts += 1;
                sheet.change("true");
                assert!(sheet.questions.len() > count, "{way} brings its figures");
                assert_eq!(sheet.value(&sheet.questions[at]), "true", "{way}");
                assert_eq!(sheet.problems(), [], "{way}");
                sheet.at = at;
                sheet.change("false");
                assert_eq!(sheet.text.text, text.text, "{way}");
            } else {
                let stands_for = sheet.value(&question).into_owned();
                sheet.change(&stands_for);
                assert_eq!(sheet.questions.len(), count, "{way}");
                assert_eq!(sheet.problems(), [], "{way}");
                assert_eq!(sheet.value(&sheet.questions[at]), stands_for, "{way}");
                assert_eq!(sheet.questions[at].left_out, None, "{way}");
            }
            assert_eq!(
                (sheet.at, sheet.marks[at]),
                (at + 1, Mark::Changed),
                "{way}"
            );
        }
        assert!(parts >= 1, "{}: {parts}", text.file);
    }
}

/// A file of before there was a choice: each of its parts can be written, and reads as if it were
/// still left out.
#[test]
fn what_stands_for_something_when_it_is_left_out_is_written_as_that() {
    let mut bare = sheet();
    for part in ["storing", "service", "handling", "plugs"] {
        let start = bare
            .text
            .text
            .find(&format!("{part}: "))
            .expect("it is there");
        let ends = ["\n    )", "\n        )"][usize::from(part == "plugs")];
        let end = start + bare.text.text[start..].find(ends).expect("it ends") + ends.len();
        edit::remove(&mut bare.text.text, start..end);
    }
    let read = |text: &str| {
        let problems = Problems::new();
        let read = file::read_machine(problems.for_file("alder-16.ron", text));
        assert_eq!(problems.sorted(), []);
        let (machine, hall) = read.expect("it has no problem");
        format!("{:?} {hall:?}", machine.parts())
    };
    let before = read(&bare.text.text);
    for part in ["storing", "service", "handling", "hall, plugs"] {
        let mut sheet = Sheet::new(bare.text.clone());
        let at = |sheet: &Sheet, shown: &str| {
            sheet.questions.iter().position(|one| one.shown() == shown)
        };
        sheet.at = at(&sheet, part).expect("it is asked for");
        assert_eq!(sheet.value(&sheet.questions[sheet.at]), "false");
        sheet.change("true");
        assert_eq!(at(&sheet, part), None, "{part} is asked for once");
        assert!(
            sheet
                .question()
                .expect("its first")
                .shown()
                .starts_with(part)
        );
        assert!(read(&sheet.text.text) == before, "{part} reads otherwise");
    }
}

#[test]
fn a_choice_with_a_figure_brings_its_question_and_takes_it_away() {
    let mut sheet = sheet();
    sheet.at = sheet.find("sight, hatch").expect("it is asked for");
    while sheet.questions[sheet.at].shown() != "hall, sight, hatch" {
        sheet.at += 1;
    }
    let count = sheet.questions.len();
    let hatch = sheet.at;
    sheet.change("Clear(light_reach_mm: 10.0)");
    assert_eq!(sheet.questions.len(), count + 1);
    let next = sheet.questions[sheet.at].shown();
    assert_eq!(next, "hall, sight, hatch, light_reach_mm");
    assert_eq!(sheet.count(Mark::Open), count);
    assert_eq!(sheet.problems(), []);
    sheet.at = hatch;
    sheet.change("Tinted");
    assert_eq!(sheet.questions.len(), count);
    assert_eq!(sheet.questions[sheet.at].shown(), "hall, pace, walk_s");
    assert_eq!(sheet.count(Mark::Open), count - 1);
}

#[test]
fn a_mark_in_front_of_the_text_moves_no_place() {
    let text = format!("\u{feff}{ALDER}").replace('\n', "\r\n");
    let file = "alder-16.ron".to_owned();
    let mut sheet = Sheet::new(Text { file, text });
    sheet.change("24");
    let expected = ALDER.replacen("slots: 16", "slots: 24", 1);
    assert_eq!(sheet.text.text, expected.replace('\n', "\r\n"));
}

#[test]
fn a_problem_that_was_there_is_not_new() {
    let mut sheet = sheet();
    assert_eq!(sheet.problems(), []);
    sheet.at = sheet.find("rails, most").expect("it is asked for");
    sheet.change("200.0");
    let first = sheet.problems();
    assert_eq!(first.len(), 1, "a product is wider");
    sheet.at = 0;
    sheet.change("24");
    assert_eq!(new_problems(&first, &sheet.problems()), []);
    assert_eq!(new_problems(&[], &first), first);
}

#[test]
fn ways_are_found_from_here_on() {
    let mut sheet = sheet();
    let first = sheet.find("PACE").expect("it is there");
    assert_eq!(sheet.questions[first].shown(), "hall, pace, walk_s");
    sheet.at = first;
    assert_eq!(sheet.find("pace"), Some(first + 1));
    assert_eq!(sheet.find("slots"), Some(0), "from the start again");
    assert_eq!(sheet.find("no such"), None);
    sheet.at = 0;
    assert_eq!(sheet.questions[sheet.next_section()].section(), "rails");
    sheet.at = first;
    assert_eq!(sheet.next_section(), sheet.questions.len());
}

/// More boards and products are copies of the last, each under a name of its own, and are asked
/// about; fewer are those that stood first. What is named anew keeps its answers.
#[test]
fn lists_grow_and_shrink_and_what_is_in_them_is_named() {
    for text in rackproof_library::machines() {
        for list in ["boards", "products"] {
            let mut sheet = Sheet::new(text.clone());
            let at = |sheet: &Sheet, shown: &str| {
                let mut all = sheet.questions.iter();
                all.position(|one| one.shown() == shown)
                    .expect("it is asked for")
            };
            sheet.at = at(&sheet, list);
            let count: usize = sheet
                .value(&sheet.questions[sheet.at])
                .parse()
                .expect("a number");
            let asked = sheet.questions.len();
            sheet.change(&(count + 2).to_string());
            assert_eq!(sheet.problems(), [], "{}", sheet.text.text);
            assert!(sheet.questions.len() >= asked + 10, "they are asked about");
            let names = |sheet: &Sheet| -> Vec<String> {
                let of_list = |one: &&Question| one.section() == list && one.what == What::Name;
                let all = sheet.questions.iter().filter(of_list);
                all.map(|one| sheet.value(one).into_owned()).collect()
            };
            let last = names(&sheet)[count - 1].trim_matches('"').to_owned();
            let copies = [2, 3].map(|number| format!("\"{last}-{number}\""));
            assert_eq!(names(&sheet)[count..], copies);

            sheet.at = at(&sheet, &format!("{list}, {last}-3, name"));
            let open = sheet.count(Mark::Open);
            sheet.change("\"siskin\"");
            assert_eq!(sheet.count(Mark::Open), open - 1, "its other answers stand");
            assert_eq!(names(&sheet)[count + 1], "\"siskin\"");
            assert_eq!(sheet.problems(), []);

            sheet.at = at(&sheet, list);
            sheet.change(&count.to_string());
            assert_eq!(sheet.text.text, text.text);
        }
    }
}
