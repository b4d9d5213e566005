"""The style on the table: its sentences, the paper beside them, and what can be done there."""
