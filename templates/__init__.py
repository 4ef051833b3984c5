"""The rigging schedule, declared as data and written by one writer; and the invented demo boats."""
