//! The dialog, played by somebody who knows nothing and does what the hint says.

use std::io::{self, BufReader, Read};

use rackproof_commands::Exit;

use crate::dialog::{Paper, number_of};

const PROMPT: &str = "Number, or ? for help >";
/// More than any way of ours has steps: whoever still asks has gone in a circle.
const HINTS_MOST: usize = 150;

/// Asks for a hint and does it, by turns.
struct Follower {
    paper: Paper,
    hints: usize,
}

impl Follower {
    fn types(&mut self) -> String {
        let said = self.paper.text();
        if said.ends_with("Type yes to report: ") {
            return "yes".to_owned();
        }
        let answer = said.rsplit(PROMPT).nth(1).unwrap_or_default();
        let Some((_, now)) = answer.split_once("\nNow ") else {
            self.hints += 1;
            return "h".to_owned();
        };
        let now: Vec<&str> = now.split_whitespace().collect();
        let now = now.join(" ");
        if let Some(word) = now.strip_prefix("Wait: type ") {
            return word.trim_end_matches('.').to_owned();
        }
        match now.strip_prefix("Take the board out of slot ") {
            Some(place) => {
                let number = number_of(
                    &said,
                    "Take the board out of a slot: slot and half are asked for",
                );
                format!(
                    "{number} {}",
                    place.replace([',', '.'], "").replace(" half", "")
                )
            }
            None => number_of(&said, &now),
        }
    }
}

impl Read for Follower {
    fn read(&mut self, buffer: &mut [u8]) -> io::Result<usize> {
        if self.hints >= HINTS_MOST {
            return Ok(0);
        }
        let typed = format!("{}\n", self.types());
        buffer[..typed.len()].copy_from_slice(typed.as_bytes());
        Ok(typed.len())
    }
}

#[test]
fn whoever_does_what_the_hint_says_passes() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    for drill in rackproof_library::built_in_drills() {
        let name = drill.file.trim_end_matches(".ron");
        let out = folder.path().join(format!("{name}.attempt"));
        let paper = Paper::default();
        let mut follower = BufReader::new(Follower {
            paper: paper.clone(),
            hints: 0,
        });
        let out = out.to_string_lossy();
        let line = ["rackproof", "play", name, "--out", &out];
        let line = line.into_iter().map(Into::into);
        let exit = rackproof_commands::run(line, &mut follower, &mut paper.clone(), None);
        let said = paper.text();
        let last = said.lines().rev().take(60).collect::<Vec<_>>();
        let last = last.into_iter().rev().collect::<Vec<_>>().join("\n");
        assert_eq!(exit, Exit::Done, "{name}: {last}");
        assert!(said.contains("\nPASSED\n"), "{name}: {last}");
        // The report says how much help there was, as it was promised.
        let head = said
            .lines()
            .rfind(|line| line.starts_with(&format!("{name}, variant ")));
        let head = head.unwrap_or_default();
        assert!(head.contains(" hint"), "{name}: {head:?}, {last}");
    }
}
