//! The questions to a machine file: every figure and every choice that its reader asks for, with
//! its bound. Nothing is listed here, so that what the reader learns is asked for too.

use rackproof_drill::file;
use rackproof_files::{Asked, Kind, Place, Problems, Value, What, read};

/// One step on the way to a value.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Step {
    /// Into a field.
    Field(String),
    /// Into an item of a list: its name, else its number from 1.
    Item(String),
}

/// One question.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Question {
    /// Where the value stands in the text. Of a part that is there, all of it with its name; of
    /// what is not, the place behind which it would be written.
    pub(super) place: Place,
    /// What may stand there.
    pub(super) what: What,
    /// The way to it.
    pub(super) path: Vec<Step>,
    /// It is not in the file: what that means, as it would be written.
    pub(super) left_out: Option<String>,
    /// Of a list whose items are counted: where each stands.
    pub(super) items: Vec<Place>,
}

impl Question {
    /// Whether it asks if something is there at all.
    pub(super) fn is_part(&self) -> bool {
        matches!(self.what, What::Part(_))
    }

    /// Whether it asks for the same as another one, perhaps in another text.
    pub(super) fn is_of(&self, other: &Question) -> bool {
        self.path == other.path && self.is_part() == other.is_part()
    }

    /// The name of the field that it asks for.
    pub(super) fn field(&self) -> &str {
        match self.path.last() {
            Some(Step::Field(name) | Step::Item(name)) => name,
            None => "",
        }
    }

    /// The fields on the way, as ids of messages have them: `boards`, `length-mm`.
    pub(super) fn fields(&self) -> Vec<String> {
        let field = |step: &Step| match step {
            Step::Field(name) => Some(name.replace('_', "-")),
            Step::Item(_) => None,
        };
        self.path.iter().filter_map(field).collect()
    }

    /// The whole way, as a person reads it in the file: `boards, wren, length_mm`.
    pub(super) fn shown(&self) -> String {
        let step = |step: &Step| match step {
            Step::Field(name) | Step::Item(name) => name.clone(),
        };
        self.path.iter().map(step).collect::<Vec<_>>().join(", ")
    }

    /// The part of the file that it belongs to.
    pub(super) fn section(&self) -> &str {
        match self.path.first() {
            Some(Step::Field(name) | Step::Item(name)) => name,
            None => "",
        }
    }
}

/// All questions to a text, in the order of the text. None if it has no form that can be read.
pub(super) fn questions(text: &str) -> Vec<Question> {
    let problems = Problems::new();
    let report = problems.for_file("", text);
    file::read_machine(report);
    let scratch = Problems::new();
    let Some(value) = read(scratch.for_file("", text)) else {
        return Vec::new();
    };
    let mut ways = Vec::new();
    walk(&value, &mut Vec::new(), &mut ways);
    let asked = problems.asked();
    // A text that says nothing of what is asked is no machine with all left out.
    if asked.iter().all(|one| one.left_out.is_some()) {
        return Vec::new();
    }
    let all = asked.into_iter();
    all.filter_map(|asked| question(asked, &ways)).collect()
}

fn question(asked: Asked, ways: &[Way]) -> Option<Question> {
    let Some(left_out) = asked.left_out else {
        let way = ways.iter().find(|way| way.key == asked.place)?;
        return Some(Question {
            place: way.place,
            what: asked.what,
            path: way.path.clone(),
            left_out: None,
            items: way.items.clone(),
        });
    };
    let begins = |way: &&Way| way.place.start == left_out.record.start;
    let mut path = ways.iter().find(begins)?.path.clone();
    path.push(Step::Field(left_out.field.to_owned()));
    Some(Question {
        place: asked.place,
        what: asked.what,
        path,
        left_out: Some(left_out.stands_for),
        items: Vec::new(),
    })
}

/// Where the text of the machine's name stands, with its quotes.
pub(super) fn name_place(text: &str) -> Option<Place> {
    let scratch = Problems::new();
    let value = read(scratch.for_file("", text))?;
    let Kind::Record(record) = &value.kind else {
        return None;
    };
    let name = record.fields.iter().find(|field| field.name == "name")?;
    Some(name.value.place)
}

/// The way to something that may be asked for.
struct Way {
    /// The place by which it is asked for.
    key: Place,
    /// All of it.
    place: Place,
    path: Vec<Step>,
    /// Of a list, where its items stand.
    items: Vec<Place>,
}

/// The ways to all values and all fields.
fn walk(value: &Value, path: &mut Vec<Step>, out: &mut Vec<Way>) {
    let items = match &value.kind {
        Kind::List(items) => items.iter().map(|item| item.place).collect(),
        _ => Vec::new(),
    };
    out.push(Way {
        key: value.place,
        place: value.place,
        path: path.clone(),
        items,
    });
    match &value.kind {
        Kind::Record(record) => {
            for field in &record.fields {
                path.push(Step::Field(field.name.clone()));
                // A part is asked for by its name.
                let whole = field.place.to(field.value.place);
                out.push(Way {
                    key: field.place,
                    place: whole,
                    path: path.clone(),
                    items: Vec::new(),
                });
                walk(&field.value, path, out);
                path.pop();
            }
        }
        Kind::List(items) | Kind::Tuple(items) => {
            for (number, item) in items.iter().enumerate() {
                let name = name_of(item).unwrap_or_else(|| (number + 1).to_string());
                path.push(Step::Item(name));
                walk(item, path, out);
                path.pop();
            }
        }
        _ => {}
    }
}

fn name_of(item: &Value) -> Option<String> {
    let Kind::Record(record) = &item.kind else {
        return None;
    };
    let name = record.fields.iter().find(|field| field.name == "name")?;
    match &name.value.kind {
        Kind::Text(name) => Some(name.clone()),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const ALDER: &str = include_str!("../../../../assets/machines/alder-16.ron");

    #[test]
    fn every_figure_and_choice_of_a_machine_is_asked_for() {
        let all = questions(ALDER);
        let shown: Vec<String> = all.iter().map(Question::shown).collect();
        for way in [
            "rack, slots",
            "rails, side_play_mm",
            "axes, belts, braking_mm_s2",
            "beams, infeed, from_mm, 3",
            "behaviours, machine_ready",
            "behaviours, rails_asked",
            "boards, heron, window, along_mm, 2",
            "products, kestrel, width_mm",
            "hall, panel_reach",
            "storing, middle_beam",
            "boards, wren, above_mm",
            "boards, wren, window",
            "products, wren, length_mm",
            "products, wren, interval",
            "service, latching",
            "hall, sight, hatch_eyes_mm, 2, 3",
            "hall, pace, write_s",
        ] {
            assert!(shown.iter().any(|one| one == way), "{way}: {shown:#?}");
        }
        let figures = all
            .iter()
            .filter(|one| matches!(one.what, What::Number(_)) && one.left_out.is_none())
            .count();
        // Counted with another eye: numbers in the text without its comments.
        let bare = ALDER.lines().map(|line| line.split("//").next());
        let numbers: usize = bare
            .map(|line| {
                let line = line.unwrap_or_default();
                let words = line.split(|one: char| " ()[],".contains(one));
                words.filter(|word| word.parse::<f64>().is_ok()).count()
            })
            .sum();
        assert_eq!(figures, numbers);
        assert_eq!(all[0].fields(), ["rack", "slots"]);
        assert_eq!(all[0].section(), "rack");
    }

    #[test]
    fn a_text_without_form_has_no_question() {
        for text in ["", "Machine(", "[1, 2", "Drill(name: \"x\")"] {
            assert_eq!(questions(text), [], "{text}");
        }
    }
}
