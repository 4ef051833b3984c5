"""The menu's entries, declared once: the packed menu, what is enabled and what is done follow from them.

Read by the oldest Python that any office brings, and by the packing, which has no office.
"""

import collections

ANYWHERE, SPREADSHEET, SCHEDULE, SCHEDULE_TO_CHANGE = "anywhere", "spreadsheet", "schedule", "schedule to change"

# The command is part of the address org.loftsheet:<command>, which users may have put on a toolbar: never renamed.
Entry = collections.namedtuple("Entry", "command label module where")

# Between two groups the menu has a line.
GROUPS = (
    (
        Entry("new", "~New Rig Schedule", "new_schedule", ANYWHERE),
        Entry("takeover", "Take ~Over into a New Schedule…", "take_over", SCHEDULE),
        Entry("library", "~Library of the Yard…", "yard_library", SCHEDULE),
    ),
    (
        Entry("addstay", "A~dd a Stay…", "add_stay", SCHEDULE_TO_CHANGE),
        Entry("removestay", "Remo~ve a Stay…", "remove_stay", SCHEDULE_TO_CHANGE),
        Entry("addrows", "Add ~Rows…", "add_rows", SCHEDULE_TO_CHANGE),
        Entry("check", "~Check the Schedule", "check", SCHEDULE),
        Entry("explain", "~Explain This Cell", "explain", SPREADSHEET),
    ),
    (
        Entry("markout", "~Mark-Out Sheet…", "draw_mark_out", SCHEDULE),
        Entry("benchpages", "All ~Bench Pages…", "draw_bench_pages", SCHEDULE),
        Entry("jobcards", "~Job Cards…", "draw_job_cards", SCHEDULE),
        Entry("logcard", "Lo~g a Job Card…", "log_job_card", SCHEDULE_TO_CHANGE),
    ),
    (
        Entry("export", "Export for a ~Supplier…", "export", SCHEDULE),
        Entry("readprices", "Read ~Prices Back…", "read_prices", SCHEDULE_TO_CHANGE),
        Entry("addquote", "Add a ~Quote…", "add_quote", SCHEDULE_TO_CHANGE),
        Entry("takequotes", "~Take Chosen Quotes…", "take_quotes", SCHEDULE_TO_CHANGE),
    ),
    (Entry("paper", "Paper Si~ze…", "set_paper_size", SCHEDULE_TO_CHANGE),),
    (Entry("about", "~About and Diagnostics", "about", ANYWHERE),),
)
ENTRIES = {entry.command: entry for group in GROUPS for entry in group}
# What each is called in its dialogs.
TITLES = {command: str(entry.label.replace("~", "").rstrip("…")) for command, entry in ENTRIES.items()}
