"""The illustrated sheet that explains a pattern and its making."""
