"""The paper sheet: how the pattern falls on the sheets, and its files."""
