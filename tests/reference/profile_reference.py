"""The as-built profile once more, written from the description of the model with numpy and scipy.

    python tests/reference/profile_reference.py TABLE.jsonl

The table comes from `cargo run -p calc --example profile_table`: one pour a line, with everything that went in, the
accounts of the shaft that were weighed, and the figures that came out. Nothing here follows the crate's way
of reckoning. All that is uncertain (the ratio of each cell, each tape error, each truck, the plant, each part-emptied
truck, the amount of each rare thing) stands in one long vector with a known mean and covariance; readings and
wanted figures are sums of its elements; an account is weighed by the density of the readings under
`scipy.stats.multivariate_normal`, and a figure is the textbook normal distribution given the readings. Quantiles are
found with `scipy.optimize.brentq`.

The crate weighs single rare things and then tries only the likeliest with one more. Which accounts it kept is taken from
the table; that it overlooked none that matters is checked by weighing every single thing and every pair of the
first pour. Ends with the counts; the exit code is 1 when a value disagrees, 2 when nothing can be compared.
"""

import itertools
import json
import math
import sys

import numpy as np
from scipy import linalg, optimize, stats

AGREE = 1e-6  # Of a ratio, or of a cubic metre; weights are held to it too.
LEAST_VARIANCE = 1e-8  # What the model gives every volume, in m⁶.
FALSE_ALARMS, POWER = 0.05, 0.90
CALM = 0.72  # The gentle shape of a hole in which nothing rare happened, beside the usual one.


