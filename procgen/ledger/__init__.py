"""What was printed, with each revision's text; what is superseded, and why."""
