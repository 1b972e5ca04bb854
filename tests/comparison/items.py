"""Item figures of random classes against NumPy and SciPy: facility, discrimination, correlations with their intervals, alpha,
KR-20, the error of measurement, totals, partial correlations, and tests of whether forms differ. All to 1e-9."""

import itertools
import json
import math
import os
import subprocess

import numpy as np
from glueline import ROOT
from scipy import stats

PROGRAM = os.environ.get("REVIEW", str(ROOT / "target" / "release" / "examples" / "review"))
BOUND = 1e-9
compared = 0


def close(name, found, expected):
    global compared
    compared += 1
    if expected is None or found is None:
        assert found is None and expected is None, f"{name}: {found} is not {expected}"
        return
    assert abs(found - expected) <= BOUND * max(1.0, abs(expected)), f"{name}: {found!r} is not {expected!r}"


def reviewed(out_of, marks, blank, open_, forms, feature):
    def entry(row, item):
        if open_[row, item]:
            return "not-marked"
        return "blank" if blank[row, item] else {"earned": float(marks[row, item])}

    rows = [[entry(row, item) for item in range(len(out_of))] for row in range(len(marks))]
    items = [{"label": str(at), "out_of": float(most)} for at, most in enumerate(out_of)]
    text = json.dumps({"items": items, "rows": rows, "forms": forms, "feature": feature.tolist()})
    done = subprocess.run([PROGRAM], input=text, capture_output=True, text=True, check=True)
    return json.loads(done.stdout)


def interval(name, found, low, high):
    close(name + " lower", found["lower"], float(low))
    close(name + " upper", found["upper"], float(high))


def correlation(name, found, one, other):
    if np.ptp(one) == 0 or np.ptp(other) < 1e-9:
        assert found is None, f"{name}: a correlation of what does not vary"
        return
    expected = stats.pearsonr(one, other)
    close(name, found["r"], float(expected.statistic))
    if abs(expected.statistic) < 1 - 1e-12:
        interval(name, found["interval"], *expected.confidence_interval(0.95))


def groups(totals):
    """The tops and bottoms by trying every possible cut between two different totals."""
    totals = np.round(totals, 9)
    wanted = math.floor(0.27 * len(totals) + 0.5)

    def cut(values):
        sizes = [int(np.sum(values >= bound)) for bound in np.unique(values)]
        size = min(sizes, key=lambda size: (abs(size - wanted), -size))
        bound = np.sort(values)[::-1][size - 1]
        return values >= bound

    top, bottom = cut(totals), cut(-totals)
    return None if np.any(top & bottom) else (top, bottom)


def alpha(marks):
    k = marks.shape[1]
    if k < 2 or np.ptp(marks.sum(axis=1)) < 1e-9:
        return None
    # From the covariance matrix, not from the variances of sums.
    covariance = np.cov(marks, rowvar=False)
    return k / (k - 1) * (1 - np.trace(covariance) / covariance.sum())


def exact(counts):
    """The probability of all tables no likelier than this one, table by table."""
    sizes = [n for n, _ in counts]
    right = sum(k for _, k in counts)
    law = stats.multivariate_hypergeom(m=sizes, n=right)
    own = law.pmf([k for _, k in counts])
    tables = (t for t in itertools.product(*(range(min(n, right) + 1) for n in sizes)) if sum(t) == right)
    chances = (law.pmf(t) for t in tables)
    return sum(chance for chance in chances if chance <= own * (1 + 1e-7))


def forms_of(name, variants, marks, out_of, open_, forms):
    raw = []
    for item, variant in enumerate(variants):
        counts = []
        for form in dict.fromkeys(forms):
            own = np.array([f == form for f in forms]) & ~open_[:, item]
            counts.append((int(own.sum()), int((marks[own, item] >= out_of[item]).sum())))
            told = next(f for f in variant["forms"] if f["form"] == form)
            assert (told["students"], told["full"]) == counts[-1]
            close(f"{name} form {form} item {item}", told["facility"], float(marks[own, item].mean() / out_of[item]) if own.any() else None)
        counts = [count for count in counts if count[0]]
        test = variant["test"]
        if len(counts) < 2:
            assert test is None
            continue
        table = np.array([[k, n - k] for n, k in counts]).T
        if table.sum(axis=1).min() == 0:
            close(f"{name} p of item {item}", test["p"], 1.0)
        elif test["kind"] == "exact":
            expected = float(stats.fisher_exact(table).pvalue) if len(counts) == 2 else exact(counts)
            close(f"{name} exact p of item {item}", test["p"], expected)
        else:
            expected = stats.chi2_contingency(table, correction=False)
            close(f"{name} chi-square p of item {item}", test["p"], float(expected.pvalue))
            assert (test["kind"] == "rough-chi-square") == bool(expected.expected_freq.min() < 5)
        raw.append((item, test["p"]))
    raised = 0.0
    for place, (item, p) in enumerate(sorted(raw, key=lambda pair: pair[1])):
        raised = max(raised, min(1.0, (len(raw) - place) * p))
        close(f"{name} Holm's p of item {item}", variants[item]["p_of_all"], raised)