class Shaft:
    """One pour as a linear model: `latent ~ N(mean, covariance)`, `readings = D @ latent`."""

    def __init__(self, case):
        self.given, self.prior = case["given"], case["prior"]
        self.given["part_loads"] = [int(station) for station in self.given["part_loads"]]
        self.edges = np.array(case["edges"])
        self.middle, self.height = (self.edges[1:] + self.edges[:-1]) / 2, np.diff(self.edges)
        self.levels, self.count = np.array(self.given["levels"]), len(self.given["levels"])
        self.jumps = self.all_jumps()
        self.stratum = np.searchsorted(self.jumps, self.edges[1:], side="left")
        self.expected, self.offset = self.of_ground()
        self.geometry()
        self.name_latents()
        self.settle()

    def hole(self, station):
        """The pieces of the hole as it stands at a station."""
        return [pieces for start, pieces in self.given["holes"] if start <= station][-1]

    def all_jumps(self):
        shoes = [low for _, hole in self.given["holes"] for _, low, _, cased in hole if cased]
        tops = [stratum[0] for stratum in self.given["strata"]]
        return np.unique(np.array(self.given["jumps"] + shoes + tops, dtype=float))

    def of_ground(self):
        """Expected ratio and variance of the stratum offset, cell by cell."""
        prior, strata = self.prior, sorted(self.given["strata"])
        expected = np.full(len(self.middle), prior["ratio"])
        offset = np.full(len(self.middle), prior["stratum_spread"] ** 2)
        for cell, top in enumerate(self.edges[1:]):
            holding = [one for one in strata if top <= one[0] + 1e-12]
            if holding:
                _, expected[cell], spread = holding[0]
                offset[cell] = max(spread**2 - prior["shaft_spread"] ** 2, 0.02**2)
        return expected, offset

    def areas(self, station):
        """Area of every cell, and whether a casing stands there."""
        area, cased = np.zeros(len(self.middle)), np.zeros(len(self.middle), dtype=bool)
        for top, low, diameter, casing in self.hole(station):
            inside = (low < self.middle) & (self.middle < top)
            area[inside], cased[inside] = math.pi * diameter**2 / 4, bool(casing)
        return area, cased

    def area_at(self, station, level):
        """Area just below a level, and whether a casing stands there."""
        for top, low, diameter, casing in self.hole(station):
            if low < level <= top or (level == low == self.edges[0]):
                return math.pi * diameter**2 / 4, bool(casing)
        raise ValueError("a level outside the hole")

    def geometry(self):
        free, known = [np.zeros(len(self.middle))], [0.0]
        for station, level in enumerate(self.levels):
            area, cased = self.areas(station)
            volume = area * np.clip(level - self.edges[:-1], 0, self.height)
            free.append(np.where(cased, 0, volume))
            known.append(volume[cased].sum())
        self.rows, self.known = np.diff(free, axis=0), np.diff(known)
        area, self.cased = self.areas(self.count - 1)
        self.nominal = area * self.height
        self.placed = np.array([sum(loads) for loads in self.given["loads"]])
        ends = [self.area_at(0, self.edges[0])]
        ends += [self.area_at(station, level) for station, level in enumerate(self.levels)]
        self.end_area = np.array([area for area, _ in ends])
        self.end_cased = np.array([cased for _, cased in ends])
        # Where two cells meet at a level, the ratio of the upper one is meant.
        cells = np.searchsorted(self.edges, np.concatenate([[self.edges[0]], self.levels]), side="right") - 1
        self.end_cell = np.clip(cells, 0, len(self.middle) - 1)

    def trucks(self):
        """Which truck each load came with: a part-emptied one is the same before and after its sounding."""
        trucks, number = [], -1
        for station, loads in enumerate(self.given["loads"]):
            for place, load in enumerate(loads):
                shares = place == 0 and station > 0 and station - 1 in self.given["part_loads"]
                number += 0 if shares else 1
                trucks.append((station, number, load))
        return trucks

    def name_latents(self):
        """Columns behind the cells: tape of each level, reference, plant, held, judged, the least doubt, trucks."""
        cells, count, trucks = len(self.middle), self.count, self.trucks()
        names = ["cells", "tape", "reference", "plant", "held", "judged", "least", "trucks"]
        sizes = [cells, count + 1, 1, 1, count, count, count, 1 + max((number for _, number, _ in trucks), default=-1)]
        ends = np.cumsum([0] + sizes)
        self.at = {name: slice(low, high) for name, low, high in zip(names, ends, ends[1:])}
        self.size = ends[-1]
        self.true_placed = np.zeros((count, self.size))  # True less ticketed volume of each row.
        for station, number, load in trucks:
            self.true_placed[station, self.at["plant"]] += load
            self.true_placed[station, self.at["trucks"].start + number] += load
        for station in range(count):
            self.true_placed[station, self.at["judged"].start + station] += 1
            self.true_placed[station, self.at["held"].start + station] += 1
            if station:
                self.true_placed[station, self.at["held"].start + station - 1] -= 1

    def spreads(self):
        """Standard deviation of every latent that is not a cell."""
        given, prior = self.given, self.prior
        spread = np.zeros(self.size)
        spread[self.at["tape"]] = [given["base"][1]] + given["tape"]
        spread[self.at["reference"]] = prior["shared_tape"]
        spread[self.at["trucks"]], spread[self.at["plant"]] = given["load_error"]
        spread[self.at["least"]] = math.sqrt(LEAST_VARIANCE)
        for station in range(self.count):
            times = given["judged"].count(station)
            spread[self.at["judged"].start + station] = prior["judged_error"] * math.sqrt(times)
        for station in given["part_loads"]:
            truck = given["loads"][station][-1:] + [
                load for loads in given["loads"][station + 1 : station + 2] for load in loads[:1]
            ]
            spread[self.at["held"].start + station] = prior["part_load_error"] * sum(truck)
        return spread

    def covariance(self, factor):
        prior = self.prior
        same = self.stratum[:, None] == self.stratum[None, :]
        far = np.abs(self.middle[:, None] - self.middle[None, :]) / prior["gentle_length"]
        gentle = np.where(same, prior["gentle_spread"] ** 2 * np.exp(-far), 0)
        strata = np.where(same, self.offset[:, None], 0)
        full = np.diag(self.spreads() ** 2)
        full[self.at["cells"], self.at["cells"]] = factor**2 * gentle + strata + prior["shaft_spread"] ** 2
        return full

    def reading_rows(self, ratios):
        """`D`: readings as sums of latents, with the area that a tape error stands for."""
        rows = -self.true_placed.copy()
        rows[:, self.at["cells"]] = self.rows
        area = np.where(self.end_cased, self.end_area, self.end_area * ratios)
        for row in range(self.count):
            rows[row, self.at["tape"].start + row + 1] += area[row + 1]
            rows[row, self.at["tape"].start + row] -= area[row]
            rows[row, self.at["reference"]] += area[row + 1] - area[row]
            rows[row, self.at["least"].start + row] += 1
        return rows

    def settle(self):
        """Area at the levels, on which the tape's error depends, found by going round twice."""
        plain, full = self.expected.copy(), self.covariance(1.0)
        self.residual = self.placed - self.known - self.rows @ self.expected
        for _ in range(2):
            self.d = self.reading_rows(np.clip(plain[self.end_cell], 0.5, 2.0))
            gain = linalg.solve(self.d @ full @ self.d.T, self.d @ full).T
            plain = self.expected + (gain @ self.residual)[self.at["cells"]]
        self.plain = plain
        self.end_ratio = np.clip(plain[self.end_cell], 0.5, 2.0)
        self.d = self.reading_rows(self.end_ratio)

        self.covariance_at_one = full

    def cover(self, low, high):
        """Which part of every cell lies between two levels."""
        return np.clip(np.minimum(self.edges[1:], high) - np.maximum(self.edges[:-1], low), 0, None) / self.height

    def thing(self, told):
        """How a rare thing changes the latents, its mean, variance and natural logarithm of its odds."""
        prior, change = self.prior, np.zeros(self.size)
        if told[0] == "shape":
            _, which, low, high = told
            change[self.at["cells"]] = self.cover(low, high)
            mean, spread, per_meter = prior["shapes"][which]
            length = self.edges[-1] - self.edges[0]
            meters = length / math.ceil(2 * length / (high - low) - 1e-9)
            return change, mean, spread**2, math.log(per_meter * meters / len(prior["heights"]))
        row = told[1]
        if told[0] == "misread":
            change[self.at["tape"].start + row + 1] = 1
            odds, variance = prior["misread"] / (1 - prior["misread"]), prior["misread_by"] ** 2
        else:
            largest = max(self.given["loads"][row])
            change[self.at["least"].start + row] = 1
            odds = prior["wrong_ticket"] / (1 - prior["wrong_ticket"]) * sum(self.given["loads"][row]) / largest
            variance = (prior["wrong_ticket_by"] * largest) ** 2
        return change, 0.0, variance, math.log(odds)

    def every_thing(self):
        length = self.edges[-1] - self.edges[0]
        for height in self.prior["heights"]:
            count = math.ceil(2 * length / height - 1e-9)
            for place, which in itertools.product(range(count), range(len(self.prior["shapes"]))):
                middle = self.edges[0] + (place + 0.5) * length / count
                yield ["shape", which, middle - height / 2, middle + height / 2]
        for row, loads in enumerate(self.given["loads"]):
            yield ["misread", row]
            if loads:
                yield ["ticket", row]

    def seen(self, told):
        """Whether the readings say something about a thing; the others keep their odds."""
        change, mean, variance, _ = self.thing(told)
        shows = self.d @ change
        read = self.d @ self.covariance_at_one @ self.d.T
        return told[0] != "shape" or (mean**2 + variance) * (shows @ np.linalg.solve(read, shows)) >= 0.1

    def unseen(self):
        return [self.thing(told) + (told,) for told in self.every_thing() if not self.seen(told)]


