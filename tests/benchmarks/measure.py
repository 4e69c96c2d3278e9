"""Measures whole processes, and the same question as one model for a general-purpose solver.

Usage: measure.py GLANDRAIL JOBS [NAME...]   prints Markdown tables

GLANDRAIL is the release build, JOBS the folder that `GLANDRAIL_JOBS=JOBS cargo bench --bench jobs` has written.
With NAMEs only the jobs whose names begin so. Needs `ortools` and `highspy` from PyPI.

For each job: wall time and peak memory of `propose` from file to audited answer (median of RUNS), and the
time that CP-SAT takes for one model of all exported programs at once: a choice for each set of walls of
each candidate, each choice enforcing its programs; the least position in the order of the objective is
sought. Only the solver's own time counts, not the building of the model. What arithmetic refuses (heat, depth,
certificate) is left out of its model, and so is every candidate after the one that is taken.
"""

import collections
import json
import os
import pathlib
import statistics
import subprocess
import sys
import tempfile
import time

import highspy
from ortools.sat.python import cp_model

RUNS = 5
LIMIT_S = 20
# Lengths are in hundredths of a millimetre there, costs of divisions in ten-thousandths.
UNIT = 100
COST = 10_000


def process(binary, job, *more):
    """Wall time (s), peak memory (MB), exit status and output of one run."""
    command = [binary, "propose", job, "--catalogue", job.with_suffix(".catalogue.toml"), *more]
    with tempfile.NamedTemporaryFile("r") as memory:
        # A child of ours would be counted with the memory of this interpreter; a child of `time` is not.
        command = ["/usr/bin/time", "-q", "-f", "%M", "-o", memory.name, *map(str, command)]
        started = time.perf_counter()
        done = subprocess.run(command, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, check=False)
        took = time.perf_counter() - started
        return took, int(memory.read().split()[-1]) / 1024, done.returncode, done.stdout


