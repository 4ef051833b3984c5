"""What a command says to the user instead of doing its work."""


class Refusal(Exception):
    """The command cannot do its work; the message says why, and what to do."""
