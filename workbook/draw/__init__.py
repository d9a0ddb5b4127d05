"""The drawings: one of the lane, one of the ball, for screen, paper, notebooks and files."""
