"""Notebooks that are no lessons: pages to work with, beside `mechcalc.classroom.course.INDEX`.

Only this file lists them. They ask no exercises, but go through the same gate; `mechcalc.classroom.form.faults_of_page`
holds their rules.
"""

from __future__ import annotations

PAGES = ("your_machine",)
