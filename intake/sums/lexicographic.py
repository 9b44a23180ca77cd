"""A mixed-integer programme whose goals come in order: each is sought among the best of
those before it.  SciPy's ``milp`` (the HiGHS solver) does the work."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import Bounds, LinearConstraint, OptimizeResult, milp
from scipy.sparse import csr_array

Terms = Mapping[int, float]
"""A linear form: columns to their factors."""

Doubles = NDArray[np.float64]

_INFEASIBLE = 2
"""Status of SciPy's ``milp``."""

LEEWAY = 1e-6
"""How far a goal that was reached may be missed again, of its size: the solver's own
tolerance.  A thousand metres are then right to a millimetre."""


class Programme:
    """Columns from 0 to a bound, rows that tie them together, goals reached one by one.

    All columns at 0 must satisfy every row that is given before the first goal.
    ``seconds`` is the time for each goal.  When it is over the best that was found stands,
    and the goal is named in ``unproven``, for a better one may exist.
    """

    def __init__(self, seconds: float) -> None:
        self.unproven: list[str] = []
        self._seconds = seconds
        self._lowest: list[float] = []
        self._highest: list[float] = []
        self._whole: list[bool] = []
        self._rows: list[tuple[Terms, float, float]] = []
        self._values: list[float] = []

    def column(self, highest: float, *, whole: bool = False) -> int:
        """A new column from 0 to ``highest``; ``whole`` numbers only where asked."""
        self._lowest.append(0.0)
        self._highest.append(highest)
        self._whole.append(whole)
        self._values.append(0.0)
        return len(self._highest) - 1

    def row(self, terms: Terms, low: float = -np.inf, high: float = np.inf) -> None:
        """Keep the sum of ``terms`` from ``low`` to ``high``."""
        self._rows.append((dict(terms), low, high))

    def value(self, column: int) -> float:
        """A column's value, by the goals that were reached so far."""
        return self._values[column]

    def hold(self, columns: Iterable[int]) -> None:
        """Keep ``columns`` at their values from here on."""
        for column in columns:
            self._lowest[column] = self._highest[column] = self._values[column]

    def reach(self, name: str, goal: Terms) -> float:
        """Make the sum of ``goal`` as small as can be and keep it so; returns it."""
        if goal and not self._seek(goal):
            self.unproven.append(name)
        reached = sum(factor * self._values[column] for column, factor in goal.items())
        self.row(goal, high=reached + LEEWAY * max(1.0, abs(reached)))
        return reached

    def _seek(self, goal: Terms) -> bool:
        """Whether the values that make ``goal`` smallest were found for certain."""
        factors = np.zeros(len(self._values))
        factors[list(goal)] = list(goal.values())
        result = self._solved(factors)
        if result.status == _INFEASIBLE:
            # What was found last satisfies every row, so this is a fault of rounding as the
            # solver simplifies the programme.
            result = self._solved(factors, simplified=False)
        if result.x is not None:
            self._values = np.where(self._whole, np.round(result.x), result.x).tolist()
        return bool(result.status == 0)

    def _solved(self, factors: Doubles, *, simplified: bool = True) -> OptimizeResult:
        return milp(
            factors,
            integrality=np.array(self._whole, dtype=np.uint8),
            bounds=Bounds(np.array(self._lowest), np.array(self._highest)),
            constraints=self._constraint(),
            options={"time_limit": self._seconds, "mip_rel_gap": 0.0, "presolve": simplified},
        )

    def _constraint(self) -> LinearConstraint:
        rows = self._rows
        numbers = [number for number, (terms, _, _) in enumerate(rows) for _ in terms]
        columns = [column for terms, _, _ in rows for column in terms]
        factors = [factor for terms, _, _ in rows for factor in terms.values()]
        matrix = csr_array((factors, (numbers, columns)), shape=(len(rows), len(self._values)))
        return LinearConstraint(matrix, [low for _, low, _ in rows], [high for *_, high in rows])
