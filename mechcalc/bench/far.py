"""A sweep on other computers: through dask.distributed, an optional extra (``pip install mechcalc[dask]``).

Only this file talks to a cluster. The workers need the kit installed, in the same version.

>>> from mechcalc import load_spec
>>> from mechcalc.bench.dictionary import fault_dictionary
>>> from mechcalc.bench.far import on_dask
>>> book = fault_dictionary(load_spec("ledger"), pairs=True, sweep=on_dask("tcp://scheduler:8786"))  # doctest: +SKIP
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from typing import TYPE_CHECKING, Any

from mechcalc.bench.dictionary import Sweep
from mechcalc.errors import InputError

if TYPE_CHECKING:
    from distributed import Client

SECONDS = 30  # to wait for a scheduler


def on_dask(where: str | Client) -> Sweep:
    """A place to have the pieces of a fault dictionary worked out: the ``sweep`` of `fault_dictionary`.

    Parameters
    ----------
    where : str or distributed.Client
        The address of a scheduler, such as ``"tcp://scheduler:8786"``, or a client of yours, which is left open.

    Raises
    ------
    InputError
        When the sweep begins: nobody answers at the address.
    """
    def sweep(work: Callable[[Any], Any], pieces: Iterable[Any]) -> Iterator[Any]:
        from distributed import Client
        try:
            client = Client(where, timeout=SECONDS, set_as_default=False) if isinstance(where, str) else where
        except (OSError, ValueError) as error:
            raise InputError(f"no scheduler answers at {where}: {error}") from None
        try:
            yield from client.get_executor(pure=False).map(work, pieces)
        finally:
            if client is not where:
                client.close()
    return sweep
