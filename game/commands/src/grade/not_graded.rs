//! Why a file has no verdict.

use rackproof_attempt::Foreign;
use rackproof_words::Arg;

use super::Graded;
use crate::{lines::on_one_line, reason::reason};

/// The id of what became of a file that is not graded, and its values.
pub(super) fn not_graded(graded: &Graded) -> (&'static str, Vec<(&'static str, Arg<'_>)>) {
    let number = |number: usize| Arg::Number(i64::try_from(number).unwrap_or(i64::MAX));
    match graded {
        Graded::Unread(error) => ("grade-unread", vec![("reason", reason(error))]),
        Graded::None => ("grade-none", Vec::new()),
        Graded::CutOff(None) => ("grade-cut-off-head", Vec::new()),
        Graded::CutOff(Some(kept)) => ("grade-cut-off", vec![("causes", number(kept.causes()))]),
        Graded::Edited(line) => ("grade-edited", vec![("line", number(*line))]),
        Graded::Foreign(Foreign::NotAnAttempt) => ("grade-foreign", Vec::new()),
        Graded::Foreign(Foreign::Later(format)) => (
            "grade-later",
            vec![("format", Arg::from(format.to_string()))],
        ),
        Graded::Unreadable(problems) => (
            "grade-unreadable",
            vec![("problems", number(problems.len()))],
        ),
        Graded::OtherDrill(kept) => (
            "grade-other-drill",
            vec![
                ("drill", Arg::from(on_one_line(&kept.header.drill))),
                ("variant", Arg::from(on_one_line(&kept.header.variant))),
            ],
        ),
        Graded::Differs(differs) => {
            let difference = &differs.difference;
            let shown = |text: &str| match text {
                "" => Arg::from("nothing"),
                text => Arg::from(on_one_line(text)),
            };
            let program = on_one_line(&differs.kept.header.program);
            (
                "grade-differs",
                vec![
                    ("line", number(difference.line)),
                    ("recorded", shown(&difference.recorded)),
                    ("computed", shown(&difference.computed)),
                    ("program", Arg::from(program)),
                ],
            )
        }
        Graded::Whole(_) => ("", Vec::new()),
    }
}
