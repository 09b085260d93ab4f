"""Prints the agreement of invented raters, as one of two programs has it.

Made with: pip install statsmodels==0.15.0 krippendorff==0.9.0
python3 agreement.py statsmodels > ../agreement-statsmodels.txt
python3 agreement.py krippendorff > ../agreement-krippendorff.txt
"""
import random
import sys
from importlib.metadata import version

chance = random.Random(40)


def table(rows):
    return "/".join(",".join("*" if cell is None else str(cell) for cell in row) for row in rows)


def kappas():
    from statsmodels.stats.inter_rater import cohens_kappa, fleiss_kappa

    print(f"# Kappa of invented raters, as statsmodels {version('statsmodels')} (PyPI, BSD-3) has it")
    print("# Made by: python3 scripts/agreement.py statsmodels")
    print("# Columns: cohen classes/classes kappa")
    print("# Columns: fleiss subjects/classes kappa")
    for at in range(60):
        classes = 2 + at % 4
        counts = [[chance.randint(0, 30 if i == j else 12) for j in range(classes)] for i in range(classes)]
        print("cohen", table(counts), f"{cohens_kappa(counts).kappa:.10f}")
    for at in range(60):
        classes, raters, subjects = 2 + at % 4, chance.randint(2, 9), chance.randint(2, 12)
        rows = []
        for _ in range(subjects):
            likely = chance.randrange(classes)
            rated = [likely if chance.random() < 0.6 else chance.randrange(classes) for _ in range(raters)]
            rows.append([rated.count(one) for one in range(classes)])
        if sum(any(column) for column in zip(*rows)) < 2:
            continue
        print("fleiss", table(rows), f"{fleiss_kappa(rows):.10f}")


def alphas():
    import krippendorff
    import numpy

    print(f"# Alpha of invented raters, as krippendorff {version('krippendorff')} (PyPI, GPL-3.0, used for this file alone) has it")
    print("# Made by: python3 scripts/agreement.py krippendorff")
    print("# Columns: level raters/units alpha; * was not rated")
    for at in range(50):
        raters, units = chance.randint(2, 5), chance.randint(4, 14)
        values = [1, 2, 3, 4, 5] if at % 2 else [0, 0.5, 1.5, 2, 7, 12]
        truth = [chance.choice(values) for _ in range(units)]
        rows = [
            [
                None if chance.random() < 0.2 else one if chance.random() < 0.6 else chance.choice(values)
                for one in truth
            ]
            for _ in range(raters)
        ]
        plain = numpy.array([[numpy.nan if cell is None else cell for cell in row] for row in rows], float)
        for level in ("nominal", "ordinal", "interval", "ratio"):
            alpha = krippendorff.alpha(reliability_data=plain, level_of_measurement=level)
            print(level, table(rows), f"{alpha:.10f}")


{"statsmodels": kappas, "krippendorff": alphas}[sys.argv[1]]()
