//! Rows of the evidence: what is told of a broken rule, a harm, a trap.

use rackproof_attempt::Looks;
use rackproof_buffer::{Button, HarmKind};
use rackproof_drill::Intent;
use rackproof_grade::{Moment, Severity};
use rackproof_phrases::{BreachTold, Finding, HarmTold, Told};
use rackproof_words::Arg;

use super::rows::{Row, Sign};
use super::{DebriefView, missing};
use crate::tokens::Weight;

pub(super) fn row_of(view: &DebriefView<'_>, finding: &Finding, chosen: bool) -> Option<Row> {
    let mut row = match &finding.told {
        Told::Breach(breach) => breach_row(view, finding.moment, breach, chosen),
        Told::Harm(harm) => harm_row(view, harm),
        Told::Trap(said) => Row {
            paragraphs: vec![vec![(said.clone(), Weight::Regular)]],
            ..Row::plain(view.say("debrief-trap"), Sign::Trap)
        },
        Told::Open(item, _) => Row {
            paragraphs: vec![vec![(view.say(missing::id(*item)), Weight::Regular)]],
            ..Row::plain(view.say("debrief-open"), Sign::Rule(Severity::Major))
        },
        Told::Step(..) => return None,
    };
    row.moment = finding.moment.map(|moment| moment.at);
    Some(row)
}

/// The chosen row says all: what was true, believed and looked at, what could have been seen, and
/// where the rule comes from.
fn breach_row(
    view: &DebriefView<'_>,
    moment: Option<Moment>,
    breach: &BreachTold,
    chosen: bool,
) -> Row {
    let head = [
        ("severity", Arg::from(breach.severity_said.as_str())),
        ("done", Arg::from(breach.done.as_str())),
    ];
    let labelled = |id: &str, said: &str| {
        vec![
            (format!("{} ", view.say(id)), Weight::Bold),
            (said.to_owned(), Weight::Regular),
        ]
    };
    let mut evidence = vec![(breach.asks.clone(), Weight::Regular)];
    if let Some(looks) = looks_then(view, moment, breach) {
        evidence.push((format!(" {looks}"), Weight::SemiBold));
    }
    let mut paragraphs = vec![evidence];
    if !breach.missed.is_empty() {
        paragraphs.push(vec![(breach.missed.clone(), Weight::SemiBold)]);
    }
    paragraphs.extend([
        labelled("debrief-right", &breach.right),
        labelled("debrief-why", &breach.why),
    ]);
    if chosen {
        let evidence = &breach.evidence;
        let bare = |said: &String| vec![(said.clone(), Weight::Regular)];
        paragraphs.extend([
            plain(view, "finding-true", &evidence.was_true),
            bare(&evidence.around),
            plain(view, "finding-believed", &evidence.believed),
            bare(&evidence.panel),
            plain(view, "finding-looked", &evidence.looked),
            plain(view, "finding-visible", &evidence.visible),
            plain(view, "finding-source", &breach.source),
        ]);
    }
    Row {
        sign: Sign::Rule(breach.severity),
        head: view.say_with("debrief-breach", &head),
        moment: None,
        paragraphs,
    }
}

fn plain(view: &DebriefView<'_>, id: &str, said: &str) -> Vec<(String, Weight)> {
    let told = view.say_with(id, &[("text", Arg::from(said))]);
    vec![(told, Weight::Regular)]
}

/// What had been seen when a rule about looks was broken: what counted then, right before it.
fn looks_then(
    view: &DebriefView<'_>,
    moment: Option<Moment>,
    breach: &BreachTold,
) -> Option<String> {
    let before = moment?.at.checked_sub(1)?;
    let looks = Looks::of(view.history.heard_until(before));
    let machine = view.world().machine();
    let all = 2 * i64::from(machine.slots());
    let halves = [
        ("seen", Arg::Number(i64::from(looks.empty.len()))),
        ("all", Arg::Number(all)),
    ];
    let word = |seen: bool| Arg::from(if seen { "yes" } else { "no" });
    match breach.intent? {
        Intent::Press(Button::HoldDeclare | Button::Answer(_)) => {
            Some(view.say_with("debrief-looks-halves", &halves))
        }
        Intent::Press(Button::Start) => Some(view.say_with(
            "debrief-looks-belts",
            &[
                ("infeed", word(looks.belts[0])),
                ("outfeed", word(looks.belts[1])),
                ("in", word(looks.mouths[0])),
                ("out", word(looks.mouths[1])),
            ],
        )),
        _ => None,
    }
}

fn harm_row(view: &DebriefView<'_>, harm: &HarmTold) -> Row {
    let board = harm.board.as_deref().unwrap_or_default();
    let id = match harm.harm.kind {
        HarmKind::Overstrained => "debrief-harm-overstrained",
        HarmKind::SprungOut => "debrief-harm-sprung-out",
        HarmKind::Broken => "debrief-harm-broken",
        HarmKind::Dropped => "debrief-harm-dropped",
        HarmKind::Sheared => "debrief-harm-sheared",
        HarmKind::Collided => "debrief-harm-collided",
        HarmKind::HandInjured => "debrief-harm-hand-injured",
        HarmKind::PropStruck => "debrief-harm-prop-struck",
        HarmKind::PartsStruck => "debrief-harm-parts-struck",
        HarmKind::LiftFell => "debrief-harm-lift-fell",
        HarmKind::CaughtUnderLift => "debrief-harm-caught-under-lift",
        HarmKind::Charged => "debrief-harm-charged",
        HarmKind::Burned => "debrief-harm-burned",
    };
    Row {
        sign: Sign::Harm,
        head: view.say_with(id, &[("board", Arg::from(board))]),
        moment: None,
        paragraphs: vec![vec![
            (format!("{} ", harm.said), Weight::Regular),
            (view.say("debrief-harm-no-rule"), Weight::SemiBold),
        ]],
    }
}
