"""Recomputes the numerical formulas of the calc crate with numpy and scipy, which know nothing of us.

    python tests/reference/formulas_check.py TABLE.jsonl

The table comes from `cargo run -p calc --example formulas_table`: one JSON object a line, inputs beside outputs.
Interpolation goes against numpy.interp, straight fits against numpy.linalg.lstsq, areas of nearest parts
against a fine grid, a least cover against a search down the cage, sand against scipy.integrate. Errors of a
value are propagated twice: to first order through a Jacobian by finite differences, and by draws with a
fixed seed. A kind of line this script does not know is a failure, not a gap, and so is a kind it knows that
the table lacks. Ends with the counts; the exit code is 1 when a value disagrees, 2 when nothing can be
compared.
"""

import json
import sys
from collections import Counter

import numpy as np
import scipy
import scipy.constants
import scipy.stats
from scipy import integrate, optimize

import chances

NANOMETRE = 1e-9  # A length is kept to the whole nanometre; half of it is lost either way.
SEED = 20260504
DRAWS = 400_000
# Standard deviation of a standard deviation from so many draws, five times over, is 0.6 %; the rest is
# what the first order leaves out.
DRAWN = 0.015


class Comparison:
    """Collects what was compared and what disagreed."""

    def __init__(self):
        self.passed = Counter()
        self.troubles = []

    def close(self, what, ours, theirs, absolute=0.0, relative=1e-9):
        ours, theirs = np.asarray(ours, dtype=float), np.asarray(theirs, dtype=float)
        if ours.shape != theirs.shape:
            self.troubles.append(f"{what}: {ours.shape} values beside {theirs.shape}")
            return
        # Written so that NaN does not pass.
        good = np.abs(ours - theirs) <= absolute + relative * np.abs(theirs)
        self.passed[what.split(":")[0]] += int(np.count_nonzero(good))
        for one, other in zip(ours[~good].ravel(), theirs[~good].ravel()):
            self.troubles.append(f"{what}: ours {one!r}, recomputed {other!r}")


def first_order(figures, mean, sigma):
    """Standard errors of `figures(inputs)` for independent inputs, by central differences."""
    mean, sigma = np.asarray(mean, dtype=float), np.asarray(sigma, dtype=float)
    variance = 0.0
    for index in range(len(mean)):
        step = 1e-6 * max(abs(mean[index]), 1.0)
        up, down = mean.copy(), mean.copy()
        up[index] += step
        down[index] -= step
        slope = (np.asarray(figures(up)) - np.asarray(figures(down))) / (2 * step)
        variance = variance + (slope * sigma[index]) ** 2
    return np.sqrt(variance)


def drawn(figures, mean, sigma, shrink=1.0):
    """The same by draws, with all errors shrunk by a factor that the result is stretched by again."""
    chance = np.random.default_rng(SEED)
    mean, sigma = np.asarray(mean, dtype=float), np.asarray(sigma, dtype=float)
    inputs = mean[:, None] + shrink * sigma[:, None] * chance.standard_normal((len(mean), DRAWS))
    return np.array([np.std(values) for values in figures(inputs)]) / shrink


def interpolation(row, comparison):
    ages, slumps = np.array(row["trial_min"]), np.array(row["trial_m"])
    ours = np.interp(row["ages_min"], ages, slumps)
    comparison.close("interpolation: slump", row["slumps_m"], ours, absolute=NANOMETRE)
    # numpy wants rising abscissae; the trials of the table fall all the way.
    back = np.interp(row["wanted_m"], slumps[::-1], ages[::-1])
    steepest = np.min(np.abs(np.diff(slumps) / np.diff(ages)))
    comparison.close("interpolation: age", row["reached_min"], back, absolute=NANOMETRE / steepest)


def rows_interp(at, known_at, values):
    """Straight lines through columns of values; `at` may differ from column to column."""
    known_at = np.asarray(known_at)
    segment = np.clip(np.searchsorted(known_at, at, side="left") - 1, 0, len(known_at) - 2)
    part = (at - known_at[segment]) / (known_at[segment + 1] - known_at[segment])
    columns = np.arange(np.asarray(values).shape[1])
    low = np.asarray(values)[segment, columns]
    return low + part * (np.asarray(values)[segment + 1, columns] - low)


