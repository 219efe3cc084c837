"""What may happen, recomputed: quantiles, orders with a service level, and days played.

The days are played by a simulation of its own: all days at once as columns of numpy, with other draws and another
order of them. Both give shares and quantiles of so many days, each with a standard error; they agree when no two
differ by more than four and a half errors of the difference. Two simulations of one model do so for all figures of
this table but once in a few thousand seeds, and the seeds are fixed.
"""

import numpy as np
from scipy import integrate, optimize, stats

DAYS = 40_000
ERRORS = 4.5
ROUND = ("bay", "haul", "test", "position", "discharge", "back", "section", "lift", "finish")


def quantile(row, comparison):
    comparison.close("quantile: normal", row["at"], stats.norm.ppf(row["part"]), absolute=1e-15, relative=1e-13)


def order(row, comparison):
    weights, means, deviations = np.array(row["parts"]).T
    beside = np.array(row["beside"])

    def spread(comes):
        variance = deviations**2 + np.sum(beside[:, 1] ** 2) + (comes * row["yield_error"]) ** 2
        return np.sqrt(variance)

    def short(volume):
        comes = volume + row["on_the_way"]
        return np.sum(weights * stats.norm.sf(comes, means + beside[:, 0].sum(), spread(comes)))

    comes = row["volume"] + row["on_the_way"]
    parts = list(zip(weights, means + beside[:, 0].sum(), spread(comes)))
    lacking, left = 0.0, 0.0
    for weight, mean, deviation in parts:
        density = stats.norm(mean, deviation).pdf
        ends = mean - 12 * deviation, mean + 12 * deviation
        over = lambda need: max(need - comes, 0.0) * density(need)  # noqa: E731
        under = lambda need: max(comes - need, 0.0) * density(need)  # noqa: E731
        knot = [np.clip(comes, *ends)]
        lacking += weight * integrate.quad(over, *ends, points=knot, limit=200, epsabs=1e-13)[0]
        left += weight * integrate.quad(under, *ends, points=knot, limit=200, epsabs=1e-13)[0]
    comparison.close("order: short", row["short"], short(row["volume"]), absolute=1e-14)
    comparison.close("order: missing", row["missing"], lacking, absolute=1e-10)
    comparison.close("order: left over", row["left_over"], left, absolute=1e-10)
    steps = np.arange(0, 400) * row["step"]
    enough = next(volume for volume in steps if short(volume) <= 1 - row["level"])
    comparison.close("order: volume", row["volume"], enough, absolute=1e-9)


def earlier(row, comparison):
    """The same model with the whole covariance, integrated over a hundred times as many spreads."""
    ratios, ahead = row["ratios"], dict(row["ahead"])
    believed, doubt = row["believed"]
    values = np.array([ratio[2] for ratio in ratios])
    strata = sorted(ahead)
    theory = np.array([ahead[stratum] for stratum in strata])
    # Between a fiftieth of the usual spread and eight times of it, as ours.
    spreads = row["apart"] * np.geomspace(1 / 50, 8, 4001)
    logs, means, deviations = [], [], []
    square = len(ratios), len(ratios)
    shaft = np.array([[one[0] == other[0] for other in ratios] for one in ratios], dtype=float).reshape(square)
    same = np.array([[one[1] == other[1] for other in ratios] for one in ratios], dtype=float).reshape(square)
    mine = np.array([[stratum == one[1] for one in ratios] for stratum in strata], dtype=float).reshape(len(strata), len(ratios))
    common = row["in_common"]
    for spread in spreads:
        of_shaft = shaft * (common + (1 - common) * same)
        seen = doubt**2 * same + spread**2 * of_shaft + np.diag([ratio[3] ** 2 for ratio in ratios])
        new = np.diag([doubt**2 + spread**2] * len(strata)) + common * spread**2 * (1 - np.eye(len(strata)))
        log, gain = 0.0, np.zeros((len(strata), len(ratios)))
        if len(ratios):
            log = stats.multivariate_normal(np.full(len(ratios), believed), seen).logpdf(values)
            gain = np.linalg.solve(seen, (doubt**2 * mine).T).T
        mean = np.full(len(strata), believed) + (gain @ (values - believed) if len(ratios) else 0.0)
        covariance = new - (gain @ (doubt**2 * mine).T if len(ratios) else 0.0)
        # Half-Cauchy density, and the width of a step that grows with the spread.
        logs.append(log + stats.halfcauchy(scale=row["apart"]).logpdf(spread) + np.log(spread))
        means.append(theory @ mean)
        deviations.append(np.sqrt(theory @ covariance @ theory))
    weights = np.exp(np.array(logs) - max(logs))
    weights /= weights.sum()
    means, deviations = np.array(means), np.array(deviations)
    # 48 spreads beside 4001: what is left is the coarseness of ours.
    comparison.close("earlier: mean", row["mean"], weights @ means, relative=1e-3)
    for part, ours in zip(row["parts"], row["quantiles"]):
        below = lambda volume: weights @ stats.norm.cdf(volume, means, deviations) - part  # noqa: E731
        theirs = optimize.brentq(below, -100.0, 200.0)
        comparison.close("earlier: quantile", ours, theirs, relative=4e-3)


