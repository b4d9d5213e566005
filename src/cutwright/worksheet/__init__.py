"""The work sheet and the lesson: plain data first, then a PDF or an HTML file.

`whole.worksheet_data(work)` and `lesson.lesson_data(work)` give a `Sheet`; `pdf.pdf` and `html.html`
write one; `lesson_check.check_lesson` looks through what a student filled in.
"""
