"""What a user does to a document, through the commands of the menus: copy, cut, paste, insert, sort, undo."""

from extension.office import property_values

INPUT = "/org.openoffice.Office.Calc/Input"
REGION = "/org.openoffice.Setup/L10N"


def set_option(office, node, name, value):
    """Change an option of the office, as under Tools > Options; return what it was."""
    provider = office.create("com.sun.star.configuration.ConfigurationProvider")
    view = "com.sun.star.configuration.ConfigurationUpdateAccess"
    options = provider.createInstanceWithArguments(view, property_values(nodepath=node))
    before = options.getPropertyValue(name)
    options.setPropertyValue(name, value)
    options.commitChanges()
    return before


class User:
    """Someone who works on an open document, and means it when asked whether to paste over what is there."""

    def __init__(self, office, book):
        set_option(office, INPUT, "ReplaceCellsWarning", False)
        self.controller = book.CurrentController
        self.helper = office.create("com.sun.star.frame.DispatchHelper")

    def give(self, command, **arguments):
        """Give a command of the office, such as InsertRowsBefore."""
        frame = self.controller.Frame
        self.helper.executeDispatch(frame, f".uno:{command}", "", 0, property_values(**arguments))

    def select(self, cells):
        self.controller.setActiveSheet(cells.Spreadsheet)
        self.controller.select(cells)

    def type(self, cell, text):
        """Type into a cell and press Enter."""
        self.select(cell)
        self.give("EnterString", StringName=text)

    def copy(self, cells):
        self.select(cells)
        self.give("Copy")

    def cut(self, cells):
        self.select(cells)
        self.give("Cut")

    def paste(self, cells):
        self.select(cells)
        self.give("Paste")

    def insert_rows(self, cells):
        """Insert as many rows as the cells have above them."""
        self.select(cells)
        self.give("InsertRowsBefore")

    def delete_rows(self, cells):
        self.select(cells)
        self.give("DeleteRows")

    def insert_columns(self, cells):
        self.select(cells)
        self.give("InsertColumnsBefore")

    def sort(self, cells, column, ascending=True):
        """Sort rows of cells without headers by one of their columns, counted from 1 on the sheet."""
        self.select(cells)
        self.give(
            "DataSort",
            ByRows=True,
            HasHeader=False,
            CaseSensitive=False,
            NaturalSort=False,
            IncludeAttribs=True,
            UserDefIndex=0,
            Col1=column,
            Ascending1=ascending,
        )

    def undo(self):
        self.give("Undo")