class Weighed:
    """The accounts of a shaft, each with the latents as they are under it before the readings."""

    def __init__(self, shaft, accounts):
        self.shaft = shaft
        self.full = {factor: shaft.covariance(factor) for factor, _ in shaft.prior["scales"]}
        self.read = {factor: shaft.d @ full @ shaft.d.T for factor, full in self.full.items()}
        scale = dict(map(tuple, shaft.prior["scales"]))
        self.accounts, logs = [], []
        for factor, things in accounts:
            parts = [shaft.thing(told) for told in things]
            changes = np.array([part[0] for part in parts]).reshape(len(parts), shaft.size)
            means = np.array([part[1] for part in parts])
            variances = np.array([part[2] for part in parts])
            shows = changes @ shaft.d.T
            centre = means @ shows if parts else np.zeros(shaft.count)
            covariance = self.read[factor] + shows.T @ (variances[:, None] * shows)
            density = stats.multivariate_normal(centre, covariance).logpdf(shaft.residual)
            logs.append(density + math.log(scale[factor]) + sum(part[3] for part in parts))
            self.accounts.append((factor, changes, means, variances, shows, centre, covariance))
        self.logs = np.array(logs)
        weights = np.exp(self.logs - self.logs.max())
        self.weights = weights / weights.sum()

    def mixture(self, figure, ticketed=0.0, own=0.0):
        """Mean and spread under each account of `figure @ latent`, `own` a variance that nothing shares; `ticketed` is
        how the figure goes with less having come than the tickets say."""
        shaft, means, spreads = self.shaft, [], []
        with_rows = {factor: full @ figure for factor, full in self.full.items()}
        before = {factor: figure @ one for factor, one in with_rows.items()}
        for factor, changes, mean, variance, shows, centre, covariance in self.accounts:
            share = changes @ figure
            if ticketed and len(changes):
                share = share + ticketed * changes[:, shaft.at["least"]].sum(axis=1)
            across = shaft.d @ with_rows[factor] + shows.T @ (variance * share)
            solved = np.linalg.solve(covariance, across)
            means.append(mean @ share + solved @ (shaft.residual - centre))
            spreads.append(before[factor] + variance @ share**2 + own - solved @ across)
        return np.array(means), np.sqrt(np.maximum(spreads, 0))

    def amounts(self):
        """Mean and spread of the amounts under each account, as the textbook's linear regression gives them."""
        for factor, changes, mean, variance, shows, centre, covariance in self.accounts:
            gain = np.linalg.solve(covariance, shows.T * variance).T
            spread = np.diag(np.diag(variance) - gain @ (shows.T * variance))
            yield mean + gain @ (self.shaft.residual - centre), np.sqrt(np.maximum(spread, 0))


