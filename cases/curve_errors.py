"""The errors of a volume curve by brute force: what cases/curve-errors.toml was copied from.

Draws four million pours of the made-up shaft of cases/four-truck-curve.toml: every sounding (the base
too) off by 0.1 ft, every load by 2 % of its own and all of them by the same 1 %. Prints the standard
deviation of each figure. Shares no formula with the Rust code. Needs numpy; the expected values were
copied by hand from its output and are never written by a script.
"""
import numpy as np

draws = 4_000_000
chance = np.random.default_rng(20260504)
yards_per_foot = np.pi / 4 * 16 / 27
depths = [mean + 0.1 * chance.standard_normal(draws) for mean in (60, 42.6, 24.9, 7.9, 0.0)]
shared = 0.01 * chance.standard_normal(draws)
loads = [mean * (1 + 0.02 * chance.standard_normal(draws) + shared) for mean in (9, 9, 9, 4)]
theory = [(depths[k] - depths[k + 1]) * yards_per_foot for k in range(4)]

for k in range(4):
    ratio = loads[k] / theory[k]
    others = (sum(loads) - loads[k]) / (sum(theory) - theory[k])
    cumulative = sum(loads[: k + 1]) / sum(theory[: k + 1])
    diameter = 24 * np.sqrt(loads[k] * 27 / np.pi / (depths[k] - depths[k + 1]))
    figures = {"ratio": ratio, "diameter": diameter, "cumulative": cumulative, "others": others,
               "departure": ratio - others}
    print(k + 1, {name: round(float(values.std()), 5) for name, values in figures.items()})
