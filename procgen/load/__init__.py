"""Checked data into the model: the one place that knows where things lie in a workshop."""
