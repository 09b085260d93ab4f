"""Costs of optimal alignments, of random tasks and traces and of a textbook's log, as pm4py has them.

Made with, in an environment of its own: pip install pm4py==2.7.23.11; python3 alignments.py
Prints lines: tree | trace | cost. A trace is words with spaces between; the cost is the number of
events that fit nothing and of visible steps that are missing.
pm4py is under the AGPL: it runs here as a program of its own, and nothing of it is kept.
"""
import random
import sys
import warnings

warnings.filterwarnings("ignore")
import pm4py
from pm4py.algo.conformance.alignments.petri_net import algorithm as aligner
from pm4py.objects.conversion.process_tree import converter
from pm4py.objects.log.obj import Event, Trace
from pm4py.objects.process_tree.utils.generic import parse

VARIANTS = """455 acdeh, 191 abdeg, 177 adceh, 144 abdeh, 111 acdeg, 82 adceg, 56 adbeh,
47 acdefdbeh, 38 adbeg, 33 acdefbdeh, 14 acdefbdeg, 11 acdefdbeg, 9 adcefcdeh, 8 adcefdbeh,
5 adcefbdeg, 3 acdefbdefdbeg, 2 adcefdbeg, 2 adcefbdefbdeg, 1 adcefdbefbdeh, 1 adbefbdefdbeg,
1 adcefdbefcdefdbeg"""
MODELS = [
    "->( 'a', *( ->( +( X( 'b', 'c' ), 'd' ), 'e' ), 'f' ), X( 'g', 'h' ) )",
    "->( 'a', *( ->( X( 'b', 'c' ), 'd', 'e' ), 'f' ), X( 'g', 'h' ) )",
    "->( 'a', +( 'c', 'd' ), 'e', 'h' )",
]


def fresh(letters):
    return "'" + letters.pop() + "'" if letters else "tau"


def tree(rng, depth, letters):
    """A tree whose steps are all different, as what stands in any order asks."""
    if depth == 0 or not letters or rng.random() < 0.15:
        return fresh(letters)
    kind = rng.choice(["->", "->", "+", "+", "X", "*"])
    count = 2 if kind == "*" else rng.randint(2, 3)
    parts = [tree(rng, depth - 1, letters) for _ in range(count)]
    if kind == "X" and rng.random() < 0.3:
        parts[-1] = "tau"
    return kind + "( " + ", ".join(parts) + " )"


def cost_of(model, words):
    net, start, end = model
    trace = Trace([Event({"concept:name": word}) for word in words])
    found = aligner.apply_trace(trace, net, start, end)
    # A visible move costs 10,000, a silent one 1 or nothing.
    return found["cost"] // 10000


def main():
    print(f"# Costs of optimal alignments by pm4py {pm4py.__version__} (PyPI, AGPL-3.0), Python {sys.version.split()[0]}")
    print("# Made by: tests/outside/scripts/alignments.py")
    print("# Columns: tree | trace | cost. First a textbook's log on three models, with the number of cases")
    for text in MODELS:
        model = converter.apply(parse(text))
        for variant in VARIANTS.replace("\n", " ").split(", "):
            count, letters = variant.split()
            print(f"{text} | {' '.join(letters)} | {cost_of(model, letters)} | {count}")
    print("# The loop of game/alignment/benches/speed.rs")
    text = "*( ->( " + ", ".join(f"'s{step}'" for step in range(12)) + " ), tau )"
    words = [f"s{at * 7 % 12 if at % 5 == 4 else at % 12}" for at in range(60)]
    print(f"{text} | {' '.join(words)} | {cost_of(converter.apply(parse(text)), words)}")
    print("# Random trees with random traces")
    rng = random.Random(20260115)
    for _ in range(150):
        letters = list("hgfedcba")
        text = tree(rng, 3, letters)
        model = converter.apply(parse(text))
        used = [letter for letter in "abcdefgh" if f"'{letter}'" in text] + ["z"]
        for _ in range(6):
            words = [rng.choice(used) for _ in range(rng.randint(0, 9))]
            print(f"{text} | {' '.join(words)} | {cost_of(model, words)}")


main()