class Duration:
    """Lognormal, its middle and its upper tenth as planned, moved towards what was seen."""

    def __init__(self, usual, slow, worth, seen, chance):
        spread = np.log(slow / usual) / stats.norm.ppf(0.9)
        logs = np.log(np.array(seen) / usual)
        count, mean = len(logs), np.mean(logs) if len(logs) else 0.0
        squares = worth * spread**2 + np.sum((logs - mean) ** 2) + worth * count / (worth + count) * mean**2
        self.spread = np.sqrt(squares / (worth + count))
        centre = count * mean / (worth + count)
        self.day = np.log(usual) + centre + self.spread / np.sqrt(worth + count) * chance.standard_normal(DAYS)
        self.chance = chance

    def draw(self):
        return np.exp(self.day + self.spread * self.chance.standard_normal(DAYS))

    def beyond(self, elapsed):
        """Drawn again and again until it is longer than what has passed; far out, from the tail."""
        drawn = self.draw()
        for _ in range(200):
            short = drawn <= elapsed
            if not short.any():
                return drawn
            drawn = np.where(short, self.draw(), drawn)
        so_far = (np.log(elapsed) - self.day) / self.spread
        tail = stats.norm.isf(stats.norm.sf(so_far) * self.chance.uniform(size=DAYS))
        return np.where(drawn <= elapsed, np.exp(self.day + self.spread * tail), drawn)


def day(row, comparison):
    chance = np.random.default_rng(20260504)
    now, seen = row["now"], row["seen"]
    hauls = [load[1] - load[0] for load in seen if load[1] >= 0]
    discharges = [load[3] - load[2] for load in seen if load[3] >= 0]
    taught = {"haul": hauls, "discharge": discharges}
    long = {
        name: Duration(*pair, row["plan_worth"], taught.get(name, []), chance)
        for name, pair in zip(ROUND, row["durations"])
    }
    finish, oldest, gap = play(row, long, now, seen)
    deadline = row["life"][0] + row["life"][1] * chance.standard_normal(DAYS)
    in_time, over = oldest <= deadline, gap > row["gap_limit"]
    for name, theirs in (("in_time", in_time), ("gap_over", over), ("safe", in_time & ~over)):
        share = theirs.mean()
        error = np.hypot(row[name][1], np.sqrt(share * (1 - share) / DAYS))
        comparison.close(f"day: {name}", row[name][0], share, absolute=ERRORS * error, relative=0.0)
    for name, theirs in (("finish", finish - now), ("oldest", oldest), ("longest_gap", gap)):
        for part, (ours, error) in zip((0.1, 0.5, 0.9), row[name]):
            # Their error is smaller by the root of the numbers of days, 8,000 and 40,000: √(1 + 1/5) of ours in all.
            comparison.close(f"day: {name}", ours, np.quantile(theirs, part), absolute=ERRORS * 1.1 * error + 1e-9, relative=0.0)


def work_after(row, long, load):
    spent = np.zeros(DAYS)
    for after, sections, lifts in row["work"]:
        if after == load:
            for name, times in (("section", sections), ("lift", lifts)):
                for _ in range(int(times)):
                    spent += long[name].draw()
    return spent


