"""Timings, printed; run by hand."""
