"""Papers to print on."""

PAPERS = {"A4": (210.0, 297.0), "Letter": (215.9, 279.4)}  # mm, upright; ISO 216 and ANSI/ASME Y14.1