def with_unseen(shaft, figure, weights, means, spreads):
    """A figure with what the things do that the readings say nothing about: none, one of a shape, or several."""
    shares, groups = [], {}
    for change, mean, variance, log_odds, told in shaft.unseen():
        share = change @ figure
        if share != 0:
            moments = math.exp(log_odds) * np.array([1, share * mean, share**2 * (mean**2 + variance)])
            groups[told[1]] = groups.get(told[1], 0) + moments
    if not groups:
        return weights, means, spreads
    count, first, second = sum(groups.values())
    none = math.exp(-count)
    extra = [(none, 0.0, 0.0)]
    for expected, one, square in groups.values():
        extra.append((none * expected, one / expected, math.sqrt(max(square / expected - (one / expected) ** 2, 0))))
    # The sum of a Poisson number of things has mean `first` and variance `second`; take none and one away.
    more = 1 - none * (1 + count)
    mean, square = first * (1 - none) / more, (second + first**2 - none * second) / more
    extra.append((more, mean, math.sqrt(square - mean**2)))
    w, m, s = np.array(extra).T
    return (
        np.outer(weights, w).ravel(),
        np.add.outer(means, m).ravel(),
        np.sqrt(np.add.outer(spreads**2, s**2)).ravel(),
    )


def figures(shaft, figure, weights, means, spreads):
    weights, means, spreads = with_unseen(shaft, figure, weights, means, spreads)
    mean = weights @ means
    spread = math.sqrt(weights @ (spreads**2 + (means - mean) ** 2))
    if spread < 1e-12:
        return [mean, spread] + [mean] * 4
    low, high = mean - 60 * spread, mean + 60 * spread
    safe = np.maximum(spreads, 1e-300)
    quantiles = [
        optimize.brentq(lambda x, p=p: weights @ stats.norm.cdf((x - means) / safe) - p, low, high, xtol=1e-13)
        for p in (0.05, 0.25, 0.75, 0.95)
    ]
    return [mean, spread] + quantiles


