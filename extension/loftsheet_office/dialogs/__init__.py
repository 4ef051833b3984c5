"""The office's windows: where a command was given, dialogs, choosing files, the cursor, undo, the clipboard."""
