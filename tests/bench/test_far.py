"""A sweep on a cluster of two worker processes: the same dictionary as here."""

from __future__ import annotations

import numpy as np
import pytest
from distributed import Client, LocalCluster

from mechcalc import InputError, load_spec
from mechcalc.bench import every_fault, far
from mechcalc.bench.candidates import candidates
from mechcalc.bench.dictionary import fault_dictionary
from mechcalc.bench.far import on_dask


@pytest.fixture(scope="module")
def cluster(tmp_path_factory):
    with LocalCluster(n_workers=2, threads_per_worker=1, processes=True, dashboard_address=None, host="127.0.0.1",
                      local_directory=str(tmp_path_factory.mktemp("dask"))) as made:
        yield made


def book(**where):
    """Pairs of some faults of slate: two pieces."""
    spec = load_spec("slate")
    return fault_dictionary(spec, pairs=True, faults=every_fault(spec)[:140], tests=candidates(spec)[:4], **where)


class TestOnDask:
    """By address or by client; in order, with progress."""

    def test_the_same_answers_by_address(self, cluster):
        told: list[tuple[int, int]] = []
        there = book(sweep=on_dask(cluster.scheduler_address), told=lambda *step: told.append(step))
        here = book()
        assert there.answers.any()
        assert np.array_equal(there.answers, here.answers)
        assert told == [(1, 2), (2, 2)]

    def test_by_a_client_that_stays_open(self, cluster):
        with Client(cluster, set_as_default=False) as client:
            there = book(sweep=on_dask(client))
            assert np.array_equal(there.answers, book().answers)
            assert client.status == "running"
            assert len(client.scheduler_info()["workers"]) == 2

    def test_what_goes_wrong_on_a_worker_is_told_here(self, cluster):
        sweep = on_dask(cluster.scheduler_address)
        with pytest.raises(ZeroDivisionError):
            list(sweep(divmod_by_nought, [1]))

    def test_nobody_answers(self, monkeypatch):
        monkeypatch.setattr(far, "SECONDS", 0.5)
        with pytest.raises(InputError, match=r"no scheduler answers at tcp://127\.0\.0\.1:9: "):
            list(on_dask("tcp://127.0.0.1:9")(abs, [1]))

    def test_no_address(self):
        with pytest.raises(InputError, match="no scheduler answers at nowhere at all"):
            list(on_dask("nowhere at all")(abs, [1]))


def divmod_by_nought(number: int) -> int:
    return number // 0
