"""A closer's sheet: its parts, what each line of it may hold, and the way to plain data and back."""