def life(row, comparison):
    """Ages at which a limit is reached: every trial slump, test and load is an input of its own."""
    ages, trial, tests = np.array(row["trial_min"]), np.array(row["trial_m"]), row["tests"]
    flat = [test for load in tests for test in load]
    owner = [index for index, load in enumerate(tests) for _ in load]
    tested = sorted(set(owner))
    scale = row["adjustment"] == "scale"

    def days(inputs):
        """The slumps of each load at the ages of the trial, one column a draw."""
        slumps = inputs[: len(trial)]
        measured = inputs[len(trial) : len(trial) + len(flat)]
        # How each tested load, and the untested one, truly differs from the mean of the mix.
        own = inputs[len(trial) + len(flat) :]
        shifts = {}
        for load in tested:
            mine = [index for index, of in enumerate(owner) if of == load]
            tried = [rows_interp(np.full(slumps.shape[1], flat[index][0]), ages, slumps) for index in mine]
            if scale:
                shifts[load] = sum(measured[index] for index in mine) / sum(tried)
            else:
                shifts[load] = sum(measured[index] - one for index, one in zip(mine, tried)) / len(mine)
        # An untested load: the mean of what the tested ones showed, and its own difference on top.
        strayed = [shifts[load] + own[position] * lever(load) for position, load in enumerate(tested)]
        mean_lever = np.mean([lever(load) for load in tested])
        mean_shift = sum(strayed) / len(strayed) - own[-1] * mean_lever
        of_load = [shifts.get(load, mean_shift) for load in range(len(tests))]
        return [slumps * shift if scale else slumps + shift for shift in of_load]

    def each_day(read):
        """Figures read off the slumps of each load, for one set of inputs or for many draws of them."""

        def figures(inputs):
            inputs = np.asarray(inputs, dtype=float)
            single = inputs.ndim == 1
            read_off = np.array([read(day) for day in days(inputs[:, None] if single else inputs)])
            return read_off[..., 0] if single else read_off

        return figures

    def lever(load):
        """What one metre of slump of a load does to its shift."""
        mine = [index for index, of in enumerate(owner) if of == load]
        return len(mine) / sum(np.interp(flat[index][0], ages, trial) for index in mine) if scale else 1.0

    mean = np.concatenate([trial, [test[1] for test in flat], np.zeros(len(tested) + 1)])
    test_error, between = row["test_error_m"], row["between_error_m"]
    sigma = [test_error] * (len(trial) + len(flat)) + [between] * (len(tested) + 1)
    figures = each_day(lambda day: falls_to(row["limit_m"], ages, day))
    comparison.close("life: age", row["age_min"], figures(mean), absolute=1e-6)
    comparison.close("life: first order", row["error_min"], first_order(figures, mean, sigma), relative=1e-5)
    shrink = 0.02
    comparison.close("life: draws", row["error_min"], drawn(figures, mean, sigma, shrink), relative=DRAWN)
    intervals(row, days, mean, sigma, comparison)
    for index, age in enumerate(row["asked_min"]):
        slump = each_day(lambda day: rows_interp(np.full(day.shape[1], age), ages, day))
        ours, error = np.array(row["slump_m"])[:, index], np.array(row["slump_error_m"])[:, index]
        comparison.close("life: slump", ours, slump(mean), absolute=2 * NANOMETRE)
        first = first_order(slump, mean, sigma)
        comparison.close("life: slump error", error, first, absolute=NANOMETRE, relative=1e-5)


def intervals(row, days, mean, sigma, comparison):
    """Ages at which the band of nine in ten comes down to the limit, by root finding."""
    ages = np.array(row["trial_min"])
    errors = scipy.stats.norm.ppf(0.95)

    def band(load, age, sign):
        def slump(inputs):
            day = days(np.asarray(inputs, dtype=float)[:, None])[load]
            return rows_interp(np.array([age]), ages, day)

        return slump(mean)[0] + sign * errors * first_order(slump, mean, sigma)[0] - row["limit_m"]

    found = [
        [optimize.brentq(lambda age: band(load, age, sign), ages[0], ages[-1]) for sign in (-1, 1)]
        for load in range(len(row["tests"]))
    ]
    comparison.close("life: interval", row["interval_min"], found, absolute=1e-4)


def falls_to(limit, ages, slumps):
    """The age at which falling lines, one a column, come down to a limit."""
    below = np.argmax(slumps <= limit, axis=0)
    columns = np.arange(slumps.shape[1])
    high, low = slumps[below - 1, columns], slumps[below, columns]
    return ages[below - 1] + (high - limit) / (high - low) * (ages[below] - ages[below - 1])


