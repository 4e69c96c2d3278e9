"""All minimal conflicts of lists by python-sat, from what can be met together.

Reads JSON: for each list the number of requirements and the largest combinations that can be made.
A combination can be made where it lies within one of them. As clauses: one variable for each requirement,
one for each largest combination; one of the latter holds, and with it none of the requirements outside.
Requirements are soft. Writes all minimal unsatisfiable subsets of the soft clauses, by OptUx.
"""

import json
import sys

from pysat.examples.optux import OptUx
from pysat.formula import WCNF


def conflicts(count, largest):
    formula = WCNF()
    chosen = [count + 1 + index for index in range(len(largest))]
    # Where nothing at all can be made the empty clause would be a conflict of nobody.
    if not chosen:
        return [[]]
    formula.append(chosen)
    for choice, within in zip(chosen, largest):
        for requirement in range(count):
            if requirement not in within:
                formula.append([-choice, -(requirement + 1)])
    for requirement in range(count):
        formula.append([requirement + 1], weight=1)
    with OptUx(formula) as enumerator:
        return [sorted(number - 1 for number in found) for found in enumerator.enumerate()]


lists = json.load(sys.stdin)
json.dump([conflicts(one["count"], one["largest"]) for one in lists], sys.stdout)