def stretch(shaft, weighed, low, high):
    volume = shaft.cover(low, high) * shaft.nominal
    total, figure = volume.sum(), np.zeros(shaft.size)
    figure[shaft.at["cells"]] = np.where(shaft.cased, 0, volume / total)
    means, spreads = weighed.mixture(figure)
    fixed = volume[shaft.cased].sum() / total + figure[shaft.at["cells"]] @ shaft.expected
    return figures(shaft, figure, weighed.weights, means + fixed, spreads)


def remaining(shaft, weighed):
    """What the tickets of later loads must say until the hole is full."""
    figure = np.zeros(shaft.size)
    figure[shaft.at["cells"]] = np.where(shaft.cased, 0, shaft.nominal)
    fixed = shaft.nominal[shaft.cased].sum() - shaft.placed.sum() + figure[shaft.at["cells"]] @ shaft.expected
    rest = max(figures(shaft, figure, weighed.weights, *weighed.mixture(figure))[0] + fixed, 0.0)
    figure -= shaft.true_placed.sum(axis=0)
    figure[shaft.at["plant"]] -= rest
    largest = max((load for loads in shaft.given["loads"] for load in loads), default=0.0)
    later = shaft.given["load_error"][0] ** 2 * rest * min(largest, rest)
    means, spreads = weighed.mixture(figure, ticketed=1.0, own=later)
    return figures(shaft, figure, weighed.weights, means + fixed, spreads)


def lost(shaft, weighed, accounts):
    """Some neck takes 15 % of the shaft's ratio from a stretch of one metre."""
    change = -0.15 * (shaft.nominal @ shaft.plain) / shaft.nominal.sum()
    total = 0.0
    for weight, (_, things), (mean, spread) in zip(weighed.weights, accounts, weighed.amounts()):
        spared = 1.0
        for told, amount, error in zip(things, mean, spread):
            if told[0] == "shape":
                fills = min(1.0, min(told[3], shaft.edges[-1]) - max(told[2], shaft.edges[0]))
                spared *= stats.norm.sf((change - amount * fills) / (error * fills))
        total += weight * (1 - spared)
    expected = 0.0
    for _, mean, variance, log_odds, told in shaft.unseen():
        fills = min(1.0, min(told[3], shaft.edges[-1]) - max(told[2], shaft.edges[0]))
        expected += math.exp(log_odds) * stats.norm.cdf((change - mean * fills) / (math.sqrt(variance) * fills))
    return 1 - (1 - total) * math.exp(-expected)


def spot(shaft, low, high):
    """The smallest loss that shows, and how far the readings point at one."""
    middle = np.clip(np.searchsorted(shaft.edges, (low + high) / 2, side="right") - 1, 0, len(shaft.middle) - 1)
    loss = shaft.rows @ (shaft.cover(low, high) * shaft.plain[middle])
    covariance = shaft.d @ shaft.covariance(CALM) @ shaft.d.T
    strength = math.sqrt(loss @ np.linalg.solve(covariance, loss))
    limit = stats.norm.ppf((1 - FALSE_ALARMS) ** (1 / shaft.count))
    points = loss @ np.linalg.solve(covariance, shaft.residual)
    return (limit + stats.norm.ppf(POWER)) / strength, -points / strength


