//! A listener that works out only what changed gives what the definition says.

use proptest::prelude::*;
use rackproof_model::Micros;

use crate::{
    Observation,
    definition::{laid_out, truth_of},
    formula_tests::{compiled, histories, truths},
    listener::Listener,
    prepared::Prepared,
};

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 6_000,
        max_global_rejects: 400_000,
        ..ProptestConfig::default()
    })]

    /// At each observation, whether it told something or not.
    #[test]
    fn who_hears_only_what_changed_misses_nothing(text in truths(), history in histories()) {
        // Those that hear all are worked out whole.
        let is_plain = !["_s:", "Previously", "AtLeast", "AtMost"]
            .iter()
            .any(|part| text.contains(part));
        prop_assume!(is_plain);
        let Some((value, program, root)) = compiled(&text) else { return Ok(()) };
        let all = laid_out(&history);
        let expected = truth_of(&value, &all);
        let prepared = Prepared::new(program, &[root]);
        prop_assume!(!prepared.changes.hears_all());
        let mut listener = Listener::new(&prepared);
        let (mut quiet, mut known) = (Observation::default().as_quiet(), None);
        for ((span, seen), &now) in history.iter().zip(&all.observed) {
            listener.pass(&quiet, Micros(*span));
            if let Some(told) = listener.observe(seen) {
                let truth = told.values.truth(root);
                prop_assert!(
                    told.concerns(root) || known.is_none_or(|known| known == truth),
                    "{} turned unheard", text
                );
                known = Some(truth);
            }
            prop_assert_eq!(known, Some(expected[now]), "{} at {}", text, all.at[now]);
            quiet = seen.as_quiet();
        }
    }
}
