//! Formulas over yes and no as diagrams of decisions: reduced and in one order, so that two
//! formulas that mean the same are the same node. Source: Bryant 1986, from memory.

use std::collections::BTreeMap;

/// A formula, as a node of a [`Diagrams`].
pub(crate) type Node = u32;

/// What is always false.
pub(crate) const NEVER: Node = 0;
/// What is always true.
pub(crate) const ALWAYS: Node = 1;

/// Most nodes. Rules of this house take some hundreds.
const NODES_MOST: usize = 100_000;

/// A question, and the nodes for its two answers.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
struct Decision {
    question: u32,
    no: Node,
    yes: Node,
}

/// Diagrams that share their nodes. Questions are numbers, asked in their order.
#[derive(Debug, Default)]
pub(crate) struct Diagrams {
    /// Those of the nodes from 2 on.
    decisions: Vec<Decision>,
    known: BTreeMap<Decision, Node>,
    /// What became of "if the first, then the second, else the third".
    chosen: BTreeMap<[Node; 3], Node>,
    /// Whether there were more nodes than are worked out. From then on answers mean nothing.
    pub(crate) too_large: bool,
}

impl Diagrams {
    /// The formula that is true if this question is answered with yes.
    pub(crate) fn ask(&mut self, question: u32) -> Node {
        self.node(Decision {
            question,
            no: NEVER,
            yes: ALWAYS,
        })
    }

    pub(crate) fn not(&mut self, a: Node) -> Node {
        self.choose(a, NEVER, ALWAYS)
    }

    pub(crate) fn and(&mut self, a: Node, b: Node) -> Node {
        self.choose(a, b, NEVER)
    }

    pub(crate) fn or(&mut self, a: Node, b: Node) -> Node {
        self.choose(a, ALWAYS, b)
    }

    /// What is true if the formula is for some answers to the questions that `over` names, and what
    /// is true if it is for all of them.
    pub(crate) fn over(&mut self, formula: Node, over: &dyn Fn(u32) -> bool) -> [Node; 2] {
        let mut done = BTreeMap::new();
        self.over_with(formula, over, &mut done)
    }

    fn over_with(
        &mut self,
        formula: Node,
        over: &dyn Fn(u32) -> bool,
        done: &mut BTreeMap<Node, [Node; 2]>,
    ) -> [Node; 2] {
        let Some(Decision { question, no, yes }) = self.decision(formula) else {
            return [formula; 2];
        };
        if let Some(known) = done.get(&formula) {
            return *known;
        }
        let (no, yes) = (
            self.over_with(no, over, done),
            self.over_with(yes, over, done),
        );
        let found = if over(question) {
            [self.or(no[0], yes[0]), self.and(no[1], yes[1])]
        } else {
            let asked = self.ask(question);
            [0, 1].map(|which| self.choose(asked, yes[which], no[which]))
        };
        done.insert(formula, found);
        found
    }

    fn decision(&self, node: Node) -> Option<Decision> {
        let at = (node as usize).checked_sub(2)?;
        self.decisions.get(at).copied()
    }

    fn node(&mut self, decision: Decision) -> Node {
        if decision.no == decision.yes {
            return decision.no;
        }
        if let Some(known) = self.known.get(&decision) {
            return *known;
        }
        if self.decisions.len() >= NODES_MOST {
            self.too_large = true;
            return NEVER;
        }
        self.decisions.push(decision);
        let node = self.decisions.len() as Node + 1;
        self.known.insert(decision, node);
        node
    }

    /// If the first, then the second, else the third.
    fn choose(&mut self, of: Node, then: Node, other: Node) -> Node {
        match (of, then, other) {
            (ALWAYS, ..) => return then,
            (NEVER, ..) => return other,
            (_, ALWAYS, NEVER) => return of,
            _ if then == other || self.too_large => return then,
            _ => {}
        }
        if let Some(known) = self.chosen.get(&[of, then, other]) {
            return *known;
        }
        let asked = [of, then, other].map(|node| self.decision(node));
        let first = asked.iter().flatten().map(|one| one.question).min();
        let question = first.unwrap_or_default();
        let part = |yes: bool| {
            let mut nodes = [of, then, other];
            for (node, asked) in nodes.iter_mut().zip(asked) {
                if let Some(asked) = asked.filter(|asked| asked.question == question) {
                    *node = if yes { asked.yes } else { asked.no };
                }
            }
            nodes
        };
        let [of_no, then_no, other_no] = part(false);
        let [of_yes, then_yes, other_yes] = part(true);
        let decision = Decision {
            question,
            no: self.choose(of_no, then_no, other_no),
            yes: self.choose(of_yes, then_yes, other_yes),
        };
        let found = self.node(decision);
        self.chosen.insert([of, then, other], found);
        found
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_means_the_same_is_the_same_node() {
        let mut all = Diagrams::default();
        let [a, b, c] = [3, 1, 2].map(|question| all.ask(question));
        let (ab, bc) = (all.and(a, b), all.and(b, c));
        let either = all.or(ab, bc);
        let inner = all.or(c, a);
        assert_eq!(
            either,
            all.and(inner, b),
            "both are b and one of the others"
        );
        let not = all.not(either);
        assert_eq!(all.or(not, either), ALWAYS);
        assert_eq!(all.and(not, either), NEVER);
        assert_eq!(all.not(not), either);
    }

    #[test]
    fn for_some_and_for_all_answers() {
        let mut all = Diagrams::default();
        let [a, b] = [0, 1].map(|question| all.ask(question));
        let (both, either) = (all.and(a, b), all.or(a, b));
        let cases = [(both, [a, NEVER]), (either, [ALWAYS, a]), (a, [a, a])];
        for (formula, expected) in cases {
            assert_eq!(all.over(formula, &|question| question == 1), expected);
        }
    }

    /// Pairs whose partners are asked far apart double with each pair.
    #[test]
    fn what_gets_too_large_is_given_up() {
        let mut all = Diagrams::default();
        let mut formula = NEVER;
        for pair in 0..30 {
            let (one, other) = (all.ask(pair), all.ask(pair + 30));
            let both = all.and(one, other);
            formula = all.or(formula, both);
        }
        assert!(all.too_large);
    }
}
