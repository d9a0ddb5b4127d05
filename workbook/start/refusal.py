"""What the start says when it cannot go on."""


class Refusal(Exception):
    """One sentence for the person at the keyboard; ends the command without a traceback."""
