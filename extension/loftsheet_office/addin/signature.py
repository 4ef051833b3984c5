"""What a calculation function looks like to Calc; shared by the interface that is packed and the component."""

from loftsheet.registry import Calc

# These look beyond their arguments, into the document that holds the calling cell; Calc hands it over unseen.
WITH_DOCUMENT = ("RIG.REFUSAL", "RIG.WORKING")


def takes_document(calc: Calc) -> bool:
    return calc.name in WITH_DOCUMENT
