"""The name under which the office knows the functions; read by the oldest Python that any office brings."""

IMPLEMENTATION = "org.loftsheet.Rig"
SERVICES = ("com.sun.star.sheet.AddIn", IMPLEMENTATION)
