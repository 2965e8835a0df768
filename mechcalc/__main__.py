"""The command line's door: ``python3 -m mechcalc`` in a clone, ``mechcalc`` where the kit is installed.

Only this file is read by a Python that may be too old for the rest, so it uses nothing new.
"""

from __future__ import annotations

import sys

OLDEST = (3, 11)


def main(argv=None):  # type: ignore[no-untyped-def]
    """Run one command; the exit code (0 done, 1 a check failed, 2 refused, 130 interrupted)."""
    if sys.version_info < OLDEST:
        found = ".".join(str(part) for part in sys.version_info[:3])
        sys.stderr.write("mechcalc: needs Python %d.%d or newer, and this is %s\n" % (*OLDEST, found))  # noqa: UP031
        return 2
    from mechcalc.cli import run
    return run(argv)


if __name__ == "__main__":
    sys.exit(main())