def plane(row, comparison):
    points = np.array(row["points"])
    design = np.column_stack([np.ones(len(points)), points[:, 0], points[:, 1]])
    (centre, along_x, along_y), *_ = np.linalg.lstsq(design, points[:, 2], rcond=None)
    slope = np.hypot(along_x, along_y)
    covariance = row["reading_error"] ** 2 * np.linalg.inv(design.T @ design)[1:, 1:]
    direction = np.array([along_x, along_y]) / slope
    left = points[:, 2] - design @ [centre, along_x, along_y]
    comparison.close("plane: centre", row["at_centre"], centre, absolute=NANOMETRE)
    comparison.close("plane: slopes", [row["along_x"], row["along_y"], row["slope"]], [along_x, along_y, slope])
    comparison.close("plane: error", row["slope_error"], np.sqrt(direction @ covariance @ direction))
    comparison.close("plane: left over", row["left_over"], np.sqrt(np.mean(left**2)), absolute=NANOMETRE)


def axis(row, comparison):
    readings, asked = np.array(row["readings"]), np.array(row["asked"])
    design = np.column_stack([np.ones(len(readings)), readings[:, 0]])
    east, north = np.linalg.lstsq(design, readings[:, 1:], rcond=None)[0].T
    covariance = row["reading_error"] ** 2 * np.linalg.inv(design.T @ design)
    at = np.column_stack([np.ones(len(asked)), asked])
    error = np.sqrt(np.einsum("ij,jk,ik->i", at, covariance, at))
    # The mean depth of the readings is kept to the nanometre, and so is the offset there.
    comparison.close("axis: east", row["east"], at @ east, absolute=2 * NANOMETRE)
    comparison.close("axis: north", row["north"], at @ north, absolute=2 * NANOMETRE)
    comparison.close("axis: offset error", row["error"], error, absolute=2 * NANOMETRE)
    comparison.close("axis: lean", row["lean"], np.hypot(east[1], north[1]))
    comparison.close("axis: lean error", row["lean_error"], np.sqrt(covariance[1, 1]))


def shares(row, comparison):
    points = np.array(row["points"])
    rings, spokes = 1200, 1800
    # Rings of equal area, so that every cell of the grid weighs the same.
    radius = row["radius"] * np.sqrt((np.arange(rings) + 0.5) / rings)
    angle = 2 * np.pi * (np.arange(spokes) + 0.5) / spokes
    x, y = np.outer(radius, np.cos(angle)).ravel(), np.outer(radius, np.sin(angle)).ravel()
    nearest = np.argmin([(x - px) ** 2 + (y - py) ** 2 for px, py in points], axis=0)
    counted = np.bincount(nearest, minlength=len(points)) / len(nearest)
    # The crate promises 0.0001; the grid adds as much again.
    comparison.close("shares: grid", row["shares"], counted, absolute=3e-4)
    comparison.close("shares: sum", sum(row["shares"]), 1.0)


def settling(row, comparison):
    samples = np.array(sorted(row["samples"]))
    knots = [depth for depth in samples[:, 0] if 0 < depth < row["bottom"]]

    def figures(sand):
        content = lambda depth: np.interp(depth, samples[:, 0], sand)  # noqa: E731
        solids, _ = integrate.quad(content, 0, row["bottom"], points=knots, limit=200)
        return [solids / (1 - row["porosity"])]

    first = first_order(figures, samples[:, 1], [row["sand_error"]] * len(samples))
    comparison.close("settling: thickness", [row["thickness"]], figures(samples[:, 1]), absolute=2 * NANOMETRE)
    comparison.close("settling: first order", [row["error"]], first, absolute=2 * NANOMETRE, relative=1e-6)


def cover(row, comparison):
    least, where = np.inf, None
    for top, bottom, diameter in row["stretches"]:
        depth = np.linspace(max(top, row["top"]), min(bottom, row["bottom"]), 20_001)
        east, north = (
            (row["cage"][way] + row["cage"][way + 2] * depth) - (row["hole"][way] + row["hole"][way + 2] * depth)
            for way in (0, 1)
        )
        thickness = (diameter - row["outside"]) / 2 - np.hypot(east, north)
        if thickness.min() < least:
            least, where = thickness.min(), depth[thickness.argmin()]
    comparison.close("cover: thickness", row["cover"], least, absolute=4 * NANOMETRE)
    comparison.close("cover: depth", row["depth"], where, absolute=1e-6)


