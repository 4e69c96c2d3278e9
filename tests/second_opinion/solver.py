"""Solves exported models with HiGHS (package `highspy` from PyPI) and compares with the index.

Usage: solver.py FOLDER...    Prints one line of counts, or what differs and exits with 1.
"""

import json
import pathlib
import sys

import highspy

# Lengths come out in tenths of a millimetre; the cost of a division holds 0.0001 for each strip and
# part on a rail besides, a few hundred at most.
SLACK_MM = 0.05


class Solver:
    def __init__(self):
        self.highs = highspy.Highs()
        self.highs.silent()
        # A gap would let a worse answer pass as the least.
        self.highs.setOptionValue("mip_rel_gap", 0.0)
        self.highs.setOptionValue("mip_abs_gap", 1e-6)
        self.solved = {}

    def least(self, path):
        """The least cost of a model, or None where it has no solution."""
        if path not in self.solved:
            assert self.highs.readModel(str(path)) == highspy.HighsStatus.kOk, path
            self.highs.run()
            status = self.highs.getModelStatus()
            if status == highspy.HighsModelStatus.kInfeasible:
                self.solved[path] = None
            else:
                assert status == highspy.HighsModelStatus.kOptimal, (path, status)
                self.solved[path] = self.highs.getInfo().objective_function_value
        return self.solved[path]


def check_set(folder, walls, solver, differ):
    """Whether the set holds by the models alone, each answer compared on the way."""
    where = f"{folder.name} {'+'.join(walls['walls'])}"
    placed = solver.least(folder / walls["entries"]["file"]) is not None
    if placed != walls["entries"]["placed"]:
        differ.append(f"{where}: entries {placed}, index {walls['entries']['placed']}")
    holds = placed
    rails = walls["rails"]
    if rails:
        costs = [solver.least(folder / name) for name in rails["files"]]
        least = min((cost for cost in costs if cost is not None), default=None)
        fits = least is not None and least <= rails["height_mm"] + SLACK_MM
        ours = rails["least_height_mm"]
        if fits != (ours is not None) or (fits and abs(least - ours) > SLACK_MM):
            differ.append(f"{where}: rails {least} of {rails['height_mm']}, index {ours}")
        holds = holds and fits
    lid = walls["lid"]
    if lid:
        least = solver.least(folder / lid["file"])
        rooms = [(lid["height_mm"], lid["fits"])]
        if walls["beside"]:
            rooms.append((walls["beside"]["elements_height_mm"], walls["beside"]["fits"]))
        for room, ours in rooms:
            fits = least is not None and least <= room + SLACK_MM
            if fits != ours:
                differ.append(f"{where}: lid {least} of {room}, index {ours}")
            holds = holds and fits
    holds = holds and walls["refused"] is None
    if holds != walls["holds"]:
        differ.append(f"{where}: holds {holds}, index {walls['holds']}")
    return holds


def main(folders):
    differ = []
    models = sets = candidates = infeasible = 0
    for folder in map(pathlib.Path, folders):
        index = json.loads((folder / "index.json").read_text())
        solver = Solver()
        for candidate in index["candidates"]:
            if not candidate["wall_sets"]:
                continue
            candidates += 1
            held = [check_set(folder, walls, solver, differ) for walls in candidate["wall_sets"]]
            sets += len(held)
            if any(held) != candidate["holds"]:
                differ.append(f"{folder.name} {candidate['enclosure']}: {any(held)}, index {candidate['holds']}")
        models += len(solver.solved)
        infeasible += sum(least is None for least in solver.solved.values())
    for line in differ:
        print(line)
    print(f"{len(folders)} jobs, {candidates} candidates, {sets} sets, {models} models, {infeasible} infeasible")
    return 1 if differ else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
