"""The names of a schedule: hundreds of questions, each of which is quick inside the office."""


def contents(book):
    """Where each name leads, as the office writes it."""
    return {name: book.NamedRanges.getByName(name).Content for name in book.NamedRanges.ElementNames}
