use rackproof_files::Problems;
use rackproof_words::Words;

use super::check_site_words;
use crate::problem_line;

/// All problems of the words of a machine, a line each.
fn told(entries: &str) -> (usize, Vec<String>) {
    let text = format!("Machine(words: {{\n{entries}\n}})");
    let problems = Problems::new();
    let count = check_site_words(problems.for_file("m.ron", &text));
    let words = Words::english();
    let lines = problems
        .sorted()
        .iter()
        .map(|problem| problem_line(&words, problem))
        .collect();
    assert_eq!(words.faults(), [""; 0]);
    (count, lines)
}

#[test]
fn every_problem_of_every_word_is_told_at_once() {
    let (count, lines) = told(
        "\"part-rack\": \"Store\",\n\
         \"part-rak\": \"Store\",\n\
         \"part-slot\": \"Storey { $slott }\",\n\
         \"part-tower\": \"Lamp { $colour }\",\n\
         \"part-hatch\": \"The big glass door of the machine\",\n\
         \"operator-start\": \"Go {\",\n\
         \"operator-stop\": \"{ halt }\",\n\
         \"operator-clear\": \" \",\n\
         \"operator-reset\": \"Re\\nset\",\n\
         \"play-prompt\": \"Next:\",\n\
         \"part-key\": 5",
    );
    assert_eq!(count, 11);
    let expected = [
        "m.ron:3:13: There is no message “part-rak”. Expected: The id of a word on the machine or \
         in the hall, or of a step. The command machine --words lists them. Hint: Perhaps \
         “part-rack” is meant.",
        "m.ron:4:14: The text for “part-slot” has a value { $slott }, which the message does not \
         have. Expected: A text with each of these values: { $half }, { $slot }. Hint: Perhaps \
         “slot” is meant.",
        "m.ron:4:14: The text for “part-slot” lacks the value { $half }. Expected: A text with \
         each of these values: { $half }, { $slot }.",
        "m.ron:4:14: The text for “part-slot” lacks the value { $slot }. Expected: A text with \
         each of these values: { $half }, { $slot }.",
        "m.ron:5:15: The text for “part-tower” has a value { $colour }, which the message does \
         not have. Expected: A text without a value.",
        "m.ron:6:15: The text for “part-hatch” has 33 characters, without its values. Expected: \
         At most 9 characters: its place has no more room.",
        "m.ron:7:19: A brace stands alone in the text for “operator-start”. Expected: Braces only \
         around a value, as in { $slot }.",
        "m.ron:8:18: “halt” stands between braces in the text for “operator-stop”. Expected: \
         Braces only around a value, as in { $slot }.",
        "m.ron:9:19: The text for “operator-clear” is empty.",
        "m.ron:10:19: The text for “operator-reset” has a line break, or a character without a \
         shape. Expected: One line of plain text.",
        "m.ron:11:16: “play-prompt” is a message in which the program speaks of itself. Expected: \
         The id of a word on the machine or in the hall, or of a step. The command machine \
         --words lists them. Hint: Perhaps “play-products” is meant.",
    ];
    for (line, expected) in lines.iter().zip(expected) {
        assert_eq!(line, expected);
    }
    assert_eq!(lines.len(), expected.len(), "{lines:#?}");
}

#[test]
fn a_machine_without_words_has_none_and_no_problem() {
    for text in ["Machine()", "Drill(words: {})", "Machine(", ""] {
        let problems = Problems::new();
        assert_eq!(check_site_words(problems.for_file("m.ron", text)), 0);
        assert!(problems.is_empty(), "{text}");
    }
}
