//! Every message that the drill can give, from every value that it can be asked about.

use rackproof_buffer::{Button, Command, Half, Halves, Level, Mode, UnitState};
use rackproof_drill::message::{self, Argument, IntentGroup, Message};
use rackproof_drill::{Cause, Condition, FinishItem, Intent, Stand, State, World};
use rackproof_model::Model;

use crate::shipped;
use crate::values::{
    OTHER, PLACE, alarm_states, alarms, answers, chances, facts, harms, intents, modes, places,
    questions, refusals, saved, settings, signs, slips, tasks, told, voids,
};

/// All of them, of every variant of every shipped drill.
pub(crate) fn all() -> Vec<Message> {
    let mut said = Vec::new();
    for world in shipped::worlds() {
        for state in states(&world) {
            let intents = intents();
            said.extend(
                intents
                    .iter()
                    .map(|&intent| message::of_intent(&world, &state, intent)),
            );
        }
        said.extend(
            signs()
                .iter()
                .filter_map(|sign| message::of_sign(&world, sign)),
        );
        said.extend(harms().iter().map(|harm| message::of_harm(&world, harm)));
        said.extend(facts().iter().map(|fact| message::of_fact(&world, fact)));
        said.extend(chances().map(|chance| message::of_chance(&world, chance)));
        said.extend(slips().map(|slip| message::of_slip(&world, slip)));
        said.extend(
            refusals()
                .into_iter()
                .map(|refusal| message::of_refusal(&world, refusal)),
        );
        let conditions = Condition::ALL.iter();
        said.extend(conditions.map(|&(_, one)| message::of_condition(&world, one)));
        let items = FinishItem::ALL.iter();
        said.extend(items.map(|&(_, item)| message::of_finish_item(&world, item)));
    }
    said.extend(of_no_world());
    said
}

fn of_no_world() -> Vec<Message> {
    let looks = [
        (Halves::all(3), Halves::NONE),
        (Halves::one(PLACE), Halves::one(OTHER)),
        (Halves::one(OTHER), Halves::NONE),
        (Halves::NONE, Halves::NONE),
    ];
    let mut said: Vec<Message> = UnitState::ALL.map(message::of_unit).into();
    said.extend(
        looks
            .iter()
            .flat_map(|&(empty, boards)| message::of_look(empty, boards)),
    );
    said.extend(modes().map(message::of_mode));
    said.extend(tasks().map(message::of_task));
    said.extend(questions().map(message::of_question));
    said.extend(answers().map(message::of_answer));
    said.extend(alarms().map(message::of_alarm));
    said.extend(alarms().map(message::of_alarm_action));
    said.extend(alarm_states().map(message::of_alarm_state));
    said.extend(settings().into_iter().map(message::of_setting));
    said.extend(Command::ALL.map(message::of_command));
    said.extend(saved().into_iter().map(message::of_saved));
    said.extend([Level::Operator, Level::Setter].map(message::of_level));
    said.extend(voids().into_iter().map(message::of_void));
    said.extend(told().map(message::of_told));
    said.extend(Stand::ALL.map(|(_, stand)| message::of_stand(stand)));
    said.extend(IntentGroup::ALL.map(message::of_group));
    said.extend(Half::BOTH.map(message::of_half));
    said.extend(places().map(message::of_place));
    said
}

/// The ids of a message and of those inside it.
pub(crate) fn ids_of(message: &Message) -> Vec<&'static str> {
    let mut ids = vec![message.id];
    for (_, argument) in &message.arguments {
        match argument {
            Argument::Id(id) => ids.push(id),
            Argument::Message(inner) => ids.extend(ids_of(inner)),
            _ => {}
        }
    }
    ids
}

/// States in which an intent reads differently: each standing place, Aborted, a slot asked about.
fn states(world: &World) -> Vec<State> {
    let mut states: Vec<State> = Stand::ALL
        .map(|(_, stand)| {
            let mut state = world.start();
            state.person.stand = stand;
            state
        })
        .into();
    states.push(after(world, &[Intent::PressEmergency]));
    let clear_out = [
        Button::Mode(Mode::Changeover),
        Button::Reset,
        Button::ClearOut,
        Button::Start,
    ];
    states.push(after(world, &clear_out.map(Intent::Press)));
    states
}

/// The state when all this was done and the machine has come to rest.
fn after(world: &World, intents: &[Intent]) -> State {
    let mut state = world.start();
    for &intent in intents {
        world.act(&mut state, Cause::Did(intent), &mut |_| {});
        while let Some(next) = world.next_event(&state) {
            world.advance(&mut state, next, &mut |_| {});
        }
    }
    state
}
