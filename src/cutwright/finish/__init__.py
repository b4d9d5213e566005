"""What turns stitch lines into pieces to cut: allowances, corners, notches, labels, grain."""
