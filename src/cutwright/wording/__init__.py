"""The one place where what a step worked out becomes sentences in the language in force.

Below this layer figures are data (`cutwright.pattern.sum`); here each code has its template.
"""
