//! `sheet DRILL`: the task sheet of a drill.

use std::{io, path::Path};

use rackproof_files::Problems;
use rackproof_library::{FIRST_DRILL, drill, load};
use rackproof_phrases::TaskSheet;
use rackproof_words::{Arg, Words};
use serde_json::json;

use crate::{
    Answer, Exit, lines::wrapped, names::no_drill, problems::write_problems, reason::reason,
};

#[derive(Debug, clap::Args)]
pub(crate) struct Arguments {
    #[arg(default_value = FIRST_DRILL)]
    drill: String,
    #[arg(long)]
    json: bool,
}

/// Writes the sheet.
pub(crate) fn run(arguments: &Arguments, out: &mut dyn io::Write, words: &Words) -> Answer {
    let text = match drill(&arguments.drill, Path::new("here")) {
        Ok(text) => text,
        Err(error) => {
            let (id, values) = match error.kind() {
                io::ErrorKind::NotFound => no_drill(&arguments.drill),
                _ => {
                    let path = ("path", Arg::from(arguments.drill.clone()));
                    ("file-not-read", vec![path, ("reason", reason(&error))])
                }
            };
            write!(out, "{}", wrapped("", 0, &words.say(id, &values)))?;
            return Ok(Exit::No);
        }
    };
    let problems = Problems::new();
    let Some(loaded) = load(text, &problems) else {
        write_problems(out, words, &problems.sorted())?;
        return Ok(Exit::No);
    };
    let sheet = TaskSheet::of(&loaded.exercise, words);
    if arguments.json {
        writeln!(out, "{:#}", object(&loaded.exercise.drill.id, &sheet))?;
    } else {
        write_text(&sheet, out, words)?;
    }
    Ok(Exit::Done)
}

fn write_text(sheet: &TaskSheet, out: &mut dyn io::Write, words: &Words) -> io::Result<()> {
    writeln!(out, "{}", sheet.title)?;
    let row = |said: &String| wrapped("  -", 4, said);
    let rows = |list: &[String]| list.iter().map(row).collect::<String>();
    let plain = |said: &str| wrapped("", 2, said);
    let critical = sheet.critical.iter().map(|step| {
        let arguments = [
            ("step", Arg::from(step.said.as_str())),
            ("order", Arg::from(step.order_said.as_str())),
        ];
        let because = step.because.iter().map(|said| wrapped("    -", 6, said));
        let head = words.say("sheet-step", &arguments);
        format!("{}{}", row(&head), because.collect::<String>())
    });
    let criteria = sheet.criteria.iter().map(|rule| {
        let arguments = [
            ("severity", Arg::from(rule.severity.as_str())),
            ("asks", Arg::from(rule.asks.as_str())),
            ("source", Arg::from(rule.source.as_str())),
        ];
        row(&words.say("sheet-criterion", &arguments))
    });
    let criteria = format!("{}{}", plain(&sheet.verdict), criteria.collect::<String>());
    let parts = [
        ("sheet-head-start", rows(&sheet.start)),
        ("sheet-head-cue", plain(&sheet.cue)),
        ("sheet-head-standard", rows(&sheet.standard)),
        ("sheet-head-ways", rows(&sheet.ways)),
        ("sheet-head-critical", critical.collect()),
        ("sheet-head-time", plain(&sheet.time)),
        ("sheet-head-criteria", criteria),
        ("sheet-head-cautions", plain(&sheet.cautions)),
    ];
    for (head, part) in parts {
        write!(out, "\n{}\n{part}", words.say(head, &[]))?;
    }
    Ok(())
}

fn object(drill: &str, sheet: &TaskSheet) -> serde_json::Value {
    let critical = sheet.critical.iter().map(|step| {
        json!({
            "step": step.name, "said": step.said, "ordered": step.ordered,
            "because": step.because,
        })
    });
    let criteria = sheet.criteria.iter().map(|rule| {
        json!({
            "rule": rule.name, "severity": rule.severity, "asks": rule.asks,
            "source": rule.source,
        })
    });
    json!({
        "drill": drill,
        "title": sheet.title,
        "start": sheet.start,
        "cue": sheet.cue,
        "standard": sheet.standard,
        "ways": sheet.ways,
        "critical": critical.collect::<Vec<_>>(),
        "time": sheet.time,
        "verdict": sheet.verdict,
        "criteria": criteria.collect::<Vec<_>>(),
        "cautions": sheet.cautions,
    })
}
