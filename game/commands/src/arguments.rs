//! The command line. What each command and argument is for stands in the message files: as
//! `help-COMMAND` and `help-COMMAND-ARGUMENT`.

use std::ffi::OsString;

use clap::{CommandFactory, FromArgMatches, Parser, Subcommand};
use rackproof_words::Words;

use crate::{check, grade, machine, open, picture, play, prove, reckon, sheet, tour};

#[derive(Debug, Parser)]
#[command(name = "rackproof", version, disable_help_subcommand = true)]
struct CommandLine {
    #[command(subcommand)]
    chosen: Option<Chosen>,
}

/// The command that was chosen.
#[derive(Debug, Subcommand)]
pub(crate) enum Chosen {
    Open(open::Arguments),
    Check(check::Arguments),
    Machine(machine::Arguments),
    Play(play::Arguments),
    Grade(grade::Arguments),
    Prove(prove::Arguments),
    Sheet(sheet::Arguments),
    Reckon(reckon::Arguments),
    Picture(picture::Arguments),
    Tour(tour::Arguments),
    Measure,
}

/// Reads the command line. Without a command it is the window.
pub(crate) fn parse(
    arguments: impl IntoIterator<Item = OsString>,
    words: &Words,
) -> Result<Chosen, clap::Error> {
    let matches = command(words).try_get_matches_from(arguments)?;
    let chosen = CommandLine::from_arg_matches(&matches)?.chosen;
    Ok(chosen.unwrap_or_else(|| Chosen::Open(open::Arguments::default())))
}

fn command(words: &Words) -> clap::Command {
    let mut command = CommandLine::command().about(words.say("help-rackproof", &[]));
    let names: Vec<String> = command
        .get_subcommands()
        .map(|one| one.get_name().to_owned())
        .collect();
    for name in names {
        command = command.mut_subcommand(&name, |one| {
            one.about(words.say(&format!("help-{name}"), &[]))
                .mut_args(|argument| {
                    let id = argument.get_id().as_str().replace('_', "-");
                    argument.help(words.say(&format!("help-{name}-{id}"), &[]))
                })
        });
    }
    command
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_command_and_argument_has_its_words() {
        let words = Words::english();
        command(&words).debug_assert();
        assert_eq!(words.faults(), [""; 0]);
    }
}
