"""Food and drink in a session: a small program of whole numbers, and the sheet by the clock."""
