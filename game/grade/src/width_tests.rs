//! Rules that compare widths, in the pair with the first drill: a board of the old product is 160
//! mm wide, one of the next 220 mm, the side play is 0.8 mm, and the rails stand at the old width.

use rackproof_drill::{Cause, Intent, Unread, Width};
use rackproof_model::{Micrometres, Model};

use crate::{
    GuideRun, Judged, JudgedOutcome, Missed, Rules, Severity, Spare, WidthRead,
    judged_tests::loaded,
    window_tests::{TORCH, graded, judged},
};

/// By how much a formula is missed or kept when the torch is lit: what was read, its limit, and
/// whether that is the least that is allowed. In µm.
fn read(formula: &str) -> Option<(i32, i32, bool)> {
    let rule = format!("Implies(Did(Torch), {formula})");
    let (judged, grade) = graded(&rule, &[(1_000_000, TORCH)], 5_000_000);
    let broke = grade.count(&judged, Severity::Stop) > 0;
    let [margin] = grade.margins[..] else {
        assert_eq!(grade.margins, [], "{formula}");
        return None;
    };
    let Spare::Width(width) = margin.spare else {
        panic!("{formula}: {:?}", margin.spare);
    };
    assert_eq!(margin.moment.at, 1_000_000, "{formula}");
    assert_eq!(broke, margin.spare.amount() < 0, "{formula}");
    let missed = grade.breaches.first().map(|breach| breach.missed);
    let by = Missed::By(margin.spare);
    assert_eq!(missed, broke.then_some(Some(by)), "{formula}");
    Some((width.read.0, width.limit.0, width.least))
}

#[test]
fn a_width_is_read_beside_its_limit() {
    let cases = [
        (
            "AtLeast(width: Counted, mm: 160.8)",
            (160_800, 160_800, true),
        ),
        (
            "AtLeast(width: Counted, mm: 160.801)",
            (160_800, 160_801, true),
        ),
        (
            "AtMost(width: Counted, mm: 160.8)",
            (160_800, 160_800, false),
        ),
        (
            "AtLeast(width: Counted, over: NextStored, mm: 0.4)",
            (160_800, 220_400, true),
        ),
        (
            "AtMost(width: LoadedStored, over: Wanted, mm: -0.8)",
            (160_000, 160_000, false),
        ),
        // The nearest limit is told: 0.5 mm from below, 1.2 mm from above.
        (
            "And([AtLeast(width: Counted, mm: 160.3), AtMost(width: Counted, mm: 162.0)])",
            (160_800, 160_300, true),
        ),
        // Missed by 0.4 mm and by 0.1 mm: the less of the two would have been enough.
        (
            "Or([AtLeast(width: Counted, mm: 161.2), AtMost(width: Counted, mm: 160.7)])",
            (160_800, 160_700, false),
        ),
        // Not at least 160.8 mm is at most a micrometre less.
        (
            "Not(AtLeast(width: Counted, mm: 160.8))",
            (160_800, 160_799, false),
        ),
        (
            "Not(AtMost(width: Counted, mm: 160.8))",
            (160_800, 160_801, true),
        ),
        // What a width cannot turn is a yes or no.
        (
            "And([Not(Is(HandIn)), AtLeast(width: Counted, mm: 160.3)])",
            (160_800, 160_300, true),
        ),
        // The most room that there ever was.
        (
            "Once(AtMost(width: Counted, mm: 161.0))",
            (160_800, 161_000, false),
        ),
    ];
    for (formula, expected) in cases {
        assert_eq!(read(formula), Some(expected), "{formula}");
    }
}

