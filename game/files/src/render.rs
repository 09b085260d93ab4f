//! Problems as text for people.

use annotate_snippets::{AnnotationKind, Level, Renderer, Snippet};

use crate::{Message, Problem, ids};

/// Turns an id and its arguments into words.
pub type Translate<'w> = &'w dyn Fn(&str, &[(&'static str, String)]) -> String;

/// A problem on one line: `file:line:column: what was found. Expected: … Hint: …`.
pub fn render_plain(problem: &Problem, translate: Translate<'_>) -> String {
    let words = Words::of(problem, translate);
    let head = format!(
        "{}:{}:{}: {}",
        problem.file, problem.line, problem.column, words.found
    );
    let parts = [Some(head), words.expected, words.hint];
    parts.into_iter().flatten().collect::<Vec<_>>().join(" ")
}

/// A problem drawn over several lines, with its line of the file. For a terminal with or without
/// colour. Without such a line, as [`render_plain`].
pub fn render_snippet(problem: &Problem, translate: Translate<'_>, colour: bool) -> String {
    let Some((line, place)) = &problem.excerpt else {
        return render_plain(problem, translate);
    };
    let words = Words::of(problem, translate);
    let span = place.start as usize..place.end as usize;
    let snippet = Snippet::source(line.as_str())
        .line_start(problem.line as usize)
        .path(problem.file.as_str())
        .annotation(AnnotationKind::Primary.span(span));
    let title = Level::ERROR.with_name(translate(ids::LABEL_PROBLEM, &[]));
    let mut group = title.primary_title(words.found).element(snippet);
    for text in [words.expected, words.hint].into_iter().flatten() {
        // The label is part of the text, so that it comes from the translation.
        group = group.element(Level::NOTE.no_name().message(text));
    }
    let renderer = if colour {
        Renderer::styled()
    } else {
        Renderer::plain()
    };
    renderer.render(&[group])
}

struct Words {
    found: String,
    expected: Option<String>,
    hint: Option<String>,
}

impl Words {
    fn of(problem: &Problem, translate: Translate<'_>) -> Words {
        let say = |message: &Message| translate(message.id, &message.arguments);
        let labelled = |message: &Option<Message>, label: &'static str| {
            message
                .as_ref()
                .map(|message| translate(label, &[("text", say(message))]))
        };
        Words {
            found: say(&problem.found),
            expected: labelled(&problem.expected, ids::LABEL_EXPECTED),
            hint: labelled(&problem.hint, ids::LABEL_HINT),
        }
    }
}

#[cfg(test)]
mod tests {
    use fluent_bundle::{FluentArgs, FluentBundle, FluentResource};

    use super::*;
    use crate::{Bound, Fields, Problems, read};

    const ENGLISH: &str = include_str!("../../../assets/locales/en/files.ftl");
    const SLOTS: Bound = Bound::whole("slots", "slots", 1, 200, "places for a board");
    const WIDTH: Bound = Bound::millimetres("width", 50_000, 508_000, "the width of a board");

    fn english() -> FluentBundle<FluentResource> {
        let resource = FluentResource::try_new(ENGLISH.to_owned()).unwrap();
        let mut bundle = FluentBundle::new(vec!["en".parse().unwrap()]);
        bundle.set_use_isolating(false);
        bundle.add_resource(resource).unwrap();
        bundle
    }

    /// Translates, and fails on an id or an argument that is not there.
    fn say(id: &str, arguments: &[(&'static str, String)]) -> String {
        let bundle = english();
        let pattern = bundle
            .get_message(id)
            .and_then(|it| it.value())
            .unwrap_or_else(|| panic!("{id}"));
        let mut given = FluentArgs::new();
        for (name, value) in arguments {
            given.set(*name, value.as_str());
        }
        let mut errors = Vec::new();
        let text = bundle
            .format_pattern(pattern, Some(&given), &mut errors)
            .into_owned();
        assert!(errors.is_empty(), "{id} {arguments:?}: {errors:?}");
        text
    }

    /// The problems of a text, read as a rack with slots and a list of widths.
    fn problems_of(text: &str) -> Vec<Problem> {
        let problems = Problems::new();
        let report = problems.for_file("racks/east.ron", text);
        if let Some(value) = read(report)
            && let Some(fields) = Fields::of(&value, "Rack", report)
        {
            fields.integer("slots", &SLOTS);
            fields.each("widths_mm", |value, report| {
                report.micrometres(value, &WIDTH)
            });
            fields.optional("id", None, |value, report| report.name(value).map(Some));
            fields.optional("pair", None, |value, report| {
                report.values::<2>(value).map(Some)
            });
            fields.optional("flag", None, |value, report| report.flag(value).map(Some));
            fields.optional("text", None, |value, report| report.text(value).map(Some));
            fields.optional("doors", None, |value, report| {
                report.entries(value).map(Some)
            });
            fields.optional("order", None, |value, report| {
                report.choice(value, &[("First", 1), ("Last", 2)]).map(Some)
            });
            fields.finish();
        }
        problems.sorted()
    }

    #[test]
    fn every_id_has_english_words_and_every_word_an_id() {
        let bundle = english();
        for id in ids::ALL {
            assert!(bundle.has_message(id), "no words for {id}");
        }
        let written = ENGLISH.lines().filter_map(|line| line.split_once(" ="));
        for (id, _) in written.filter(|(id, _)| !id.starts_with([' ', '#'])) {
            assert!(ids::ALL.contains(&id), "nobody says {id}");
        }
    }

    #[test]
    fn every_problem_has_all_arguments_of_its_words() {
        let texts = [
            "Rack(slots: 0, widths_mm: [170.80001, 1, \"60\"], id: \"East 1\", slots: 3, slot: 1)",
            "Rak(pair: Two(1), flag: \"true\", text: word, order: Frist)",
            "(doors: {\"a\": 1, \"a\": 2})",
            "(a: 1 b = 2, \"c\": 3, 4, d: 1e3, e: 99999999999999999999, f: \"\\q\", g: [1}, h: @)",
            "(pair: 1, flag: 1, doors: [], order: 1, id: 1, widths_mm: 1)",
            "(order: First(1, 2), pair: Two)",
            "[(1]",
            "[1 /*",
            "\"a",
            "(a:",
            "(a: 1",
            "",
            "1 1",
            "r#x",
            &"[".repeat(70),
            &"@,".repeat(200).replace('@', "[@"),
            &format!("[{}", "@,".repeat(200)),
            &" ".repeat(crate::TEXT_BYTES_MOST + 1),
        ];
        let mut said: Vec<&str> = vec![ids::LABEL_EXPECTED, ids::LABEL_HINT, ids::LABEL_PROBLEM];
        for problem in texts.into_iter().flat_map(problems_of) {
            assert!(!render_plain(&problem, &say).contains('!'));
            assert!(!render_snippet(&problem, &say, false).is_empty());
            said.push(problem.found.id);
            said.extend(
                [&problem.expected, &problem.hint]
                    .into_iter()
                    .flatten()
                    .map(|it| it.id),
            );
        }
        let unsaid: Vec<_> = ids::ALL.iter().filter(|id| !said.contains(id)).collect();
        // Asked for by `Fields::value` only, which this rack has no use for.
        assert_eq!(unsaid, [&ids::EXPECTED_ANY]);
    }

    #[test]
    fn a_problem_is_shown_on_one_line() {
        let cases = [
            (
                "Rack(\n  slots: 250, widths_mm: [])",
                "racks/east.ron:2:10: The field “slots” is 250 slots. \
                 Expected: A whole number from 1 to 200 slots: places for a board.",
            ),
            (
                "Rack(slots: 2, widths_mm: [], ordr: First)",
                "racks/east.ron:1:31: Rack has a field “ordr” that is not known. Expected: Only \
                 the fields slots, widths_mm, id, pair, flag, text, doors, order. \
                 Hint: Perhaps “order” is meant.",
            ),
            (
                "(slots: 2)",
                "racks/east.ron:1:1: Rack has no field “widths_mm”. \
                 Expected: A list in square brackets.",
            ),
        ];
        for (text, expected) in cases {
            let problems = problems_of(text);
            assert_eq!(render_plain(&problems[0], &say), expected);
        }
    }

    #[test]
    fn a_problem_is_drawn_with_its_line() {
        let problems = problems_of("Rack(\n  slots: \"48\", widths_mm: [])");
        let expected = "\
problem: The field “slots” is a text.
 --> racks/east.ron:2:10
  |
2 |   slots: \"48\", widths_mm: [])
  |          ^^^^
  |
  = Expected: A whole number from 1 to 200 slots: places for a board.
  = Hint: Leave the quotes away.";
        assert_eq!(render_snippet(&problems[0], &say, false), expected);
        assert!(render_snippet(&problems[0], &say, true).contains('\u{1b}'));
    }
}