class Monolith:
    """All programs of a job in one CP-SAT model."""

    def __init__(self, folder):
        self.folder = folder
        self.model = cp_model.CpModel()
        self.blocks = {}
        self.rows = 0

    def block(self, name):
        """A program's switch and its cost; the rows hold where the switch is on."""
        if name not in self.blocks:
            self.blocks[name] = self.build(name)
        return self.blocks[name]

    def build(self, name):
        highs = highspy.Highs()
        highs.silent()
        highs.readModel(str(self.folder / name))
        program = highs.getLp()
        whole = [kind == highspy.HighsVarType.kInteger for kind in program.integrality_]
        whole = whole or [False] * program.num_col_
        variables = []
        for column in range(program.num_col_):
            unit = 1 if whole[column] else UNIT
            low, high = (round(x[column] * unit) for x in (program.col_lower_, program.col_upper_))
            variables.append(self.model.new_int_var(low, high, f"{name}.{column}"))
        switch = self.model.new_bool_var(name)
        matrix = program.a_matrix_
        rows = collections.defaultdict(list)
        for column in range(program.num_col_):
            unit = 1 if whole[column] else UNIT
            for place in range(matrix.start_[column], matrix.start_[column + 1]):
                factor = round(matrix.value_[place] * COST)
                assert abs(factor - matrix.value_[place] * COST) < 1e-3, name
                rows[matrix.index_[place]].append((factor * UNIT // unit, variables[column]))
        for row in range(program.num_row_):
            total = sum(factor * variable for factor, variable in rows[row])
            low, high = program.row_lower_[row], program.row_upper_[row]
            self.rows += 1
            if low > -1e20:
                self.model.add(total >= round(low * COST * UNIT)).only_enforce_if(switch)
            if high < 1e20:
                self.model.add(total <= round(high * COST * UNIT)).only_enforce_if(switch)
        cost = sum(
            round(program.col_cost_[column] * COST) * (UNIT if whole[column] else 1) * variables[column]
            for column in range(program.num_col_)
        )
        return switch, cost

    def below(self, choice, name, height_mm):
        """With the choice the program holds, at a cost of no more than the height."""
        switch, cost = self.block(name)
        self.model.add_implication(choice, switch)
        # A division's small cost of parts and strips stays below a twentieth of a millimetre.
        room = round((height_mm + 0.05) * COST * UNIT)
        self.model.add(cost <= room).only_enforce_if(choice)

    def add(self, walls, name):
        """The choice of one set of walls of one candidate."""
        choice = self.model.new_bool_var(name)
        self.model.add_implication(choice, self.block(walls["entries"]["file"])[0])
        if walls["rails"]:
            ways = []
            for file in walls["rails"]["files"]:
                way = self.model.new_bool_var(f"{name}.{file}")
                self.below(way, file, walls["rails"]["height_mm"])
                ways.append(way)
            self.model.add_bool_or([choice.negated(), *ways])
        if walls["lid"]:
            self.below(choice, walls["lid"]["file"], walls["lid"]["height_mm"])
            if walls["beside"]:
                self.below(choice, walls["lid"]["file"], walls["beside"]["elements_height_mm"])
        return choice


def general(folder):
    """What CP-SAT finds and how long it takes: (position of the candidate or None, s, whether proved, rows)."""
    index = json.loads((folder / "index.json").read_text())
    monolith = Monolith(folder)
    choices = []
    for position, candidate in enumerate(index["candidates"]):
        for number, walls in enumerate(candidate["wall_sets"]):
            if walls["refused"] is None:
                choices.append((position, monolith.add(walls, f"{position}.{number}")))
    if not choices:
        return None, 0.0, True, 0
    model = monolith.model
    model.add_exactly_one(choice for _, choice in choices)
    model.minimize(sum(position * choice for position, choice in choices))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = os.cpu_count()
    solver.parameters.max_time_in_seconds = LIMIT_S
    started = time.perf_counter()
    status = solver.solve(model)
    took = time.perf_counter() - started
    proved = status in (cp_model.OPTIMAL, cp_model.INFEASIBLE)
    found = round(solver.objective_value) if status in (cp_model.OPTIMAL, cp_model.FEASIBLE) else None
    return found, took, proved, monolith.rows


def ours(folder):
    """The position of the candidate that holds."""
    index = json.loads((folder / "index.json").read_text())
    held = [place for place, candidate in enumerate(index["candidates"]) if candidate["holds"]]
    return held[0] if held else None


def measured(binary, job):
    runs = [process(binary, job) for _ in range(RUNS)]
    assert len({(code, out) for _, _, code, out in runs}) == 1, job
    assert runs[0][2] in (0, 1), f"{job} is refused as a bad list"
    return statistics.median(run[0] for run in runs), max(run[1] for run in runs), runs[0][2]


def main(binary, jobs, names):
    wanted = [
        job
        for job in sorted(pathlib.Path(jobs).glob("*.toml"))
        if not job.name.endswith(".catalogue.toml") and (not names or job.name.startswith(tuple(names)))
    ]
    print("| Job | Answer | `propose`, ms | Peak memory, MB | Rows of one model | CP-SAT, ms | Ratio |")
    print("|---|---|---:|---:|---:|---:|---:|")
    for job in wanted:
        took, memory, code = measured(binary, job)
        answer = {0: "found", 1: "impossible"}[code]
        line = f"| {job.stem} | {answer} | {took * 1000:.0f} | {memory:.0f} |"
        if not job.stem.startswith("growth"):
            with tempfile.TemporaryDirectory() as folder:
                folder = pathlib.Path(folder) / "models"
                process(binary, job, "--placement", "rows", "--export-model", folder)
                found, general_s, proved, rows = general(folder)
                assert not proved or found == ours(folder), (job, found, ours(folder))
            shown = f"{general_s * 1000:.0f}" if proved else f"> {LIMIT_S * 1000}"
            line += f" {rows} | {shown} | {general_s / took:.0f} |"
        else:
            line += " – | – | – |"
        print(line, flush=True)


if __name__ == "__main__":
    main(sys.argv[1], sys.argv[2], sys.argv[3:])
