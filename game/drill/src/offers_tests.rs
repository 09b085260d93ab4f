//! What is on offer tells nothing that cannot be perceived.

use rackproof_model::{Micros, Model};

use crate::{
    Cause, Intent, Outcome, Sign, State, World,
    fuzz_files::Chance,
    world_tests::{sample_world, world},
};

/// Something done, or time that passes.
#[derive(Clone, Copy)]
enum Step {
    Act(Intent),
    Wait(Micros),
}

/// What is perceived of a step.
fn perceived(world: &World, state: &mut State, step: Step) -> Vec<Sign> {
    let mut signs = Vec::new();
    let mut hear = |outcome| {
        if let Outcome::Sign(sign) = outcome {
            signs.push(sign);
        }
    };
    match step {
        Step::Act(intent) => world.act(state, Cause::Did(intent), &mut hear),
        Step::Wait(span) => world.advance(state, span, &mut hear),
    }
    signs
}

fn offered(world: &World, state: &State) -> Vec<Intent> {
    let mut found = Vec::new();
    world.offered(state, &mut found);
    found
}

/// Goes on in two worlds alike, by chance, until they are perceived to differ. How many steps.
fn walk([one, other]: [&World; 2], chance: &mut Chance) -> usize {
    let (mut here, mut there) = (one.start(), other.start());
    for count in 0..80 {
        let on_offer = offered(one, &here);
        assert_eq!(on_offer, offered(other, &there), "after {count} steps");
        let next = [one.next_event(&here), other.next_event(&there)];
        let span = next.into_iter().flatten().min();
        let step = match span {
            Some(span) if on_offer.is_empty() || chance.below(3) == 0 => Step::Wait(span),
            _ if on_offer.is_empty() => return count,
            _ => Step::Act(chance.of(&on_offer)),
        };
        if perceived(one, &mut here, step) != perceived(other, &mut there, step) {
            return count;
        }
    }
    80
}

/// Starts differ in where boards lie. As long as all that was perceived is equal, what is on offer
/// is equal, whatever is done: walks by chance in every pair of starts.
#[test]
fn offers_never_tell_where_a_board_is() {
    let sample = sample_world();
    let variants = sample.drill().variants.iter();
    let worlds: Vec<World> = variants.map(|one| world(&one.id)).collect();
    let (mut chance, mut steps) = (Chance(1), 0);
    for (number, one) in worlds.iter().enumerate() {
        for other in &worlds[..number] {
            steps += (0..20)
                .map(|_| walk([one, other], &mut chance))
                .sum::<usize>();
        }
    }
    assert!(steps > 20_000, "{steps} steps");
}
