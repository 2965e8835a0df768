"""Papers for the bench, built of blocks: what is on one is plain data, and is printed the same as HTML and as PDF.

A paper is a dict: ``title``, ``name`` (of the machine), ``label``, ``machine`` (a line), ``foot``, ``paper`` (``"a4"``
or ``"letter"``) and ``blocks``. A block is a dict with its ``kind``:

- ``heading`` (``text``), ``words`` (``text``), ``points`` (``items``), ``cautions`` (``title``, ``items``, ``last``)
- ``fields``: ``rows`` of (label, value); an empty value is a line to write on
- ``table``: ``heads``, ``rows``, ``left`` (the columns that start at the left), ``wide`` (the one that takes the room)
- ``test``: ``number``, ``title``, ``aim``, ``cost``, ``repeat`` (a sentence, or nothing), ``parts``, each with
  ``steps`` (sentences) and ``readings``; ``ticks`` says whether boxes are to be ticked; ``after``, a sentence
- ``readings``: ``readings``, as they were read
- a reading: ``label``, ``registers`` with ``name``, ``places``, ``should``, ``read`` (digits as text, highest first, or
  None) and ``asked`` with ``words``, ``should``, ``read`` (``"yes"``, ``"no"`` or None)
- ``room``: ``lines`` to write on; ``signatures``: ``people``
"""
