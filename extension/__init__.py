"""Everything between the functions and LibreOffice; `loftsheet_office` is the part that runs inside it."""