#[test]
fn what_cannot_be_read_is_neither_at_least_nor_at_most() {
    // There is no sensor on this machine, and nothing was typed.
    let unread = [
        (Width::Measured, Unread::NoSensor),
        (Width::Typed, Unread::NothingTyped),
    ];
    for (width, why) in unread {
        let missed = Some(Missed::Unread(width, why));
        let width = format!("{width:?}");
        let [least, most] = [
            format!("AtLeast(width: {width}, mm: -1000.0)"),
            format!("AtMost(width: {width}, mm: 2000.0)"),
        ];
        for (formula, holds) in [
            (least.clone(), false),
            (most.clone(), false),
            (format!("Not({least})"), true),
            (
                format!("AtMost(width: Counted, over: {width}, mm: 2000.0)"),
                false,
            ),
        ] {
            let rule = format!("Implies(Did(Torch), {formula})");
            let (judged, grade) = graded(&rule, &[(0, TORCH)], 0);
            assert_eq!(
                grade.count(&judged, Severity::Stop),
                usize::from(!holds),
                "{formula}"
            );
            assert_eq!(grade.margins, [], "no figure: {formula}");
            let told = grade.breaches.first().map(|breach| breach.missed);
            assert_eq!(told, (!holds).then_some(missed), "{formula}");
        }
    }
}

#[test]
fn widths_and_windows_have_margins_of_their_own() {
    let rule = "Implies(Did(TestStraps), And([
        Once(within_s: 5.0, of: Did(Torch)), AtLeast(width: Counted, mm: 160.3),
    ]))";
    let straps = Cause::Did(Intent::TestStraps);
    let (_, grade) = graded(rule, &[(0, TORCH), (4_600_000, straps)], 0);
    let spares: Vec<Spare> = grade.margins.iter().map(|margin| margin.spare).collect();
    let width = WidthRead {
        read: Micrometres(160_800),
        limit: Micrometres(160_300),
        least: true,
    };
    assert_eq!(spares, [Spare::Time(400_000), Spare::Width(width)]);
}

/// The guide's attempt with a rule: its widths at each letting go of upstream, and whether the rule
/// was broken.
fn along(rules: &Rules, way: usize) -> (Vec<Option<i32>>, bool) {
    let (variants, procedure) = loaded();
    let judged = Judged::new(variants[0].world().clone(), rules.clone());
    let run = GuideRun::play(&variants[0], &procedure, way).expect("the guide finishes");
    let (mut state, mut read, mut broke) = (judged.start(), Vec::new(), false);
    let mut hear = |outcome| broke |= matches!(outcome, JudgedOutcome::Broke(_));
    for (before, cause) in run.causes {
        let mut left = before;
        while left.0 > 0 {
            let next = judged.next_event(&state);
            let part = next.map_or(left, |next| next.min(left));
            judged.advance(&mut state, part, &mut hear);
            left -= part;
        }
        if cause == Cause::Did(Intent::LetUpstreamGo) {
            let widths = judged.world().widths(&state.world);
            read.push(widths.of(Width::Counted).map(|width| width.0));
        }
        judged.act(&mut state, cause, &mut hear);
    }
    (read, broke)
}

#[test]
fn a_rule_over_widths_is_heard_while_rails_move_and_come_to_rest() {
    let rules = |formula: &str| judged(formula).rules().clone();
    let kept = [
        "Implies(Did(LetUpstreamGo), AtMost(width: Counted, over: NextStored, mm: 0.8))",
        // Read or not, it is never below the old width.
        "Not(AtMost(width: Counted, mm: 160.799))",
        // While the rails move there is nothing to read.
        "Implies(Sign(RailsStarted), Not(AtLeast(width: Counted, mm: 0.0)))",
        "Implies(Sign(WidthReached), AtLeast(width: Counted, over: NextStored, mm: 0.8))",
    ];
    for formula in kept {
        assert_eq!(
            along(&rules(formula), 0),
            (vec![Some(220_800)], false),
            "{formula}"
        );
    }
    let broken = [
        "Implies(Did(LetUpstreamGo), AtMost(width: Counted, over: NextStored, mm: 0.799))",
        // By signs alone, with nothing being done.
        "AtMost(width: Counted, mm: 220.799)",
        "Not(Once(AtLeast(width: Counted, over: LoadedStored, mm: 0.8)))",
    ];
    for formula in broken {
        assert!(along(&rules(formula), 0).1, "{formula}");
    }
}

