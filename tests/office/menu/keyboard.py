"""The keyboard of a user, for cells of the schedule."""


class Keyboard:
    """Types into the grid of a window; a refusal is answered, and nothing stays half typed."""

    def __init__(self, screen, book):
        self.screen, self.book = screen, book
        self.tester = screen.office.create("org.libreoffice.uitest.UITest")

    def type(self, cell, text, answer="Cancel"):
        """Type into a cell and press Enter; return the words of the refusal, "" if there is none."""
        from extension.office import property_values
        from tests.office.menu.waiting import wait
        from tests.office_thread import aside

        frame = self.book.CurrentController.Frame
        frame.activate()
        frame.ContainerWindow.toFront()
        frame.ComponentWindow.setFocus()  # it may have been in another document's window
        self.book.CurrentController.setActiveSheet(cell.Spreadsheet)
        self.book.CurrentController.select(cell)
        self.grid.executeAction("TYPE", property_values(TEXT=text))
        # Enter does not come back while a refusal is shown.
        entered = aside(lambda: self.grid.executeAction("TYPE", property_values(KEYCODE="RETURN")))
        wait(lambda: entered.ended or self.is_refused, lambda: "neither let in nor refused")
        if not self.is_refused:
            return ""
        (window,) = (one for one in self.screen._windows() if one.title == "LibreOffice Calc")
        words = self.screen.message("LibreOffice Calc", answer if answer in window.labels() else "OK")
        wait(lambda: entered.ended, lambda: "the refusal does not end")
        if answer != "OK":
            self.grid.executeAction("TYPE", property_values(KEYCODE="ESC"))
        return words

    @property
    def grid(self):
        return self.tester.getTopFocusWindow().getChild("grid_window")

    @property
    def is_refused(self):
        return "LibreOffice Calc" in self.screen.titles()