def play(row, long, now, seen):
    """Every truck has one event next: it comes to the plant (0), to the site (1), or is gone (2)."""
    trucks, left = int(row["trucks"]), int(row["loads_left"])
    done = [load for load in seen if load[3] >= 0]
    going = sorted((load for load in seen if load[3] < 0), key=lambda load: load[2] < 0)
    total, every = len(seen) + left, int(row["test_every"])
    each = {name: [long[name].draw() for _ in range(total)] for name in ROUND[:6]}
    work = [work_after(row, long, load) for load in range(1, total + 1)]
    days = np.arange(DAYS)
    times, kinds, carried = [], [], []
    ended = np.full(DAYS, max((load[3] for load in done), default=np.nan))
    hopper = ended + work[len(done) - 1] if done else np.full(DAYS, now)
    discharged = np.full(DAYS, len(done))
    for index, load in enumerate(going, start=len(done)):
        if load[2] >= 0:
            ended = load[2] + long["discharge"].beyond(now - load[2])
            hopper = ended + work[index]
            discharged = discharged + 1
            times.append(ended + each["back"][index])
            kinds.append(0)
        else:
            times.append(np.full(DAYS, load[1]) if load[1] >= 0 else load[0] + long["haul"].beyond(now - load[0]))
            kinds.append(1)
        carried.append(index)
    home = sorted((load[3] for load in done), reverse=True)[: max(trucks - len(going), 0)]
    for end in home:
        times.append(np.maximum(end + long["back"].draw(), now))
    times += [np.full(DAYS, now)] * max(trucks - len(times), 0)
    kinds += [0] * (len(times) - len(kinds))
    carried += [-1] * (len(times) - len(carried))
    surplus = np.full(DAYS, max(len(going) - trucks, 0))
    times = np.array(times, dtype=float)
    kinds, carried = (np.repeat(np.array(one)[:, None], DAYS, axis=1) for one in (kinds, carried))
    stacked = {name: np.array(draws) for name, draws in each.items()}
    work = np.array(work)
    batched = np.full(DAYS, len(seen))
    last = np.full(DAYS, max((load[0] for load in seen), default=-np.inf))
    bay = last[0] + long["bay"].beyond(now - last[0]) if seen else np.full(DAYS, -np.inf)
    oldest = np.full(DAYS, min((load[0] for load in seen), default=np.nan))
    longest = np.zeros(DAYS)
    while (discharged < total).any():
        truck = np.argmin(times, axis=0)
        at, kind, load = times[truck, days], kinds[truck, days], carried[truck, days]
        running = discharged < total
        home = running & (kind == 0)
        stays = home & ((batched >= total) | (surplus > 0))
        surplus = np.where(stays, np.maximum(surplus - 1, 0), surplus)
        times[truck[stays], days[stays]] = np.inf
        goes = home & ~stays
        start = np.maximum.reduce([at, bay, last + row["headway"]])
        which = np.minimum(batched, total - 1)
        oldest = np.where(goes & np.isnan(oldest), start, oldest)
        bay = np.where(goes, start + stacked["bay"][which, days], bay)
        last = np.where(goes, start, last)
        arrives = start + stacked["haul"][which, days]
        times[truck[goes], days[goes]] = arrives[goes]
        kinds[truck[goes], days[goes]] = 1
        carried[truck[goes], days[goes]] = which[goes]
        batched = batched + goes
        site = running & (kind == 1)
        tested = site & (every > 0) & (load % max(every, 1) == 0)
        ready = at + np.where(tested, stacked["test"][load, days], 0.0)
        begins = np.maximum(ready, hopper) + stacked["position"][load, days]
        longest = np.where(site & ~np.isnan(ended), np.maximum(longest, begins - ended), longest)
        ends = begins + stacked["discharge"][load, days]
        ended = np.where(site, ends, ended)
        number = np.minimum(discharged, total - 1)
        hopper = np.where(site, ends + work[number, days], hopper)
        times[truck[site], days[site]] = (ends + stacked["back"][load, days])[site]
        kinds[truck[site], days[site]] = 0
        discharged = discharged + site
    finish = ended + work[total - 1] + long["finish"].draw()
    return finish, finish - oldest, longest


def student(row, comparison):
    theirs = stats.t.ppf(row["part"], row["freedom"])
    comparison.close("student: quantile", row["at"], theirs, absolute=1e-12, relative=1e-10)


def pooled(row, comparison):
    """Mean of a few shafts and the spread between them.

    The spread is the one at which the squares left by a weighted straight mean are what they are expected to be,
    the expectation taken as the trace of a product of matrices and solved for, not from the closed form.
    """
    values, errors = np.array(row["parts"]).T
    weights = np.diag(1 / errors**2)
    ones = np.ones((len(values), 1))
    left = weights - weights @ ones @ np.linalg.solve(ones.T @ weights @ ones, ones.T @ weights)
    squares = values @ left @ values

    def beyond(between):
        return np.trace(left @ (np.diag(errors**2) + between * np.eye(len(values)))) - squares

    between = 0.0 if beyond(0.0) >= 0.0 else optimize.brentq(beyond, 0.0, 10.0, xtol=1e-15)
    covariance = np.diag(errors**2 + between)
    solved = np.linalg.solve(covariance, np.column_stack([values, np.ones(len(values))]))
    mean = solved[:, 0].sum() / solved[:, 1].sum()
    apart = (values - mean) @ np.linalg.solve(covariance, values - mean) / (len(values) - 1)
    error = np.sqrt(max(1.0, apart) / solved[:, 1].sum())
    reach = stats.t.ppf((1 + row["level"]) / 2, len(values) - 1) * error
    comparison.close("pooled: mean", row["mean"], mean)
    comparison.close("pooled: error", row["error"], error, relative=1e-7)
    comparison.close("pooled: between", row["between"], np.sqrt(between), absolute=1e-9, relative=1e-7)
    comparison.close("pooled: ends", row["ends"], [mean - reach, mean + reach], relative=1e-8)


CHECKS = {
    "quantile": quantile,
    "order": order,
    "earlier": earlier,
    "day": day,
    "student": student,
    "pooled": pooled,
}