/// What there is to say of the first breach of a rule in an attempt.
fn first_missed(formula: &str, causes: &[(u32, Cause)]) -> Option<Missed> {
    let (_, grade) = graded(formula, causes, 0);
    grade.breaches.first().expect("it is broken").missed
}

#[test]
fn what_could_not_be_read_and_why_is_told_of_a_breach() {
    let unread = |width, why| Some(Missed::Unread(width, why));
    let cases = [
        // Joined to what fails as well, either way round.
        (
            "And([AtLeast(width: Measured, mm: 1.0), Is(HandIn)])".to_owned(),
            unread(Width::Measured, Unread::NoSensor),
        ),
        (
            "And([Is(HandIn), AtMost(width: Typed, mm: 1.0)])".to_owned(),
            unread(Width::Typed, Unread::NothingTyped),
        ),
        // Not to be read, and so not either.
        (
            "Not(Not(AtMost(width: Typed, mm: 1.0)))".to_owned(),
            unread(Width::Typed, Unread::NothingTyped),
        ),
        // The limit is what cannot be read.
        (
            "AtMost(width: Counted, over: Typed, mm: 1.0)".to_owned(),
            unread(Width::Typed, Unread::NothingTyped),
        ),
        // What holds though it cannot be read is not why.
        (
            "And([Not(AtMost(width: Typed, mm: 1.0)), Is(HandIn)])".to_owned(),
            None,
        ),
    ];
    for (formula, expected) in cases {
        let formula = format!("Implies(Did(Torch), {formula})");
        assert_eq!(first_missed(&formula, &[(0, TORCH)]), expected, "{formula}");
    }
    // With the isolator off the panel is dark; with an emergency stop the count is lost.
    let counted = |at: &str| format!("Implies({at}, AtLeast(width: Counted, mm: 1.0))");
    let dark = unread(Width::Counted, Unread::PanelDark);
    let off = [(0, Cause::Did(Intent::IsolatorOff)), (0, TORCH)];
    assert_eq!(first_missed(&counted("Did(Torch)"), &off), dark);
    let lost = unread(Width::Counted, Unread::CountUnknown);
    let stop = [(0, Cause::Did(Intent::PressEmergency)), (0, TORCH)];
    assert_eq!(first_missed(&counted("Did(Torch)"), &stop), lost);
    // By what is heard while the rails move.
    let (variants, procedure) = loaded();
    let run = GuideRun::play(&variants[0], &procedure, 0).expect("the guide finishes");
    let causes: Vec<(u32, Cause)> = run.causes.iter().map(|(at, did)| (at.0, *did)).collect();
    let moving = unread(Width::Counted, Unread::RailsMove);
    let told = first_missed(&counted("Sign(RailsStarted)"), &causes);
    assert_eq!(told, moving);
}

#[test]
fn a_breach_is_not_measured_by_what_came_of_it() {
    // The panel goes dark by what was done wrong.
    let formula = "And([Not(Did(IsolatorOff)), AtLeast(width: Counted, mm: 1.0)])";
    let off = [(0, Cause::Did(Intent::IsolatorOff))];
    assert_eq!(first_missed(formula, &off), None);
}

#[test]
fn why_a_width_was_not_read_before_is_not_asked_of_now() {
    // Its count was lost; only then the panel went dark.
    let formula = "Implies(Is(IsolatorOff), Previously(AtLeast(width: Counted, mm: 1.0)))";
    let causes = [
        (0, Cause::Did(Intent::PressEmergency)),
        (0, Cause::Did(Intent::IsolatorOff)),
    ];
    assert_eq!(first_missed(formula, &causes), None);
}
