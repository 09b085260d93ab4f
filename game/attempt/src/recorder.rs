//! Writes an attempt while it goes on: one line of JSON a cause, each made sure on disk before the
//! next thing is done. A power cut loses nothing that was done before.

use std::{
    fs::File,
    io::{self, Write},
};

use rackproof_drill::FinishItem;

use crate::{
    Attempt, Exercise, Material, ProofState,
    chain::{START, seal},
    core_hash,
    kept::{CauseLine, EndLine, FinishLine, Hashes, Header, KIND, Kept, Note, PlayedAs},
    notation::cause_text,
    outcome_text::outcome_text,
};

/// The form of the file that this program writes and reads.
pub(crate) const FORMAT: u64 = 1;

/// Where an attempt is written to.
pub trait Durable: Write {
    /// Returns only when all that was written would survive a power cut.
    ///
    /// # Errors
    /// What the system says.
    fn make_sure(&mut self) -> io::Result<()>;
}

impl Durable for File {
    fn make_sure(&mut self) -> io::Result<()> {
        self.sync_data()
    }
}

/// Memory, for what need not last.
impl Durable for Vec<u8> {
    fn make_sure(&mut self) -> io::Result<()> {
        Ok(())
    }
}

/// Writes one attempt.
#[derive(Debug)]
pub struct Recorder<D: Durable> {
    to: D,
    hash: String,
    /// How many causes, and how many outcomes, are written.
    causes: usize,
    heard: usize,
}

impl<D: Durable> Recorder<D> {
    /// Begins a record with its first line: who made it, which drill and variant, all texts, and
    /// how the drill stands to its proof.
    ///
    /// # Errors
    /// If it cannot be written.
    pub fn begin(
        to: D,
        material: &Material,
        exercise: &Exercise,
        variant: usize,
        mode: PlayedAs,
        proof: &ProofState,
    ) -> io::Result<Recorder<D>> {
        let name = exercise.drill.variants.get(variant);
        let header = Header {
            format: FORMAT,
            kind: KIND.to_owned(),
            program: env!("CARGO_PKG_VERSION").to_owned(),
            core: Some(core_hash().to_owned()),
            drill: exercise.drill.id.clone(),
            variant: name.map_or_else(String::new, |variant| variant.id.clone()),
            number: variant,
            mode,
            proved: proof.hash().is_some(),
            proof: proof.hash().map(str::to_owned),
            hashes: Hashes::of(material),
            material: material.clone(),
        };
        let hash = START.to_owned();
        let mut recorder = Recorder {
            to,
            hash,
            causes: 0,
            heard: 0,
        };
        recorder.line(&header)?;
        Ok(recorder)
    }

    /// Goes on with a record that was cut off. `to` holds it as [`Kept::whole_bytes`] long and is
    /// written at its end; `attempt` is what was rebuilt from it.
    ///
    /// # Errors
    /// If it cannot be written.
    pub fn go_on(mut to: D, kept: &Kept, attempt: &Attempt) -> io::Result<Recorder<D>> {
        if kept.lacks_newline() {
            to.write_all(b"\n")?;
        }
        let heard = attempt.done().last().map_or(0, |done| done.heard);
        let (hash, causes) = (kept.hash().to_owned(), attempt.done().len());
        Ok(Recorder {
            to,
            hash,
            causes,
            heard,
        })
    }

    /// Writes every cause that was done and is not yet written.
    ///
    /// # Errors
    /// If it cannot be written.
    pub fn catch_up(&mut self, attempt: &Attempt) -> io::Result<()> {
        let new = attempt.done().get(self.causes..).unwrap_or_default();
        for done in new {
            let line = CauseLine {
                at: done.at,
                cause: cause_text(attempt.world(), done.cause),
                heard: heard_texts(attempt, self.heard, done.heard),
            };
            self.line(&line)?;
            self.causes += 1;
            self.heard = done.heard;
        }
        Ok(())
    }

    /// Writes something that changes nothing in the drill: a mark on the tick sheet, a hint.
    ///
    /// # Errors
    /// If it cannot be written.
    pub fn note(&mut self, note: &Note) -> io::Result<()> {
        self.line(note)
    }

    /// Writes the last line.
    ///
    /// # Errors
    /// If it cannot be written.
    pub fn end(mut self, attempt: &Attempt) -> io::Result<D> {
        self.catch_up(attempt)?;
        let line = EndLine {
            end: attempt.at(),
            key: attempt.key_hash(),
            heard: heard_texts(attempt, self.heard, attempt.heard().len()),
            finish: Some(finish_line(attempt)),
        };
        self.line(&line)?;
        Ok(self.to)
    }

    fn line(&mut self, content: &impl serde::Serialize) -> io::Result<()> {
        let object = serde_json::to_string(content)?;
        let (line, hash) = seal(&self.hash, &object);
        self.to.write_all(line.as_bytes())?;
        self.to.flush()?;
        self.to.make_sure()?;
        self.hash = hash;
        Ok(())
    }
}

/// How it stands with the finish.
pub(crate) fn finish_line(attempt: &Attempt) -> FinishLine {
    let (world, state) = (attempt.world(), &attempt.state().world);
    let open = world.unfinished(state).filter_map(|item| {
        let mut known = FinishItem::ALL.iter();
        known.find(|(_, known)| *known == item)
    });
    FinishLine {
        reached: world.finished(state),
        open: open.map(|(name, _)| (*name).to_owned()).collect(),
    }
}

/// Outcomes with their times, as they are kept: `12500000 UnitChanged(Idle)`.
pub(crate) fn heard_texts(attempt: &Attempt, from: usize, to: usize) -> Vec<String> {
    let heard = attempt.heard().get(from..to).unwrap_or_default();
    let text = |outcome| outcome_text(attempt.judged(), outcome);
    heard
        .iter()
        .map(|one| format!("{} {}", one.at, text(&one.outcome)))
        .collect()
}
