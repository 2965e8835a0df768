"""Squares, cubes, roots and reciprocals from 1 to 1000, against mpmath: all in CI, every 37th at the bench."""

from __future__ import annotations

import mpmath
import pytest
from ci_rules import in_ci

from mechcalc import Machine, MachineSpec, methods

SPEC = MachineSpec(setting_places=5, result_places=10, counter_places=7, carry_reach=10)
STEP = 1 if in_ci() else 37


@pytest.mark.parametrize("hundred", range(10))
def test_against_mpmath(hundred):
    worked = Machine(SPEC)
    with mpmath.workdps(40):
        for n in range(hundred * 100 + 1, hundred * 100 + 101, STEP):
            square = methods.multiply_short_cut(worked, n, n).answer
            assert square == mpmath.mpf(n)**2
            assert methods.multiply_short_cut(worked, n, square).answer == mpmath.mpf(n)**3
            assert methods.square_root(worked, n, places=2).answer == int(mpmath.floor(100 * mpmath.sqrt(n)))
            assert methods.cube_root(worked, n, places=1).answer == int(10 * mpmath.cbrt(n) + mpmath.mpf("1e-20"))
            reciprocal = methods.divide(worked, 1, n, places=6, method="compare first")
            assert reciprocal.answer == int(mpmath.floor(10**6 / mpmath.mpf(n)))
            worked = Machine(SPEC)
