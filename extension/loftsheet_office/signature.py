"""What a calculation function looks like to Calc; shared by the interface that is packed and the component."""

from loftsheet.registry import Calc

IMPLEMENTATION = "org.loftsheet.Rig"
# These look beyond their arguments, into the document that holds the calling cell; Calc hands it over unseen.
WITH_DOCUMENT = ("RIG.WORKING",)


def takes_document(calc: Calc) -> bool:
    return calc.name in WITH_DOCUMENT


def stored_name(calc: Calc) -> str:
    """The name under which a formula is stored in a file."""
    return f"{IMPLEMENTATION}.{calc.uno_name}".upper()
