"""Getting from a clone to a running JupyterLab, and to passing tests, with Python's standard library alone.

Nothing in this package imports anything that has to be installed, because it runs before anything is.
"""
