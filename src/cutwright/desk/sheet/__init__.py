"""The work sheet and the lesson, on the page and in print."""