class Comparison:
    def __init__(self):
        self.passed, self.troubles = 0, []

    def close(self, what, ours, theirs):
        ours, theirs = np.atleast_1d(np.asarray(ours, float)), np.atleast_1d(np.asarray(theirs, float))
        for one, other in zip(ours, theirs, strict=True):
            # Written so that NaN does not pass.
            if abs(one - other) <= AGREE * max(1.0, abs(other)):
                self.passed += 1
            else:
                self.troubles.append(f"{what}: ours {one!r}, recomputed {other!r}")


def compare(case, comparison):
    shaft, name, found = Shaft(case), case["name"], case["found"]
    accounts = [(factor, things) for _, factor, things in case["accounts"]]
    weighed = Weighed(shaft, accounts)
    ours = np.array([weight for weight, _, _ in case["accounts"]])
    comparison.close(f"{name}: weights", np.max(np.abs(ours - weighed.weights)), 0.0)
    for low, high, *told in found["stretches"]:
        comparison.close(f"{name}: {low} to {high} m", told, stretch(shaft, weighed, low, high))
    comparison.close(f"{name}: remaining", found["remaining"], remaining(shaft, weighed))
    comparison.close(f"{name}: lost", found["lost"], lost(shaft, weighed, accounts))
    for low, high, loss, alarm in found["spots"]:
        comparison.close(f"{name}: spot at {low} m", [loss, alarm], spot(shaft, low, high))
    return shaft, weighed, accounts


def rounded(things):
    """Names an account whatever the order of its things; the table rounds levels to the nanometre."""
    told = [[float(round(one, 6)) if isinstance(one, float) else one for one in thing] for thing in things]
    return json.dumps(sorted(map(str, told)))


def nothing_overlooked(shaft, weighed, accounts, found, comparison):
    """Every single thing and every pair, weighed: the ends of the bands move by less than a tenth of the spread."""
    known = {(factor, rounded(things)) for factor, things in accounts}
    single = [told for told in shaft.every_thing() if shaft.seen(told)]
    every = [[]] + [[one] for one in single] + [list(pair) for pair in itertools.combinations(single, 2)]
    possible = [(factor, things) for factor, _ in shaft.prior["scales"] for things in every]
    left_out = [one for one in possible if (one[0], rounded(one[1])) not in known]
    short = sum(len(things) <= 2 for _, things in accounts)
    if short + len(left_out) != len(possible):
        comparison.troubles.append("the accounts of the table are not among the possible ones")
    whole = Weighed(shaft, accounts + left_out)
    missed = whole.weights[len(accounts) :].sum()
    for low, high, *told in found["stretches"]:
        complete = stretch(shaft, whole, low, high)
        moved = np.max(np.abs(np.array(complete) - told)[[0, 2, 5]]) / complete[1]
        print(f"    {low:.1f} to {high:.1f} m: with the {len(left_out)} accounts left out (weight {missed:.2f}) "
              f"mean and ends of the band of 90 % move by {moved:.3f} of the spread")
        if moved < 0.1:
            comparison.passed += 1
        else:
            comparison.troubles.append(f"accounts left out move {low} to {high} m by {moved} of the spread")


def main(path):
    cases = [json.loads(line) for line in open(path, encoding="utf-8")]
    if not cases:
        print("nothing to compare")
        return 2
    comparison = Comparison()
    for number, case in enumerate(cases):
        shaft, weighed, accounts = compare(case, comparison)
        if number == 0:
            nothing_overlooked(shaft, weighed, accounts, case["found"], comparison)
    for trouble in comparison.troubles[:40]:
        print(trouble)
    print(f"{comparison.passed} passed, {len(comparison.troubles)} failed")
    return 1 if comparison.troubles else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
