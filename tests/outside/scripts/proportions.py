"""Prints intervals of proportions and p of Fisher's exact test as SciPy has them.

Made with: pip install scipy==1.17.1; python3 proportions.py > ../proportions-scipy.txt
"""
import random

import scipy
from scipy.stats import beta, binomtest, fisher_exact

chance = random.Random(20)


def printed(figure):
    """Ten digits; 0 and 1 are exact."""
    return "0" if figure == 0 else "1" if figure == 1 else f"{figure:.9e}"


def pairs():
    """Successes and trials: all few ones, some more, some many."""
    for trials in (1, 2, 3, 5, 10):
        for successes in range(trials + 1):
            yield successes, trials
    for trials in (20, 30, 60, 137, 500, 1000, 3000, 10_000):
        for successes in (0, 1, 2, trials // 10, trials // 2, trials - 1, trials):
            yield successes, trials


print(f"# Intervals of proportions and p of Fisher's exact test, as SciPy {scipy.__version__} (PyPI, BSD-3) has them")
print("# Made by: python3 scripts/proportions.py, beta.ppf and beta.isf (those of Clopper-Pearson meet binomtest to 1e-11), fisher_exact two-sided")
print("# Columns: clopper-pearson successes trials confidence low high")
print("# Columns: jeffreys successes trials confidence low high")
print("# Columns: fisher successes trials successes trials p")
for successes, trials in pairs():
    for confidence in (0.5, 0.9, 0.95, 0.999):
        tail = (1 - confidence) / 2
        low = beta(successes, trials - successes + 1).ppf(tail) if successes else 0
        high = beta(successes + 1, trials - successes).isf(tail) if successes < trials else 1
        # SciPy's own interval solves the sums of the binomial law, to 2e-12. Both ways must meet.
        solved = binomtest(successes, trials).proportion_ci(confidence, method="exact")
        assert abs(solved.low - low) < 1e-11 and abs(solved.high - high) < 1e-11, (successes, trials)
        print("clopper-pearson", successes, trials, confidence, printed(low), printed(high))
        law = beta(successes + 0.5, trials - successes + 0.5)
        print("jeffreys", successes, trials, confidence, printed(law.ppf(tail)), printed(law.isf(tail)))


def groups():
    """Two groups: all tables of two small ones, then random ones, some of one size."""
    for first, second in ((1, 1), (3, 3), (4, 7), (5, 5)):
        for a in range(first + 1):
            for b in range(second + 1):
                yield a, first, b, second
    for most in (12, 30, 100, 1000, 10_000):
        for at in range(24):
            first = chance.randint(1, most)
            second = first if at % 3 == 0 else chance.randint(1, most)
            a = chance.randint(0, first)
            b = min(second, max(0, round(a / first * second + chance.gauss(0, 1) * second**0.5)))
            yield a, first, b, second


for a, first, b, second in groups():
    p = fisher_exact([[a, first - a], [b, second - b]]).pvalue
    print("fisher", a, first, b, second, printed(p))