def excess(row, comparison):
    (inside, level_in), (outside, level_out), at = row["inside"], row["outside"], row["level"]

    def figures(inputs):
        density, surface = inputs[0], inputs[1]
        column = scipy.constants.g * density * (surface - at)
        return [column - scipy.constants.g * outside * max(level_out - at, 0.0)]

    mean = [inside, level_in]
    comparison.close("excess: pressure", [row["excess_pa"]], figures(mean))
    first = first_order(figures, mean, row["errors"])
    comparison.close("excess: first order", [row["error_pa"]], first, relative=1e-6)
    comparison.close("excess: draws", [row["error_pa"]], drawn(figures, mean, row["errors"]), relative=DRAWN)


def curve(row, comparison):
    """A volume curve: base, soundings, loads and what the loads share are the inputs."""
    pieces, loads, depths = row["pieces"], row["loads"], row["depths"]
    base, tape, each, shared = row["errors"]
    bottom = pieces[-1][2]

    def down_to(depth):
        """Volume of the hole from its top down; the first piece goes on above the top."""
        volume = 0.0
        for index, (diameter, top, end) in enumerate(pieces):
            top = -np.inf if index == 0 else top
            last = np.inf if index == len(pieces) - 1 else end
            low, high = np.clip(depth, max(top, -1e3), min(last, 1e3)), max(top, 0.0)
            volume = volume + np.pi / 4 * diameter**2 * (low - high)
        return volume

    def figures(inputs):
        levels = list(inputs[: len(depths) + 1])
        together = inputs[-1]
        placed = [mean * (1 + own + together) for mean, own in zip(loads, inputs[len(depths) + 1 : -1])]
        theory = [down_to(lower) - down_to(upper) for lower, upper in zip(levels, levels[1:])]
        ratio = [volume / needed for volume, needed in zip(placed, theory)]
        rise = [lower - upper for lower, upper in zip(levels, levels[1:])]
        diameter = [np.sqrt(4 * volume / np.pi / height) for volume, height in zip(placed, rise)]
        total = [sum(placed[: k + 1]) / sum(theory[: k + 1]) for k in range(len(loads))]
        others = [(sum(placed) - placed[k]) / (sum(theory) - theory[k]) for k in range(len(loads))]
        departure = [ratio[k] - others[k] for k in range(len(loads))]
        return np.array(ratio + diameter + total + departure)

    mean = np.concatenate([[bottom], depths, np.zeros(len(loads) + 1)])
    sigma = [base] + [tape] * len(depths) + [each] * len(loads) + [shared]
    names = ("ratio", "diameter", "cumulative", "departure")
    ours = np.concatenate([np.array(row[name]) for name in names])
    comparison.close("curve: values", ours[:, 0], figures(mean), absolute=NANOMETRE)
    comparison.close("curve: first order", ours[:, 1], first_order(figures, mean, sigma), absolute=NANOMETRE, relative=1e-6)
    comparison.close("curve: draws", ours[:, 1], drawn(figures, mean, sigma), relative=DRAWN)


CHECKS = {
    "interpolation": interpolation,
    "life": life,
    "plane": plane,
    "axis": axis,
    "shares": shares,
    "settling": settling,
    "cover": cover,
    "excess": excess,
    "curve": curve,
    **chances.CHECKS,
}


def main(path):
    with open(path, encoding="utf-8") as file:
        rows = [json.loads(text) for text in file if text.strip()]
    comparison = Comparison()
    for row in rows:
        check = CHECKS.get(row["check"])
        if check is None:
            comparison.troubles.append(f"{row['check']}: this script does not know such a line")
        else:
            check(row, comparison)
    for missing in set(CHECKS) - {row["check"] for row in rows}:
        comparison.troubles.append(f"{missing}: known here, but not in the table")
    for trouble in comparison.troubles:
        print(trouble)
    for what, count in sorted(comparison.passed.items()):
        print(f"{what}: {count} values agree")
    passed, failed = sum(comparison.passed.values()), len(comparison.troubles)
    print(f"{len(rows)} lines recomputed with numpy {np.__version__} and scipy {scipy.__version__}")
    print(f"{passed} passed, {failed} failed")
    return 2 if not rows else 1 if failed else 0


if __name__ == "__main__":
    if len(sys.argv) != 2:
        sys.exit("usage: python tests/reference/formulas_check.py TABLE.jsonl")
    sys.exit(main(sys.argv[1]))
