"""On paper: the poster of a mechanism, a working as a table, a lesson.

Only this file lists what the room gives.
"""