def partials(name, features, complete, feature):
    """Correlations of what two least-squares fits on the rest score leave over."""
    for item, told in enumerate(features):
        column, rest = complete[:, item], np.delete(complete, item, axis=1).sum(axis=1)
        if len(complete) < 20 or np.ptp(column) == 0 or np.ptp(rest) < 1e-9:
            assert len(complete) >= 20 or told["correlation"] is None
            continue
        design = np.column_stack([np.ones(len(rest)), rest])
        left = [values - design @ np.linalg.lstsq(design, values)[0] for values in (column, feature)]
        if min(np.std(left[0]), np.std(left[1])) < 1e-6:
            continue
        r = float(stats.pearsonr(*left).statistic)
        close(f"{name} item {item} against the feature", told["correlation"]["r"], r)
        half = stats.norm.ppf(0.975) / math.sqrt(len(rest) - 4)
        interval(f"{name} item {item}, feature", told["correlation"]["interval"], np.tanh(np.arctanh(r) - half), np.tanh(np.arctanh(r) + half))


def one(seed):
    rng = np.random.default_rng(seed)
    students, k = int(rng.integers(20, 120)), int(rng.integers(2, 9))
    if seed % 7 == 0:
        students = int(rng.integers(1, 20))
    binary = seed % 3 == 0
    out_of = np.ones(k) if binary else rng.choice([0.5, 1.0, 2.0, 3.0, 4.5], k)
    ability = rng.normal(size=(students, 1))
    likely = 1 / (1 + np.exp(-(ability * rng.normal(0.7, 0.8, k) + rng.normal(0, 1.5, k))))
    steps = 1 if binary else 4
    marks = rng.binomial(steps, likely) / steps * out_of
    blank = (rng.random(marks.shape) < 0.05) & (marks == 0)
    open_ = rng.random(marks.shape) < (0.01 if seed % 2 else 0.0)
    forms = [str(form) for form in rng.choice(list("ABC"[: 2 + seed % 2]), students)]
    feature = rng.normal(size=students) + 0.5 * marks[:, 0]
    found = reviewed(out_of, marks, blank, open_, forms, feature)
    review, name = found["review"], f"class {seed}"

    complete = marks[~open_.any(axis=1)]
    totals = complete.sum(axis=1)
    large = len(complete) >= 20
    assert (review["students"], review["complete"]) == (students, len(complete))
    if len(complete):
        told = review["totals"]
        for key, expected in [("mean", totals.mean()), ("deviation", totals.std()), ("median", np.median(totals)), ("least", totals.min()), ("greatest", totals.max())]:
            close(f"{name} {key}", told[key], float(expected))
        stretches = told["stretches"]
        assert all(2 * one["from"] % 1 == 0 for one in stretches) and len(stretches) <= 10, f"{name}: {stretches}"
        edges = np.array([one["from"] for one in stretches] + [out_of.sum()]) - 1e-10
        edges[-1] += 1
        assert [one["students"] for one in stretches] == np.histogram(totals, edges)[0].tolist(), f"{name}: {stretches}"
    whole = alpha(complete) if large else None
    told = review["reliability"]
    if whole is None:
        assert told is None
    else:
        close(f"{name} alpha", told["alpha"], float(whole))
        close(f"{name} error", told["error"], float(totals.std() * math.sqrt(1 - whole)))
        p = complete.mean(axis=0)
        close(f"{name} KR-20", told["kr_20"], float(k / (k - 1) * (1 - (p * (1 - p)).sum() / totals.var())) if binary else None)
    parted = groups(totals) if large else None
    for item, figures in enumerate(review["items"]):
        label = f"{name} item {item}"
        own = marks[~open_[:, item], item]
        assert figures["blank"] == int((blank & ~open_)[:, item].sum())
        assert (figures["full"], figures["nothing"]) == (int((own == out_of[item]).sum()), int((own == 0).sum()))
        if len(own) == 0:
            assert figures["facility"] is None
            continue
        p = own.mean() / out_of[item]
        close(f"{label} facility", figures["facility"], float(p))
        if abs(p * len(own) - round(p * len(own))) < 1e-9:  # SciPy takes whole counts only
            expected = stats.binomtest(round(p * len(own)), len(own)).proportion_ci(0.95, method="wilson")
            interval(f"{label} Wilson", figures["facility_interval"], expected.low, expected.high)
        if not large:
            assert all(figures[key] is None for key in ["discrimination", "point_biserial", "with_total", "with_rest", "alpha_without"])
            continue
        column = complete[:, item]
        correlation(f"{label} with the total", figures["with_total"], column, totals)
        correlation(f"{label} with the rest", figures["with_rest"], column, totals - column)
        close(f"{label} alpha without", figures["alpha_without"], alpha(np.delete(complete, item, axis=1)))
        if binary and 0 < column.mean() < 1:
            close(f"{label} point-biserial", figures["point_biserial"], float(stats.pointbiserialr(column == 1, totals).statistic))
        if parted is None:
            assert figures["discrimination"] is None
        else:
            top, bottom = parted
            told = figures["discrimination"]
            assert (told["top"], told["bottom"]) == (int(top.sum()), int(bottom.sum())), label
            close(f"{label} D", told["d"], float((column[top].mean() - column[bottom].mean()) / out_of[item]))
    partials(name, found["features"], complete, feature[~open_.any(axis=1)])
    forms_of(name, found["variants"], marks, out_of, open_, forms)


def main():
    classes = int(os.environ.get("CLASSES", "120"))
    for seed in range(classes):
        one(seed)
    print(f"{classes} random classes, {compared} figures compared to {BOUND:g} with NumPy {np.__version__}")


if __name__ == "__main__":
    main()
